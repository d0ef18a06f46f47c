import type { BlankSheet } from '../../model/blank-record.js';
import { FRAME_COLUMNS } from '../../normalise/frame-sheet.js';
import { ISSUE_COLUMNS } from '../../normalise/issue-sheet.js';
import { WEEKDAY_COLUMN } from '../../normalise/weekday-column.js';
import type { Cells } from './rows.js';
import type { BlankWish } from './wish.js';

/** Columns that every sheet to be filled in has, in the order in which they are filled in: the day, the film, the paper, the rest. */
const USUAL: Readonly<Record<BlankWish['per'], readonly string[]>> = {
  issue: [
    'date',
    WEEKDAY_COLUMN,
    'reel',
    'first frame',
    'pages',
    'published',
    'volume',
    'issue number',
    'edition',
    'edition label',
    'date printed',
    'supplement',
    'combined with',
    'date to',
    'title',
    'note',
  ],
  frame: [
    'date',
    WEEKDAY_COLUMN,
    'page',
    'reel',
    'frame',
    'kind',
    'deliver',
    'page printed',
    'published',
    'duplicate of',
    'condition',
    'volume',
    'issue number',
    'order',
    'section',
    'edition',
    'edition label',
    'date printed',
    'combined with',
    'date to',
    'title',
    'note',
  ],
};

/** The columns of the sheet: the usual ones, and in front of the title those of the others in which something stands. */
export function columnsFor(per: BlankWish['per'], rows: readonly Cells[]): readonly string[] {
  const usual = USUAL[per];
  const used = new Set(rows.flatMap((row) => Object.keys(row)));
  const others = (per === 'issue' ? ISSUE_COLUMNS : FRAME_COLUMNS).filter((name) => !usual.includes(name) && used.has(name));
  return [...usual.slice(0, -2), ...others, ...usual.slice(-2)];
}

/** Columns that a sheet may have beside those that it has. */
export function furtherColumns(per: BlankWish['per'], heads: readonly string[]): readonly string[] {
  return (per === 'issue' ? ISSUE_COLUMNS : FRAME_COLUMNS).filter((name) => !heads.includes(name));
}

const YES_NO = ['yes', 'no'];
/** The words that a column takes and no others. */
const FIXED: Readonly<Record<string, readonly string[]>> = {
  kind: ['page', 'blank', 'target', 'void', 'other'],
  deliver: YES_NO,
  supplement: YES_NO,
  published: ['yes', 'no', 'unknown'],
  'date printed judged': ['right', 'wrong', 'unclear'],
  position: ['1A', '1B', '2A', '2B'],
  carrier: ['film', 'print'],
  'reading direction': ['ltr', 'rtl'],
};

/** What the columns of a sheet offer: fixed words, and the usual pages of an issue. */
export function choicesOf(heads: readonly string[], pages: readonly number[]): BlankSheet['choices'] {
  return heads.flatMap((head): BlankSheet['choices'] => {
    const words = FIXED[head];
    if (words !== undefined) return [{ head, words, others: false }];
    const usual = pages.map((count) => (count === 1 ? '1' : `1-${String(count)}`));
    return head === 'pages' && usual.length > 0 ? [{ head, words: usual, others: true }] : [];
  });
}
