import type { AbsentEntry, FrameEntry } from '../model/collation-record.js';
import { oneOf, type Row } from './sheet-row.js';

/** What one row of a sheet adds to a reel. `reel` is null where neither the row nor one above it names the reel. */
export interface SheetEntry {
  readonly reel: string | null;
  readonly row: number;
  readonly frame: FrameEntry | null;
  readonly absent: AbsentEntry | null;
}

/** The note, with the cells of unknown columns behind it. */
export function noteOf(row: Row): string | undefined {
  const parts = [row.text('note'), ...row.others].filter((part) => part !== undefined);
  return parts.length === 0 ? undefined : parts.join('; ');
}

/** Whether something absent came out at all. */
export function publishedOf(row: Row): AbsentEntry['published'] {
  return oneOf(row, 'published', ['yes', 'no', 'unknown'], 'answer to whether it was published');
}

/** A property only where there is a value: absent cells leave no trace in the record. */
export function given<K extends string, const V>(key: K, value: V | undefined): { readonly [P in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [P in K]?: V });
}
