import type { BookCell, BookRow } from '../model/written-grid.js';
import type { BookFacts } from '../model/written-sheet.js';
import { SIGNS } from '../normalise/pages-notation.js';
import { withoutGuard } from '../normalise/sheet-guard.js';
import { quoted } from '../normalise/sheet-row.js';
import { cellFacts, DAY_COLUMNS, type Facts, FRAMES, isCorrected, isJoined, PRINTED_DAY } from './cell-facts.js';
import type { ColumnPlan } from './columns.js';
import { type Completed, completedDay, dayBeside } from './completed-days.js';
import { isDitto } from './ditto.js';
import type { Heads } from './heads.js';
import { framesStated } from './last-frames.js';
import { coloursOf, commentsIn } from './marks.js';
import { TAKES } from './named-frames.js';
import { LAST_FRAME, MONTH, type SheetUse, YEAR } from './names.js';
import { stateOfRow, taken } from './note-facts.js';
import type { Beside } from './own-dates.js';
import { framePage } from './pages/label.js';
import { type Stated, statedIn } from './phrases.js';
import { plainReader } from './plain-rows.js';
import { isOwn } from './ranges.js';
import { add, has, holdBack, isPageRow, loneNote, makeAbsent, notesIn, type PlainRow, type ReadRow, valueOf } from './read-row.js';
import { type Ways, wordKey } from './ways.js';

/** Takes what is to be said of a cell, and of a row. */
export interface CellNotes {
  readonly ways: Ways;
  readonly say: (row: number | null, says: string, held?: string) => void;
  readonly remark: (row: number, column: string, held: string, says: string) => void;
  readonly complain: (row: number, column: string, held: string, says: string) => void;
}

/** Reads rows, and takes what stands between them. */
export interface RowReader {
  readonly reel: (reel: string) => void;
  readonly heading: (heading: Beside) => void;
  /** Null for a row that is left out. */
  readonly row: (row: BookRow) => ReadRow | null;
  /** A row whose cells say what their columns hold and nothing else; null for any other, of which it must be asked what it is. */
  readonly plain: (row: BookRow) => PlainRow | null;
}

/** How the rows of one sheet are to be read. */
export interface RowWays {
  readonly plans: readonly ColumnPlan[];
  readonly heads: Heads;
  readonly use: SheetUse;
  readonly ways: Ways;
  readonly book: BookFacts;
  /** The reel of the sheet, where the reading file gives it. */
  readonly reel: string | null;
}

/** Reads the rows of a sheet one after the other: what is above and between them counts for those below. */
export function rowReader(how: RowWays, notes: CellNotes): RowReader {
  const { plans, use, ways } = how;
  const above = new Map<number, BookCell>();
  const quick = use === 'frames' ? plainReader({ ...how, alone: readerAlone(how) }) : null;
  const counts = new Map<string, number>();
  let reel = how.reel;
  let heading: Beside = {};
  const frames = use === 'frames' || use === 'issues';
  const remembers = ways.ditto === 'as above' || plans.some(({ below }) => below === 'as above');
  const row = (written: BookRow): ReadRow | null => {
    const cells = cellsWithAbove(written, how, above);
    const comments = commentsIn(written.cells, ways);
    const noted = [...notesIn(plans, written.cells), ...comments];
    const stated = [...taken(noted.flatMap(statedIn), ways), ...marked(cells, plans, ways)];
    const read: ReadRow = { row: written, cells, facts: new Map(), typed: new Map(), stated };
    const more = readCells(read, how, dayBeside(plans, cells, heading), notes);
    if (frames) {
      if (comments.length > 0) read.facts.set('note', [valueOf(read, 'note'), ...comments].filter((one) => one !== '').join('; '));
      addMarks(read, use, ways);
      if (!addShown(read, use, ways, noted)) return null;
    }
    if (reel !== null && frames && !has(read, 'reel')) read.facts.set('reel', reel);
    const onlyTitle = ways.titles.get('');
    if (onlyTitle !== undefined && frames && !has(read, 'title') && (use === 'issues' ? has(read, 'date') : true))
      read.facts.set('title', onlyTitle);
    if (frames) stateOfRow(read, use, ways, how.book, (at, held, says) => notes.say(at, says, held));
    if (ways.counted && use === 'frames' && !has(read, 'frame') && !read.facts.has('published')) {
      const key = valueOf(read, 'reel');
      const next = (counts.get(key) ?? 0) + 1;
      counts.set(key, next);
      read.facts.set('frame', String(next));
    }
    addStatedBeside(read, use, more);
    return read;
  };
  return {
    reel: (number) => {
      reel = number;
    },
    heading: (given) => {
      // A month stands under its year; a new year begins anew.
      heading = given.year === undefined ? { ...heading, ...given } : given;
    },
    row,
    plain: (written) => {
      const read = quick?.(written, { reel: reel !== null, heading: heading.year !== undefined || heading.month !== undefined }) ?? null;
      if (read !== null && remembers) for (const cell of written.cells) if (cell.value.trim() !== '') above.set(cell.column, cell);
      return read;
    },
  };
}

/** Reads a cell as if it stood alone in its row: what it holds, or null where it says more than its column holds, or anything is to be said of it. */
function readerAlone(how: RowWays): (cell: BookCell, written: BookRow) => string | null {
  const own = how.plans.map((plan): RowWays => ({ ...how, plans: [plan] }));
  return (cell, written) => alone(cell, written, own[cell.column] ?? how);
}

function alone(cell: BookCell, written: BookRow, how: RowWays): string | null {
  const { plans, ways } = how;
  const told = { times: 0 };
  const tell = (): void => {
    told.times += 1;
  };
  const cells = new Map([[cell.column, cell]]);
  const read: ReadRow = { row: written, cells, facts: new Map(), typed: new Map(), stated: [] };
  const more = readCells(read, how, {}, { ways, say: tell, remark: tell, complain: tell });
  const stated = [...taken(notesIn(plans, [cell]).flatMap(statedIn), ways), ...marked(cells, plans, ways)];
  if (told.times > 0 || more.size > 0 || stated.length > 0) return null;
  const [field] = plans.find(({ column }) => column === cell.column)?.fields ?? [];
  if (field === undefined) return cell.value;
  if (read.facts.size + read.typed.size !== 1) return null;
  return read.facts.get(field) ?? read.typed.get(field)?.value ?? null;
}

/** The cells of a row, with those above where it is said that these hold on. */
function cellsWithAbove(written: BookRow, { plans, ways }: RowWays, above: Map<number, BookCell>): ReadonlyMap<number, BookCell> {
  const own = new Map(written.cells.filter(({ value }) => value.trim() !== '').map((cell) => [cell.column, cell]));
  const isPage = isPageRow(plans, (column) => own.get(column)?.value);
  const isDated = plans.some(({ column, fields }) => fields.includes('date') && own.has(column));
  const cells = new Map(own);
  for (const { column, below, fields } of plans) {
    const cell = own.get(column);
    const before = above.get(column);
    const holds = isPage || (isDated && fields.some((field) => field === YEAR || field === MONTH));
    const same =
      cell === undefined ? below === 'as above' && holds : ways.ditto === 'as above' && cell.kind === 'text' && isDitto(cell.value);
    if (same && before !== undefined) cells.set(column, before);
    else if (cell !== undefined && !same) above.set(column, cell);
  }
  return cells;
}

/** What marks in the columns of duplicates and retakes state: `D` under "Dup". */
function marked(cells: ReadonlyMap<number, BookCell>, plans: readonly ColumnPlan[], ways: Ways): readonly Stated[] {
  return plans.flatMap(({ column, fields: [field = ''] }): readonly Stated[] => {
    const words = cells.get(column)?.value.trim() ?? '';
    if (!TAKES.has(field) || ways.words.get(field)?.get(wordKey(words)) !== 'yes') return [];
    return [
      {
        key: field,
        wording: field,
        words,
        pages: [],
        alone: true,
        inPart: false,
        fact: { is: field === 'retake of' ? 'retake' : 'duplicate', of: null },
      },
    ];
  });
}

/** Reads each cell of a row in its column; gives what a cell states beside what its column holds. */
function readCells(read: ReadRow, { plans, ways, book }: RowWays, beside: Beside, notes: CellNotes): Facts {
  const more = new Map<string, string>();
  const { row } = read.row;
  for (const { column, head, fields } of plans) {
    const cell = read.cells.get(column);
    const [field] = fields;
    if (cell === undefined || field === undefined) continue;
    const completed: Completed | null = field === 'date' ? completedDay(cell, beside, ways, book) : null;
    if (completed?.fault != null && isOwn(cell, row)) notes.complain(row, head, completed.held, completed.fault);
    if (completed?.day != null) {
      if (isOwn(cell, row)) notes.remark(row, head, completed.held, completed.remark);
      read.facts.set('date', completed.day);
    }
    if (completed !== null && (completed.day !== null || completed.fault !== null) && cell.kind !== 'text') continue;
    if (!isText(cell, field, ways)) read.typed.set(field, cell);
    else {
      const text = withoutGuard(cell.value.trim());
      const facts = cellFacts(text, fields, ways, beside);
      if (completed?.day == null && isOwn(cell, row)) tellOf(text, fields, facts, row, head, notes);
      const beyond = (one: string): boolean => !fields.includes(one) && !isOfColumn(one, text, field);
      add(
        read.facts,
        [...facts].filter(([one]) => !beyond(one)),
      );
      add(
        more,
        [...facts].filter(([one]) => beyond(one)),
      );
      if (field === 'title' && ways.renamed.has(facts.get('title') ?? '') && facts.get('title') !== text) {
        if (isOwn(cell, row))
          notes.remark(row, head, quoted(text), 'is one of several names of its title; it is kept as the printed title.');
        add(more, [['title printed', text]]);
      }
    }
  }
  return more;
}

/** What is corrected in a cell, and the last frame of a range, are what its column holds. */
function isOfColumn(fact: string, text: string, field: string): boolean {
  return fact === LAST_FRAME || (isCorrected(text, field) && fact !== 'weekday printed' && fact !== 'edition' && fact !== 'edition label');
}

/** What belongs to the paper: of what is not on the film it is kept as a note. */
const OF_PAPER: ReadonlySet<string> = new Set(['weekday printed', 'edition label', 'title printed']);

/** Adds what cells state beside what their columns hold; a column of its own comes first. */
function addStatedBeside(read: ReadRow, use: SheetUse, more: Facts): void {
  const onFilm = has(read, use === 'frames' ? 'frame' : 'pages');
  for (const [field, text] of more) {
    if (has(read, field)) continue;
    if (onFilm || !OF_PAPER.has(field)) read.facts.set(field, text);
    else read.facts.set('note', [valueOf(read, 'note'), `${field}: ${text}`].filter((one) => one !== '').join('; '));
  }
}

/** Says where a cell was not read to the letter, and where it falls into other parts than its column has. */
function tellOf(text: string, fields: readonly string[], facts: Facts, row: number, head: string, notes: CellNotes): void {
  const [field = ''] = fields;
  if (fields.length > 1 && !isJoined(text, fields))
    notes.complain(row, head, quoted(text), `does not fall into ${fields.join(' and ')}; write as many parts, such as 8/283.`);
  else if (fields.length === 1 && isCorrected(text, field))
    notes.remark(row, head, quoted(text), 'says what is printed and what is right; both are read.');
  else if ((DAY_COLUMNS.has(field) || field === PRINTED_DAY) && facts.get(field) !== text)
    notes.remark(row, head, quoted(text), 'is a day in other words; it is read as YYYY-MM-DD.');
  else if (FRAMES.has(field)) tellOfFrame(text, field, facts, row, head, notes);
  else if (field === 'page') tellOfPage(text, facts, row, head, notes);
}

function tellOfFrame(text: string, field: string, facts: Facts, row: number, head: string, { remark }: CellNotes): void {
  const frame = facts.get(field);
  if (frame === undefined && TAKES.has(field)) return;
  if (frame === undefined)
    remark(row, head, quoted(text), 'says that there is no frame; the row is read as one of what is not on the film.');
  else if (frame !== text && !facts.has(LAST_FRAME)) remark(row, head, quoted(text), `is read as frame ${frame}.`);
}

function tellOfPage(text: string, facts: Facts, row: number, head: string, { remark, complain, ways }: CellNotes): void {
  const page = framePage(text, ways);
  const printed = facts.has('page printed') ? ' without a printed number' : '';
  if (page.is === 'fault') complain(row, head, quoted(text), page.says);
  else if (facts.get('page') !== text) remark(row, head, quoted(text), `is read as page ${facts.get('page') ?? ''}${printed}.`);
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
  if (kind !== 'not on the film' && kind !== 'held back' && kind !== 'supplement') return;
  read.facts.delete('kind');
  if (kind === 'supplement') add(read.facts, [['supplement', 'yes']]);
  if (kind === 'not on the film') makeAbsent(read, use, 'yes');
  else if (kind === 'held back') holdBack(read);
}

/** So many frames in a row may show no page; a range that is longer is a slip, and held against the pages. */
const MOST_SHOWN = 200;

/** What a row shows of which a note alone tells; false where the row is to be left out. */
function addShown(read: ReadRow, use: SheetUse, ways: Ways, notes: readonly string[]): boolean {
  if (use !== 'frames' && use !== 'issues') return true;
  const lone = loneNote(use, (field) => has(read, field), notes);
  const shows = lone?.texts.map((text) => ways.words.get('note')?.get(wordKey(text))).find((one) => one !== undefined);
  if (shows === undefined) return true;
  if (shows === 'leave out') return false;
  const sign = [...SIGNS].find(([, kind]) => kind === shows)?.[0];
  // All frames from the first to the last of such a row show the same.
  const frames = Math.min(framesStated(read) ?? 1, MOST_SHOWN);
  const signs = sign === undefined ? [] : Array.from({ length: frames }, () => sign);
  if (use === 'issues') add(read.facts, signs.length === 0 ? [] : [['pages', signs.join(',')]]);
  else if (shows === 'held back' || shows === 'not on the film') settleKind(read, use, shows);
  else add(read.facts, [['kind', shows]]);
  return true;
}
