import type { WrittenGrid } from '../../model/written-grid.js';
import { coloursOf, isStruck } from '../marks.js';
import type { Ways } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { colourName } from './colours.js';
import { firsts, type Laid, where } from './laid.js';

/** What is to be asked of rows and parts of cells that are struck through. */
export function askedOfStruck(grids: readonly WrittenGrid[], film: readonly Laid[], ways: Ways): readonly Asked[] {
  if (ways.struck !== null) return [];
  const rows = grids.flatMap((grid) => {
    const laid = film.find((one) => one.grid === grid);
    return laid === undefined
      ? []
      : grid.sheet.rows.filter((row) => row.row > laid.layout.heads.row && isStruck(row)).map(({ row }) => where(laid, row));
  });
  const parts = film.flatMap((laid) =>
    laid.grid.sheet.rows.flatMap(({ row, cells }) =>
      cells.flatMap(({ unstruck, value }) => (unstruck === undefined ? [] : [`"${value.slice(0, 40)}" in ${where(laid, row)}`])),
    ),
  );
  const [first] = rows;
  const [part] = parts;
  if (first === undefined && part === undefined) return [];
  const one = rows.length + parts.length === 1;
  const said = [
    ...(first === undefined
      ? []
      : [
          rows.length === 1
            ? `A row is struck through: ${first}.`
            : `${String(rows.length)} rows are struck through, the first in ${first}.`,
        ]),
    ...(part === undefined
      ? []
      : [
          parts.length === 1
            ? `A part of a cell is struck through: ${part}.`
            : `Parts of ${String(parts.length)} cells are struck through, the first is ${part}.`,
        ]),
  ];
  return [
    asked('struck', 'rows', `${said.join(' ')} ${one ? 'Is it' : 'Are they'} to be left out?`, {
      choices: ['leave out', 'keep'],
      proposed: 'leave out',
    }),
  ];
}

/** What is to be asked of comments on cells. */
export function askedOfComments(film: readonly Laid[], ways: Ways): readonly Asked[] {
  if (ways.comments !== null) return [];
  const cells = film.flatMap((laid) =>
    laid.rows.flatMap(({ row, cells: own }) =>
      own.flatMap(({ address, comment }) => (comment === null ? [] : [{ laid, row, address, comment }])),
    ),
  );
  const [first] = cells;
  if (first === undefined) return [];
  const place = `${where(first.laid, first.row)}, cell ${first.address}: "${first.comment.slice(0, 60)}"`;
  return [
    asked(
      'comments',
      'cells',
      `${cells.length === 1 ? 'A cell has a comment' : `${String(cells.length)} cells have comments`}, ${cells.length === 1 ? '' : 'the first '}in ${place}. Are comments to be read as notes?`,
      { choices: ['notes', 'nothing'], proposed: 'notes', sure: true },
    ),
  ];
}

/** What is to be asked of rows whose cells or text have a colour of their own. */
export function askedOfColours(film: readonly Laid[], ways: Ways): readonly Asked[] {
  const rows = film.flatMap((laid) => laid.rows.map((row) => ({ laid, row })));
  const marked = rows.flatMap(({ laid, row }) => coloursOf(row).map((colour) => ({ colour, laid, row })));
  return firsts(marked, ({ colour }) => colour).flatMap(({ colour, laid, row }) => {
    const count = marked.filter((one) => one.colour === colour).length;
    // What most rows have is the look of the sheet.
    if (ways.colours.has(colour) || count > rows.length / 2) return [];
    return [
      asked(
        'colours',
        colour,
        count === 1
          ? `A row is ${colourName(colour)}: ${where(laid, row.row)}. What does that say of it?`
          : `${String(count)} rows are ${colourName(colour)}, the first in ${where(laid, row.row)}. What does that say of them?`,
        {
          choices: ['nothing', 'held back', 'not on the film', 'blank', 'target', 'void'],
          proposed: null,
        },
      ),
    ];
  });
}
