import type { CollationRecord } from '../model/collation-record.js';
import { byCause } from '../normalise/by-cause.js';
import { normaliseRecord } from '../normalise/record.js';
import { canonicalJson } from './canonical-json.js';
import { frameTable } from './frame-table.js';
import { issueRefusals } from './issue-refusals.js';
import { issueTable } from './issue-table.js';
import { reelTable, titleTable } from './list-tables.js';
import { settledRecord } from './settled.js';
import { type Carrier, CSV, csvOf, sheetOf, type Table, tooLong, WORKBOOK } from './table.js';
import { whatDiffers } from './what-differs.js';

/** The forms in which a collation record can be written. */
export const RECORD_FORMS = ['json', 'frame-sheet', 'issue-sheet'] as const;
export type RecordForm = (typeof RECORD_FORMS)[number];

/** A record in another form: its files, or what that form cannot hold, in sentences. Never both. */
export interface Converted {
  readonly files: readonly { readonly name: string; readonly text: string }[];
  readonly refusals: readonly string[];
}

/** Names of all files that a conversion can write. */
export const RECORD_FILES = ['collation-record.json', 'frames.csv', 'issues.csv', 'titles.csv', 'reels.csv'] as const;

/**
 * Writes a record, as `normaliseRecord` gives it, in another form. What is written as sheets is read again before it is handed over, so
 * that nothing is lost without a word.
 */
export function convertRecord(record: CollationRecord, form: RecordForm): Converted {
  if (form === 'json') return { files: [{ name: RECORD_FILES[0], text: canonicalJson(record) }], refusals: [] };
  const { tables, refusals } = recordTables(record, form, CSV);
  return { files: tables.map((table) => ({ name: `${table.name}.csv`, text: csvOf(table) })), refusals };
}

/** A record as sheets of one workbook, or what they cannot hold. Never both. The cells are to be written as they are, as text. */
export function convertToWorkbook(
  record: CollationRecord,
  form: Exclude<RecordForm, 'json'>,
): {
  readonly sheets: readonly { readonly name: string; readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] }[];
  readonly refusals: readonly string[];
} {
  const { tables, refusals } = recordTables(record, form, WORKBOOK);
  return {
    sheets: tables.map(({ name, heads, rows }) => ({ name, heads, rows: rows.map((cells) => cells.map(WORKBOOK.written)) })),
    refusals,
  };
}

/** The record as tables that were read back and hold all of it, or what they cannot hold. Never both. */
export function recordTables(
  record: CollationRecord,
  form: Exclude<RecordForm, 'json'>,
  carrier: Carrier,
): { readonly tables: readonly Table[]; readonly refusals: readonly string[] } {
  const settled = settledRecord(record);
  const refusals = [...emptyReels(record), ...(form === 'issue-sheet' ? issueRefusals(settled) : [])];
  if (refusals.length > 0) return { tables: [], refusals };
  const tables = [form === 'frame-sheet' ? frameTable(record) : issueTable(settled), titleTable(record), reelTable(record)];
  const lost = [...tables.flatMap((table) => tooLong(table, carrier)), ...whatIsLost(settled, tables, carrier)];
  return lost.length > 0 ? { tables: [], refusals: lost } : { tables, refusals: [] };
}

function emptyReels(record: CollationRecord): readonly string[] {
  return record.reels
    .filter(({ frames, absent }) => frames.length === 0 && (absent ?? []).length === 0)
    .map(({ number }) => `reel ${number}: a sheet cannot hold a reel without any frame.`);
}

function whatIsLost(settled: CollationRecord, tables: readonly Table[], carrier: Carrier): readonly string[] {
  const { record, problems } = normaliseRecord({ sheets: tables.map((table) => sheetOf(table, carrier)), records: [] });
  if (problems.length > 0) return byCause(problems);
  return whatDiffers(settled, settledRecord(record));
}
