import { stringify } from 'csv-stringify/sync';
import { short, visibleLines } from './visible.js';

/** A spreadsheet cell holds 32,767 characters (Excel specifications and limits); a person reads far fewer. */
const CELL_LIMIT = 2000;

/** What a spreadsheet would run: OWASP, CSV Injection, with the full-width forms beside. The mark itself is guarded too, so that it can be taken off again. */
const FORMULA = /^[\s\u00a0]*['=+\-@\t\r＝＋－＠]/u;
/** What a spreadsheet would turn into another number, a date, a time or a truth value: `0012`, `1899-01-04`, `1-2`, `3E1`, `1:2`, `50%`. */
const NUMBERLIKE = /^[\d.,:/\-+e%() ]+$/i;
const PLAIN_NUMBER = /^(0|[1-9]\d{0,14})$/;
/** `MAR1`, `Dec 1`, `4-Jul`. */
const MONTHLIKE = /^(\d{1,4}[ -]?)?(jan|feb|mar|apr|may|jun|jul|aug|sep|sept|oct|nov|dec)[a-z]{0,6}\.?([ -]?\d{1,4})?$/i;
const TRUTH = /^(true|false)$/i;

/** A text as one cell: on one line, cut where nobody reads on, and with `'` in front where a spreadsheet would make something else of it. */
export function cell(text: string): string {
  return guarded(short(text, CELL_LIMIT));
}

/** A text as one cell in which line breaks stay, else as `cell` writes it: RFC 4180, section 2.6, allows them between quotation marks. */
export function cellOfLines(text: string): string {
  return guarded(short(text, CELL_LIMIT, visibleLines));
}

function guarded(safe: string): string {
  const number = NUMBERLIKE.test(safe) && /\d/.test(safe) && !PLAIN_NUMBER.test(safe);
  return number || FORMULA.test(safe) || MONTHLIKE.test(safe) || TRUTH.test(safe) ? `'${safe}` : safe;
}

/** RFC 4180 with every cell quoted; the byte order mark makes spreadsheet programs read UTF-8. */
export function sheet(rows: readonly (readonly string[])[]): string {
  return stringify(
    rows.map((row) => [...row]),
    { bom: true, quoted: true, quoted_empty: true, record_delimiter: '\r\n' },
  );
}
