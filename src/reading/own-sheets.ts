import type { WrittenGrid } from '../model/written-grid.js';
import { isCompanion } from '../normalise/companion-sheets.js';

/** False for the calendar and the guide that our own workbooks have beside the record. */
export function isRecord({ sheet }: WrittenGrid): boolean {
  return !isCompanion(sheet.rows[0]?.cells[0]?.value ?? '');
}
