import type { AbsentEntry, FrameEntry } from '../model/collation-record.js';
import type { FrameNumber } from '../model/film.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { frameKey, labelKey, readFrameNumber, reelNumber, titleId } from './labels.js';
import { type PagesItem, readPages } from './pages-notation.js';
import { given, notedFacts, noteOf, OF_PAPER, printedFacts, publishedOf, type SheetEntry } from './sheet-entry.js';
import { type Complaints, frameNumber, label, quoted, type Row, realDate, rowsOf, wholeNumber, yesNo } from './sheet-row.js';
import { WEEKDAY_COLUMN } from './weekday-column.js';

/** Columns of an issue sheet, in the order in which we write them. */
export const ISSUE_COLUMNS = [
  'reel',
  'first frame',
  'title',
  'date',
  'combined with',
  'date to',
  'date printed',
  'date printed judged',
  'judged by',
  'weekday printed',
  'title printed',
  'edition',
  'edition label',
  'volume',
  'issue number',
  'issue number intended',
  'source reel',
  'supplement',
  'pages',
  'condition',
  'published',
  'note',
] as const;

/** As many as a frame sheet can have rows. */
const MOST_FRAMES = 200_000;
const LAST_EDITION = 999;

/** `again`: the row of a page that is delivered although it repeats another. */
interface IssueEntry extends SheetEntry {
  readonly again?: Row | null;
}

/** What people write where there is no page: common practice, no source. No paper calls a page so. */
const NO_PAGES = /^(?:none|nil|0|no pages?|missing|wanting|lacking|not on (?:the )?film|keine|fehlt|aucune?|manque|[-\u2013\u2014])$/i;

/** True for a pages cell that says no more than that there is no page. */
export function saysNoPages(cell: string): boolean {
  return NO_PAGES.test(cell);
}

/** Reads an issue sheet: a row per issue, whose `pages` lists what the camera saw. Frame numbers run on from row to row of a reel. */
export function readIssueSheet(sheet: WrittenSheet, complaints: Complaints): readonly SheetEntry[] {
  const next = new Map<string, FrameNumber>();
  const counter = (reel: string | null): { take: () => FrameNumber; jump: (frame: string) => void } => {
    const key = reelNumber(reel ?? '') ?? '';
    return {
      take: () => {
        const number = next.get(key) ?? FIRST;
        next.set(key, following(number));
        return number;
      },
      jump: (frame) => next.set(key, readFrameNumber(frame) ?? FIRST),
    };
  };
  let reel: string | null = null;
  let frameCount = 0;
  const entries = rowsOf(sheet, [...ISSUE_COLUMNS, WEEKDAY_COLUMN], complaints).flatMap((row): readonly IssueEntry[] => {
    // An empty reel cell belongs to the reel above it.
    reel = label(row, 'reel') ?? reel;
    const written = row.text('pages');
    const pages = label(row, 'pages');
    const first = frameNumber(row, 'first frame');
    if (written === undefined) return absentIssue(row, reel);
    if (saysNoPages(written)) {
      complaints.remarks.push({
        file: sheet.file,
        sheet: sheet.sheet,
        row: row.row,
        column: 'pages',
        held: quoted(written),
        says: 'is read as an empty cell: nothing of the issue is on the film.',
      });
      return absentIssue(row, reel);
    }
    if (pages === undefined) return [];
    if (frameCount > MOST_FRAMES) return [];
    const frames = counter(reel);
    if (first !== undefined) {
      if (/^\d+[AB]?$/.test(first)) frames.jump(first);
      else row.complain('first frame', 'cannot begin a row: an exposure is split into the halves A and B.', quoted(first));
    }
    const { items, faults } = readPages(pages);
    for (const { part, says } of faults) row.complain('pages', `${says}.`, quoted(part));
    frameCount += items.length;
    if (frameCount > MOST_FRAMES)
      row.complain(
        'pages',
        `makes more than ${String(MOST_FRAMES)} frames with the rows above; give the reels of one order, each order by itself.`,
      );
    return entriesOf(row, reel, items, frames);
  });
  return withDuplicates(entries);
}

const FIRST: FrameNumber = { text: '1', exposure: 1, half: '' };

/** The frame behind: whole exposures run 12, 13; halves run 12A, 12B, 13A. */
export function following({ exposure, half }: FrameNumber): FrameNumber {
  const next = half === 'A' ? { exposure, half: 'B' } : { exposure: exposure + 1, half: half === '' ? '' : 'A' };
  return { ...next, text: `${next.exposure}${next.half}` };
}

function entriesOf(
  row: Row,
  reel: string | null,
  items: readonly PagesItem[],
  frames: { readonly take: () => FrameNumber; readonly jump: (frame: string) => void },
): readonly IssueEntry[] {
  const issue = issueFacts(row);
  const hasPages = items.some((item) => item.is === 'absent' || item.is === 'page');
  if (hasPages && row.text('date') === undefined) row.complain('date', 'this row lists pages but has no date; write the day of the issue.');
  if (row.text('published') !== undefined)
    row.complain(
      'published',
      'this row lists pages, so the issue was published; leave the cell empty, or mark a page that was not as [5-].',
    );
  if (row.text('date to') !== undefined)
    row.complain(
      'date to',
      'this row lists pages, and an issue has one date; a span of days belongs to absent issues, which list no pages.',
    );
  let note = noteOf(row);
  const conditions = conditionsIn(row, items);
  const entries: IssueEntry[] = [];
  for (const item of items) {
    if (item.is === 'jump') {
      frames.jump(item.frame);
      continue;
    }
    if (item.is === 'absent') {
      const { label: page, section, published } = item;
      const { title, date = '', combinedWith, edition } = issue;
      const absent: AbsentEntry = {
        ...given('title', title),
        date,
        ...given('combinedWith', combinedWith),
        ...given('edition', edition),
        ...given('section', section ?? undefined),
        page,
        published,
      };
      entries.push({ reel, row: row.row, frame: null, absent });
      continue;
    }
    const frame = frameKey(frames.take());
    // A note about the row is kept with its first frame.
    const again = item.is === 'page' && item.again ? row : null;
    const condition = item.is === 'page' ? given('condition', conditions.get(labelKey(item.label)) ?? conditions.get('')) : {};
    entries.push({
      reel,
      row: row.row,
      frame: { ...frameOf(item, issue), frame, ...condition, ...given('note', note) },
      absent: null,
      again,
    });
    note = undefined;
  }
  if (note !== undefined && hasPages)
    return entries.map((entry, at) => (at === 0 && entry.absent !== null ? { ...entry, absent: { ...entry.absent, note } } : entry));
  return entries;
}

/** `3: torn, stained; 5: clipped` by the key of the label; words without a page are of every page of the row, under the empty key. */
function conditionsIn(row: Row, items: readonly PagesItem[]): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, readonly string[]>();
  const labels = new Set(items.flatMap((item) => (item.is === 'page' ? [labelKey(item.label)] : [])));
  for (const part of (row.text('condition') ?? '').split(';')) {
    const [, label, text = part] = /^\s*([^:]{1,40}):(.*)$/.exec(part) ?? [];
    const key = label === undefined ? '' : labelKey(label.trim());
    const words = text
      .split(',')
      .map((word) => word.trim())
      .filter((word) => word !== '');
    if (words.length === 0) continue;
    if (label !== undefined && !labels.has(key))
      row.complain(
        'condition',
        'is said of a page that the row does not have on the film; write a label of its pages, such as 3: torn.',
        quoted(part.trim()),
      );
    else found.set(key, [...(found.get(key) ?? []), ...words]);
  }
  return found;
}

function frameOf(
  item: Exclude<PagesItem, { readonly is: 'absent' | 'jump' }>,
  issue: Omit<FrameEntry, 'frame'>,
): Omit<FrameEntry, 'frame'> {
  if (item.is === 'other') return { kind: item.kind, deliver: false, ...given('sourceReel', issue.sourceReel) };
  return {
    kind: 'page',
    deliver: item.deliver,
    ...issue,
    ...given('section', item.section ?? undefined),
    page: item.label,
    ...given('pagePrinted', item.printed ?? undefined),
    ...given('duplicateOf', item.duplicateOf ?? undefined),
  };
}

function issueFacts(row: Row): Omit<FrameEntry, 'frame'> {
  return {
    ...given('title', label(row, 'title')),
    ...given('date', realDate(row, 'date')),
    ...given('combinedWith', realDate(row, 'combined with')),
    ...printedFacts(row),
    ...given('edition', wholeNumber(row, 'edition', LAST_EDITION)),
    ...given('editionLabel', row.text('edition label')),
    ...given('volume', label(row, 'volume')),
    ...given('issueNumber', label(row, 'issue number')),
    ...given('issueNumberIntended', label(row, 'issue number intended')),
    ...given('sourceReel', label(row, 'source reel')),
    ...given('supplement', yesNo(row, 'supplement')),
  };
}

/** What the record holds of an issue by its pages alone. */
const OF_PAGES_ONLY = [...OF_PAPER, 'source reel', 'condition'];

function absentIssue(row: Row, reel: string | null): readonly SheetEntry[] {
  const date = realDate(row, 'date');
  if (row.text('first frame') !== undefined) {
    row.complain('pages', 'this row has a first frame but no pages; list what the camera saw, such as 1-8.');
    return [];
  }
  if (row.text('date') === undefined)
    row.complain('pages', 'this row has neither pages nor a date; list the pages, or give the date of an absent issue.');
  if (date === undefined) return [];
  const absent: AbsentEntry = {
    date,
    ...given('title', label(row, 'title')),
    ...given('combinedWith', realDate(row, 'combined with')),
    ...given('dateTo', realDate(row, 'date to')),
    ...given('edition', wholeNumber(row, 'edition', LAST_EDITION)),
    ...given('published', publishedOf(row)),
    ...given('note', noteOf(row, notedFacts(row, OF_PAGES_ONLY))),
  };
  return [{ reel, row: row.row, frame: null, absent }];
}

/**
 * A held-back page whose label another frame of its issue and reel delivers is a duplicate of that frame, unless `=` says another. A duplicate
 * that is delivered too must have such a frame, or name it.
 */
function withDuplicates(entries: readonly IssueEntry[]): readonly SheetEntry[] {
  const mayRepeat = ({ frame, again = null }: IssueEntry): boolean => frame?.kind === 'page' && (frame.deliver === false || again !== null);
  if (!entries.some(mayRepeat)) return entries;
  const delivered = new Map<string, string[]>();
  const keyOf = ({ reel, frame }: SheetEntry): string =>
    JSON.stringify([
      reelNumber(reel ?? ''),
      titleId(frame?.title ?? ''),
      frame?.date,
      frame?.edition ?? 1,
      frame?.supplement === true,
      frame?.section,
      labelKey(frame?.page ?? ''),
    ]);
  for (const entry of entries) {
    if (entry.frame?.kind !== 'page' || entry.frame.deliver !== true || (entry.again ?? null) !== null) continue;
    const key = keyOf(entry);
    delivered.set(key, [...(delivered.get(key) ?? []), entry.frame.frame]);
  }
  return entries.map(({ again = null, ...entry }) => {
    const { frame } = entry;
    if (frame?.kind !== 'page' || (frame.deliver !== false && again === null) || frame.duplicateOf !== undefined) return entry;
    const [twin, ...others] = delivered.get(keyOf(entry)) ?? [];
    if (twin !== undefined && others.length === 0) return { ...entry, frame: { ...frame, duplicateOf: twin } };
    again?.complain(
      'pages',
      'is a duplicate that is delivered too, but not one other frame alone shows that page of the issue; name the frame, such as d3=415.',
      quoted(`d${frame.page ?? ''}`),
    );
    return entry;
  });
}
