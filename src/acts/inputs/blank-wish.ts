import { isDay } from '../../calendar/civil.js';
import { readPatternWords } from '../../calendar/pattern-words.js';
import { expectedDays, isOmittedEntry } from '../../calendar/patterns.js';
import { spanOf } from '../../collation/blank/days.js';
import type { BlankWish } from '../../collation/blank/wish.js';
import type { CollationRecord, PublicationPattern, TitleEntry } from '../../model/collation-record.js';
import { UserMistake } from '../../read/mistake.js';

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

/** What is asked for, completed by what the earlier record says, and what is worth knowing of it. Throws UserMistake. */
export function blankWish(
  options: NewRecordWords,
  old: CollationRecord | null,
): { readonly wish: BlankWish; readonly remarks: readonly string[] } {
  const title = titleOf(options.title, old);
  const known = old?.titles.find(({ id }) => id === title);
  const [first, last] = (old === null ? null : spanOf(old, title)) ?? [undefined, undefined];
  const from = dayOf('--from-day', options.fromDay ?? first);
  const to = dayOf('--to-day', options.toDay ?? last);
  if (from > to) throw new UserMistake(`--from-day ${from} lies behind --to-day ${to}; exchange the two.`);
  const stated = pagesOf(options.pages);
  const { patterns, remarks } = patternsOf(options, known, stated);
  const pages = stated ?? [...new Set(patterns.flatMap(({ usualPages }) => usualPages ?? []))];
  if (pages.length === 0) throw new UserMistake('--pages says how many pages an issue usually has, such as --pages 4 or --pages 4,8.');
  const per = options.per ?? 'issue';
  if (per !== 'issue' && per !== 'frame')
    throw new UserMistake(`--per is issue (a row for each issue) or frame (a row for each page), and not ${per}.`);
  if (known?.calendar?.startsWith('julian') === true)
    throw new UserMistake(
      `The title ${title} is dated by the Julian calendar, and expected days are counted by the Gregorian one. Write its rows by hand, or run "reeltally collation convert" to keep the old sheet as it is.`,
    );
  const issues = expectedDays(patterns, from, to).length;
  const rows = issues * (per === 'frame' ? (pages[0] ?? 1) : 1);
  if (issues === 0 && old === null)
    throw new UserMistake(`Between ${from} and ${to} no issue is expected by the pattern; look at --pattern, --omit and the days.`);
  if (rows > MOST_ROWS)
    throw new UserMistake(
      `From ${from} to ${to} that would be ${String(rows)} rows; was another year meant? A sheet takes ${String(MOST_ROWS)}.`,
    );
  return { wish: { title, patterns, from, to, pages, per, old }, remarks };
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
