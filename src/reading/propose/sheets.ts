import type { WrittenGrid } from '../../model/written-grid.js';
import { readFrameNumber } from '../../normalise/labels.js';
import { readPages } from '../../normalise/pages-notation.js';
import { headerKey } from '../../normalise/sheet-row.js';
import { useOf } from '../columns.js';
import { findHeads, firstHeads, type Heads, headsInRow } from '../heads.js';
import { columnsOf, ourColumn, PAGES_WANTING, type SheetUse, usualMeaning } from '../names.js';
import type { Ways } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { meantBy } from './words.js';

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
    const fields = new Set(guess.heads.names.flatMap((name) => meaning(name, guess.use ?? 'frames', ways) ?? []));
    for (const [column, head] of guess.heads.names.entries()) {
      const key = headerKey(head);
      if (head === '' || heads.has(key) || ways.columns.has(key) || isOurs(head, guess.use) || !isUsed(grid, guess.heads, column)) continue;
      heads.add(key);
      questions.push(columnQuestion(grid, guess.heads, column, guess.use, fields));
    }
  }
  return questions;
}

/** True where the sheet is not understood by its columns alone, once these have a meaning. */
function needsSaying({ use, heads }: Guess, grid: WrittenGrid, ways: Ways): boolean {
  return use === null || useOf(heads.names, grid.sheet.name, (head) => meaning(head, use, ways) ?? []) !== use;
}

function guessOf({ sheet }: WrittenGrid, ways: Ways): Guess | null {
  const said = ways.sheets.get(sheet.name);
  let best: Guess | null = null;
  for (const use of USES) {
    if (said !== undefined && said.is !== use) continue;
    const known = (head: string): boolean => meaning(head, use, ways) !== null;
    const heads = said?.heads === undefined ? findHeads(sheet, known) : headsInRow(sheet, said.heads, known);
    if (heads === null) continue;
    const count = new Set(heads.names.filter((name) => name !== '' && known(name)).map(headerKey)).size;
    const fields = new Set(heads.names.flatMap((name) => meaning(name, use, ways) ?? []));
    if (said === undefined && !fits(use, fields, sheet.name)) continue;
    if (count > (best?.known ?? 0)) best = { use, heads, known: count };
  }
  if (best !== null) return best;
  const heads =
    findHeads(sheet, (head) => meaning(head, 'frames', ways) !== null || meaning(head, 'issues', ways) !== null) ?? firstHeads(sheet);
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

/** Our columns that a head means: by the reading file, by its own name, or as people usually name them. Null for none. */
function meaning(head: string, use: SheetUse, ways: Ways): readonly string[] | null {
  if (head === '') return null;
  const said = ways.columns.get(headerKey(head));
  if (said !== undefined) return said.fields ?? [];
  if (isOurs(head, use)) return [ourColumn(head) ?? head];
  return usualMeaning(head, use)?.split(', ') ?? null;
}

function isOurs(head: string, use: SheetUse): boolean {
  const own = ourColumn(head);
  return own !== null && columnsOf(use).includes(own);
}

function valuesIn({ sheet }: WrittenGrid, heads: Heads, column: number): readonly string[] {
  return sheet.rows.slice(heads.at + 1).flatMap(({ cells }) => {
    const text = cells.find((cell) => cell.column === column)?.value.trim() ?? '';
    return text === '' ? [] : [text];
  });
}

function isUsed(grid: WrittenGrid, heads: Heads, column: number): boolean {
  return valuesIn(grid, heads, column).length > 0;
}

function sheetQuestion({ sheet }: WrittenGrid, { use, heads, known }: Guess, found: boolean): Asked {
  const shown = heads.names
    .filter((name) => name !== '')
    .slice(0, 5)
    .map((name) => `"${name.slice(0, 30)}"`);
  return asked('sheets', sheet.name, `What is the sheet "${sheet.name}"? In row ${String(heads.row)} stands ${shown.join(', ')}.`, {
    choices: [...USES, 'nothing'],
    proposed: use ?? (found ? 'nothing' : null),
    // Legends, calendars and sums have none of the columns of a record.
    sure: use !== null || (found && known < 2),
  });
}

function columnQuestion(grid: WrittenGrid, heads: Heads, column: number, use: SheetUse, fields: ReadonlySet<string>): Asked {
  const head = heads.names[column] ?? '';
  const values = valuesIn(grid, heads, column);
  const usual = usualMeaning(head, use);
  const others = heads.names.filter((name, at) => at !== column && name !== '' && usualMeaning(name, use) === usual);
  const own = heads.names.some((name) => ourColumn(name) === usual);
  const clash = usual !== null && (others.length > 0 || own);
  const share = (test: (value: string) => boolean): number => values.filter(test).length / values.length;
  const numbers = share((value) => readFrameNumber(value) !== null);
  // A lone number may be how many pages are wanting, or which.
  const counts = usual === PAGES_WANTING && share((value) => /^\d+$/.test(value)) === 1;
  const doubtful = counts || (usual === 'frame' && numbers < 0.6) || (usual === 'duplicate of' && numbers < 0.5);
  const missing = usual === null && ![...fields].includes('date') && values.some((value) => /1[5-9]\d\d/.test(value));
  const guess = usual === null ? guessedBy(values, use, fields) : null;
  const examples = [...new Set(values)].slice(0, 3).map((value) => `"${value.slice(0, 30)}"`);
  return asked('columns', head, `What is the column "${head}"? It holds ${examples.join(', ')}.`, {
    choices: [...columnsOf(use).filter((field) => field !== 'note'), 'note', 'nothing'],
    proposed: guess ?? (clash || doubtful || usual === null ? 'note' : usual),
    sure: guess === null && !clash && !doubtful && !missing,
  });
}

/** What a column of an unknown head probably is by what stands in it, where the sheet has no such column yet; null for a note. */
function guessedBy(values: readonly string[], use: SheetUse, fields: ReadonlySet<string>): string | null {
  if (use !== 'frames' && use !== 'issues') return null;
  const all = (test: (value: string) => boolean): boolean => values.length > 1 && values.every(test);
  const numbers = values.flatMap((value) => readFrameNumber(value)?.exposure ?? []);
  const rises = numbers.filter((number, at) => number > (numbers[at - 1] ?? 0)).length;
  const first = use === 'frames' ? 'frame' : 'first frame';
  // Labels of pages begin anew with each issue.
  const allDiffer = new Set(values).size === values.length;
  // Numbers that rise from row to row are those of the film, and begin anew with the next reel.
  if (!fields.has(first) && numbers.length === values.length && values.length > 1 && rises >= values.length * 0.8) return first;
  if (
    !fields.has('volume') &&
    !fields.has('issue number') &&
    all((value) => /\d\s*[/:]\s*\d/.test(value) && !/\d.*[/].*\d.*[/]/.test(value))
  )
    return 'volume, issue number';
  if (use === 'frames' && !fields.has('page') && !allDiffer && all((value) => /^[A-Z]{0,2}-?\d{1,3}[A-Za-z]?$/.test(value.trim())))
    return 'page';
  if (
    use === 'issues' &&
    !fields.has('pages') &&
    values.some((value) => /\d-\d/.test(value)) &&
    all((value) => readPages(value).faults.length === 0)
  )
    return 'pages';
  if (use === 'frames' && !fields.has('kind') && all((value) => meantBy('kind', value) !== null)) return 'kind';
  return null;
}
