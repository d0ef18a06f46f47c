import { readPages } from '../../normalise/pages-notation.js';
import type { Ways } from '../ways.js';
import { meaningOf, type PagesWord } from './words.js';

/** A piece of a pages cell. */
export type Token =
  | { readonly is: 'label'; readonly text: string }
  /** What the notation itself reads: `x3`, `[5]`, `5(6)`, `_`. */
  | { readonly is: 'noted'; readonly text: string }
  | { readonly is: 'word'; readonly text: string; readonly word: PagesWord }
  | { readonly is: 'unknown'; readonly text: string }
  /** `,` and a line break part loosely, `and` joins, `+` adds, `;` and a bracket end what stands in front. */
  | { readonly is: 'mark'; readonly text: ',' | 'and' | '+' | ';' | '-' };

const NOTED = [
  /^@\d{1,9}[AB]?(?![\p{L}\d])/u,
  /^\[[^\][]*\]/,
  /^[xd] ?(?=(?:[A-Z]{1,3}-?)?\d)[^,;&+()]*(?:\([^()]*\))?/,
  /^(?:[A-Z]{1,3}-?)?\d{1,5}[a-z]? ?\([^()]*\)/,
  /^(?:_|[tv])(?![\p{L}\d])/u,
];
const LABEL =
  /^(?:(?:[A-Z]{1,3}-?)?\d{1,5}(?:[./]\d{1,5})?(?: ?[½¼¾])?(?:[a-e](?!\p{L}))?|[ivxl]{1,7}(?![\p{L}.\d])|[IVXL]{1,7}(?![\p{L}.\d]))/u;
const WORD = /^\p{L}[\p{L}'’]*(?:\.\p{L})*\.?/u;
const MARKS: readonly (readonly [RegExp, ',' | 'and' | '+' | ';' | '-'])[] = [
  [/^(?:,|\/|\n)/, ','],
  [/^&/, 'and'],
  [/^\+/, '+'],
  [/^[;()|]/, ';'],
  [/^[-\u2010-\u2015~]/, '-'],
];
/** More words than belong together. */
const MOST_WORDS = 4;

/** The pieces of a pages cell that is not written in the notation. */
export function tokensOf(cell: string, ways: Ways): readonly Token[] {
  const tokens: Token[] = [];
  for (let rest = cell; rest !== ''; ) {
    const blank = /^(?:[^\S\n]|[.:](?!\p{L}))+/u.exec(rest)?.[0] ?? '';
    if (blank !== '') {
      rest = rest.slice(blank.length);
      continue;
    }
    const [token, length] = next(rest, ways);
    const before = tokens.at(-1);
    // Words that nobody knows are asked about together.
    if (token.is === 'unknown' && before?.is === 'unknown') tokens.splice(-1, 1, { is: 'unknown', text: `${before.text} ${token.text}` });
    else tokens.push(token);
    rest = rest.slice(length);
  }
  return tokens;
}

function next(rest: string, ways: Ways): readonly [token: Token, length: number] {
  const noted = NOTED.map((pattern) => pattern.exec(rest)?.[0].trimEnd()).find((text) => text !== undefined && isNoted(text, ways));
  if (noted !== undefined) return [{ is: 'noted', text: noted }, noted.length];
  const label = LABEL.exec(rest)?.[0];
  if (label !== undefined) return [{ is: 'label', text: label.replace(' ', '') }, label.length];
  for (const [pattern, text] of MARKS) if (pattern.test(rest)) return [{ is: 'mark', text }, 1];
  return wordAt(rest, ways);
}

function wordAt(rest: string, ways: Ways): readonly [token: Token, length: number] {
  const ends: number[] = [];
  for (let at = 0; ends.length < MOST_WORDS; ) {
    const gap = ends.length === 0 ? 0 : (/^ +/.exec(rest.slice(at))?.[0].length ?? 0);
    const found = ends.length > 0 && gap === 0 ? undefined : WORD.exec(rest.slice(at + gap))?.[0];
    if (found === undefined) break;
    at += gap + found.length;
    ends.push(at);
  }
  for (const end of ends.toReversed()) {
    const text = rest.slice(0, end);
    const word = meaningOf(text, ways) ?? meaningOf(text.replace(/\.$/, ''), ways);
    if (word?.is === 'and') return [{ is: 'mark', text: 'and' }, end];
    if (word?.is === 'with') return [{ is: 'mark', text: '+' }, end];
    if (word !== null) return [{ is: 'word', text: text.replace(/\.$/, ''), word }, end];
  }
  const [first = 1] = ends;
  return [{ is: 'unknown', text: rest.slice(0, first) }, first];
}

/** Whether the notation reads a part, and no word stands in its bracket where the notation has what is printed. */
function isNoted(text: string, ways: Ways): boolean {
  return readPages(text).faults.length === 0 && !holdsWord(text, ways);
}

/** Whether a bracket holds words that say something else than what is printed: `4 (torn)`, `1 (recte 2)`. */
export function holdsWord(cell: string, ways: Ways): boolean {
  return [...cell.matchAll(/\(([^()]*)\)/g)].some(([, inside = '']) =>
    (inside.match(/\p{L}[\p{L}.'’]*(?: \p{L}[\p{L}.'’]*)*/gu) ?? []).some((words) =>
      [words, ...words.split(' ')].some((one) => /\p{L}{2}/u.test(one) && meaningOf(one.replace(/\.$/, ''), ways) !== null),
    ),
  );
}
