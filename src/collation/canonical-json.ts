import type { AbsentEntry, CollationRecord, FrameEntry, PublicationPattern, ReelEntry, TitleEntry } from '../model/collation-record.js';

// Every field in the order of the format's description; the compiler says so where one is forgotten.
const TITLE = keysOf<TitleEntry>({ id: 0, name: 0, language: 0, readingDirection: 0, calendar: 0, patterns: 0 });
const PATTERN = keysOf<PublicationPattern>({ from: 0, to: 0, days: 0, omitted: 0, usualPages: 0, frequency: 0, regularity: 0 });
const REEL = keysOf<ReelEntry>({
  number: 0,
  carrier: 0,
  position: 0,
  filmBase: 0,
  polarity: 0,
  generation: 0,
  reduction: 0,
  boxLabel: 0,
  notes: 0,
  frames: 0,
  absent: 0,
});
const FRAME = keysOf<FrameEntry>({
  frame: 0,
  kind: 0,
  deliver: 0,
  title: 0,
  date: 0,
  combinedWith: 0,
  datePrinted: 0,
  datePrintedJudged: 0,
  judgedBy: 0,
  weekdayPrinted: 0,
  titlePrinted: 0,
  edition: 0,
  editionLabel: 0,
  volume: 0,
  issueNumber: 0,
  issueNumberIntended: 0,
  section: 0,
  supplement: 0,
  page: 0,
  pagePrinted: 0,
  order: 0,
  duplicateOf: 0,
  retakeOf: 0,
  sourceReel: 0,
  position: 0,
  reduction: 0,
  condition: 0,
  note: 0,
});
const ABSENT = keysOf<AbsentEntry>({
  title: 0,
  date: 0,
  combinedWith: 0,
  dateTo: 0,
  edition: 0,
  section: 0,
  page: 0,
  order: 0,
  published: 0,
  note: 0,
});

/** The record as JSON text, its fields always in the same order, so that equal records are equal texts. */
export function canonicalJson({ format, titles, reels }: CollationRecord): string {
  const record = {
    format,
    titles: titles.map((title) => inOrder({ ...title, patterns: title.patterns?.map((pattern) => inOrder(pattern, PATTERN)) }, TITLE)),
    reels: reels.map((reel) => {
      const frames = reel.frames.map((frame) => inOrder(frame, FRAME));
      return inOrder({ ...reel, frames, absent: reel.absent?.map((entry) => inOrder(entry, ABSENT)) }, REEL);
    }),
  };
  return `${JSON.stringify(record, null, 2)}\n`;
}

function keysOf<Entry extends object>(keys: Readonly<Record<keyof Entry, 0>>): readonly string[] {
  return Object.keys(keys);
}

function inOrder(entry: object, keys: readonly string[]): object {
  const fields = new Map<string, unknown>(Object.entries(entry));
  return Object.fromEntries(keys.filter((key) => fields.get(key) !== undefined).map((key) => [key, fields.get(key)]));
}
