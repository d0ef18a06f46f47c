import { DOCUMENT_ROWS, PATH_ROWS } from './documents.js';
import { JSON_ROWS } from './json.js';
import { PATTERN_ROWS } from './patterns.js';
import type { Row } from './row.js';
import { SHEET_ROWS } from './sheets.js';
import { WRITING_ROWS } from './writing.js';

/** Every row of the table. */
export const ROWS: readonly Row[] = [...DOCUMENT_ROWS, ...SHEET_ROWS, ...JSON_ROWS, ...PATH_ROWS, ...WRITING_ROWS, ...PATTERN_ROWS];
