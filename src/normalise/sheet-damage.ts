import { isDay } from '../calendar/civil.js';
import type { SheetProblem } from '../model/written-sheet.js';

/** The short forms of the months in the languages of common spreadsheet programs (CLDR), January first; lower case, without accents. */
const MONTHS: readonly (readonly string[])[] = [
  ['jan', 'ene', 'janv', 'gen', 'led', 'sty', 'tammi'],
  ['feb', 'fev', 'fevr', 'uno', 'lut', 'helmi'],
  ['mar', 'mrz', 'mars', 'maa', 'mrt', 'bre', 'maalis'],
  ['apr', 'abr', 'avr', 'dub', 'kwi', 'huhti'],
  ['may', 'mai', 'maj', 'mei', 'mag', 'kve', 'touko'],
  ['jun', 'juin', 'giu', 'cvn', 'cze', 'kesa'],
  ['jul', 'juil', 'lug', 'cvc', 'lip', 'heina'],
  ['aug', 'ago', 'aout', 'srp', 'sie', 'elo'],
  ['sep', 'sept', 'set', 'zar', 'wrz', 'syys'],
  ['oct', 'okt', 'ott', 'out', 'rij', 'paz', 'loka'],
  ['nov', 'lis', 'marras'],
  ['dec', 'dez', 'dic', 'des', 'pro', 'gru', 'joulu'],
];

/** What is wrong with a text: a half sentence that follows it, the same for all such texts, and what was probably meant. */
export interface Damage {
  readonly says: string;
  readonly guess?: string;
}

/** What a spreadsheet program has made of a label such as `1-2`, `3E1` or `0012`; null where the text shows no such damage. */
export function labelDamage(text: string): Damage | null {
  const plain = text.normalize('NFKD').replace(/[\u0300-\u036f]/g, '');
  const again = 'Write the label again, with the column formatted as text.';
  const date = /^(\d{1,2})[-. /]{1,2}([A-Za-z]{3,6})\.?(?:[-. /]{1,2}\d{2,4})?$/.exec(plain);
  const dayFirst = date === null ? null : monthNumber(date[2] ?? '');
  if (date !== null && dayFirst !== null) {
    const day = String(Number(date[1]));
    return {
      says: `is probably a label that a spreadsheet program turned into a date. ${again}`,
      guess: `${dayFirst}-${day} or ${day}-${dayFirst}`,
    };
  }
  const reversed = /^([A-Za-z]{3,6})\.?[-. /]{1,2}(\d{1,4})$/.exec(plain);
  const monthFirst = reversed === null ? null : monthNumber(reversed[1] ?? '');
  if (reversed !== null && monthFirst !== null)
    return {
      says: `is probably a label that a spreadsheet program turned into a month. ${again}`,
      guess: `${monthFirst}-${String(Number(reversed[2]))}`,
    };
  if (/^\d{1,2}([/.])\d{1,2}\1\d{2,4}$/.test(text) || /^\d{4}-\d{2}-\d{2}/.test(text))
    return { says: `is probably a label such as 1-2 that a spreadsheet program turned into a date. ${again}` };
  if (/^\d([.,]\d{1,15})?E[+-]\d{1,3}$/i.test(text))
    return { says: `is probably a label such as 3E1 that a spreadsheet program turned into a number. ${again}` };
  if (/^\d{1,9}[.,]0{1,9}$/.test(text))
    return { says: 'is a number with a decimal point that a program added; write it without.', guess: text.replace(/[.,].*$/, '') };
  if (/^-\d/.test(text))
    return { says: `is probably a label such as (3) that a spreadsheet program turned into a negative number. ${again}` };
  if (/^#(ref!|name\?|value!|div\/0!|n\/a|num!|null!|#+)$/i.test(text))
    return { says: 'is what a spreadsheet program shows in place of a value that it cannot compute or show; write the value itself.' };
  return null;
}

const NO_LEAP_YEAR =
  'is a day that never was: 1900 was not a leap year, but some spreadsheet programs count it as one. Write the real day, and what the paper prints under "date printed".';
const NEVER_WAS = 'is a day that never was; write the real day here, and what the paper prints under "date printed".';

/** True for a text written as a day, `1899-02-30`, that the calendar does not have. */
export function isImpossibleDay(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && !isDay(text);
}

/** True for the problem of a date that is no day of the calendar: a slip among others where a record is checked, and not a form that cannot be read. */
export function isDaySlip({ says }: SheetProblem): boolean {
  return says === NEVER_WAS || says === NO_LEAP_YEAR;
}

/** What is wrong with a text that stands where a day belongs, in a half sentence that follows the text. */
export function dateDamage(text: string): string {
  if (isImpossibleDay(text)) return text === '1900-02-29' ? NO_LEAP_YEAR : NEVER_WAS;
  const wording =
    /^\d{1,4}[./-]\d{1,2}[./-]\d{1,4}$/.test(text) || /^(\d{1,2}[-. /]{1,2})?[\p{L}.]{3,10}[-. /,]{1,2}\d{1,4}(,? \d{2,4})?$/u.test(text);
  if (wording || /^\d{1,2}[-. /]{1,2}[\p{L}.]{3,10}$/u.test(text))
    return 'looks like a date as a spreadsheet program shows it; day, month and century cannot be told for certain. Run "reeltally collation read" with the file and say once how days are written, or write YYYY-MM-DD, with the column formatted as text.';
  if (/^-?\d{1,6}([.,]\d+)?$/.test(text))
    return 'looks like the number by which a spreadsheet program counts days. Write YYYY-MM-DD, with the column formatted as text.';
  return 'is not a date; write YYYY-MM-DD, or an uncertain one such as 1899-01-XX or 1899-01-04?.';
}

function monthNumber(word: string): string | null {
  const at = MONTHS.findIndex((names) => names.includes(word.toLowerCase()));
  return at < 0 ? null : String(at + 1);
}
