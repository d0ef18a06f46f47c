import { headerKey } from '../normalise/sheet-row.js';
import { columnName, type Heads } from './heads.js';
import { columnsOf, ourColumn, type SheetUse } from './names.js';
import { headMeanings } from './usual-heads.js';
import type { Ways } from './ways.js';

/** What one column of a sheet is read as. */
export interface ColumnPlan {
  readonly column: number;
  readonly head: string;
  /** Our columns, several for a joined one; none for what is a note or means nothing. */
  readonly fields: readonly string[];
  readonly note: boolean;
  readonly below: 'as above' | 'nothing' | null;
}

/** A sheet as it is laid out: its use, heads and columns, before a cell of it is read. */
export interface Layout {
  /** Null for a sheet that is none of a record. */
  readonly use: SheetUse | null;
  readonly heads: Heads;
  readonly plans: readonly ColumnPlan[];
}

/** The columns of a sheet, by the reading file where it says something of the head, else by the head itself. */
export function columnPlans({ names }: Heads, use: SheetUse, ways: Ways): readonly ColumnPlan[] {
  const known = new Set(columnsOf(use));
  return names.map((head, column): ColumnPlan => {
    const said = ways.columns.get(headerKey(columnName(names, column)));
    if (said !== undefined) {
      // The library's own column of notes is ours; any other that is kept as a note keeps its head in front.
      const isNotes =
        said.fields === null && headMeanings(head, use).fields[0] === 'note' && !names.some((name) => ourColumn(name) === 'note');
      const fields = isNotes ? ['note'] : (said.fields?.filter((field) => known.has(field)) ?? []);
      return { column, head, fields, note: said.fields === null && !isNotes, below: said.below };
    }
    const own = ourColumn(head);
    const fields = own !== null && known.has(own) ? [own] : [];
    return { column, head, fields, note: fields.length === 0, below: null };
  });
}

/** What a sheet is by its columns and name; null for one of no record. `means` gives our name of a head. */
export function useOf(names: readonly string[], sheet: string, means: (head: string) => readonly string[]): SheetUse | null {
  const fields = new Set(names.flatMap((name) => means(name)));
  const title = headerKey(sheet);
  if (fields.has('frame')) return 'frames';
  if (fields.has('pages') || fields.has('first frame')) return 'issues';
  if (title.endsWith('titles') && (fields.has('id') || fields.has('title'))) return 'titles';
  return title.endsWith('reels') && (fields.has('number') || fields.has('reel')) ? 'reels' : null;
}
