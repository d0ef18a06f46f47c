import { quoted } from '../../normalise/sheet-row.js';
import type { Doubt } from '../doubts.js';
import { PAGES_WANTING } from '../names.js';
import { pagesNamed } from '../phrases.js';
import { addNote, type ReadRow, valueOf } from '../read-row.js';
import type { Ways } from '../ways.js';
import { readPagesCell } from './cell.js';
import { type Gone, NOTHING, type PagesReading } from './facts.js';
import { meaningOf } from './words.js';

/** Takes what is to be said of the pages of a row. */
export interface PagesNotes {
  readonly remark: (row: number, held: string, says: string) => void;
  readonly complain: (row: number, held: string, says: string) => void;
  readonly doubt: (doubt: Doubt) => void;
}

/** What a row says in all of its cells of the pages of its issue. */
export interface Told {
  readonly row: ReadRow;
  readonly cell: string;
  readonly reading: PagesReading;
  /** Pages that another cell of the row has as not on the film, with its words. */
  readonly elsewhere: readonly (Gone & { readonly words: string })[];
  /** What another cell says of the issue as a whole. */
  readonly whole: { readonly published: 'yes' | 'no'; readonly words: string } | null;
}

/** What to do about a cell that cannot be read. */
export const ASK = 'Run "reeltally collation read" with the file, which asks once, or write the pages in the notation, such as 1-3,[4].';

/** Gathers what a row says of its pages. */
export function toldIn(row: ReadRow, ways: Ways, notes: PagesNotes): Told {
  const cell = valueOf(row, 'pages').trim();
  const stated = row.stated.flatMap(({ fact, pages, words, alone }) =>
    fact.is === 'absent' ? [{ published: fact.published, pages, words, alone }] : [],
  );
  const listed = missingIn(row, ways, notes);
  const whole = stated.find(({ pages, alone }) => pages.length === 0 && alone) ?? listed.whole;
  return {
    row,
    cell,
    reading: cell === '' ? { is: 'facts', facts: NOTHING, literal: true } : readPagesCell(cell, ways),
    elsewhere: [
      ...listed.pages.map((page) => ({ page, mark: '' as const, words: 'wanting' })),
      ...stated.flatMap(({ pages, published, words }) =>
        pages.map((page) => ({ page, mark: published === 'no' ? ('-' as const) : ('' as const), words })),
      ),
    ],
    whole: whole ?? null,
  };
}

/** What people write where no page is wanting: common practice, no source. */
const NONE = /^(?:none|nil|no|n\/?a|0|keine|nein|nichts|vollständig|komplett|aucune?|non|néant|rien|complet|complete|[-\u2013\u2014])$/i;

/** The pages in a column of those that are not on the film; what names none goes on as a note. */
function missingIn(row: ReadRow, ways: Ways, { remark }: PagesNotes): { readonly pages: readonly string[]; readonly whole: Told['whole'] } {
  const text = valueOf(row, PAGES_WANTING).trim();
  row.facts.delete(PAGES_WANTING);
  row.typed.delete(PAGES_WANTING);
  if (text === '' || NONE.test(text)) return { pages: [], whole: null };
  if (meaningOf(text, ways)?.is === 'all') return { pages: [], whole: { published: 'yes', words: text } };
  const pages = pagesNamed(text);
  if (pages.length === 0) {
    addNote(row, `${PAGES_WANTING}: ${text}`);
    remark(row.row.row, quoted(text), 'names no page that is wanting; it is kept as a note.');
  }
  return { pages, whole: null };
}
