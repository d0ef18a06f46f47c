import { FRAME_COLUMNS } from '../normalise/frame-sheet.js';
import { ISSUE_COLUMNS } from '../normalise/issue-sheet.js';
import { REEL_COLUMNS, TITLE_COLUMNS } from '../normalise/record-titles.js';
import { headerKey } from '../normalise/sheet-row.js';
import { WEEKDAY_COLUMN } from '../normalise/weekday-column.js';

/** Our name, in a reading file alone, of a column that lists the pages of an issue that are not on the film. */
export const PAGES_WANTING = 'pages wanting';

/** Our name, in a reading file alone, of a column that counts the pages of an issue beside the one that gives them. */
export const PAGES_COUNTED = 'pages counted';

/** Our name, in a reading file alone, of a column that lists the pages of an issue that are held back. */
export const PAGES_HELD_BACK = 'pages held back';

/** What a sheet of a record can hold. */
export type SheetUse = 'frames' | 'issues' | 'titles' | 'reels';

const COLUMNS: Readonly<Record<SheetUse, readonly string[]>> = {
  frames: [...FRAME_COLUMNS, WEEKDAY_COLUMN],
  issues: [...ISSUE_COLUMNS, WEEKDAY_COLUMN],
  titles: [...TITLE_COLUMNS, 'title'],
  reels: [...REEL_COLUMNS, 'reel'],
};

/** Our name, in a reading file alone, of a column with the last frame of an issue. */
export const LAST_FRAME = 'last frame';

/** Our names, in a reading file alone, of columns that complete the days beside them. */
export const YEAR = 'year';
export const MONTH = 'month';

/** Columns that only a reading file can give a sheet: the record says the same in another way. */
const READ_ONLY: Readonly<Record<SheetUse, readonly string[]>> = {
  frames: [YEAR, MONTH],
  issues: [PAGES_WANTING, PAGES_HELD_BACK, PAGES_COUNTED, LAST_FRAME, YEAR, MONTH],
  titles: [],
  reels: [],
};

/** True for a column that only a reading file can give a sheet. */
export function isReadOnly(field: string): boolean {
  return Object.values(READ_ONLY).some((fields) => fields.includes(field));
}

const OURS: ReadonlyMap<string, string> = new Map(Object.values(COLUMNS).flatMap((names) => names.map((name) => [headerKey(name), name])));

/** Our column of that name, whatever its case, spaces, `_` and `-`; null for a head of the library's own. */
export function ourColumn(head: string): string | null {
  return OURS.get(headerKey(head)) ?? null;
}

/** Every column that a sheet of such a use can have. */
export function columnsOf(use: SheetUse): readonly string[] {
  return [...COLUMNS[use], ...READ_ONLY[use]];
}

/** Every name of ours. */
export function namesOfAll(): readonly string[] {
  return [...Object.values(COLUMNS).flat(), ...Object.values(READ_ONLY).flat()];
}
