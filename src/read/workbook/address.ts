/** Column letters and row of a cell, both counted from 0; null for what is no address. Excel ends at XFD1048576. */
export function readAddress(text: string): { readonly column: number; readonly row: number } | null {
  const match = /^([A-Z]{1,3})([1-9]\d{0,6})$/.exec(text);
  if (match === null) return null;
  let column = 0;
  for (const letter of match[1] ?? '') column = column * 26 + letter.charCodeAt(0) - 64;
  const row = Number(match[2]);
  return column > 16_384 || row > 1_048_576 ? null : { column: column - 1, row: row - 1 };
}

/** The letters of a column that is counted from 0: A, Z, AA. */
export function columnLetters(column: number): string {
  let letters = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return letters;
}
