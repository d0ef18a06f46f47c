import { spreadLabel } from '../../normalise/labels.js';
import { isNotedLabel } from '../../normalise/pages-notation.js';
import type { Ways } from '../ways.js';
import { tokensOf } from './tokens.js';
import { meaningOf } from './words.js';

/** What the page cell of one frame says: its label and what is printed, null where the label itself is; or why it can be none. */
export type FramePage =
  | { readonly is: 'label'; readonly label: string; readonly printed: '-' | null }
  | { readonly is: 'fault'; readonly says: string };

const ABSENT =
  'says that a page is not on the film, but not which. Write its label, in a row without a frame number; where the frame shows something else, write what.';
const COUNT = 'says how many pages there are; a frame sheet has a row for each frame, with the label of the page that it shows.';
const REMARK =
  'holds a remark beside the label of the page; write the label alone, the remark as a note, and what is printed under "page printed" where it is another.';
const BLANK =
  'names no page. Write the number of the side with "-" under "page printed", or leave the cell empty where the frame is none of an issue, with "blank" or "void" under "kind".';

/** Reads the page of a frame: `p. 3` and `S. 3` are page 3, and `[3]` is page 3 without a printed number, as brackets say what is supplied (common practice, no source). */
export function framePage(text: string, ways: Ways): FramePage {
  const label = (found: string, printed: '-' | null = null): FramePage => ({ is: 'label', label: found, printed });
  if (isNotedLabel(text) || spreadLabel(text) !== null) return label(text);
  const supplied = /^\[([^\][]{1,12})\]$/.exec(text)?.[1]?.trim();
  if (supplied !== undefined && isNotedLabel(supplied)) return label(supplied, '-');
  const [first, ...rest] = tokensOf(text, ways);
  const named =
    first?.is === 'word' &&
    first.word.is === 'page' &&
    rest.length > 0 &&
    rest.every((token) => token.is === 'label' || (token.is === 'mark' && token.text === '-'));
  const bare = named ? rest.map(({ text: part }) => part).join('') : '';
  if (isNotedLabel(bare) || spreadLabel(bare) !== null) return label(bare);
  const whole = meaningOf(text, ways);
  if (whole?.is === 'absent') return { is: 'fault', says: ABSENT };
  if (whole?.is === 'sign' && whole.kind !== 'target') return { is: 'fault', says: BLANK };
  const counts =
    first?.is === 'label' && rest.length === 1 && rest[0]?.is === 'word' && (rest[0].word.is === 'page' || rest[0].word.is === 'leaf');
  if (whole?.is === 'all' || counts) return { is: 'fault', says: COUNT };
  return /[[(].*\p{L}{2}/u.test(text) ? { is: 'fault', says: REMARK } : label(text);
}
