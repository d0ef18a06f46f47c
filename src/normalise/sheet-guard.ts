import { keptInMind } from './kept.js';

/** What a spreadsheet program runs or computes: OWASP, "CSV Injection". */
const FORMULA = /^[=+\-@\t\r＝＋－＠]/;
/** What it turns into a number, a date, a time or a share: `0012`, `1-2`, `1900-01-04`, `3E1`, `1:2`, `50%`, `(3)`. */
const NUMBERLIKE = /^(?=.*\d)[\d.,:/+e%() -]{1,40}$/i;
/** A number that comes back as it was. */
const PLAIN = /^(0|[1-9]\d{0,14})$/;
/** `MAR1`, `Dec 1`, `4-Jul`. */
const MONTHLIKE = /^(\d{1,4}[ -]?)?(jan|feb|mar|apr|may|jun|jul|aug|sep|sept|oct|nov|dec)[a-z]{0,6}\.?([ -]?\d{1,4})?$/i;
const TRUTH = /^(true|false)$/i;

/** The text of a cell of a CSV file, with `'` in front where a spreadsheet program would make something else of it. */
export function withGuard(text: string): string {
  return isAtRisk(text) ? `'${text}` : text;
}

/** Takes the mark off again, where it is one; an apostrophe that belongs to the text stays. */
export function withoutGuard(text: string): string {
  return text.startsWith("'") ? unguarded(text) : text;
}

const unguarded = keptInMind((text) => (isAtRisk(text.slice(1)) ? text.slice(1) : text));

function isAtRisk(text: string): boolean {
  // A mark in front of a text at risk must not be lost on reading, so it gets one of its own.
  const bare = text.replace(/^'+/, '');
  // A hyphen alone, "nothing printed", stays what it is.
  if (bare === '' || bare === '-' || PLAIN.test(bare)) return false;
  return FORMULA.test(bare) || NUMBERLIKE.test(bare) || MONTHLIKE.test(bare) || TRUTH.test(bare);
}
