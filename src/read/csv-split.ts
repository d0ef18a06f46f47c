const QUOTE = 0x22;
const LF = 0x0a;
const CR = 0x0d;

/** How a text is split into rows. */
export interface SplitWays {
  /** One character. */
  readonly delimiter: string;
  readonly mostRows: number;
  readonly longestRow: number;
}

/**
 * Splits a text into rows and cells as RFC 4180 has it, rows ended by CR LF, LF or CR, and does nothing else: null for a text with a quotation mark where
 * none can stand or one that is never closed, with a longer row or more rows than there may be. What is wrong with such a text is for a whole reader to say.
 */
export function splitCsv(text: string, { delimiter, mostRows, longestRow }: SplitWays): string[][] | null {
  const parting = delimiter.charCodeAt(0);
  if (delimiter.length !== 1 || parting > 0x7e || parting === QUOTE || parting === LF || parting === CR) return null;
  const rows: string[][] = [];
  const { length } = text;
  let cells: string[] = [];
  let [at, from, begin] = [0, 0, 0];
  while (from < length || cells.length > 0) {
    let cell: string;
    if (text.charCodeAt(from) === QUOTE) {
      const close = closingQuote(text, from);
      if (close < 0) return null;
      cell = text.slice(from + 1, close);
      if (cell.includes('"')) cell = cell.replaceAll('""', '"');
      at = close + 1;
      const next = text.charCodeAt(at);
      if (at < length && next !== parting && next !== LF && next !== CR) return null;
    } else {
      at = from;
      for (; at < length; at += 1) {
        const code = text.charCodeAt(at);
        if (code === parting || code === LF || code === CR) break;
        if (code === QUOTE) return null;
      }
      cell = at === from ? '' : text.slice(from, at);
    }
    cells.push(cell);
    if (at < length && text.charCodeAt(at) === parting) {
      from = at + 1;
      continue;
    }
    if (at - begin >= longestRow || rows.length === mostRows) return null;
    rows.push(cells);
    cells = [];
    from = at + (text.charCodeAt(at) === CR && text.charCodeAt(at + 1) === LF ? 2 : 1);
    begin = from;
  }
  return rows;
}

/** Offset of the quotation mark that closes the cell opened at `from`; -1 where none does. */
function closingQuote(text: string, from: number): number {
  let close = text.indexOf('"', from + 1);
  while (close >= 0 && text.charCodeAt(close + 1) === QUOTE) close = text.indexOf('"', close + 2);
  return close;
}
