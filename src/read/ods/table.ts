import type { BookCell, BookRow, BookSheet } from '../../model/written-grid.js';
import { MOST_COLUMNS, MOST_ROWS } from '../budgets.js';
import { UserMistake } from '../mistake.js';
import { columnLetters } from '../workbook/address.js';
import type { PartElement, PartReader } from '../workbook/part-events.js';
import { type OdsCell, odsCell } from './cell.js';

/** One table while it is read. */
interface OpenTable {
  readonly name: string;
  readonly hidden: boolean;
  readonly rows: BookRow[];
  readonly hiddenColumns: { readonly from: number; readonly to: number }[];
  readonly merged: string[];
  /** Rows and columns that are behind. */
  row: number;
  columns: number;
}

/** One row while it is read. */
interface OpenRow {
  readonly repeated: number;
  readonly hidden: boolean;
  readonly cells: BookCell[];
  column: number;
}

interface OpenCell extends OdsCell {
  readonly repeated: number;
  readonly wide: number;
  readonly high: number;
}

/** What a style says of cells, or of the table that has it. */
interface Style extends Pick<BookCell, 'colour' | 'ink' | 'struck'> {
  readonly display: boolean;
}

const NO_STYLE: Style = { colour: null, ink: null, struck: false, display: true };

function lookOf({ colour, ink, struck }: Style): Pick<BookCell, 'colour' | 'ink' | 'struck'> {
  return { colour, ink, struck };
}

/** Takes in the tables of a content.xml, in the order of their tabs. */
export function tableReader(file: string): Required<Omit<PartReader, 'ahead'>> & { readonly sheets: BookSheet[] } {
  const sheets: BookSheet[] = [];
  const styles = new Map<string, Style>();
  let style: string | null = null;
  let table: OpenTable | null = null;
  let row: OpenRow | null = null;
  let cell: OpenCell | null = null;
  // Whether the parts of a text that are open have a style that is struck through.
  const spans: boolean[] = [];
  const closeCell = (): void => {
    if (table === null || row === null || cell === null) return;
    const first = row.column;
    const { repeated, wide, high } = cell;
    if (wide > 1 || high > 1) table.merged.push(rangeOf(first, table.row + 1, wide, high));
    const made = odsCell(cell);
    if (made !== null) {
      // A cell that holds something is repeated a few times at most; the grey end of a sheet is empty.
      if (first + repeated > MOST_COLUMNS || table.row + row.repeated > MOST_ROWS)
        throw new UserMistake(
          `${file}, sheet ${table.name}: the cell ${columnLetters(first)}${String(table.row + 1)} holds something far from all others; a sheet of a record has at most ${String(MOST_COLUMNS)} columns and ${String(MOST_ROWS)} rows. Empty it.`,
        );
      for (let at = 0; at < repeated; at += 1) row.cells.push({ ...made, column: first + at, address: '' });
    }
    row.column = first + repeated;
    cell = null;
  };
  const closeRow = (): void => {
    if (table === null || row === null) return;
    if (row.cells.length > 0)
      for (let at = 0; at < row.repeated; at += 1) {
        const number = table.row + at + 1;
        const cells = row.cells.map((one) => ({ ...one, address: `${columnLetters(one.column)}${String(number)}` }));
        table.rows.push({ row: number, hidden: row.hidden, cells });
      }
    table.row += row.repeated;
    row = null;
  };
  const openStyle = ({ name, attribute }: PartElement): void => {
    if (name === 'style') style = attribute('name') ?? null;
    const known = style === null ? undefined : (styles.get(style) ?? NO_STYLE);
    if (style === null || known === undefined) return;
    if (name === 'table-cell-properties') styles.set(style, { ...known, colour: colourOf(attribute('background-color')) });
    if (name === 'text-properties')
      styles.set(style, {
        ...known,
        ink: inkOf(attribute('color')),
        struck: !['none', undefined].includes(attribute('text-line-through-style')),
      });
    if (name === 'table-properties' && attribute('display') === 'false') styles.set(style, { ...known, display: false });
  };
  return {
    sheets,
    open: (element, path) => {
      const { name, attribute } = element;
      if (table === null) {
        openStyle(element);
        if (name === 'table' && path.at(-2) === 'spreadsheet')
          table = {
            name: attribute('name') ?? '',
            hidden: styles.get(attribute('style-name') ?? '')?.display === false,
            rows: [],
            hiddenColumns: [],
            merged: [],
            row: 0,
            columns: 0,
          };
        return;
      }
      if (name === 'table-column') {
        const count = countOf(attribute('number-columns-repeated'));
        if (isHidden(attribute('visibility'))) table.hiddenColumns.push({ from: table.columns, to: table.columns + count - 1 });
        table.columns += count;
      } else if (name === 'table-row') {
        row = { repeated: countOf(attribute('number-rows-repeated')), hidden: isHidden(attribute('visibility')), cells: [], column: 0 };
      } else if ((name === 'table-cell' || name === 'covered-table-cell') && row !== null) {
        cell = {
          repeated: countOf(attribute('number-columns-repeated')),
          wide: countOf(attribute('number-columns-spanned')),
          high: countOf(attribute('number-rows-spanned')),
          // What lies under a merged cell is not seen.
          covered: name === 'covered-table-cell',
          type: attribute('value-type') ?? '',
          value:
            attribute('date-value') ??
            attribute('time-value') ??
            attribute('boolean-value') ??
            attribute('string-value') ??
            attribute('value') ??
            '',
          formula: attribute('formula') ?? null,
          look: lookOf(styles.get(attribute('style-name') ?? '') ?? NO_STYLE),
          comment: [],
          lines: [],
          left: [],
        };
      } else if (cell !== null && path.includes('annotation')) {
        if (name === 'p') cell.comment.push('');
      } else if (cell !== null) {
        const struck = spans.includes(true);
        if (name === 'p') openLine(cell);
        else if (name === 'span') spans.push(styles.get(attribute('style-name') ?? '')?.struck === true);
        else if (name === 's') append(cell, ' '.repeat(Math.min(100, countOf(attribute('c')))), struck);
        else if (name === 'tab') append(cell, '\t', struck);
        else if (name === 'line-break') append(cell, '\n', struck);
      }
    },
    text: (text, path) => {
      if (cell === null || !path.includes('p')) return;
      if (path.includes('annotation')) cell.comment.push(`${cell.comment.pop() ?? ''}${text}`);
      else append(cell, text.replace(/[ \t\r\n]+/g, ' '), spans.includes(true));
    },
    close: (name, path) => {
      if (name === 'span' && cell !== null && !path.includes('annotation')) spans.pop();
      else if (name === 'style' && table === null) style = null;
      else if (name === 'table-cell' || name === 'covered-table-cell') closeCell();
      else if (name === 'table-row') closeRow();
      else if (name === 'table' && table !== null && path.at(-2) === 'spreadsheet') {
        sheets.push({ name: table.name, hidden: table.hidden, rows: table.rows, hiddenColumns: table.hiddenColumns, merged: table.merged });
        table = null;
      }
    },
  };
}

function openLine(cell: OdsCell): void {
  cell.lines.push('');
  cell.left.push('');
}

function append(cell: OdsCell, text: string, struck: boolean): void {
  for (const lines of struck ? [cell.lines] : [cell.lines, cell.left]) lines[Math.max(0, lines.length - 1)] = (lines.at(-1) ?? '') + text;
}

function countOf(text: string | undefined): number {
  return text !== undefined && /^[1-9]\d{0,8}$/.test(text) ? Number(text) : 1;
}

function isHidden(visibility: string | undefined): boolean {
  return visibility === 'collapse' || visibility === 'filter';
}

function rangeOf(column: number, row: number, wide: number, high: number): string {
  return `${columnLetters(column)}${String(row)}:${columnLetters(column + wide - 1)}${String(row + high - 1)}`;
}

/** The colour of a text; null for black. */
function inkOf(text: string | undefined): string | null {
  const colour = colourOf(text);
  return colour === '000000' ? null : colour;
}

function colourOf(text: string | undefined): string | null {
  const rgb = /^#([0-9a-f]{6})$/i.exec(text ?? '')?.[1]?.toUpperCase() ?? null;
  return rgb === 'FFFFFF' ? null : rgb;
}
