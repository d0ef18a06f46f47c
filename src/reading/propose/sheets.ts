import type { WrittenGrid } from '../../model/written-grid.js';
import { headerKey } from '../../normalise/sheet-row.js';
import { useOf } from '../columns.js';
import { findHeads, firstHeads, type Heads, headsInRow } from '../heads.js';
import { columnsOf, type SheetUse } from '../names.js';
import type { Ways } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { columnQuestion, headMeans, meantColumns } from './columns.js';

const USES: readonly SheetUse[] = ['frames', 'issues', 'titles', 'reels'];

interface Guess {
  readonly use: SheetUse | null;
  readonly heads: Heads;
  /** Number of heads that are ours, or usual for ours. */
  readonly known: number;
}

/** What is to be asked of sheets and their heads: which hold a record, and what the columns mean that have other names than ours. */
export function askedOfSheets(grids: readonly WrittenGrid[], ways: Ways): readonly Asked[] {
  const guesses = grids.map((grid) => ({ grid, guess: guessOf(grid, ways) }));
  const found = guesses.some(({ guess }) => guess?.use === 'frames' || guess?.use === 'issues');
  const questions: Asked[] = [];
  const heads = new Set<string>();
  for (const { grid, guess } of guesses) {
    const said = ways.sheets.get(grid.sheet.name);
    if (guess === null || said?.is === 'nothing') continue;
    if (said === undefined && needsSaying(guess, grid, ways)) questions.push(sheetQuestion(grid, guess, found));
    if (guess.use === null) continue;
    for (const meant of meantColumns(grid, guess.heads, guess.use, ways)) {
      const key = headerKey(meant.name);
      // A column without a head stays a note, unless something speaks for more.
      const silent = guess.heads.names[meant.column] === '' && meant.sure;
      if (silent || heads.has(key) || meant.settled || meant.cells.length === 0) continue;
      heads.add(key);
      questions.push(columnQuestion(meant, guess.use, grid.book));
    }
  }
  return questions;
}

/** True where the sheet is not understood by its columns alone, once these have a meaning. */
function needsSaying({ use, heads }: Guess, grid: WrittenGrid, ways: Ways): boolean {
  if (use === null) return true;
  const meant = meantColumns(grid, heads, use, ways);
  return useOf(heads.names, grid.sheet.name, (head) => meant.find(({ name }) => name === head)?.field?.split(', ') ?? []) !== use;
}

function guessOf(grid: WrittenGrid, ways: Ways): Guess | null {
  const { sheet } = grid;
  const said = ways.sheets.get(sheet.name);
  let best: Guess | null = null;
  for (const use of USES) {
    if (said !== undefined && said.is !== use) continue;
    const known = (head: string): boolean => headMeans(head, use, ways) !== null;
    const heads = said?.heads === undefined ? findHeads(sheet, known) : headsInRow(sheet, said.heads, known);
    if (heads === null) continue;
    const meant = meantColumns(grid, heads, use, ways);
    // A list of reels or titles may still be empty; of a film an empty column says nothing.
    const listed = use === 'titles' || use === 'reels';
    const fields = new Set(meant.flatMap(({ field, cells }) => (cells.length === 0 && !listed ? [] : (field?.split(', ') ?? []))));
    const fitting = (field: string): boolean => field.split(', ').every((one) => one === '' || columnsOf(use).includes(one));
    const held = meant.filter(({ name, field, cells }) => known(name) && (field === null ? cells.length === 0 : fitting(field)));
    const count = new Set(held.map(({ name }) => headerKey(name))).size;
    if (said === undefined && !fits(use, fields, sheet.name)) continue;
    if (count > (best?.known ?? 0)) best = { use, heads, known: count };
  }
  if (best !== null) return best;
  const heads =
    findHeads(sheet, (head) => headMeans(head, 'frames', ways) !== null || headMeans(head, 'issues', ways) !== null) ?? firstHeads(sheet);
  return heads === null ? null : { use: said === undefined || said.is === 'nothing' ? null : said.is, heads, known: 0 };
}

/** Whether columns of such a meaning make a sheet of that use. A page and its day are a row of a frame, whose number may be counted. */
function fits(use: SheetUse, fields: ReadonlySet<string>, name: string): boolean {
  const title = headerKey(name);
  if (use === 'frames') return fields.has('frame') || (fields.has('page') && fields.has('date') && !fields.has('pages'));
  if (use === 'issues') return (fields.has('pages') || fields.has('first frame')) && fields.has('date') && !fields.has('frame');
  if (use === 'titles') return title.endsWith('titles') && (fields.has('id') || fields.has('title'));
  return title.endsWith('reels') && (fields.has('number') || fields.has('reel'));
}

function sheetQuestion({ sheet }: WrittenGrid, { use, heads, known }: Guess, found: boolean): Asked {
  const shown = heads.names
    .filter((name) => name !== '')
    .slice(0, 5)
    .map((name) => `"${name.slice(0, 30)}"`);
  return asked('sheets', sheet.name, `What is the sheet "${sheet.name}"? In row ${String(heads.row)} stands ${shown.join(', ')}.`, {
    choices: [...USES, 'nothing'],
    proposed: use ?? (found ? 'nothing' : null),
    ...(use === null && !found ? { likely: ['frames', 'issues'] } : {}),
    // Legends, calendars and sums have none of the columns of a record.
    sure: use !== null || (found && known < 2),
  });
}
