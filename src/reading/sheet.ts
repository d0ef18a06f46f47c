import type { BookCell, BookRow, WrittenGrid } from '../model/written-grid.js';
import type { BookFacts, SheetProblem, WrittenSheet } from '../model/written-sheet.js';
import { SIGNS } from '../normalise/pages-notation.js';
import { withoutGuard } from '../normalise/sheet-guard.js';
import { headerKey, keptAsNotes, quoted } from '../normalise/sheet-row.js';
import { plainSheet, writtenSheet } from './as-written.js';
import { cellFacts, DAY_COLUMNS, type Facts, isCorrected, isJoined } from './cell-facts.js';
import { type ColumnPlan, columnPlans, type Layout, useOf } from './columns.js';
import { findHeads, firstHeads, headsInRow } from './heads.js';
import { coloursOf, commentsIn, isStruck } from './marks.js';
import { ourColumn, type SheetUse } from './names.js';
import { stateOfRow, taken } from './note-facts.js';
import { withNotedPages } from './noted-pages.js';
import type { PagesDoubt } from './pages/issue.js';
import { framePage } from './pages/label.js';
import { statedIn } from './phrases.js';
import { isOwn, unmergedRows } from './ranges.js';
import { add, has, holdBack, loneNote, makeAbsent, notesIn, type ReadRow, valueOf } from './read-row.js';
import { rowKind } from './rows.js';
import { type Ways, wordKey } from './ways.js';

/** A sheet in the columns of a record; null where the reading file says that it is none. */
export interface Applied {
  readonly sheet: WrittenSheet | null;
  readonly remarks: readonly SheetProblem[];
  /** What is to be asked of the pages of its issues. */
  readonly doubts: readonly PagesDoubt[];
}

/** Cells that mean "as the cell above". */
const DITTO =
  /^(?:["\u201d\u201c\u201e\u3003\u00bb\u00ab]|''|\u2019\u2019|,,|[-\u2013\u2014]\s?["\u201d]\s?[-\u2013\u2014]|do\.?|ditto|dto\.?|dito|dgl\.|desgl\.|ebd\.|id\.|idem)$/i;

/** True for a ditto mark. */
export function isDitto(text: string): boolean {
  return DITTO.test(text.trim());
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
  const known = (head: string): boolean => ways.columns.has(headerKey(head)) || ourColumn(head) !== null;
  const found = said?.heads === undefined ? findHeads(sheet, known) : headsInRow(sheet, said.heads, known);
  const heads = found ?? firstHeads(sheet);
  if (heads === null) return null;
  const use = said === undefined ? useOf(heads.names, sheet.name, means) : said.is === 'nothing' ? null : said.is;
  return { use, heads, plans: columnPlans(heads, use ?? 'frames', ways) };
}

/** Takes what is to be said of a cell, and of a row. */
interface CellNotes {
  readonly book: BookFacts;
  readonly ways: Ways;
  readonly say: (row: number | null, says: string, held?: string) => void;
  readonly remark: (row: number, column: string, held: string, says: string) => void;
  readonly complain: (row: number, column: string, held: string, says: string) => void;
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
    book: grid.book,
    ways,
    say: remark,
    remark: (row, column, held, says) => void remarks.push({ ...place, row, column, held, says }),
    complain: (row, column, held, says) => void problems.push({ ...place, row, column, held, says }),
  };
  if (use === null) return { sheet: plainSheet(grid, heads), remarks, doubts: [] };
  if (heads.at > 0 && said?.heads === undefined)
    remark(null, 'holds the names of the columns; what stands above is not read.', `row ${String(heads.row)}`);
  const { rows, spread } = unmergedRows(grid.sheet, heads.row);
  if (spread.length > 0) remark(null, 'are merged over several rows; what stands in them is read in each.', spread.slice(0, 3).join(', '));
  const reader = rowReader(plans, use, ways, said?.reel ?? null, notes);
  const read: ReadRow[] = [];
  for (const row of rows.slice(heads.at + 1)) {
    if (row.row <= heads.row || row.cells.every(({ value }) => value.trim() === '')) continue;
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
    } else if (kind.is === 'lone text' && ways.rows.get(kind.text.toLowerCase()) === 'leave out') continue;
    else {
      const one = reader.row(row);
      if (one !== null) read.push(one);
    }
  }
  const doubts: PagesDoubt[] = [];
  const ofRow = (row: number, held: string, says: string): void => remark(row, says, held);
  const ofPages = {
    remark: ofRow,
    complain: complaintsAbout('pages', plans, notes),
    doubt: (one: PagesDoubt): void => void doubts.push(one),
  };
  const noted = withNotedPages(read, use, ways, ofPages);
  const sheet = writtenSheet(grid, layout, noted, use);
  const unsaid = plans.filter(
    ({ note, head, column }) => note && !ways.columns.has(headerKey(head)) && read.some(({ cells }) => cells.has(column)),
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

function shown({ cells }: BookRow): string {
  return `"${(cells.find(({ value }) => value.trim() !== '')?.value ?? '').trim().slice(0, 40)}"`;
}

function rowReader(
  plans: readonly ColumnPlan[],
  use: SheetUse,
  ways: Ways,
  given: string | null,
  notes: CellNotes,
): { readonly reel: (reel: string) => void; readonly row: (row: BookRow) => ReadRow | null } {
  const above = new Map<number, BookCell>();
  const counts = new Map<string, number>();
  let reel = given;
  const frames = use === 'frames' || use === 'issues';
  const row = (written: BookRow): ReadRow | null => {
    const own = new Map(written.cells.filter(({ value }) => value.trim() !== '').map((cell) => [cell.column, cell]));
    const isPage = isPageRow(plans, (column) => own.get(column)?.value);
    const cells = new Map(own);
    for (const { column, below } of plans) {
      const cell = own.get(column);
      const before = above.get(column);
      const same =
        cell === undefined ? below === 'as above' && isPage : ways.ditto === 'as above' && cell.kind === 'text' && isDitto(cell.value);
      if (same && before !== undefined) cells.set(column, before);
      else if (cell !== undefined && !same) above.set(column, cell);
    }
    const comments = commentsIn(written.cells, ways);
    const noted = [...notesIn(plans, written.cells), ...comments];
    const stated = taken(noted.flatMap(statedIn), ways);
    const read: ReadRow = { row: written, cells, facts: new Map(), typed: new Map(), stated };
    for (const { column, head, fields } of plans) {
      const cell = cells.get(column);
      const [field] = fields;
      if (cell === undefined || field === undefined) continue;
      if (!isText(cell, field, ways)) read.typed.set(field, cell);
      else {
        const text = withoutGuard(cell.value.trim());
        const facts = cellFacts(text, fields, ways);
        if (isOwn(cell, written.row)) tellOf(text, fields, facts, written.row, head, notes);
        add(read.facts, facts);
      }
    }
    if (frames) {
      if (comments.length > 0) read.facts.set('note', [valueOf(read, 'note'), ...comments].filter((one) => one !== '').join('; '));
      addMarks(read, use, ways);
      if (!addShown(read, use, ways, noted)) return null;
    }
    if (reel !== null && frames && !has(read, 'reel')) read.facts.set('reel', reel);
    const onlyTitle = ways.titles.get('');
    if (onlyTitle !== undefined && frames && !has(read, 'title') && (use === 'issues' ? has(read, 'date') : true))
      read.facts.set('title', onlyTitle);
    if (frames) stateOfRow(read, use, ways, notes.book, (at, held, says) => notes.say(at, says, held));
    if (ways.counted && use === 'frames' && !has(read, 'frame') && !read.facts.has('published')) {
      const key = valueOf(read, 'reel');
      const next = (counts.get(key) ?? 0) + 1;
      counts.set(key, next);
      read.facts.set('frame', String(next));
    }
    return read;
  };
  return {
    reel: (number) => {
      reel = number;
    },
    row,
  };
}

/** Says where a cell was not read to the letter, and where it falls into other parts than its column has. */
function tellOf(text: string, fields: readonly string[], facts: Facts, row: number, head: string, notes: CellNotes): void {
  const [field = ''] = fields;
  if (fields.length > 1 && !isJoined(text, fields))
    notes.complain(row, head, quoted(text), `does not fall into ${fields.join(' and ')}; write as many parts, such as 8/283.`);
  else if (fields.length === 1 && isCorrected(text, field))
    notes.remark(row, head, quoted(text), 'says what is printed and what is right; both are read.');
  else if (DAY_COLUMNS.has(field) && facts.get(field) !== text)
    notes.remark(row, head, quoted(text), 'is a day in other words; it is read as YYYY-MM-DD.');
  else if (field === 'page') tellOfPage(text, facts, row, head, notes);
}

function tellOfPage(text: string, facts: Facts, row: number, head: string, { remark, complain, ways }: CellNotes): void {
  const page = framePage(text, ways);
  const printed = facts.has('page printed') ? ' without a printed number' : '';
  if (page.is === 'fault') complain(row, head, quoted(text), page.says);
  else if (facts.get('page') !== text) remark(row, head, quoted(text), `is read as page ${facts.get('page') ?? ''}${printed}.`);
}

/** True for a row of a page: one with a label, or with labels in its pages. Blanks and targets between them have none. */
export function isPageRow(plans: readonly ColumnPlan[], text: (column: number) => string | undefined): boolean {
  return plans.some(({ column, fields }) => {
    const own = text(column)?.trim() ?? '';
    return (fields.includes('page') && own !== '') || (fields.includes('pages') && /\d/.test(own));
  });
}

/** Whether the reading changes what stands in the cell; a number or day of the program goes on as it is. */
function isText(cell: BookCell, field: string, ways: Ways): boolean {
  if (cell.kind === 'text' && cell.formula === null) return true;
  // A count of pages is a number as well as it is a text.
  if (cell.kind !== 'number' || cell.formula !== null || !/^\d{1,9}$/.test(cell.value)) return false;
  return (
    (field === 'pages' && ways.loneNumbers === 'count') ||
    (field === 'title' && ways.titles.has(cell.value)) ||
    ways.words.get(field)?.has(cell.value) === true
  );
}

/** What the kind and the colour of a row say of it beside their own column. */
function addMarks(read: ReadRow, use: SheetUse, ways: Ways): void {
  const { row, facts } = read;
  const colours = new Set(coloursOf(row).map((colour) => ways.colours.get(colour)));
  for (const mark of colours) {
    if (mark === 'held back') holdBack(read);
    else if (mark === 'not on the film') makeAbsent(read, use, 'yes');
    else if (mark !== undefined && mark !== 'nothing' && use === 'frames') add(facts, [['kind', mark]]);
  }
  const kind = facts.get('kind');
  if (kind !== undefined) settleKind(read, use, kind);
}

function settleKind(read: ReadRow, use: SheetUse, kind: string): void {
  if (kind !== 'not on the film' && kind !== 'held back') return;
  read.facts.delete('kind');
  if (kind === 'not on the film') makeAbsent(read, use, 'yes');
  else holdBack(read);
}

/** What a row shows of which a note alone tells; false where the row is to be left out. */
function addShown(read: ReadRow, use: SheetUse, ways: Ways, notes: readonly string[]): boolean {
  if (use !== 'frames' && use !== 'issues') return true;
  const lone = loneNote(use, (field) => has(read, field), notes);
  const shows = lone?.texts.map((text) => ways.words.get('note')?.get(wordKey(text))).find((one) => one !== undefined);
  if (shows === undefined) return true;
  if (shows === 'leave out') return false;
  const sign = [...SIGNS].find(([, kind]) => kind === shows)?.[0];
  if (use === 'issues') add(read.facts, sign === undefined ? [] : [['pages', sign]]);
  else if (shows === 'held back' || shows === 'not on the film') settleKind(read, use, shows);
  else add(read.facts, [['kind', shows]]);
  return true;
}
