import { readPages } from '../../normalise/pages-notation.js';

/** A page that is not on the film; `mark` as the notation writes whether it was published. */
export interface Gone {
  readonly page: string;
  readonly mark: '' | '-' | '?';
}

/** What the camera saw: so many pages, or what the notation says of them with the labels of pages that are simply there. */
export type Listed =
  | { readonly is: 'count'; readonly count: number }
  | { readonly is: 'shots'; readonly text: string; readonly labels: readonly string[]; readonly frames: number };

/** The facts that a pages cell states. */
export interface PagesFacts {
  /** In the order of filming. */
  readonly listed: readonly Listed[];
  /** All pages are on the film, whichever they are. */
  readonly all: boolean;
  readonly gone: readonly Gone[];
  /** The whole issue is not on the film, and whether it was published. */
  readonly whole: 'yes' | 'no' | null;
  /** Damage by page, as a cell of conditions has it. */
  readonly damage: readonly string[];
  /** What goes on as a note. */
  readonly notes: readonly string[];
  /** Pages of a supplement that lie behind the others. */
  readonly supplement: readonly Listed[];
  /** There is a supplement of which nobody says how many pages it has. */
  readonly openSupplement: boolean;
}

/** What came of a pages cell: its facts, words that nobody knows, a phrase about which the reading file says nothing, or why it cannot be read. */
export type PagesReading =
  | { readonly is: 'facts'; readonly facts: PagesFacts; readonly literal: boolean }
  | { readonly is: 'unknown'; readonly words: string }
  | { readonly is: 'unsettled'; readonly phrase: string; readonly key: string; readonly words: string }
  | { readonly is: 'fault'; readonly says: string }
  /** No words, but a slip in the notation, which tells of it itself. */
  | { readonly is: 'slip' };

/** A cell that states nothing. */
export const NOTHING: PagesFacts = {
  listed: [],
  all: false,
  gone: [],
  whole: null,
  damage: [],
  notes: [],
  supplement: [],
  openSupplement: false,
};

/** One part in the notation: what lies on the film, and what does not. */
export function notedShots(text: string): { readonly listed: Listed; readonly frames: number; readonly gone: readonly Gone[] } {
  const { items } = readPages(text);
  const gone = items.flatMap((item): readonly Gone[] =>
    item.is === 'absent' ? [{ page: item.label, mark: item.published === 'no' ? '-' : item.published === 'unknown' ? '?' : '' }] : [],
  );
  const labels = items.flatMap((item) => (item.is === 'page' && item.deliver && !item.again && item.printed === null ? [item.label] : []));
  const frames = items.filter(({ is }) => is === 'page' || is === 'other').length;
  return { listed: { is: 'shots', text, labels, frames }, frames, gone };
}
