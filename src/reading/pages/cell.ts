import { pagesParts, readPages } from '../../normalise/pages-notation.js';
import { labelDamage } from '../../normalise/sheet-damage.js';
import type { Ways } from '../ways.js';
import { type Gone, type Listed, NOTHING, notedShots, type PagesFacts, type PagesReading } from './facts.js';
import { partsFacts } from './gather.js';
import { holdsWord, type Token, tokensOf } from './tokens.js';
import { meaningOf } from './words.js';

/** Longer than what people write of the pages of an issue without using the notation. */
const LONGEST_CELL = 400;
/** More frames than one issue has are a slip, which the notation tells of, and would be long to go through. */
const MOST_FRAMES = 1000;
/** Ranges and labels of sections that blanks alone part, `A1-A4 B1-B4`: no label holds a blank between two such. */
const BY_SPACES = /^(?:(?:[A-Z]{1,2}\d{1,3}(?:-[A-Z]{0,2}\d{1,3})?|\d{1,3}-\d{1,3})(?:\s+|$)){2,}$/;
const TOO_LONG = 'is too long to be read word by word; write the pages in the notation, such as 1-3,[4], and the rest as a note.';

/** The facts that a pages cell states, whether it is written in the notation or as people write. No word that is not understood is taken for a label. */
export function readPagesCell(cell: string, ways: Ways): PagesReading {
  if (ways.loneNumbers === 'count' && /^[1-9]\d{0,2}$/.test(cell))
    return { is: 'facts', facts: { ...NOTHING, listed: [{ is: 'count', count: Number(cell) }] }, literal: false };
  if (BY_SPACES.test(cell)) {
    const facts = notedFacts(cell.trim().replace(/\s+/g, ','));
    return { is: 'facts', facts, literal: false };
  }
  const { items, faults } = readPages(cell);
  if (faults.length === 0 && !holdsWord(cell, ways))
    return items.length > MOST_FRAMES ? { is: 'slip' } : { is: 'facts', facts: notedFacts(cell), literal: true };
  // What a spreadsheet program made of a label, and a list that is only long, are no words: the notation says what is wrong.
  if (labelDamage(cell) !== null) return { is: 'slip' };
  if (cell.length > LONGEST_CELL) return /\p{L}{2}/u.test(cell) ? { is: 'fault', says: TOO_LONG } : { is: 'slip' };
  const tokens = tokensOf(unbracketed(cell, ways), ways);
  return tokens.some(inWords) ? partsFacts(tokens, ways) : { is: 'slip' };
}

/** Words, and signs between pages that the notation does not have. */
function inWords(token: Token): boolean {
  return token.is === 'word' || token.is === 'unknown' || (token.is === 'mark' && /^(?:and|[+;])$/.test(token.text));
}

/** The facts of a cell that is written in the notation. */
function notedFacts(cell: string): PagesFacts {
  const gone: Gone[] = [];
  const listed = pagesParts(cell).flatMap((part): readonly Listed[] => {
    const shots = notedShots(part.trim());
    gone.push(...shots.gone);
    return shots.frames === 0 && shots.gone.length > 0 ? [] : [shots.listed];
  });
  return { ...NOTHING, listed, gone };
}

/** `1 (recte 2)` and `3 [i.e. 4]` without their brackets, which hold no remark about the page but its number. */
function unbracketed(cell: string, ways: Ways): string {
  return cell.replace(
    /[[(]\s*(\p{L}[\p{L}. ]{0,20}?)\s+([A-Z]{0,3}-?\d{1,5}[a-z]?)\s*[\])]/gu,
    (whole: string, word: string, label: string) => {
      const meaning = meaningOf(word.replace(/\.$/, ''), ways);
      return meaning?.is === 'right' || meaning?.is === 'printed' ? ` ${word} ${label}` : whole;
    },
  );
}
