import type { BookCell, BookRow } from '../../model/written-grid.js';
import { readAddress } from './address.js';
import type { Archive } from './archive.js';
import { plainString, readPart } from './part-events.js';

/** What stands in front of the text of a comment that is one of a conversation, for programs that know none: from memory, as Excel writes it. */
const CONVERSATION = /^\[Threaded comment\][\s\S]*?\nComment:\s*/;

/** The comments of a sheet by the address of their cell (ECMA-376 part 1, section 18.7), without the name of who wrote them. */
export function readComments(archive: Archive, part: string | null): ReadonlyMap<string, string> {
  const bytes = part === null ? null : archive.part(part);
  const comments = new Map<string, string>();
  if (bytes === null) return comments;
  const authors: string[] = [];
  let [address, author, text] = ['', '', ''];
  readPart(bytes, `${archive.file}, part ${part ?? ''}`, {
    open: ({ name, attribute }) => {
      if (name === 'author') authors.push('');
      if (name === 'comment') [address, author, text] = [attribute('ref') ?? '', authors[Number(attribute('authorId'))] ?? '', ''];
    },
    text: (piece, path) => {
      if (path.at(-1) === 'author') authors[authors.length - 1] = `${authors.at(-1) ?? ''}${piece}`;
      if (path.at(-1) === 't' && path.includes('comment') && !path.includes('rPh')) text += piece;
    },
    close: (name) => {
      if (name !== 'comment') return;
      const said = plainString(text).replace(CONVERSATION, '').trim();
      const own = author !== '' && said.startsWith(`${author}:`) ? said.slice(author.length + 1).trim() : said;
      if (own !== '') comments.set(address, own.replace(/\s+/g, ' '));
    },
  });
  return comments;
}

/** The rows with the comments on their cells; a cell that holds nothing else than a comment is one all the same. */
export function withComments(rows: readonly BookRow[], comments: ReadonlyMap<string, string>): readonly BookRow[] {
  if (comments.size === 0) return rows;
  const empty = new Map<number, BookCell[]>();
  for (const [address, comment] of comments) {
    const place = readAddress(address);
    if (place !== null) empty.set(place.row + 1, [...(empty.get(place.row + 1) ?? []), emptyCell(address, place.column, comment)]);
  }
  return rows.map((row) => {
    const own = empty.get(row.row);
    if (own === undefined) return row;
    const cells = row.cells.map((cell) => ({ ...cell, comment: comments.get(cell.address) ?? null }));
    const more = own.filter(({ address }) => !cells.some((cell) => cell.address === address));
    return { ...row, cells: [...cells, ...more].toSorted((a, b) => a.column - b.column) };
  });
}

function emptyCell(address: string, column: number, comment: string): BookCell {
  return { address, column, kind: 'text', value: '', format: 'General', formula: null, colour: null, ink: null, struck: false, comment };
}
