/** One line of a page's text: its words with single spaces between them, and its distance from the top in the page's own unit, null where none is given. */
export interface TextLine {
  readonly text: string;
  readonly top: number | null;
}

/** The text of one page as the vendor's OCR gives it, with what the document says of the page itself. */
export interface PageText {
  /** Path relative to the batch. */
  readonly document: string;
  readonly lines: readonly TextLine[];
  readonly words: number;
  /** Unit of lengths as written, `pixel`, `mm10` or `inch1200`; null where none is given. */
  readonly unit: string | null;
  readonly width: number | null;
  readonly height: number | null;
  /** Name of the image that was read, as written. */
  readonly image: string | null;
  /** `Page/@PHYSICAL_IMG_NR` and `Page/@PRINTED_IMG_NR` as written. */
  readonly physicalNumber: string | null;
  readonly printedNumber: string | null;
}
