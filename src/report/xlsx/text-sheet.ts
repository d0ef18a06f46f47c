/** A sheet whose cells are all text. */
export interface TextSheet {
  readonly name: string;
  /** Names of columns: a bold first row that stays in sight, is repeated on every printed page and carries filters. Null for a sheet of plain lines. */
  readonly heads: readonly string[] | null;
  readonly rows: readonly (readonly string[])[];
  /** Width of each column in characters; its number says how many columns there are. */
  readonly widths: readonly number[];
  /** The words that a column offers; any others are refused by the spreadsheet program. */
  readonly choices?: { readonly column: number; readonly words: readonly string[] };
}

/** The letters of a column that is counted from 0: A, Z, AA. */
export function columnLetters(column: number): string {
  let letters = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return letters;
}
