import { readDate } from '../calendar/edtf.js';
import { expectedDays } from '../calendar/patterns.js';
import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../model/collation-record.js';
import type { Absence, DateReading, Frame, Issue, Place, Reel, Side, Title } from '../model/film.js';
import { frameKey, labelKey, readFrameNumber, reelNumber, sectionLabel, titleId, withoutSection } from './labels.js';

/** Where each frame and absence of a record stands, by `reel number | index`; empty for a record in canonical form. */
export type RecordPlaces = ReadonlyMap<string, Place>;

/** The record as one side: issues are rows of the same title, date and edition, on whatever reel. */
export function sideOfRecord(record: CollationRecord, places: RecordPlaces = new Map()): Side {
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
  const titleOf = (text: string | undefined): string | null => (text === undefined ? only : titleId(text));
  const issueFor = (entry: Partial<FrameEntry>, present: boolean, place: Place): number => {
    const title = titleOf(entry.title);
    const key = JSON.stringify([title, entry.date, entry.edition ?? 1]);
    const found = known.get(key);
    if (found !== undefined) {
      issues[found] = completed(issues[found], entry, present);
      return found;
    }
    known.set(key, issues.length);
    issues.push(
      completed(
        { ...EMPTY, title, date: entry.date === undefined ? null : readDate(entry.date), edition: entry.edition ?? 1, place },
        entry,
        present,
      ),
    );
    return issues.length - 1;
  };
  const reels = record.reels.map((reel): Reel => {
    const frames = reel.frames.map((entry, index) => {
      const place = places.get(`${reel.number}|${String(index)}`) ?? {};
      return frameOf(entry, entry.date === undefined ? null : issueFor(entry, true, place), place);
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
  const filmed = new Set(known.keys());
  const onFilm = (title: string | null, day: string, edition: number): boolean => filmed.has(JSON.stringify([title, day, edition]));
  const absences = record.reels.flatMap((reel) =>
    (reel.absent ?? []).flatMap((entry, index) =>
      absencesOf(entry, reel, titles, titleOf, issueFor, onFilm, places.get(`${reel.number}|absent${String(index)}`) ?? {}),
    ),
  );
  return { titles, issues, reels, absences, problems: [], unchecked: [], remarks: [] };
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

/** The issue with what a further row says of it; the first statement of a fact stands. */
function completed(issue: Issue | undefined, entry: Partial<FrameEntry>, present: boolean): Issue {
  const base = issue ?? EMPTY;
  const printed: DateReading | null = entry.datePrinted === undefined ? null : readDate(entry.datePrinted);
  return {
    ...base,
    datePrinted: base.datePrinted ?? printed,
    weekdayPrinted: base.weekdayPrinted ?? entry.weekdayPrinted ?? null,
    editionLabel: base.editionLabel ?? entry.editionLabel ?? null,
    volume: base.volume ?? entry.volume ?? null,
    issueNumber: base.issueNumber ?? entry.issueNumber ?? null,
    issueNumberIntended: base.issueNumberIntended ?? entry.issueNumberIntended ?? null,
    present: base.present || present,
  };
}

function frameOf(entry: FrameEntry, issue: number | null, place: Place): Frame {
  const kind = entry.kind ?? 'page';
  const section = sectionLabel(entry.section ?? '');
  const key = (label: string | undefined): string | null =>
    label === undefined || label.trim() === '' ? null : label.trim() === '-' ? '-' : labelKey(withoutSection(label, section));
  return {
    frame: readFrameNumber(entry.frame),
    kind,
    deliver: entry.deliver ?? kind === 'page',
    issue,
    section,
    supplement: entry.supplement ?? false,
    page: entry.page ?? null,
    pagePrinted: entry.pagePrinted ?? null,
    pageKey: key(entry.page),
    pagePrintedKey: key(entry.pagePrinted),
    order: entry.deliver === false ? null : (entry.order ?? null),
    duplicateOf: pointer(entry.duplicateOf),
    retakeOf: pointer(entry.retakeOf),
    sourceReel: reelName(entry.sourceReel),
    condition: entry.condition ?? [],
    note: entry.note ?? null,
    files: [],
    copies: [],
    place,
  };
}

/** `415` or `14:415`. */
function pointer(text: string | undefined): Frame['duplicateOf'] {
  const written = text?.trim() ?? '';
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
  reel: ReelEntry,
  titles: readonly Title[],
  titleOf: (text: string | undefined) => string | null,
  issueFor: (entry: Partial<FrameEntry>, present: boolean, place: Place) => number,
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
      issue: issueFor({ ...(entry.title === undefined ? {} : { title: entry.title }), date, edition: entry.edition ?? 1 }, !whole, place),
      place,
    }),
  );
}
