import { readDate } from '../calendar/edtf.js';
import type {
  AbsentEntry,
  CollationRecord,
  FrameEntry,
  PublicationPattern,
  ReelEntry,
  TitleEntry,
  Weekday,
} from '../model/collation-record.js';
import type { Place, Side } from '../model/film.js';
import type { SheetProblem, WrittenRecord, WrittenSheet } from '../model/written-sheet.js';
import { given, readFrameSheet, type SheetEntry } from './frame-sheet.js';
import { readIssueSheet } from './issue-sheet.js';
import { frameKey, readFrameNumber, reelNumber, titleId } from './labels.js';
import { withOrders } from './page-order.js';
import { sideOfRecord } from './record-side.js';
import { type Complaints, headerKey, rowsOf } from './sheet-row.js';

/** A record that was understood: in canonical form, as a side, with what is wrong and what is worth knowing. With problems it must not be used. */
export interface NormalisedRecord {
  readonly record: CollationRecord;
  readonly side: Side;
  readonly problems: readonly SheetProblem[];
  readonly warnings: readonly string[];
}

/** Understands what was written, whatever form it has; reels of several files are matched by number. `columns` renames column heads of the library's own. */
export function normaliseRecord(written: WrittenRecord, columns: Readonly<Record<string, string>> = {}): NormalisedRecord {
  const complaints: Complaints = { problems: [], warnings: [] };
  const dictionary = new Map(Object.entries(columns).map(([from, to]) => [headerKey(from), to]));
  const titles: TitleEntry[] = written.records.flatMap(({ record }) => record.titles);
  const reels = new Map<string, { entry: ReelEntry; frames: FrameEntry[]; absent: AbsentEntry[] }>();
  const places = new Map<string, Place>();
  const reelFor = (number: string): { entry: ReelEntry; frames: FrameEntry[]; absent: AbsentEntry[] } => {
    const key = reelNumber(number) ?? number;
    const known = reels.get(key) ?? { entry: { number, frames: [] }, frames: [], absent: [] };
    reels.set(key, known);
    return known;
  };
  for (const { record } of written.records) {
    for (const reel of record.reels) {
      const known = reelFor(reel.number);
      known.entry = { ...reel, ...known.entry, number: known.entry.number };
      known.frames.push(...reel.frames);
      known.absent.push(...(reel.absent ?? []));
    }
  }
  for (const sheet of written.sheets) {
    const kind = kindOf(sheet, dictionary);
    if (kind === 'titles') titles.push(...readTitles(sheet, dictionary, complaints));
    else if (kind === 'reels')
      for (const reel of readReels(sheet, dictionary, complaints))
        Object.assign(reelFor(reel.number), { entry: { ...reelFor(reel.number).entry, ...reel } });
    else if (kind === null) {
      complaints.problems.push({
        file: sheet.file,
        sheet: sheet.sheet,
        row: 1,
        column: null,
        says: `the columns (${sheet.headers.slice(0, 6).join(', ')}) are those of no sheet that is known: a frame sheet has a column "frame", an issue sheet "first frame" and "pages".`,
      });
    } else {
      const entries = kind === 'frames' ? readFrameSheet(sheet, dictionary, complaints) : readIssueSheet(sheet, dictionary, complaints);
      addEntries(entries, sheet, reelFor, places, complaints);
    }
  }
  const filled = [...reels.values()].filter(({ frames, absent }) => frames.length > 0 || absent.length > 0);
  const known = allTitles(titles, filled);
  const only = known.length === 1 ? (known[0]?.id ?? null) : null;
  const list = filled.map(({ entry, frames, absent }): ReelEntry => {
    const facts = Object.fromEntries(Object.entries(entry).filter(([key]) => key !== 'absent' && key !== 'frames')) as Omit<
      ReelEntry,
      'absent' | 'frames'
    >;
    return { ...facts, frames, ...(absent.length > 0 ? { absent } : {}) };
  });
  const record: CollationRecord = { format: 'reeltally/collation-record/1', titles: known, reels: withOrders(list, only) };
  checkReels(record, written, complaints);
  return { record, side: sideOfRecord(record, places), problems: complaints.problems, warnings: complaints.warnings };
}

function kindOf(sheet: WrittenSheet, dictionary: ReadonlyMap<string, string>): 'frames' | 'issues' | 'titles' | 'reels' | null {
  const keys = new Set(sheet.headers.map((header) => headerKey(dictionary.get(headerKey(header)) ?? header)));
  const name = headerKey(sheet.sheet);
  if (keys.has('pages')) return 'issues';
  if (keys.has('frame')) return 'frames';
  if (name.endsWith('titles') && keys.has('id')) return 'titles';
  if (name.endsWith('reels') && (keys.has('number') || keys.has('reel'))) return 'reels';
  return null;
}

function addEntries(
  entries: readonly SheetEntry[],
  sheet: WrittenSheet,
  reelFor: (number: string) => { entry: ReelEntry; frames: FrameEntry[]; absent: AbsentEntry[] },
  places: Map<string, Place>,
  complaints: Complaints,
): void {
  let assumed = false;
  for (const { reel, row, frame, absent } of entries) {
    if (frame === null && absent === null) continue;
    if (reel === null && !assumed) {
      assumed = true;
      complaints.warnings.push(`${sheet.file}: there is no reel number in the sheet; the name "${sheet.sheet}" is taken for it.`);
    }
    const target = reelFor(reel ?? sheet.sheet);
    const place = { sheet: sheet.file, row };
    if (frame !== null) {
      places.set(`${target.entry.number}|${String(target.frames.length)}`, place);
      target.frames.push(frame);
    }
    if (absent !== null) {
      places.set(`${target.entry.number}|absent${String(target.absent.length)}`, place);
      target.absent.push(absent);
    }
  }
}

const TITLE_COLUMNS = [
  'id',
  'name',
  'language',
  'reading direction',
  'calendar',
  'from',
  'to',
  'days',
  'omitted',
  'usual pages',
  'frequency',
] as const;
const DAYS: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** A row per title, or several rows of the same id for a title whose pattern changed. */
function readTitles(sheet: WrittenSheet, dictionary: ReadonlyMap<string, string>, complaints: Complaints): TitleEntry[] {
  const titles = new Map<string, TitleEntry>();
  for (const row of rowsOf(sheet, TITLE_COLUMNS, dictionary, complaints)) {
    const id = row.text('id');
    if (id === undefined) {
      row.complain('id', "the title has no id; write its LCCN or the programme's own identifier.");
      continue;
    }
    const direction = row.text('reading direction')?.toLowerCase();
    if (direction !== undefined && direction !== 'ltr' && direction !== 'rtl')
      row.complain('reading direction', `"${direction}" is neither ltr nor rtl.`);
    const days = (row.text('days') ?? '')
      .toLowerCase()
      .split(/[\s,;]+/)
      .filter((word) => word !== '');
    const weekdays = days.flatMap((word) => DAYS.find((day) => day === word.slice(0, 3)) ?? []);
    if (weekdays.length < days.length)
      row.complain('days', `"${row.text('days') ?? ''}" holds a word that is no weekday; write mon tue wed thu fri sat sun.`);
    const omitted = (row.text('omitted') ?? '').split(/[\s,;]+/).filter((word) => word !== '');
    for (const word of omitted)
      if (!/^(\d{4}-)?\d{2}-\d{2}$/.test(word)) row.complain('omitted', `"${word}" is no day; write MM-DD for every year, or YYYY-MM-DD.`);
    for (const field of ['from', 'to']) {
      const text = row.text(field);
      if (text !== undefined && readDate(text).day === null) row.complain(field, `"${text}" is no day; write YYYY-MM-DD.`);
    }
    const usual = (row.text('usual pages') ?? '')
      .split(/[\s,;]+/)
      .filter((word) => /^\d+$/.test(word))
      .map(Number);
    const pattern: PublicationPattern | null =
      weekdays.length === 0 && usual.length === 0
        ? null
        : {
            ...given('from', row.text('from')),
            ...given('to', row.text('to')),
            days: weekdays,
            ...given('omitted', omitted.length === 0 ? undefined : omitted),
            ...given('usualPages', usual.length === 0 ? undefined : usual),
            ...given('frequency', row.text('frequency')),
          };
    const before = titles.get(id);
    const patterns = [...(before?.patterns ?? []), ...(pattern === null ? [] : [pattern])];
    titles.set(id, {
      id,
      ...given('name', before?.name ?? row.text('name')),
      ...given('language', before?.language ?? row.text('language')),
      ...given('readingDirection', direction === 'ltr' || direction === 'rtl' ? direction : undefined),
      ...given('calendar', before?.calendar ?? row.text('calendar')),
      ...given('patterns', patterns.length === 0 ? undefined : patterns),
    });
  }
  return [...titles.values()];
}

const REEL_COLUMNS = ['number', 'reel', 'position', 'film base', 'polarity', 'generation', 'reduction', 'notes'] as const;

function readReels(sheet: WrittenSheet, dictionary: ReadonlyMap<string, string>, complaints: Complaints): Omit<ReelEntry, 'frames'>[] {
  return rowsOf(sheet, REEL_COLUMNS, dictionary, complaints).flatMap((row) => {
    const number = row.text('number') ?? row.text('reel');
    if (number === undefined) {
      row.complain('number', 'the reel has no number.');
      return [];
    }
    const position = row.text('position')?.toUpperCase().replace(/^II/, '2').replace(/^I/, '1');
    const known = (['1A', '1B', '2A', '2B'] as const).find((one) => one === position);
    if (position !== undefined && known === undefined)
      row.complain('position', `"${position}" is no image position; write 1A, 1B, 2A or 2B.`);
    return [
      {
        number,
        ...given('position', known),
        ...given('filmBase', row.text('film base')),
        ...given('polarity', row.text('polarity')),
        ...given('generation', row.text('generation')),
        ...given('reduction', row.text('reduction')),
        ...given('notes', row.text('notes')),
      },
    ];
  });
}

/** Titles of the titles sheet, and those that only frames name. */
function allTitles(
  titles: readonly TitleEntry[],
  reels: readonly { frames: readonly FrameEntry[]; absent: readonly AbsentEntry[] }[],
): TitleEntry[] {
  const found = new Map<string, TitleEntry>();
  for (const title of titles) if (!found.has(titleId(title.id) ?? title.id)) found.set(titleId(title.id) ?? title.id, title);
  for (const { frames, absent } of reels) {
    for (const entry of [...frames, ...absent]) {
      const id = entry.title === undefined ? null : titleId(entry.title);
      if (id !== null && !found.has(id)) found.set(id, { id: entry.title ?? id });
    }
  }
  return [...found.values()];
}

/** A record without frames, or with one number on two frames of a reel, cannot be aligned with anything. */
function checkReels(record: CollationRecord, written: WrittenRecord, complaints: Complaints): void {
  const file = written.sheets[0]?.file ?? written.records[0]?.name ?? 'the record';
  if (record.reels.every((reel) => reel.frames.length === 0)) {
    complaints.problems.push({
      file,
      sheet: file,
      row: null,
      column: null,
      says: 'the record holds no frame; there is nothing to compare a return with.',
    });
  }
  const dated = record.reels.flatMap((reel) => reel.frames).some((frame) => (frame.kind ?? 'page') === 'page' && frame.date !== undefined);
  if (!dated && complaints.problems.length === 0)
    complaints.problems.push({ file, sheet: file, row: null, column: 'date', says: 'no page of the record has a date.' });
  for (const reel of record.reels) {
    const seen = new Set<string>();
    for (const frame of reel.frames) {
      const number = readFrameNumber(frame.frame);
      if (number === null) {
        complaints.problems.push({
          file,
          sheet: reel.number,
          row: null,
          column: 'frame',
          says: `reel ${reel.number}: "${frame.frame}" is no frame number.`,
        });
        continue;
      }
      const key = frameKey(number);
      if (seen.has(key))
        complaints.problems.push({
          file,
          sheet: reel.number,
          row: null,
          column: 'frame',
          says: `reel ${reel.number} has the frame ${frame.frame} twice; each frame of a reel has its own number.`,
        });
      seen.add(key);
    }
  }
}
