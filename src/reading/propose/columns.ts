import { isEditionName } from '../../calendar/edition-names.js';
import type { BookCell, WrittenGrid } from '../../model/written-grid.js';
import type { BookFacts } from '../../model/written-sheet.js';
import { readDayCell } from '../../normalise/day-cell.js';
import { readFrameNumber } from '../../normalise/labels.js';
import { readPages } from '../../normalise/pages-notation.js';
import { headerKey } from '../../normalise/sheet-row.js';
import { frameRange } from '../frame-ranges.js';
import { columnName, type Heads } from '../heads.js';
import { columnsOf, MONTH, ourColumn, PAGES_COUNTED, PAGES_HELD_BACK, PAGES_WANTING, type SheetUse } from '../names.js';
import { dateForm, isDayText, isYearless } from '../own-dates.js';
import { isLine } from '../rows.js';
import { headMeanings, saysHeldBack, saysJulian } from '../usual-heads.js';
import type { Ways } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { areAll, areMostly, isCount, isTelling, isUnlikely, mayHold, rises } from './contents.js';
import { meantBy } from './words.js';

/** What a column means by its head and by what stands below it. */
export interface Meant {
  readonly column: number;
  /** Its head, or its place where it has none. */
  readonly name: string;
  /** The likely meaning; null for a note. */
  readonly field: string | null;
  /** Whether nothing else is likely. */
  readonly sure: boolean;
  /** Our own name, or what the reading file says: nothing is to be asked. */
  readonly settled: boolean;
  readonly cells: readonly BookCell[];
  /** All that the head may mean and the cells may hold. */
  readonly candidates: readonly string[];
}

interface Candidates extends Meant {
  /** The head is usual for the candidates, and not one of its words alone. */
  readonly whole: boolean;
}

/** What the columns of a sheet mean, each in the light of the others. */
export function meantColumns(grid: WrittenGrid, heads: Heads, use: SheetUse, ways: Ways): readonly Meant[] {
  const withMonth = heads.names.some((name) => headMeans(name, use, ways)?.includes(MONTH) === true);
  const first = heads.names.map((_, column) => candidatesOf(grid, heads, column, { use, ways, withMonth }));
  const taken = new Set(first.flatMap(({ field, settled, sure }) => (field !== null && (settled || sure) ? field.split(', ') : [])));
  return first.map((one) => (one.settled || one.cells.length === 0 ? one : decided(one, first, taken, use)));
}

/** Our columns that a head means, before it is known what stands below it: by the reading file, by its own name, or as people usually name them. Null for none. */
export function headMeans(head: string, use: SheetUse, ways: Ways): readonly string[] | null {
  if (head === '') return null;
  const said = ways.columns.get(headerKey(head));
  if (said !== undefined) return said.fields ?? [];
  const own = ourOwn(head, use);
  if (own !== null) return [own];
  const { fields, whole } = headMeanings(head, use);
  return whole ? (fields[0]?.split(', ') ?? null) : null;
}

function ourOwn(head: string, use: SheetUse): string | null {
  const own = ourColumn(head);
  return own !== null && columnsOf(use).includes(own) ? own : null;
}

function cellsBelow({ sheet }: WrittenGrid, heads: Heads, column: number): readonly BookCell[] {
  return sheet.rows.slice(heads.at + 1).flatMap(({ cells }) => {
    const filled = cells.filter(({ value }) => value.trim() !== '');
    const [only] = filled;
    // A line between the rows says nothing of the column in which it stands.
    if (filled.length === 1 && only !== undefined && isLine(only.value)) return [];
    return filled.filter((cell) => cell.column === column);
  });
}

interface Around {
  readonly use: SheetUse;
  readonly ways: Ways;
  readonly withMonth: boolean;
}

function candidatesOf(grid: WrittenGrid, heads: Heads, column: number, { use, ways, withMonth }: Around): Candidates {
  const head = heads.names[column] ?? '';
  const name = columnName(heads.names, column);
  const cells = cellsBelow(grid, heads, column);
  const base = { column, name, cells, candidates: [], whole: true };
  const said = ways.columns.get(headerKey(name));
  if (said !== undefined) return { ...base, field: said.fields?.join(', ') ?? null, sure: true, settled: true };
  const own = ourOwn(head, use);
  const { fields, whole } = headMeanings(head, use);
  const able = fields.filter((field) => mayHold(field, cells, withMonth));
  const holding = [...able.filter((field) => !isUnlikely(field, cells)), ...able.filter((field) => isUnlikely(field, cells))];
  // Of our own names one is doubted only where what stands below speaks for another.
  if (own !== null && (mayHold(own, cells) || holding.length === 0)) return { ...base, field: own, sure: true, settled: true };
  const telling = holding.filter(isTelling);
  const candidates = telling.length > 0 ? telling : holding;
  const [only] = candidates;
  const sure = whole && candidates.length === 1;
  return { ...base, candidates, whole, field: only ?? null, sure, settled: false };
}

function decided(one: Candidates, all: readonly Candidates[], taken: ReadonlySet<string>, use: SheetUse): Meant {
  const { candidates, whole, cells, name } = one;
  const isTaken = (field: string): boolean => field.split(', ').some((part) => taken.has(part));
  const rivals = (field: string): boolean =>
    all.some((other) => other !== one && other.cells.length > 0 && other.field === field && (other.settled || other.sure));
  if (one.sure) {
    const field = one.field ?? '';
    if (rivals(field)) return { ...one, field: ofTwo(one, all), sure: false };
    if (isDoubtful(field, cells)) return { ...one, field: field === PAGES_WANTING ? field : null, sure: false };
    // What is held back is never taken unasked.
    return field === PAGES_HELD_BACK ? { ...one, sure: false } : one;
  }
  const free = candidates.filter((field) => !isTaken(field));
  const [field] = free;
  if (whole && free.length === 1 && field !== undefined && !isDoubtful(field, cells)) return { ...one, field, sure: true };
  const said = headMeanings(name, use).fields.length > 0;
  const guess = field ?? guessedBy(cells, use, taken);
  // A head that speaks for something, or days that speak for themselves, are never dropped.
  const speaks = candidates.length > 0 || (whole && said) || guess !== null || speaksOfDays(cells) || saysHeldBack(name);
  return { ...one, field: guess, sure: !speaks };
}

/** Of two columns of days the one of the old style is what the paper prints; of two that give pages the one gives them and the other is held against it. */
function ofTwo(one: Candidates, all: readonly Candidates[]): string | null {
  const same = all.filter((other) => other.field === one.field && other.cells.length > 0);
  if (one.field === 'pages') {
    const lists = ({ cells }: Candidates): boolean => cells.some(({ value }) => /\d\s*[-\u2013,]\s*\d/.test(value));
    const main = same.find(lists) ?? same.find(({ name }) => OF_FILM.test(name)) ?? same[0];
    return one === main ? 'pages' : areEvery(one.cells, isCount) ? PAGES_COUNTED : null;
  }
  if (one.field !== 'date' || !same.some((other) => saysJulian(other.name))) return null;
  return saysJulian(one.name) ? 'date printed' : 'date';
}

/** Heads that speak of what the camera saw, and so of the frames that there are. */
const OF_FILM = /film|aufgenommen|aufnahme|vues?\b/i;

/** A lone number may be how many pages are wanting, or which. */
function isDoubtful(field: string, cells: readonly BookCell[]): boolean {
  if (isUnlikely(field, cells)) return true;
  if (field === PAGES_WANTING) return areEvery(cells, (text) => /^\d+$/.test(text));
  // Frames as numbers that do not rise may be counts of them.
  return field === 'first frame' && cells.length > 1 && !areMostly(cells, (text) => frameRange(text) !== null) && !rises(cells);
}

function areEvery(cells: readonly BookCell[], test: (text: string) => boolean): boolean {
  return cells.every(({ value }) => test(value.trim()));
}

function speaksOfDays(cells: readonly BookCell[]): boolean {
  return cells.length > 0 && cells.every(({ kind, value }) => kind === 'date' || (isDayText(value.trim()) && !isWeak(value.trim())));
}

/** `1-4` may be a day and a month, and is more often anything else. */
function isWeak(text: string): boolean {
  return dateForm(text).is === 'figures' && isYearless(text) && !/\.\s?\d{1,2}\.$/.test(text);
}

/** What a column of an unknown head probably is by what stands in it, where the sheet has no such column yet; null for a note. */
function guessedBy(cells: readonly BookCell[], use: SheetUse, taken: ReadonlySet<string>): string | null {
  if (use !== 'frames' && use !== 'issues') return null;
  const first = use === 'frames' ? 'frame' : 'first frame';
  if (!taken.has('date') && (speaksOfDays(cells) || (cells.some(({ value }) => /1[5-9]\d\d/.test(value)) && mayHold('date', cells))))
    return 'date';
  if (!taken.has('first frame') && use === 'issues' && areAll(cells, (text) => frameRange(text) !== null) && rises(cells))
    return 'first frame';
  if (!taken.has(first) && areAll(cells, (text) => readFrameNumber(text) !== null) && rises(cells)) return first;
  const pair = (text: string): boolean => /\d\s*[/:]\s*\d/.test(text) && !/\d.*[/].*\d.*[/]/.test(text);
  if (!taken.has('volume') && !taken.has('issue number') && areAll(cells, pair)) return 'volume, issue number';
  // Labels of pages begin anew with each issue.
  const again = new Set(cells.map(({ value }) => value.trim())).size < cells.length;
  if (use === 'frames' && !taken.has('page') && again && areAll(cells, (text) => /^[A-Z]{0,2}-?\d{1,3}[A-Za-z]?$/.test(text)))
    return 'page';
  const lists = cells.some(({ value }) => /\d-\d/.test(value)) && areAll(cells, (text) => readPages(text).faults.length === 0);
  if (use === 'issues' && !taken.has('pages') && lists) return 'pages';
  if (!taken.has('weekday printed') && areAll(cells, () => true) && mayHold('weekday printed', cells)) return 'weekday printed';
  if (!taken.has('edition') && areAll(cells, isEditionName)) return 'edition';
  if (use === 'frames' && !taken.has('deliver') && saysWhatIsHeldBack(cells)) return 'deliver';
  return use === 'frames' && !taken.has('kind') && areAll(cells, (text) => meantBy('kind', text) !== null) ? 'kind' : null;
}

const isDelivery = (text: string): boolean => /^deliver(?:ed)?$/i.test(text) || saysHeldBack(text);

/** True where every cell says whether something is delivered, and one of them in so many words that it is not: a yes or no may be about anything. */
function saysWhatIsHeldBack(cells: readonly BookCell[]): boolean {
  return (
    areAll(cells, (text) => isDelivery(text) || meantBy('deliver', text) !== null) &&
    cells.some(({ value }) => saysHeldBack(value) || (value.trim().length > 3 && meantBy('deliver', value) === 'no'))
  );
}

/** So many different cells are shown; where there are no more than that, all of them. */
const SHOWN = 8;

/** The question of what a column is. */
export function columnQuestion({ name, cells, field, sure, candidates }: Meant, use: SheetUse, book: BookFacts): Asked {
  // A day that the program keeps as a number is shown as the day.
  const shown = (cell: BookCell): string => (cell.kind === 'date' ? (readDayCell(cell, book).day ?? cell.value) : cell.value).trim();
  const values = [...new Set(cells.map(shown))];
  const examples = values.slice(0, SHOWN).map((value) => `"${value.slice(0, 30)}"`);
  const rest = values.length - examples.length;
  const what = /^column \d+$/.test(name) ? `${name}, which has no head` : `the column "${name}"`;
  return asked('columns', name, `What is ${what}? It holds ${examples.join(', ')}${rest > 0 ? ` and ${String(rest)} more` : ''}.`, {
    choices: [...columnsOf(use).filter((one) => one !== 'note'), 'note', 'nothing'],
    proposed: field ?? 'note',
    sure,
    likely: [...candidates, 'note'].filter((one) => one !== (field ?? 'note')),
  });
}
