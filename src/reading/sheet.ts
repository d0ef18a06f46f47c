import type { BookCell, BookRow, WrittenGrid } from '../model/written-grid.js';
import type { SheetProblem, WrittenSheet } from '../model/written-sheet.js';
import { keptInMind } from '../normalise/kept.js';
import { headerKey, keptAsNotes, quoted } from '../normalise/sheet-row.js';
import { plainSheet, writtenSheet } from './as-written.js';
import { type ColumnPlan, columnPlans, type Layout, useOf } from './columns.js';
import { areOpen, settleCopies } from './copies.js';
import type { Doubt } from './doubts.js';
import { findHeads, firstHeads, headsInRow } from './heads.js';
import { fillPages, holdLastFrames } from './last-frames.js';
import { isStruck, withoutStruckParts } from './marks.js';
import { ourColumn } from './names.js';
import { withNotedPages } from './noted-pages.js';
import { holdPageCounts } from './page-counts.js';
import { wholeRow } from './plain-rows.js';
import { unmergedRows } from './ranges.js';
import { type AnyRow, hasCell, isPlain } from './read-row.js';
import { type CellNotes, rowReader } from './row-reader.js';
import { rowKind } from './rows.js';
import { type Ways, wordKey } from './ways.js';

/** A sheet in the columns of a record; null where the reading file says that it is none. */
export interface Applied {
  readonly sheet: WrittenSheet | null;
  readonly remarks: readonly SheetProblem[];
  /** What is to be asked of its rows. */
  readonly doubts: readonly Doubt[];
}

/** How a sheet is laid out by its reading file, or by its own heads. Null for one without any text. */
export function layoutOf({ sheet }: WrittenGrid, ways: Ways): Layout | null {
  const said = ways.sheets.get(sheet.name);
  const means = (head: string): readonly string[] => {
    const own = ways.columns.get(headerKey(head));
    if (own !== undefined) return own.fields ?? [];
    const ours = ourColumn(head);
    return ours === null ? [] : [ours];
  };
  const known = keptInMind((head): boolean => ways.columns.has(headerKey(head)) || ourColumn(head) !== null);
  const found = said?.heads === undefined ? findHeads(sheet, known) : headsInRow(sheet, said.heads, known);
  const heads = found ?? firstHeads(sheet);
  if (heads === null) return null;
  const use = said === undefined ? useOf(heads.names, sheet.name, means) : said.is === 'nothing' ? null : said.is;
  return { use, heads, plans: columnPlans(heads, use ?? 'frames', ways) };
}

/** Reads one sheet by its ways into the columns of a record. */
export function applyReading(grid: WrittenGrid, ways: Ways): Applied {
  const layout = layoutOf(grid, ways);
  const said = ways.sheets.get(grid.sheet.name);
  if (layout === null || said?.is === 'nothing') return { sheet: null, remarks: [], doubts: [] };
  const { use, heads, plans } = layout;
  const remarks: SheetProblem[] = [];
  const problems: SheetProblem[] = [];
  const place = { file: grid.file, sheet: grid.sheet.name };
  const remark = (row: number | null, says: string, held?: string): void =>
    void remarks.push({ ...place, row, column: null, says, ...(held === undefined ? {} : { held }) });
  const notes: CellNotes = {
    ways,
    say: remark,
    remark: (row, column, held, says) => void remarks.push({ ...place, row, column, held, says }),
    complain: (row, column, held, says) => void problems.push({ ...place, row, column, held, says }),
  };
  if (use === null) return { sheet: plainSheet(grid, heads), remarks, doubts: [] };
  if (heads.at > 0 && said?.heads === undefined)
    remark(null, 'holds the names of the columns; what stands above is not read.', `row ${String(heads.row)}`);
  const { rows, spread } = unmergedRows(withoutStruckParts(grid.sheet, ways), heads.row);
  const [is, them] = spread.length === 1 ? ['is', 'it'] : ['are', 'them'];
  if (spread.length > 0)
    remark(null, `${is} merged over several rows; what stands in ${them} is read in each.`, spread.slice(0, 3).join(', '));
  const reader = rowReader({ plans, heads, use, ways, book: grid.book, reel: said?.reel ?? null }, notes);
  const all: AnyRow[] = [];
  const mayBePlain = spread.length === 0;
  for (const row of rows.slice(heads.at + 1)) {
    if (row.row <= heads.row) continue;
    const plain = mayBePlain ? reader.plain(row) : null;
    if (plain !== null) {
      all.push(plain);
      continue;
    }
    const lacking = row.cells.filter(lacksResult);
    for (const cell of lacking) notes.complain(row.row, heads.names[cell.column] ?? '', formulaHeld(cell), NO_RESULT);
    if (row.cells.every(({ value }) => value.trim() === '')) continue;
    if (ways.struck === 'leave out' && isStruck(row)) {
      remark(row.row, 'is struck through and left out.', shown(row));
      continue;
    }
    const kind = rowKind(row, heads, plans);
    if (kind.is === 'heads') remark(row.row, 'the row repeats the names of the columns and is not read.');
    else if (kind.is === 'total') remark(row.row, 'is a row of totals and is not read.', shown(row));
    else if (kind.is === 'reel') {
      remark(row.row, 'is a line with the number of a reel; the rows below it belong to that reel.', `"${kind.reel}"`);
      reader.reel(kind.reel);
    } else if (kind.is === 'lone text' && ways.rows.get(wordKey(kind.text)) === 'leave out') continue;
    else if (kind.is === 'lone text' && kind.heading !== null && ways.rows.get(wordKey(kind.text)) === 'date of the rows below')
      reader.heading(kind.heading);
    else {
      const one = reader.row(row);
      if (one !== null) all.push(one);
    }
  }
  const doubts: Doubt[] = [];
  const ofRow = (row: number, held: string, says: string): void => remark(row, says, held);
  const ofPages = {
    remark: ofRow,
    complain: complaintsAbout('pages', plans, notes),
    doubt: (one: Doubt): void => void doubts.push(one),
  };
  let noted: readonly AnyRow[] = all;
  // Where no row says anything of another one each is what stands in it.
  if (use !== 'frames' || all.some((row) => !isPlain(row) && row.stated.length > 0) || areOpen(all, plans)) {
    const read = all.map((row) => wholeRow(row, plans));
    if (use === 'issues') fillPages(read, ways, ofRow);
    const whole = withNotedPages(read, use, ways, ofPages);
    if (use === 'issues') {
      holdLastFrames(whole, ofRow);
      holdPageCounts(whole, ofRow);
    }
    if (use === 'frames') settleCopies(whole, plans, ways, ofPages);
    noted = whole;
  }
  const sheet = writtenSheet(grid, layout, noted, use);
  const unsaid = plans.filter(
    ({ note, head, column }) => note && !ways.columns.has(headerKey(head)) && all.some((row) => hasCell(row, column)),
  );
  const kept = keptAsNotes(
    unsaid.map(({ head, column }) => (head === '' ? `number ${String(column + 1)} (without a name)` : quoted(head))),
  );
  if (kept !== null) remark(null, kept);
  return { sheet: { ...sheet, problems: [...sheet.problems, ...problems] }, remarks, doubts };
}

/** Complains of what stands in a column of ours, by the head above it. */
function complaintsAbout(
  field: string,
  plans: readonly ColumnPlan[],
  { complain }: CellNotes,
): (row: number, held: string, says: string) => void {
  const head = plans.find(({ fields }) => fields.includes(field))?.head ?? field;
  return (row, held, says) => complain(row, head, held, says);
}

const NO_RESULT =
  'is a formula whose result is not stored in the file, so nothing can be read there; open the workbook in a spreadsheet program and save it again, or write what belongs there.';

function lacksResult({ kind, value, formula }: BookCell): boolean {
  return formula !== null && kind === 'number' && value.trim() === '';
}

function formulaHeld({ address, formula }: BookCell): string {
  return `the cell ${address}${formula === null || formula === '' ? '' : `, =${formula.slice(0, 40)},`}`;
}

function shown({ cells }: BookRow): string {
  return `"${(cells.find(({ value }) => value.trim() !== '')?.value ?? '').trim().slice(0, 40)}"`;
}
