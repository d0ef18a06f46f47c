import type { BookCell, BookRow } from '../model/written-grid.js';
import { plainText } from '../normalise/labels.js';
import { headerKey } from '../normalise/sheet-row.js';
import type { ColumnPlan } from './columns.js';
import { isDitto } from './ditto.js';
import type { Heads } from './heads.js';
import { MONTH, YEAR } from './names.js';
import { type AnyRow, isPlain, type PlainRow, type ReadRow } from './read-row.js';
import { TOTAL } from './rows.js';
import { type Ways, wordKey } from './ways.js';

/** What a cell is that says nothing beyond its column: its text there, and whether it may be the name of the column. */
interface PlainCell {
  readonly text: string;
  readonly named: boolean;
}

/** What above and between the rows makes a row say more than stands in it. */
export interface Around {
  readonly reel: boolean;
  readonly heading: boolean;
}

/** How a sheet is read, and the reading of one cell alone: its text in our column, null where it says anything more. */
export interface PlainWays {
  readonly plans: readonly ColumnPlan[];
  readonly heads: Heads;
  readonly ways: Ways;
  readonly alone: (cell: BookCell, row: BookRow) => string | null;
}

/** So many texts of a column are kept in mind. */
const MOST = 20_000;

/**
 * Reads plain rows; null for any other, which is read cell by cell. The texts of a column come again and again: what each says alone is found out once.
 * Null for a sheet in which what stands in a cell may depend on others.
 */
export function plainReader(how: PlainWays): ((row: BookRow, around: Around) => PlainRow | null) | null {
  const { plans, ways } = how;
  const fields = plans.flatMap((plan) => plan.fields);
  if (plans.some((plan) => plan.fields.length > 1) || new Set(fields).size < fields.length) return null;
  const places = new Map(plans.flatMap(({ column, fields: [field] }) => (field === undefined ? [] : [[field, column] as const])));
  const known = plans.map((): Map<string, PlainCell | null> => new Map());
  const [reel, title, frame] = ['reel', 'title', 'frame'].map((field) => places.get(field) ?? -1) as [number, number, number];
  const held = plans.filter(({ below }) => below === 'as above').map(({ column }) => column);
  const cellOf = (cell: BookCell, row: BookRow): PlainCell | null => {
    const texts = known[cell.column];
    if (texts === undefined) return null;
    // No text has such a character in it.
    const key = cell.kind === 'text' ? cell.value : `\0${cell.kind}\0${cell.value}`;
    const before = texts.get(key);
    if (before !== undefined) return before;
    const found = plainCell(cell, row, how);
    if (texts.size >= MOST) texts.clear();
    texts.set(key, found);
    return found;
  };
  return (row, around) => {
    const texts = new Array<string>(plans.length).fill('');
    let typed: BookCell[] | null = null;
    let [filled, named] = [0, 0];
    for (const cell of row.cells) {
      if (cell.formula !== null || cell.struck || cell.comment !== null) return null;
      if (ways.colours.size > 0 && (cell.colour !== null || cell.ink !== null)) return null;
      if (cell.kind === 'text' ? cell.value.trim() === '' : cell.value === '') {
        if (cell.kind !== 'text') return null;
        continue;
      }
      const plain = cellOf(cell, row);
      if (plain === null) return null;
      filled += 1;
      if (plain.named && cell.kind === 'text') named += 1;
      texts[cell.column] = plain.text;
      if (cell.kind !== 'text') (typed ??= []).push(cell);
    }
    // Of a row with one text alone, or with the names of the columns, it is to be asked what it is.
    if (filled < 2 || named === filled || around.heading) return null;
    const lacks = (column: number): boolean => (texts[column] ?? '') === '';
    if ((around.reel && lacks(reel)) || (ways.titles.has('') && lacks(title)) || (ways.counted && lacks(frame)) || held.some(lacks))
      return null;
    return { row, texts, typed: typed ?? NONE, places };
  };
}

const NONE: readonly BookCell[] = [];

/** Kinds that say something of the row beside what it shows. */
const OF_THE_ROW: ReadonlySet<string> = new Set(['not on the film', 'held back', 'supplement']);

function plainCell(cell: BookCell, row: BookRow, { plans, heads, ways, alone }: PlainWays): PlainCell | null {
  const plan = plans[cell.column];
  const shown = plainText(cell.value) ?? '';
  if (plan === undefined || TOTAL.test(shown) || shown.endsWith(':')) return null;
  // What completes a day is read with it.
  if (plan.fields.some((field) => field === YEAR || field === MONTH)) return null;
  if (ways.ditto === 'as above' && isDitto(cell.value)) return null;
  if (ways.words.get('note')?.has(wordKey(cell.value)) === true && (plan.note || plan.fields[0] === 'note')) return null;
  const text = alone(cell, row);
  if (text === null || text === '' || (plan.fields[0] === 'kind' && OF_THE_ROW.has(text))) return null;
  const name = headerKey(heads.names[cell.column] ?? '');
  return { text: plan.note || plan.fields.length > 0 ? text : '', named: name !== '' && name.endsWith(headerKey(cell.value)) };
}

/** The row as it would have been read cell by cell. */
export function wholeRow(row: AnyRow, plans: readonly ColumnPlan[]): ReadRow {
  if (!isPlain(row)) return row;
  const cells = new Map(row.row.cells.filter(({ value }) => value.trim() !== '').map((cell) => [cell.column, cell]));
  const [facts, typed] = [new Map<string, string>(), new Map<string, BookCell>()];
  for (const { column, fields } of plans) {
    const [field] = fields;
    const text = row.texts[column] ?? '';
    if (field === undefined || text === '') continue;
    const cell = row.typed.find((one) => one.column === column);
    if (cell === undefined) facts.set(field, text);
    else typed.set(field, cell);
  }
  return { row: row.row, cells, facts, typed, stated: [] };
}
