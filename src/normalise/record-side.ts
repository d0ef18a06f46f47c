import { readDate } from '../calendar/edtf.js';
import { expectedDays } from '../calendar/patterns.js';
import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../model/collation-record.js';
import type { Absence, DateReading, Frame, Issue, IssueStatement, Place, Reel, Side, Title } from '../model/film.js';
import { keptInMind } from './kept.js';
import { frameKey, labelKey, readFrameNumber, reelNumber, sectionLabel, titleId, withoutSection } from './labels.js';
import { type IssueKeys, issueKeys } from './record-issues.js';

/** Where each frame and absence of a record stands, by reel and place in its list; empty for a record in canonical form. */
export type RecordPlaces = readonly { readonly frames: readonly Place[]; readonly absent: readonly Place[] }[];

/** The record as one side: issues are rows of the same title, date and edition, on whatever reel. `keys` are those of its issues, where they are known. */
export function sideOfRecord(record: CollationRecord, keys: IssueKeys = keysOf(record), places: RecordPlaces = []): Side {
  const only = record.titles.length === 1 ? titleId(record.titles[0]?.id ?? '') : null;
  const titles: Title[] = record.titles.map((title) => ({
    id: titleId(title.id) ?? title.id,
    name: title.name ?? title.id,
    language: title.language ?? '',
    readingDirection: title.readingDirection ?? 'ltr',
    patterns: title.patterns ?? [],
  }));
  const issues: Issue[] = [];
  const known = new Map<string, number>();
  const idOf = keptInMind(titleId);
  const titleOf = (text: string | undefined): string | null => (text === undefined ? only : idOf(text));
  const issueFor = (key: string, entry: Partial<FrameEntry>, present: boolean, place: Place): number => {
    const found = known.get(key);
    if (found !== undefined) {
      if (!isTold(issues[found], entry, present)) issues[found] = completed(issues[found], entry, present);
      return found;
    }
    known.set(key, issues.length);
    const title = titleOf(entry.title);
    issues.push(completed({ ...EMPTY, title, date: dateOf(entry), edition: entry.edition ?? 1, place }, entry, present));
    return issues.length - 1;
  };
  const reels = record.reels.map((reel, r): Reel => {
    const frameOf = frameReader();
    const frames = reel.frames.map((entry, index) => {
      const place = places[r]?.frames[index] ?? NOWHERE;
      const key = keys.frames[r]?.[index] ?? null;
      const frame = frameOf(entry, key === null ? null : issueFor(key, entry, true, place), place);
      return reel.carrier === 'print' && frame.frame !== null ? { ...frame, frame: { ...frame.frame, inferred: true as const } } : frame;
    });
    return {
      number: reelNumber(reel.number) ?? reel.number,
      text: reel.number,
      alsoKnownAs: [],
      frames,
      facts: factsOf(reel),
      targetsListed: false,
      place: {},
    };
  });
  const onFrames = [...issues];
  let filmed: ReadonlySet<string> | null = null;
  const onFilm = (title: string | null, day: string, edition: number): boolean => {
    // Asked only of spans of absent days, which few records have.
    filmed ??= daysOf(onFrames);
    return filmed.has(JSON.stringify([title, day, edition]));
  };
  const absences = record.reels.flatMap((reel, r) =>
    (reel.absent ?? []).flatMap((entry, index) => {
      const place = places[r]?.absent[index] ?? NOWHERE;
      return absencesOf(entry, keys.absent[r]?.[index] ?? '', reel, titles, titleOf, issueFor, onFilm, place);
    }),
  );
  return { titles, issues, reels, absences, problems: [], unchecked: [], remarks: [] };
}

const NOWHERE: Place = {};

function keysOf({ titles, reels }: CollationRecord): IssueKeys {
  return issueKeys(reels, titles.length === 1 ? (titles[0]?.id ?? null) : null);
}

/** Title, day and edition of issues, both days of a combined one. */
function daysOf(issues: readonly Issue[]): ReadonlySet<string> {
  return new Set(
    issues.flatMap(({ title, date, combinedWith, edition }) =>
      [date?.day, combinedWith].flatMap((day) => (day == null ? [] : [JSON.stringify([title, day, edition])])),
    ),
  );
}

const EMPTY: Issue = {
  title: null,
  date: null,
  datePrinted: null,
  weekdayPrinted: null,
  edition: 1,
  editionLabel: null,
  volume: null,
  issueNumber: null,
  issueNumberIntended: null,
  present: false,
  copies: [],
  place: {},
};

const STATED = ['datePrinted', 'weekdayPrinted', 'editionLabel', 'volume', 'issueNumber', 'issueNumberIntended'] as const;

/** True where a further row says nothing of its issue that is not said yet, as nearly all rows do. */
function isTold(issue: Issue | undefined, entry: Partial<FrameEntry>, present: boolean): boolean {
  if (issue === undefined || (present && !issue.present) || entry.datePrintedJudged === 'unclear') return false;
  if (entry.combinedWith !== undefined && issue.combinedWith === undefined) return false;
  return STATED.every((field) => entry[field] === undefined || issue[field] !== null);
}

/** The issue with what a further row says of it; the first statement of a fact stands. */
function completed(issue: Issue | undefined, entry: Partial<FrameEntry>, present: boolean): Issue {
  const base = issue ?? EMPTY;
  return {
    ...withStatement(base, statementOf(entry) ?? {}),
    ...secondDay(base.combinedWith ?? entry.combinedWith),
    // what one frame of an issue says in doubt holds for all
    date: entry.datePrintedJudged === 'unclear' ? dateOf(entry) : base.date,
    present: base.present || present,
  };
}

/** The issue with what a further row says of it; what was said before stands. */
export function withStatement(issue: Issue, said: IssueStatement): Issue {
  return {
    ...issue,
    datePrinted: issue.datePrinted ?? said.datePrinted ?? null,
    weekdayPrinted: issue.weekdayPrinted ?? said.weekdayPrinted ?? null,
    editionLabel: issue.editionLabel ?? said.editionLabel ?? null,
    volume: issue.volume ?? said.volume ?? null,
    issueNumber: issue.issueNumber ?? said.issueNumber ?? null,
    issueNumberIntended: issue.issueNumberIntended ?? said.issueNumberIntended ?? null,
  };
}

/** What a row says of its issue beside title, day and edition. */
function statementOf(entry: Partial<FrameEntry>): IssueStatement | undefined {
  const { datePrinted, weekdayPrinted, editionLabel, volume, issueNumber, issueNumberIntended } = entry;
  if (saysNothing(entry)) return undefined;
  const said: IssueStatement = {
    ...(datePrinted === undefined ? {} : { datePrinted: readDate(datePrinted) }),
    ...(weekdayPrinted === undefined ? {} : { weekdayPrinted }),
    ...(editionLabel === undefined ? {} : { editionLabel }),
    ...(volume === undefined ? {} : { volume }),
    ...(issueNumber === undefined ? {} : { issueNumber }),
    ...(issueNumberIntended === undefined ? {} : { issueNumberIntended }),
  };
  return said;
}

const saysNothing = (entry: Partial<FrameEntry>): boolean => saysSame(entry, {});

/** Whether two rows say the same of their issue. */
function saysSame(a: Partial<FrameEntry>, b: Partial<FrameEntry>): boolean {
  return (
    a.volume === b.volume &&
    a.issueNumber === b.issueNumber &&
    a.datePrinted === b.datePrinted &&
    a.weekdayPrinted === b.weekdayPrinted &&
    a.editionLabel === b.editionLabel &&
    a.issueNumberIntended === b.issueNumberIntended
  );
}

/** The second day of a combined issue; only a certain one is kept. */
function secondDay(text: string | undefined): { readonly combinedWith?: string } {
  const day = text === undefined ? null : readDate(text).day;
  return day === null ? {} : { combinedWith: day };
}

/** The real date; where nobody can tell whether the paper prints it rightly it is read as if it ended in `?`. */
function dateOf({ date, datePrintedJudged }: Partial<FrameEntry>): DateReading | null {
  if (date === undefined) return null;
  const reading = readDate(date);
  return datePrintedJudged === 'unclear' && reading.day !== null ? readDate(`${reading.day}?`) : reading;
}

/** Reads the frames of a reel one after the other: what all pages of an issue say of it is understood once. */
function frameReader(): (entry: FrameEntry, issue: number | null, place: Place) => Frame {
  let before: FrameEntry | null = null;
  let said: IssueStatement | undefined;
  return (entry, issue, place) => {
    if (issue === null) return frameOf(entry, issue, place, undefined);
    if (before === null || !saysSame(before, entry)) said = statementOf(entry);
    before = entry;
    return frameOf(entry, issue, place, said);
  };
}

/** A label in the form in which labels are compared, without its section; `-` says that nothing is printed. */
function keyOf(label: string | undefined, section: string | null): string | null {
  if (label === undefined) return null;
  const text = label.trim();
  return text === '' ? null : text === '-' ? '-' : labelKey(withoutSection(label, section));
}

function frameOf(entry: FrameEntry, issue: number | null, place: Place, said: IssueStatement | undefined): Frame {
  const kind = entry.kind ?? 'page';
  const section = entry.section === undefined ? null : sectionLabel(entry.section);
  const frame: Mutable<Omit<Frame, 'files' | 'copies' | 'place'> & Partial<Frame>> = {
    frame: readFrameNumber(entry.frame),
    kind,
    deliver: entry.deliver ?? kind === 'page',
    issue,
    section,
    supplement: entry.supplement ?? false,
    page: entry.page ?? null,
    pagePrinted: entry.pagePrinted ?? null,
    pageKey: keyOf(entry.page, section),
    pagePrintedKey: keyOf(entry.pagePrinted, section),
    order: entry.deliver === false ? null : (entry.order ?? null),
    duplicateOf: pointer(entry.duplicateOf),
    retakeOf: pointer(entry.retakeOf),
    sourceReel: reelName(entry.sourceReel),
    condition: entry.condition ?? NONE,
    note: entry.note ?? null,
  };
  if (said !== undefined) frame.ofIssue = said;
  frame.files = NONE;
  frame.copies = NONE;
  frame.place = place;
  return frame as Frame;
}

const NONE: readonly never[] = [];

type Mutable<T> = { -readonly [P in keyof T]: T[P] };

/** `415` or `14:415`. */
function pointer(text: string | undefined): Frame['duplicateOf'] {
  if (text === undefined) return null;
  const written = text.trim();
  if (written === '') return null;
  const at = written.lastIndexOf(':');
  const frame = written.slice(at + 1).trim();
  const number = readFrameNumber(frame);
  return { reel: at < 0 ? null : reelNumber(written.slice(0, at)), frame: number === null ? frame : frameKey(number), text: written };
}

function reelName(text: string | undefined): Frame['sourceReel'] {
  const number = text === undefined ? null : reelNumber(text);
  return number === null ? null : { number, text: text ?? number };
}

function factsOf(reel: ReelEntry): Record<string, string> {
  return {
    ...(reel.position === undefined ? {} : { position: reel.position }),
    ...(reel.reduction === undefined ? {} : { reductionRatio: reel.reduction }),
  };
}

/** One absence per page or issue; a span of days stands for every day on which the title was to come out. */
function absencesOf(
  entry: AbsentEntry,
  key: string,
  reel: ReelEntry,
  titles: readonly Title[],
  titleOf: (text: string | undefined) => string | null,
  issueFor: (key: string, entry: Partial<FrameEntry>, present: boolean, place: Place) => number,
  onFilm: (title: string | null, day: string, edition: number) => boolean,
  place: Place,
): Absence[] {
  const title = titleOf(entry.title);
  const whole = entry.page === undefined && entry.order === undefined;
  const patterns = titles.find((one) => one.id === title)?.patterns ?? [];
  const from = readDate(entry.date).day;
  const to = readDate(entry.dateTo ?? '').day;
  // An issue inside the span that is on film after all is no part of it.
  const days =
    from === null || to === null ? [entry.date] : expectedDays(patterns, from, to).filter((day) => !onFilm(title, day, entry.edition ?? 1));
  return days.map(
    (date): Absence => ({
      reel: reelNumber(reel.number) ?? reel.number,
      title,
      date: readDate(date),
      edition: entry.edition ?? 1,
      section: sectionLabel(entry.section ?? ''),
      page: entry.page ?? null,
      order: entry.order ?? null,
      published: entry.published ?? 'unknown',
      ...secondDay(entry.combinedWith),
      issue: issueFor(
        entry.dateTo === undefined ? key : JSON.stringify([title, date, entry.edition ?? 1]),
        {
          ...(entry.title === undefined ? {} : { title: entry.title }),
          ...secondDay(entry.combinedWith),
          date,
          edition: entry.edition ?? 1,
        },
        !whole,
        place,
      ),
      place,
    }),
  );
}
