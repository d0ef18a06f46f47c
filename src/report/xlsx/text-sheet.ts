/** A sheet whose cells are all text. */
export interface TextSheet {
  readonly name: string;
  /** Names of columns: a bold first row that stays in sight, is repeated on every printed page and carries filters. Null for a sheet of plain lines. */
  readonly heads: readonly string[] | null;
  readonly rows: readonly (readonly string[])[];
  /** Width of each column in characters; its number says how many columns there are. */
  readonly widths: readonly number[];
  /** The words that one column offers, or several do. Any others are refused by the spreadsheet program, unless they are only an offer. */
  readonly choices?: Choices | readonly Choices[];
  /** Rows below the last one that are made ready too, for a sheet that is still to be filled in. */
  readonly spare?: number;
  /** Columns on the left that stay in sight; the first line of a sheet of plain lines that moves. */
  readonly kept?: { readonly columns: number; readonly rows: number };
  /** Made so small in print that all columns stand on one page. */
  readonly onePageWide?: true;
  /** Names of a workbook for columns, from the first row below the heads to the last spare one. */
  readonly names?: readonly { readonly name: string; readonly column: number }[];
  /** Cells that look otherwise than the rest, by row of `rows` and column. */
  readonly looks?: ReadonlyMap<string, Look>;
  /** Looks that cells take on by what stands elsewhere; the first rule that holds counts. */
  readonly rules?: readonly Rule[];
}

export interface Choices {
  readonly column: number;
  readonly words: readonly string[];
  readonly others?: boolean;
}

/** A look of a cell. Colours are written `#RRGGBB`. */
export interface Look {
  readonly fill?: string;
  readonly ink?: string;
  readonly bold?: boolean;
  readonly centred?: boolean;
  /** The text is a number, and is written as one. */
  readonly number?: boolean;
  /** The text may run into the empty cells beside it. */
  readonly overflowing?: boolean;
}

/** A rule of conditional formatting: `formula` is about the first cell of `range`. */
export interface Rule {
  readonly range: string;
  readonly formula: string;
  readonly fill: string;
  readonly ink: string;
  /** Stands behind the number that the cell shows, so that colour is not all that tells. */
  readonly sign: string;
}

/** The key of a cell in `looks`; both count from 0. */
export function lookKey(row: number, column: number): string {
  return `${String(row)}|${String(column)}`;
}

/** The letters of a column that is counted from 0: A, Z, AA. */
export function columnLetters(column: number): string {
  let letters = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return letters;
}
