/**
 * Sheets that stand beside a record in a workbook of ours and hold nothing of it. They are known by the text of their first cell, because
 * a spreadsheet program that saves each sheet as a CSV file gives it a name of its own.
 */
export const COMPANIONS = {
  guide: { name: 'how to fill in', first: 'How to fill in this record' },
  calendar: { name: 'calendar', first: 'Calendar of the issues' },
} as const;

/** True for a sheet that begins with this text and is no part of a record. */
export function isCompanion(first: string): boolean {
  const text = first.trim();
  return Object.values(COMPANIONS).some((companion) => companion.first === text);
}
