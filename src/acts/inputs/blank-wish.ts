import { isDay } from '../../calendar/civil.js';
import { readPatternWords } from '../../calendar/pattern-words.js';
import { expectedDays, isOmittedEntry } from '../../calendar/patterns.js';
import { spanOf } from '../../collation/blank/days.js';
import type { BlankWish } from '../../collation/blank/wish.js';
import type { CollationRecord, PublicationPattern, TitleEntry } from '../../model/collation-record.js';
import { UserMistake } from '../../read/mistake.js';
import { refusal } from './refusal.js';

/** What is said of a new record, as people write it. */
export interface NewRecordWords {
  readonly title?: string;
  readonly fromDay?: string;
  readonly toDay?: string;
  readonly pattern?: readonly string[];
  readonly omit?: readonly string[];
  readonly pages?: string;
  readonly per?: string;
  /** The file of an earlier record that is taken over. */
  readonly from?: string;
}

/** A sheet of more rows is no sheet to be filled in, but a slip in a year. */
const MOST_ROWS = 100_000;
const MOST_PAGES = 400;

/** What is asked for, completed by what the earlier record says, and what is worth knowing of it. Throws UserMistake with all that is wrong in it. */
export function blankWish(
  options: NewRecordWords,
  old: CollationRecord | null,
): { readonly wish: BlankWish; readonly remarks: readonly string[] } {
  const mistakes: string[] = [];
  const wanted = wishOf(options, old, mistakes);
  if (mistakes.length > 0 || wanted === null) throw new UserMistake(inWords(mistakes));
  return wanted;
}

/** What is wrong in what was asked for, whatever an earlier record may say that cannot be read. */
export function mistakesWithout(options: NewRecordWords): readonly string[] {
  const mistakes: string[] = [];
  const given = (value: unknown, read: () => unknown): void => {
    if (value !== undefined) held(mistakes, read);
  };
  given(options.fromDay, () => dayOf('--from-day', options.fromDay));
  given(options.toDay, () => dayOf('--to-day', options.toDay));
  held(mistakes, () => pagesOf(options.pages));
  held(mistakes, () => perOf(options.per));
  given(options.pattern ?? options.omit, () => patternsOf({ ...options, pattern: options.pattern ?? [] }, undefined, null));
  return mistakes;
}

/** Several mistakes, each in a line of its own. */
function inWords(mistakes: readonly string[]): string {
  const [only, second] = mistakes;
  return second === undefined ? (only ?? '') : refusal('The new record cannot be made', mistakes);
}

/** The value, or null where it is wrong, which is kept to be told with all else. */
function held<Value>(mistakes: string[], read: () => Value): Value | null {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof UserMistake)) throw error;
    mistakes.push(error.message);
    return null;
  }
}

function wishOf(
  options: NewRecordWords,
  old: CollationRecord | null,
  mistakes: string[],
): { readonly wish: BlankWish; readonly remarks: readonly string[] } | null {
  const title = held(mistakes, () => titleOf(options.title, old));
  const known = old?.titles.find(({ id }) => id === title);
  const [first, last] = (old === null || title === null ? null : spanOf(old, title)) ?? [undefined, undefined];
  const from = held(mistakes, () => dayOf('--from-day', options.fromDay ?? first));
  const to = held(mistakes, () => dayOf('--to-day', options.toDay ?? last));
  if (from !== null && to !== null && from > to) mistakes.push(`--from-day ${from} lies behind --to-day ${to}; exchange the two.`);
  const stated = held(mistakes, () => pagesOf(options.pages));
  const read = held(mistakes, () => patternsOf(options, known, stated));
  const pages = stated ?? [...new Set((read?.patterns ?? []).flatMap(({ usualPages }) => usualPages ?? []))];
  if (pages.length === 0 && (options.pages === undefined || stated !== null))
    mistakes.push('--pages says how many pages an issue usually has, such as --pages 4 or --pages 4,8.');
  const per = held(mistakes, () => perOf(options.per));
  if (known?.calendar?.startsWith('julian') === true)
    mistakes.push(
      `The title ${known.id} is dated by the Julian calendar, and expected days are counted by the Gregorian one. Write its rows by hand, or run "reeltally collation convert" to keep the old sheet as it is.`,
    );
  if (mistakes.length > 0 || title === null || from === null || to === null || read === null || per === null) return null;
  const { patterns, remarks } = read;
  const issues = expectedDays(patterns, from, to).length;
  const rows = issues * (per === 'frame' ? (pages[0] ?? 1) : 1);
  if (issues === 0 && old === null)
    mistakes.push(`Between ${from} and ${to} no issue is expected by the pattern; look at --pattern, --omit and the days.`);
  if (rows > MOST_ROWS)
    mistakes.push(`From ${from} to ${to} that would be ${String(rows)} rows; was another year meant? A sheet takes ${String(MOST_ROWS)}.`);
  return { wish: { title, patterns, from, to, pages, per, old }, remarks };
}

function perOf(text: string | undefined): BlankWish['per'] {
  const per = text ?? 'issue';
  if (per === 'issue' || per === 'frame') return per;
  throw new UserMistake(`--per is issue (a row for each issue) or frame (a row for each page), and not ${per}.`);
}

function titleOf(wish: string | undefined, old: CollationRecord | null): string {
  const [only, second] = old?.titles ?? [];
  const title = wish?.trim() ?? (second === undefined ? only?.id : undefined);
  if (title !== undefined && title !== '') return title;
  throw new UserMistake(
    second === undefined
      ? '--title names the title, by its LCCN or the identifier that your programme uses, such as --title sn99018200.'
      : `The old record has several titles (${(old?.titles ?? []).map(({ id }) => id).join(', ')}); say with --title whose issues are expected.`,
  );
}

function dayOf(option: string, text: string | undefined): string {
  if (text === undefined)
    throw new UserMistake(`${option} is missing: write the ${option === '--from-day' ? 'first' : 'last'} day as YYYY-MM-DD.`);
  if (isDay(text) && text >= '1600-01-01' && text <= '2100-12-31') return text;
  throw new UserMistake(`${option} "${text}" is not a day of the years 1600 to 2100; write it as YYYY-MM-DD, such as 1879-01-04.`);
}

function pagesOf(text: string | undefined): readonly number[] | null {
  if (text === undefined) return null;
  const words = text.split(/[\s,;]+/).filter((word) => word !== '');
  if (words.length > 0 && words.every((word) => /^[1-9]\d{0,2}$/.test(word) && Number(word) <= MOST_PAGES)) return words.map(Number);
  throw new UserMistake(`--pages "${text}" is not a number of pages; write how many an issue usually has, such as 4, or 4,8 for several.`);
}

/** The patterns that were asked for, or those of the earlier record. */
function patternsOf(
  { pattern, omit = [], from }: NewRecordWords,
  known: TitleEntry | undefined,
  pages: readonly number[] | null,
): { readonly patterns: readonly PublicationPattern[]; readonly remarks: readonly string[] } {
  const earlier = known?.patterns ?? [];
  const omitted = omit.flatMap((text) => text.split(/[\s,;]+/)).filter((text) => text !== '');
  const stray = omitted.find((text) => !isOmittedEntry(text));
  if (stray !== undefined)
    throw new UserMistake(`--omit "${stray}" is not a day; write MM-DD for every year, such as 12-25, or YYYY-MM-DD.`);
  const usual = pages === null ? {} : { usualPages: pages.toSorted((a, b) => a - b) };
  if (pattern === undefined) {
    if (earlier.length === 0)
      throw new UserMistake('--pattern says on which weekdays the title came out, such as --pattern mon-sat or --pattern wed,sat.');
    return { patterns: earlier.map((one) => ({ ...one, ...usual, ...merged(one.omitted, omitted) })), remarks: [] };
  }
  const patterns = pattern.map((text) => {
    const read = readPatternWords(text);
    if (typeof read === 'string') throw new UserMistake(`--pattern "${text}" ${read}.`);
    return { ...read, ...merged(undefined, omitted), ...usual };
  });
  const said = JSON.stringify(earlier.map(({ days }) => days)) === JSON.stringify(patterns.map(({ days }) => days));
  const remarks =
    earlier.length === 0 || said
      ? []
      : [
          `${from ?? ''} says that ${known?.id ?? ''} came out on ${earlier.map(({ days }) => days.join(' ')).join('; ')}; the new sheet takes --pattern instead.`,
        ];
  return { patterns, remarks };
}

function merged(before: readonly string[] | undefined, more: readonly string[]): Pick<PublicationPattern, 'omitted'> {
  const all = [...new Set([...(before ?? []), ...more])];
  return all.length === 0 ? {} : { omitted: all };
}
