/** The byte order mark as it stands before a text whose UTF-8 somebody took for Windows-1252 and saved so. */
export const GARBLED_MARK = 'ï»¿';
/** The same before the first head in a workbook, with the quotation marks that a program then takes for letters. */
const MARKED_HEAD = new RegExp(`^(?:${GARBLED_MARK}|\ufeff)(?:"(.*)"|(.*))$`, 's');

/** A name as names are compared: no case, spaces, `_`, `-` or byte order mark. */
export function headKey(head: string): string {
  return head
    .replace(MARKED_HEAD, '$1$2')
    .toLowerCase()
    .replace(/[\s_-]/g, '');
}

/** So many rows may stand above the heads: a letterhead, a title, a note of the one who sent it. */
const ROWS_ABOVE = 30;

/** The place of the row of heads among these rows: the first that fits (its names as `headKey` gives them), else the first of all. */
export function headsAt(rows: readonly (readonly string[])[], fits?: (heads: readonly string[]) => boolean): number {
  if (fits === undefined) return 0;
  return Math.max(
    0,
    rows.slice(0, ROWS_ABOVE + 1).findIndex((cells) => fits(cells.map(headKey))),
  );
}

/** Two columns of one name, whatever its case, spaces, `_` and `-`, in a sentence without its place; null where there are none. `column` is the name of a place in the row of heads. */
export function sameHeads(heads: readonly string[], column: (index: number) => string): string | null {
  const seen = new Map<string, number>();
  for (const [index, head] of heads.entries()) {
    const key = headKey(head);
    if (key === '') continue;
    const before = seen.get(key);
    if (before !== undefined)
      return `the columns ${column(before)} and ${column(index)} are both called "${head.trim()}"; rename or remove one of them.`;
    seen.set(key, index);
  }
  return null;
}
