import { readDate } from '../calendar/edtf.js';
import { expectedDays } from '../calendar/patterns.js';
import type { AbsentEntry, FrameEntry, TitleEntry } from '../model/collation-record.js';
import { frameKey, labelKey, readFrameNumber, sectionLabel, titleId, withoutSection } from './labels.js';
import type { IssueKeys } from './record-issues.js';
import { inWords, type Placed, problemAt, type ReelParts } from './record-parts.js';
import { checkTitles } from './record-title-checks.js';
import { type Complaints, dateFault, quoted } from './sheet-row.js';

type Complain = (placed: Entry, column: string, says: string, held?: string) => void;

type Entry = Placed<Partial<FrameEntry> & Partial<AbsentEntry>>;

/** Names what keeps a record from being compared with anything: impossible dates, repeated frame numbers, pages of no title or day. `files` is what it is called, `keys` are those of its issues. */
export function checkRecord(
  reels: readonly ReelParts[],
  titles: readonly TitleEntry[],
  { files, keys }: { readonly files: string; readonly keys: IssueKeys },
  complaints: Complaints,
): void {
  const whole = (says: string): void => void complaints.problems.push({ file: files, sheet: files, row: null, column: null, says });
  checkTitles(titles, complaints.problems, whole);
  if (reels.every(({ frames }) => frames.length === 0)) whole('the record holds no frame; there is nothing to compare a return with.');
  if (titles.length === 0) whole('the record names no title; fill the column "title", or add a sheet of titles.');
  const only = titles.length === 1 ? titles[0]?.id : undefined;
  // What follows from a cell that could not be read is not told a second time.
  const told = new Set(complaints.problems.flatMap(({ file, sheet, row }) => (row === null ? [] : [`${file}|${sheet}|${row}`])));
  for (const { facts, frames, absent } of reels) {
    const complain = (placed: Entry, column: string, says: string, held?: string): void =>
      void complaints.problems.push(problemAt(facts.number, placed, column, says, held));
    checkNumbers(facts.number, frames, complain);
    for (const placed of frames) {
      const { entry } = placed;
      checkDates(placed, ['date', 'combinedWith'], complain);
      checkCombined(placed, complain);
      const page = (entry.kind ?? 'page') === 'page';
      const delivered = page && entry.deliver !== false;
      if (delivered && entry.date === undefined && !told.has(`${placed.file}|${placed.sheet}|${placed.row ?? ''}`))
        complain(
          placed,
          'date',
          'a page that is delivered has no date; write the day of its issue, or target, blank, void or other under "kind" where the frame shows no page.',
        );
      if (page && entry.date !== undefined && entry.title === undefined && only === undefined && titles.length > 0)
        complain(placed, 'title', 'the record has several titles, and this page names none; write the id of its title.');
    }
    for (const placed of absent) {
      checkDates(placed, ['date', 'combinedWith', 'dateTo'], complain);
      checkCombined(placed, complain);
      if (placed.entry.title === undefined && only === undefined && titles.length > 0)
        complain(placed, 'title', 'the record has several titles, and this absence names none; write the id of its title.');
      checkSpan(placed, titles, only, complain);
    }
  }
  checkAbsences(reels, keys, complaints);
  warnOfConflicts(reels, keys, complaints);
}

/** Facts that an issue has once; the first that is written is taken. */
const FACTS = [
  'combinedWith',
  'datePrinted',
  'datePrintedJudged',
  'judgedBy',
  'weekdayPrinted',
  'titlePrinted',
  'editionLabel',
  'volume',
  'issueNumber',
  'issueNumberIntended',
] as const;
/** So many issues of one sort are named. */
const NAMED = 3;

/** An issue that has a fact twice, with two readings. */
interface Conflict {
  readonly fact: (typeof FACTS)[number];
  readonly reel: string;
  readonly says: string;
}

function warnOfConflicts(reels: readonly ReelParts[], keys: IssueKeys, complaints: Complaints): void {
  const firsts = new Map<string, Map<string, string>>();
  const told = new Set<string>();
  const conflicts = new Map<string, Conflict[]>();
  for (const [reel, { facts, frames }] of reels.entries()) {
    let before: { readonly issue: string; readonly entry: FrameEntry } | null = null;
    for (const [at, { entry }] of frames.entries()) {
      const issue = keys.frames[reel]?.[at] ?? null;
      if (entry.date === undefined || issue === null) continue;
      const last = before;
      before = { issue, entry };
      if (last?.issue === issue && sameFacts(last.entry, entry)) continue;
      const known = firsts.get(issue) ?? new Map<string, string>();
      firsts.set(issue, known);
      for (const fact of FACTS) {
        const text = entry[fact];
        const first = known.get(fact);
        if (text === undefined || first === text) continue;
        if (first === undefined) {
          known.set(fact, text);
          continue;
        }
        if (told.has(`${issue} ${fact}`)) continue;
        told.add(`${issue} ${fact}`);
        const says = `${entry.date} "${first}" and, from frame ${entry.frame} on, "${text}"`;
        const key = `${fact} ${facts.number}`;
        const list = conflicts.get(key) ?? [];
        list.push({ fact, reel: facts.number, says });
        conflicts.set(key, list);
      }
    }
  }
  complaints.warnings.push(...[...conflicts.values()].map(conflictsInWords));
}

function sameFacts(a: FrameEntry, b: FrameEntry): boolean {
  return (
    a.volume === b.volume &&
    a.issueNumber === b.issueNumber &&
    a.combinedWith === b.combinedWith &&
    a.datePrinted === b.datePrinted &&
    a.datePrintedJudged === b.datePrintedJudged &&
    a.judgedBy === b.judgedBy &&
    a.weekdayPrinted === b.weekdayPrinted &&
    a.titlePrinted === b.titlePrinted &&
    a.editionLabel === b.editionLabel &&
    a.issueNumberIntended === b.issueNumberIntended
  );
}

/** One sentence for all issues of a reel that have a fact twice. */
function conflictsInWords(list: readonly Conflict[]): string {
  const { fact = FACTS[0], reel = '' } = list[0] ?? {};
  const named = list.slice(0, NAMED).map(({ says }) => `that of ${says}`);
  const more = list.length > NAMED ? ` and ${String(list.length - NAMED)} more` : '';
  const issues = list.length === 1 ? 'An issue' : `${String(list.length)} issues`;
  return `${issues} on reel ${reel} ${list.length === 1 ? 'has' : 'have'} the ${inWords(fact)} twice, with two readings: ${named.join('; ')}${more}. The first is taken.`;
}

function checkNumbers(reel: string, frames: readonly Placed<FrameEntry>[], complain: Complain): void {
  const seen = new Map<string, Entry>();
  for (const placed of frames) {
    const number = readFrameNumber(placed.entry.frame);
    if (number === null) {
      complain(
        placed,
        'frame',
        'is not a frame number; write digits, and a letter for the half of a split exposure.',
        quoted(placed.entry.frame),
      );
      continue;
    }
    const key = frameKey(number);
    const before = seen.get(key);
    if (before === undefined) {
      seen.set(key, placed);
      continue;
    }
    const where = before.row == null ? '' : ` (also in row ${before.row}${before.file === placed.file ? '' : ` of ${before.file}`})`;
    complain(placed, 'frame', 'stands there twice; each frame of a reel has a number of its own.', `frame ${key} of reel ${reel}${where}`);
  }
}

function checkDates(placed: Entry, fields: readonly ('date' | 'combinedWith' | 'dateTo')[], complain: Complain): void {
  // Sheets were looked at cell by cell while they were read.
  if (placed.row !== null) return;
  for (const field of fields) {
    const text = placed.entry[field];
    const fault = text === undefined ? null : dateFault(text, field);
    if (text !== undefined && fault !== null) complain(placed, field, fault, quoted(text));
  }
}

/** A combined issue has two certain days, the first of which is its date; a span of days is no such issue. */
function checkCombined(placed: Entry, complain: Complain): void {
  const { date, combinedWith, dateTo } = placed.entry;
  if (combinedWith === undefined) return;
  const says = (text: string, held?: string): void => complain(placed, 'combinedWith', text, held);
  const [first, second] = [readDate(date ?? '').day, readDate(combinedWith).day];
  if (dateTo !== undefined) says('a span of absent days is not a combined issue; write a row for the combined one.');
  else if (first === null || second === null)
    says(
      'is not a pair of certain days, as a combined issue has; leave the cell empty where the second is not known.',
      `${quoted(date ?? 'no date')} and ${quoted(combinedWith)}`,
    );
  else if (second <= first)
    says('is not a pair of days that follow each other; write the first day as the date and the later one here.', `${first} and ${second}`);
}

function checkSpan(placed: Placed<AbsentEntry>, titles: readonly TitleEntry[], only: string | undefined, complain: Complain): void {
  const { date, dateTo, title } = placed.entry;
  if (dateTo === undefined) return;
  const from = readDate(date).day;
  const to = readDate(dateTo).day;
  if (from === null || to === null) {
    complain(placed, 'dateTo', 'is not a span of days; both ends must be certain days.', `${quoted(date)} to ${quoted(dateTo)}`);
    return;
  }
  if (from > to) {
    complain(placed, 'dateTo', 'is not a span; it ends on or after the day on which it begins.', `${from} to ${to}`);
    return;
  }
  const key = titleId(title ?? only ?? '');
  const patterns = titles.find(({ id }) => titleId(id) === key)?.patterns ?? [];
  if (patterns.length === 0) {
    complain(
      placed,
      'dateTo',
      'the title has no pattern of publication, so nobody can tell which days are meant; add its days to the sheet of titles, or write a row for each day.',
    );
    return;
  }
  if (expectedDays(patterns, from, to).length === 0)
    complain(
      placed,
      'dateTo',
      "is a span in which, by the title's pattern, nothing was to come out; correct the span or the pattern.",
      `${from} to ${to}`,
    );
}

/** What is said to be absent may not be delivered as well. */
function checkAbsences(reels: readonly ReelParts[], keys: IssueKeys, complaints: Complaints): void {
  if (reels.every(({ absent }) => absent.length === 0)) return;
  const pageOf = (issue: string | null, entry: Entry['entry']): string => {
    const section = sectionLabel(entry.section ?? '');
    return JSON.stringify([issue, section, labelKey(withoutSection(entry.page ?? '', section))]);
  };
  // Few issues have anything absent, and only of these it matters what is delivered.
  const looked = new Set(reels.flatMap((_, reel) => keys.absent[reel] ?? []));
  const issues = new Set<string | null>();
  const pages = new Set<string>();
  for (const [reel, { frames }] of reels.entries())
    for (const [at, { entry }] of frames.entries()) {
      const issue = keys.frames[reel]?.[at] ?? null;
      if (issue === null || !looked.has(issue) || (entry.kind ?? 'page') !== 'page' || entry.deliver === false) continue;
      issues.add(issue);
      if (entry.page !== undefined) pages.add(pageOf(issue, entry));
    }
  for (const [reel, { facts, absent }] of reels.entries()) {
    for (const [at, placed] of absent.entries()) {
      const issue = keys.absent[reel]?.[at] ?? null;
      const { page, order, date, dateTo } = placed.entry;
      const isWhole = page === undefined && order === undefined;
      if (isWhole && dateTo === undefined && issues.has(issue))
        complaints.problems.push(
          problemAt(
            facts.number,
            placed,
            'date',
            'is said to be absent, but the record has pages of it to deliver; remove one of the two, or name the page that is absent.',
            `the issue of ${date}`,
          ),
        );
      if (page !== undefined && dateTo === undefined && pages.has(pageOf(issue, placed.entry)))
        complaints.problems.push(
          problemAt(
            facts.number,
            placed,
            'page',
            'is said to be absent, but the record has it to deliver; remove one of the two.',
            `page ${page} of ${date}`,
          ),
        );
    }
  }
}
