/** One item of a pages cell that is to be written. `run` is what a range may go on: the same sort of item with the next number. */
export interface CellItem {
  readonly text: string;
  readonly run: { readonly sort: string; readonly prefix: string; readonly number: number } | null;
}

/** Writes items as a pages cell, runs of three and more as ranges: `1-8`, `x1-4`, `[A1-A4?]`, `3-5(-)`. */
export function pagesCell(items: readonly CellItem[]): string {
  const parts: string[] = [];
  for (let at = 0; at < items.length; ) {
    const first = items[at];
    let end = at + 1;
    while (first?.run != null && isNext(items[end - 1], items[end])) end += 1;
    const last = items[end - 1];
    if (first?.run != null && last?.run != null && end - at > 1) parts.push(range(first, last));
    else if (first !== undefined) parts.push(first.text);
    at = end;
  }
  return parts.join(',');
}

function isNext(before: CellItem | undefined, after: CellItem | undefined): boolean {
  const [a, b] = [before?.run ?? null, after?.run ?? null];
  return a !== null && b !== null && a.sort === b.sort && a.prefix === b.prefix && a.number + 1 === b.number;
}

/** The text of the first item with its label made a range. */
function range(first: CellItem, last: CellItem): string {
  const [from, to] = [labelOf(first), labelOf(last)];
  const at = first.text.indexOf(from);
  return `${first.text.slice(0, at)}${from}-${to}${first.text.slice(at + from.length)}`;
}

function labelOf({ run }: CellItem): string {
  return run === null ? '' : `${run.prefix}${run.number}`;
}
