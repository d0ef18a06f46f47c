import type { BookCell, BookRow, BookSheet, WrittenGrid } from '../model/written-grid.js';
import { sheetInWords } from '../normalise/sheet-row.js';
import { isOwn } from './ranges.js';
import type { Ways } from './ways.js';

/** The colours of a row as a reading file calls them: `FFFF00` of a cell, `font FF0000` of its text. */
export function coloursOf({ cells }: Pick<BookRow, 'cells'>): readonly string[] {
  if (cells.every(({ colour, ink }) => colour === null && ink === null)) return [];
  return [...new Set(cells.flatMap(({ colour, ink }) => [...(colour === null ? [] : [colour]), ...(ink === null ? [] : [`font ${ink}`])]))];
}

/** Whether all that stands in a row is struck through; what is merged into it from above is not its own. */
export function isStruck({ row, cells }: BookRow): boolean {
  const own = cells.filter((cell) => cell.value.trim() !== '' && isOwn(cell, row));
  return own.length > 0 && own.every(({ struck }) => struck);
}

/** A sheet as it is read where the reading file leaves out what is struck through in part of a cell. */
export function withoutStruckParts(sheet: BookSheet, { struck }: Ways): BookSheet {
  if (struck !== 'leave out' || !sheet.rows.some(({ cells }) => cells.some(({ unstruck }) => unstruck !== undefined))) return sheet;
  const cell = (one: BookCell): BookCell => (one.unstruck === undefined ? one : { ...one, value: one.unstruck });
  return { ...sheet, rows: sheet.rows.map((row) => ({ ...row, cells: row.cells.map(cell) })) };
}

/** What the comments on the cells of a row say, where they are read as notes. */
export function commentsIn(cells: readonly BookCell[], { comments }: Ways): readonly string[] {
  return comments === 'notes' ? [...new Set(cells.flatMap(({ comment }) => comment ?? []))] : [];
}

/** The cells that have a mark of any kind, as few have, and how many cells there are. */
function markedCells({ rows }: BookSheet): { readonly marked: readonly BookCell[]; readonly count: number } {
  const marked: BookCell[] = [];
  let count = 0;
  for (const { cells } of rows) {
    count += cells.length;
    for (const cell of cells)
      if (cell.comment !== null || cell.ink !== null || cell.struck || cell.unstruck !== undefined) marked.push(cell);
  }
  return { marked, count };
}

/** What people see in a sheet beside its text, with what is made of it: a sentence for each kind. */
export function marksInWords({ file, sheet }: WrittenGrid, ways: Ways): readonly string[] {
  const where = sheetInWords({ file, sheet: sheet.name });
  const { marked: cells, count } = markedCells(sheet);
  if (cells.length === 0) return [];
  const told = (marked: readonly BookCell[], has: string, have: string, says: string): readonly string[] => {
    const [first] = marked;
    if (first === undefined) return [];
    return [
      `${where}: ${marked.length === 1 ? `the cell ${first.address} ${has}` : `${String(marked.length)} cells ${have}, the first is ${first.address}`}; ${says}.`,
    ];
  };
  const struckRows = new Set(sheet.rows.filter(isStruck).map(({ row }) => row));
  const struck = sheet.rows.flatMap(({ row, cells: own }) =>
    own.filter((cell) => cell.struck && cell.value.trim() !== '').map((cell) => ({ cell, row })),
  );
  const inPart = struck.filter(({ row }) => !struckRows.has(row)).map(({ cell }) => cell);
  const whole = struck.filter(({ row }) => struckRows.has(row)).map(({ cell }) => cell);
  const inked = cells.filter(({ ink, value }) => ink !== null && value.trim() !== '' && !ways.colours.has(`font ${ink}`));
  const kept = ways.struck === 'leave out' ? 'such rows are left out' : 'such rows are read as they stand';
  return [
    ...told(
      cells.filter(({ comment }) => comment !== null),
      'has a comment',
      'have comments',
      ways.comments === 'notes' ? 'comments are read as notes' : 'comments are not read',
    ),
    ...told(whole, 'is struck through with its row', 'are struck through with their rows', kept),
    ...told(inPart, 'is struck through', 'are struck through in rows that are not', 'what stands there is read all the same'),
    ...told(
      cells.filter(({ unstruck }) => unstruck !== undefined),
      'is struck through in part',
      'are struck through in part',
      ways.struck === 'leave out' ? 'such parts are left out' : 'all that stands there is read',
    ),
    ...(inked.length > count / 2
      ? []
      : told(inked, 'is written in another colour', 'are written in another colour', 'the colour says nothing that is read')),
  ];
}
