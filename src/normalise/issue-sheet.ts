import type { AbsentEntry, FrameEntry } from '../model/collation-record.js';
import type { FrameNumber } from '../model/film.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { given, noteOf, type SheetEntry } from './frame-sheet.js';
import { readFrameNumber } from './labels.js';
import { type PagesItem, readPages } from './pages-notation.js';
import { type Complaints, frameNumber, type Row, realDate, rowsOf, wholeNumber } from './sheet-row.js';

/** Columns of an issue sheet. */
export const ISSUE_COLUMNS = [
  'reel',
  'first frame',
  'title',
  'date',
  'date printed',
  'weekday printed',
  'edition',
  'edition label',
  'volume',
  'issue number',
  'pages',
  'published',
  'note',
] as const;

/** Reads an issue sheet: a row per issue, whose `pages` lists what the camera saw. Frame numbers run on from row to row of a reel. */
export function readIssueSheet(sheet: WrittenSheet, columns: ReadonlyMap<string, string>, complaints: Complaints): SheetEntry[] {
  const next = new Map<string, FrameNumber>();
  return rowsOf(sheet, ISSUE_COLUMNS, columns, complaints).flatMap((row): SheetEntry[] => {
    const reel = row.text('reel') ?? null;
    const first = frameNumber(row, 'first frame');
    const pages = row.text('pages');
    if (pages === undefined) return absentIssue(row, reel);
    if (first !== undefined) next.set(reel ?? '', readFrameNumber(first) ?? { text: '1', exposure: 1, half: '' });
    const { items, faults } = readPages(pages);
    for (const { part, says } of faults) row.complain('pages', `"${part.slice(0, 60)}" ${says}.`);
    return entriesOf(row, reel, items, next);
  });
}

function entriesOf(row: Row, reel: string | null, items: readonly PagesItem[], next: Map<string, FrameNumber>): SheetEntry[] {
  const key = reel ?? '';
  const issue = issueFacts(row);
  const isIssue = items.some((item) => item.is === 'absent' || (item.is === 'frame' && item.kind === 'page'));
  if (isIssue && issue.date === undefined && row.text('date') === undefined) row.complain('date', 'this row lists pages but has no date.');
  const note = noteOf(row);
  let noted = note === undefined;
  const entries: SheetEntry[] = [];
  for (const item of items) {
    if (item.is === 'number') {
      next.set(key, readFrameNumber(item.frame) ?? { text: item.frame, exposure: 1, half: '' });
      continue;
    }
    if (item.is === 'absent') {
      const absent: AbsentEntry = {
        ...given('title', issue.title),
        ...given('edition', issue.edition),
        date: issue.date ?? '',
        page: item.label,
        published: item.published,
        ...given('section', item.section ?? undefined),
      };
      entries.push({ reel, row: row.row, frame: null, absent });
      continue;
    }
    const number = next.get(key) ?? { text: '1', exposure: 1, half: '' };
    next.set(key, following(number));
    const text = `${String(number.exposure)}${number.half}`;
    const frame: FrameEntry = {
      frame: text,
      kind: item.kind,
      deliver: item.deliver,
      ...(item.kind === 'page' ? issue : {}),
      ...given('section', item.section ?? undefined),
      ...given('page', item.label ?? undefined),
      ...given('pagePrinted', item.printed ?? undefined),
      ...given('duplicateOf', item.duplicateOf ?? undefined),
      ...given('note', noted ? undefined : note),
    };
    noted = true;
    entries.push({ reel, row: row.row, frame, absent: null });
  }
  return entries;
}

function issueFacts(row: Row): Omit<FrameEntry, 'frame'> {
  return {
    ...given('title', row.text('title')),
    ...given('date', realDate(row, 'date')),
    ...given('datePrinted', row.text('date printed')),
    ...given('weekdayPrinted', row.text('weekday printed')),
    ...given('edition', wholeNumber(row, 'edition')),
    ...given('editionLabel', row.text('edition label')),
    ...given('volume', row.text('volume')),
    ...given('issueNumber', row.text('issue number')),
  };
}

function absentIssue(row: Row, reel: string | null): SheetEntry[] {
  const date = realDate(row, 'date');
  if (date === undefined) {
    if (row.text('date') === undefined)
      row.complain('pages', 'this row has neither pages nor a date; list the pages, or give the date of an absent issue.');
    return [];
  }
  const published = row.text('published')?.toLowerCase();
  if (published !== undefined && published !== 'yes' && published !== 'no' && published !== 'unknown')
    row.complain('published', `"${published}" is neither yes, no nor unknown.`);
  const absent: AbsentEntry = {
    date,
    ...given('title', row.text('title')),
    ...given('edition', wholeNumber(row, 'edition')),
    ...given('published', published === 'yes' || published === 'no' || published === 'unknown' ? published : undefined),
    ...given('note', noteOf(row)),
  };
  return [{ reel, row: row.row, frame: null, absent }];
}

/** 12 is followed by 13, 12A by 12B, 12B by 13A. */
function following(number: FrameNumber): FrameNumber {
  if (number.half === '') return { text: String(number.exposure + 1), exposure: number.exposure + 1, half: '' };
  const half = number.half === 'A' ? 'B' : 'A';
  const exposure = half === 'B' ? number.exposure : number.exposure + 1;
  return { text: `${String(exposure)}${half}`, exposure, half };
}
