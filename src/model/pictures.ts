/** `pictures.json` beside a worksheet: what was made of the vendor's files to be looked at. */
export interface PicturesFile {
  readonly format: 'reeltally/pictures/1';
  readonly pictures: readonly (ShownPicture | HiddenPicture)[];
}

/** A small picture of one file of the batch. */
export interface ShownPicture {
  /** The file, as its path in the batch. */
  readonly path: string;
  /** What the file is for, in the words of the return. */
  readonly use: string;
  /** The small picture, as its path from the worksheet, and its size in pixels. */
  readonly picture: string;
  readonly width: number;
  readonly height: number;
  /** What the file is, by its first bytes. */
  readonly kind: 'JPEG' | 'PNG' | 'TIFF' | 'WebP' | 'JPEG 2000' | 'PDF';
  /** Size of the file's own picture in pixels; null for a page that was drawn. */
  readonly full: { readonly width: number; readonly height: number } | null;
}

/** A file of which there is no picture. */
export interface HiddenPicture {
  readonly path: string;
  readonly use: string;
  /** Half a sentence about the file. */
  readonly why: string;
  /** Where the file is not in the copy of the batch that was looked at. */
  readonly gone?: true;
}
