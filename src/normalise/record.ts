import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry, TitleEntry } from '../model/collation-record.js';
import type { Place, Side } from '../model/film.js';
import type { HeadedRecord, SheetProblem, WrittenSheet } from '../model/written-sheet.js';
import { byCause } from './by-cause.js';
import { readFrameSheet } from './frame-sheet.js';
import { readIssueSheet } from './issue-sheet.js';
import { withOrders } from './page-order.js';
import { checkRecord } from './record-checks.js';
import { issueKeys } from './record-issues.js';
import { mergeReels, type Placed, type ReelParts, type SheetEntries } from './record-parts.js';
import { type RecordPlaces, sideOfRecord } from './record-side.js';
import { readReels, readTitles } from './record-titles.js';
import { type Complaints, headerKey, sheetInWords } from './sheet-row.js';
import { tidyRecord } from './tidy-record.js';
import { resolveTitles } from './title-names.js';
import { checkWeekdays } from './weekday-column.js';

/** A record that was understood: in canonical form, as a side, with what is wrong and what is worth knowing. With problems it must not be used. */
export interface NormalisedRecord {
  readonly record: CollationRecord;
  readonly side: Side;
  readonly problems: readonly SheetProblem[];
  readonly warnings: readonly string[];
}

type SheetKind = 'frames' | 'issues' | 'titles' | 'reels';

/**
 * Understands what was written, whatever form it has; reels of several files are matched by number. The record that comes out holds what
 * was written, with the orders of pages filled in.
 */
export function normaliseRecord(written: HeadedRecord): NormalisedRecord {
  const complaints: Complaints = { problems: [], remarks: [], warnings: [] };
  const records = written.records.map(({ name, record }) => ({ name, record: tidyRecord(record) }));
  const kinds = written.sheets.map((sheet) => ({ sheet, kind: kindOf(sheet) }));
  for (const { sheet, kind } of kinds) {
    if (kind === null) continue;
    // One by one: as arguments of one call they can be more than the stack holds.
    for (const problem of sheet.problems) complaints.problems.push(problem);
    for (const warning of sheet.warnings) complaints.warnings.push(warning);
  }
  const listedTitles: TitleEntry[] = records.flatMap(({ record }) => record.titles);
  const listedReels: Omit<ReelEntry, 'frames' | 'absent'>[] = [];
  const sheets: SheetEntries[] = [];
  for (const { sheet, kind } of kinds) {
    if (kind === 'titles') for (const title of readTitles(sheet, complaints)) listedTitles.push(title);
    else if (kind === 'reels') for (const reel of readReels(sheet, complaints)) listedReels.push(reel);
    else if (kind === null) {
      // A workbook often holds notes or sums beside; only what stands alone must be a sheet of a record.
      if (kinds.some((other) => (other.kind === 'frames' || other.kind === 'issues') && other.sheet.file === sheet.file))
        complaints.warnings.push(passedOver(sheet));
      else complaints.problems.push(unknownSheet(sheet));
    } else {
      const entries = kind === 'frames' ? readFrameSheet(sheet, complaints) : readIssueSheet(sheet, complaints);
      if (sheet.rows.length === 0) complaints.problems.push(inSheet(sheet, 'the sheet has column names but no rows.'));
      sheets.push({ file: sheet.file, sheet: sheet.sheet, entries });
    }
  }
  const merged = mergeReels(records, sheets, listedReels, complaints.warnings);
  const { reels, titles } = resolveTitles(merged, listedTitles, complaints, written.calendar);
  for (const { sheet, kind } of kinds) if (kind === 'frames' || kind === 'issues') checkWeekdays(sheet, titles, complaints);
  const files = [...new Set([...records.map(({ name }) => name), ...written.sheets.map(({ file }) => file)])].join(', ');
  const inSheets = complaints.problems.length;
  const only = titles.length === 1 ? (titles[0]?.id ?? null) : null;
  const entries = reels.map(entryOf);
  const keys = issueKeys(entries, only);
  checkRecord(reels, titles, { files: files === '' ? 'the record' : files, keys }, complaints);
  const problems = complaints.problems.map((problem, at) => (at < inSheets ? problem : underOwnHead(problem, written.sheets)));
  const record: CollationRecord = { format: 'reeltally/collation-record/2', titles, reels: withOrders(entries, keys) };
  const warnings = [...complaints.warnings, ...byCause(complaints.remarks)];
  return { record, side: sideOfRecord(record, keys, placesOf(reels)), problems, warnings };
}

/** A problem that names a column of ours by the head that stands above it in its sheet. */
function underOwnHead(problem: SheetProblem, sheets: readonly WrittenSheet[]): SheetProblem {
  const { file, sheet, column } = problem;
  const own = sheets.find((one) => one.file === file && one.sheet === sheet);
  if (own?.means === undefined || column === null) return problem;
  const keys = [column, ...(column === 'frame' ? ['first frame'] : [])].map(headerKey);
  const at = own.means.findIndex((field) => field !== null && keys.includes(headerKey(field)));
  return { ...problem, column: own.headers[at]?.trim() ?? column };
}

function kindOf(sheet: WrittenSheet): SheetKind | null {
  if (sheet.use !== undefined) return sheet.use;
  const heads = new Set(sheet.headers.map(headerKey));
  const name = headerKey(sheet.sheet);
  if (heads.has('frame')) return 'frames';
  if (heads.has('pages') || heads.has('firstframe')) return 'issues';
  if (name.endsWith('titles') && (heads.has('id') || heads.has('title'))) return 'titles';
  return name.endsWith('reels') && (heads.has('number') || heads.has('reel')) ? 'reels' : null;
}

function unknownSheet(sheet: WrittenSheet): SheetProblem {
  const heads = sheet.headers.slice(0, 6).map((header) => `"${header.trim().slice(0, 40)}"`);
  return inSheet(
    sheet,
    `the columns (${heads.join(', ')}) are those of no sheet of a record. A frame sheet has a column "frame", an issue sheet has "first frame" and "pages"; sheets named titles and reels have "id" and "number". Where the library's heads have other names, run "reeltally collation read" with the file: it asks once what each means.`,
  );
}

function passedOver(sheet: WrittenSheet): string {
  return `${sheetInWords(sheet)}: its columns are those of no sheet of a record, so the sheet is not read.`;
}

function inSheet(sheet: WrittenSheet, says: string): SheetProblem {
  return { file: sheet.file, sheet: sheet.sheet, row: sheet.headRow ?? 1, column: null, says };
}

function entryOf({ facts, frames, absent }: ReelParts): ReelEntry {
  const absences: readonly AbsentEntry[] = absent.map(({ entry }) => entry);
  const shots: readonly FrameEntry[] = frames.map(({ entry }) => entry);
  return { ...facts, frames: shots, ...(absences.length === 0 ? {} : { absent: absences }) };
}

/** The name of a sheet in places of the record: a CSV file is its own sheet; that of a workbook needs both names. */
export function sheetPlace({ file, sheet }: { readonly file: string; readonly sheet: string }): string {
  return file.startsWith(`${sheet}.`) ? file : `${sheet} (${file})`;
}

/** Where each frame and absence stands in a sheet; canonical JSON has no rows. */
function placesOf(reels: readonly ReelParts[]): RecordPlaces {
  return reels.map(({ frames, absent }) => ({ frames: placesIn(frames), absent: placesIn(absent) }));
}

function placesIn(list: readonly Placed<unknown>[]): readonly Place[] {
  let [file, sheet, name] = ['', '', ''];
  return list.map((placed): Place => {
    if (placed.row === null) return NOWHERE;
    if (placed.file !== file || placed.sheet !== sheet || name === '') {
      ({ file, sheet } = placed);
      name = sheetPlace(placed);
    }
    return { sheet: name, row: placed.row };
  });
}

const NOWHERE: Place = {};
