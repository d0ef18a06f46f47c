import { type BookCell, type BookRow, type BookSheet } from '../../model/written-grid.js';
import { MOST_COLUMNS, MOST_ROWS } from '../budgets.js';
import { UserMistake } from '../mistake.js';
import type { XmlScan } from '../xml-position.js';
import { textBetween } from '../xml-text.js';
import { columnLetters, readAddress } from './address.js';
import { type CellStyle, isDateFormat } from './number-format.js';
import { isTrue, type PartElement, type PartReader, plainString, readPart } from './part-events.js';
import { type PiecedText, pieces } from './pieced-text.js';
import { cellOf, type Found, nothingFound, plainCellAt } from './plain-cells.js';

/** What the cells of a sheet refer to. */
export interface CellSources {
  readonly strings: readonly PiecedText[];
  readonly styles: readonly CellStyle[];
}

const NUMBER = /^[+-]?(\d{1,400}(\.\d{0,400})?|\.\d{1,400})(E[+-]?\d{1,4})?$/i;

/** Reads the cells of one sheet (ECMA-376 part 1, section 18.3). Throws UserMistake with the address of a cell that cannot be what it is. */
export function readCells(bytes: Buffer, where: string, sources: CellSources): Pick<BookSheet, 'rows' | 'hiddenColumns' | 'merged'> {
  const hiddenColumns: { from: number; to: number }[] = [];
  const merged: string[] = [];
  const sheet = rowReader(where, sources);
  readPart(bytes, where, {
    open: (element, path) => {
      const { name, attribute } = element;
      if (name === 'col' && isTrue(attribute('hidden')))
        hiddenColumns.push({ from: Number(attribute('min')) - 1, to: Number(attribute('max')) - 1 });
      if (name === 'mergeCell') merged.push(attribute('ref') ?? '');
      sheet.open(element, path);
    },
    text: sheet.text,
    close: sheet.close,
    ahead: sheet.ahead,
  });
  return { rows: sheet.rows, hiddenColumns, merged };
}

interface OpenCell {
  readonly address: string;
  readonly column: number;
  readonly type: string;
  readonly format: string;
  readonly look: Pick<BookCell, 'colour' | 'ink' | 'struck'>;
  value: string | null;
  formula: string | null;
  /** The pieces of a text that stands in the cell itself. */
  readonly inline: ReturnType<typeof pieces>;
}

function rowReader(where: string, { strings, styles }: CellSources): Required<PartReader> & { readonly rows: readonly BookRow[] } {
  const rows: BookRow[] = [];
  let row = 0;
  let hidden = false;
  let column = -1;
  let cells: BookCell[] = [];
  let cell: OpenCell | null = null;
  const refuse = (says: string): never => {
    throw new UserMistake(`${where}${says}`);
  };
  const openRow = ({ attribute }: PartElement): void => {
    const written = attribute('r');
    const number = written === undefined ? row + 1 : Number(written);
    if (!Number.isInteger(number) || number <= row)
      refuse(`: the rows do not follow each other at row ${String(written)}; save the workbook again.`);
    row = number;
    hidden = isTrue(attribute('hidden'));
    column = -1;
    cells = [];
  };
  const openCell = ({ attribute }: PartElement): void => {
    const written = attribute('r');
    const place = written === undefined ? { column: column + 1, row: row - 1 } : readAddress(written);
    if (place === null || place.row !== row - 1 || place.column <= column)
      return refuse(
        `: the cell "${(written ?? '').slice(0, 20)}" cannot stand in row ${String(row)} where it stands; save the workbook again.`,
      );
    column = place.column;
    const style = styles[Number(attribute('s') ?? '0')];
    cell = {
      address: `${columnLetters(column)}${String(row)}`,
      column,
      type: attribute('t') ?? 'n',
      format: style?.format ?? 'General',
      look: { colour: style?.colour ?? null, ink: style?.ink ?? null, struck: style?.struck ?? false },
      value: null,
      formula: null,
      inline: pieces(),
    };
  };
  const closeCell = (open: OpenCell): void => {
    if (open.value === null && open.formula === null) return;
    if (open.column >= MOST_COLUMNS || row > MOST_ROWS)
      refuse(
        `: the cell ${open.address} holds something far from all others; a sheet of a record has at most ${String(MOST_COLUMNS)} columns and ${String(MOST_ROWS)} rows. Empty it.`,
      );
    cells.push(finished(open, where, strings));
  };
  const found = nothingFound();
  const take = (scan: XmlScan): boolean => {
    if (found.row !== row || found.column <= column || row > MOST_ROWS || found.column >= MOST_COLUMNS) return false;
    if (found.to > 0) {
      const made = plainly(found, scan, { strings, styles });
      if (made === null) return false;
      cells.push(made);
    }
    column = found.column;
    scan.at = found.next;
    return true;
  };
  return {
    rows,
    ahead: (scan, path) => {
      if (path.at(-1) !== 'row' || path.at(-2) !== 'sheetData') return false;
      const from = scan.at;
      while (plainCellAt(scan, found) && take(scan));
      return scan.at > from;
    },
    open: (element, path) => {
      if (element.name === 'row' && path.at(-2) === 'sheetData') openRow(element);
      else if (element.name === 'c' && path.at(-2) === 'row') openCell(element);
      else if (element.name === 'f' && cell !== null) cell.formula = '';
      else if ((element.name === 'v' || element.name === 'is') && cell !== null) cell.value = '';
      else cell?.inline.open(element, path);
    },
    text: (text, path) => {
      if (cell === null) return;
      const name = path.at(-1);
      cell.inline.text(text, path);
      if (name === 'v' || (name === 't' && !path.includes('rPh'))) cell.value = (cell.value ?? '') + text;
      else if (name === 'f') cell.formula = (cell.formula ?? '') + text;
    },
    close: (name, path) => {
      if (name === 'c' && cell !== null) {
        closeCell(cell);
        cell = null;
      } else if (name === 'row' && path.at(-2) === 'sheetData' && cells.length > 0) rows.push({ row, hidden, cells });
    },
  };
}

const NO_STYLE: CellStyle = { format: 'General', colour: null, ink: null, struck: false };

/** A plain cell; null for one that refers to no text. */
function plainly(found: Found, { bytes }: XmlScan, { strings, styles }: CellSources): BookCell | null {
  const style = styles[Math.max(0, found.style)] ?? NO_STYLE;
  if (found.type === 's') {
    const text = strings[found.number];
    return text === undefined ? null : pieced(cellOf(found, 'text', text.text, style), text);
  }
  const value = textBetween(bytes, found.from, found.to, false);
  if (found.type === 'inlineStr') return cellOf(found, 'text', plainString(value), style);
  return cellOf(found, isDateFormat(style.format) ? 'date' : 'number', value, style);
}

/** A cell of text with what is struck through in it: all of it, or parts. */
function pieced(cell: BookCell, { unstruck }: PiecedText): BookCell {
  if (unstruck === undefined) return cell;
  return unstruck.trim() === '' ? { ...cell, struck: true } : { ...cell, unstruck };
}

function finished(
  { address, column, type, format, look, formula, inline, ...cell }: OpenCell,
  where: string,
  strings: readonly PiecedText[],
): BookCell {
  const value = cell.value ?? '';
  const made = (kind: BookCell['kind'], text: string): BookCell => ({
    address,
    column,
    kind,
    value: text,
    format,
    formula,
    ...look,
    comment: null,
  });
  const refuse = (says: string): never => {
    throw new UserMistake(`${where}: the cell ${address} ${says}; save the workbook again.`);
  };
  switch (type) {
    case 's': {
      const text = /^\d{1,9}$/.test(value) ? strings[Number(value)] : undefined;
      return text === undefined
        ? refuse(`refers to text number "${value.slice(0, 20)}", which is not in the workbook`)
        : pieced(made('text', text.text), text);
    }
    case 'str':
      return made('text', plainString(value));
    case 'inlineStr':
      return pieced(made('text', plainString(value)), inline.whole());
    case 'b':
      return made('boolean', isTrue(value) ? 'TRUE' : 'FALSE');
    case 'e':
      return made('error', value);
    case 'd':
      return made('date', value);
    case 'n':
      if (value === '') return made('number', '');
      if (!NUMBER.test(value)) return refuse(`is said to hold a number, but holds "${value.slice(0, 40)}"`);
      return made(isDateFormat(format) ? 'date' : 'number', value);
    default:
      return refuse(`is of the unknown kind "${type.slice(0, 20)}"`);
  }
}
