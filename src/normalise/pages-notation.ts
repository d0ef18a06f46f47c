import type { FrameKind } from '../model/collation-record.js';
import { isFramePointer } from './sheet-row.js';

/** One thing that the camera saw, or a page that it did not see, as the pages cell of an issue sheet writes it. */
export type PagesItem = PageShot | OtherShot | AbsentPage | FrameJump;

export interface PageShot {
  readonly is: 'page';
  readonly deliver: boolean;
  /** Repeats a page that another frame shows, and is delivered all the same. */
  readonly again: boolean;
  readonly label: string;
  /** What is printed where that differs, `-` for nothing; null where the label itself is printed. */
  readonly printed: string | null;
  readonly section: string | null;
  readonly duplicateOf: string | null;
}

/** A frame that is no page. */
export interface OtherShot {
  readonly is: 'other';
  readonly kind: Exclude<FrameKind, 'page' | 'other'>;
}

export interface AbsentPage {
  readonly is: 'absent';
  readonly label: string;
  readonly section: string | null;
  readonly published: 'yes' | 'no' | 'unknown';
}

/** The number of the frame that follows. */
export interface FrameJump {
  readonly is: 'jump';
  readonly frame: string;
}

/** A part of a cell that cannot be read, and why: a half sentence that follows the part. */
export interface PagesFault {
  readonly part: string;
  readonly says: string;
}

/** The signs of frames that are no pages. */
export const SIGNS: ReadonlyMap<string, OtherShot['kind']> = new Map([
  ['_', 'blank'],
  ['t', 'target'],
  ['v', 'void'],
]);

/** No range of pages is longer than this: a slip such as `1-8000` must not become eight thousand frames. */
const LONGEST_RANGE = 400;
const LONGEST_CELL = 10_000;
/** More than any reel holds. */
const MOST_ITEMS = 5000;
const RANGE = /^([A-Za-z]{0,3})(\d{1,5})\s*[-\u2013]\s*([A-Za-z]{0,3})(\d{1,5})$/;

/** Reads a pages cell. Items come in filming order; what cannot be read comes back as faults, and the rest is still read. */
export function readPages(cell: string): { readonly items: readonly PagesItem[]; readonly faults: readonly PagesFault[] } {
  const items: PagesItem[] = [];
  const faults: PagesFault[] = [];
  if (cell.length > LONGEST_CELL)
    return { items, faults: [{ part: cell, says: `is longer than ${LONGEST_CELL} characters; write the frames in several rows` }] };
  for (const raw of pagesParts(cell)) {
    const part = raw.trim();
    const read = part === '' ? 'is empty: there is a comma too many' : readPart(part);
    if (typeof read === 'string') faults.push({ part, says: read });
    else items.push(...read);
    if (items.length > MOST_ITEMS)
      return { items: [], faults: [...faults, { part: cell, says: `names more than ${MOST_ITEMS} frames; was another number meant?` }] };
  }
  return { items, faults };
}

/** The section in front of the number of a label: `A` for `A3`; null for any other label. */
export function sectionOfLabel(label: string): string | null {
  return /^([A-Za-z]{1,3})[-. ]?\d/.exec(label)?.[1]?.toUpperCase() ?? null;
}

/** A number with the letters of its section in front, or with signs or letters behind: `A3`, `12a`, `3 bis`, `2/3`, `4½`. */
const NUMBERED =
  /^(?:\p{L}{1,3}[-. ]?)?\d{1,6}(?:[./]\d{1,6})?(?: ?[½¼¾]| \d\/\d)?(?:\p{L}{1,2}| (?:bis|ter|quater)| \p{Lu})?[*'’°+]{0,3}$/u;
/** A Roman numeral, one letter, a few letters of a script without capitals. */
const LETTERED = /^(?:[ivxlc]{1,8}|[IVXLC]{1,8}|\p{L}|\p{Lu}{2}|\p{Lo}{1,4})[*'’°+]{0,3}$/u;
/** Words for a page around a number: `4 pp`, `8p`, `S. 3` say how many or which, and are no part of a label. */
const BESIDE_PAGE_WORD = /^(?:pp?[. ]?|PP?[. ] ?|[Ss][. ] ?)\d|\d(?:pp?|s| (?:PP?|pp?|[Ss]))$/u;

/** True for a text that the notation reads as a page label and nothing else; one that holds a word is none. */
export function isNotedLabel(text: string): boolean {
  // A hyphen only behind the section, because elsewhere it makes a range.
  return (
    text.length <= 40 &&
    !/^[xd]/.test(text) &&
    !SIGNS.has(text) &&
    (LETTERED.test(text) || (NUMBERED.test(text) && !BESIDE_PAGE_WORD.test(text)))
  );
}

/** The parts of a pages cell: commas part it, except inside brackets. */
export function pagesParts(cell: string): readonly string[] {
  const parts: string[] = [];
  let closing: string | null = null;
  let part = '';
  for (const character of cell) {
    if (closing === null && character === ',') {
      parts.push(part);
      part = '';
      continue;
    }
    if (character === closing) closing = null;
    else if (closing === null && (character === '(' || character === '[')) closing = character === '(' ? ')' : ']';
    part += character;
  }
  return [...parts, part];
}

/** The items of one part, or the reason why it cannot be read. */
function readPart(part: string): readonly PagesItem[] | string {
  if (part.startsWith('@')) {
    const frame = part.slice(1).trim().toUpperCase();
    return /^\d{1,9}[AB]?$/.test(frame) && Number(frame.replace(/[AB]$/, '')) > 0
      ? [{ is: 'jump', frame }]
      : 'must be @ and a frame number, such as @12 or @12A';
  }
  if (part.startsWith('[')) return readAbsent(part);
  const sign = SIGNS.get(part);
  if (sign !== undefined) return [{ is: 'other', kind: sign }];
  return readShot(part);
}

function readShot(part: string): readonly PagesItem[] | string {
  const mark = /^[xd]/.exec(part)?.[0] ?? '';
  const match = /^[xd]?([^()=]*)(?:\(([^()]*)\))?(?: ?=([^=]*))?$/.exec(part);
  if (match === null) return NOTHING_KNOWN;
  const [, body = '', bracket, twin] = match;
  if (body.trim() === '') return mark === '' ? NOTHING_KNOWN : `is ${mark === 'x' ? 'an' : 'a'} ${mark} without a page behind it`;
  if (SIGNS.has(body.trim()))
    return mark === 'd' ? 'repeats no page: only pages have duplicates' : 'needs no x: blanks, targets and voids are held back anyway';
  if (twin !== undefined && (mark === '' || !isFramePointer(twin.trim())))
    return 'must be x or d, a page, = and the frame that it duplicates, such as x3=415';
  const labels = readLabels(body.trim());
  if (typeof labels === 'string') return labels;
  const printed = bracket?.trim() ?? null;
  if (printed === '') return 'has an empty bracket: write what is printed, or (-) for nothing';
  if (labels.length > 1 && printed !== null && printed !== '-')
    return 'says that the same is printed on several pages; write each page with its own bracket';
  if (labels.length > 1 && twin !== undefined) return 'names one frame for several pages; write each page with its own =';
  return labels.map((label) => ({
    is: 'page',
    deliver: mark !== 'x',
    again: mark === 'd',
    label,
    printed,
    section: sectionOfLabel(label),
    duplicateOf: twin?.trim() ?? null,
  }));
}

/** `[5]` wanting, `[5?]` perhaps never published, `[5-]` not published; `[5-8]` and `[5,7]` several pages. */
function readAbsent(part: string): readonly PagesItem[] | string {
  const inside = /^\[([^[\]]*)\]$/.exec(part)?.[1];
  const items: PagesItem[] = [];
  for (const one of (inside ?? '').split(',')) {
    const text = one.trim();
    const mark = /[?-]$/.exec(text)?.[0] ?? '';
    const body = text.slice(0, text.length - mark.length).trim();
    const labels = body === '' ? ABSENT_FORM : readLabels(body);
    if (typeof labels === 'string') return body === '' ? ABSENT_FORM : labels;
    const published = mark === '?' ? 'unknown' : mark === '-' ? 'no' : 'yes';
    items.push(...labels.map((label) => ({ is: 'absent', label, section: sectionOfLabel(label), published }) as const));
  }
  return items;
}

const ABSENT_FORM = 'must be a page in square brackets, such as [5], [5?] or [5-]';
const NO_LABEL =
  'holds words, and no page is called so. Run "reeltally collation read" with the file, which reads the usual words and asks about the others, or write it in this notation (a label, 1-8, A1-A4, 5(6), x3, d3, [5], _ t v)';
const NOTHING_KNOWN = 'is not a page, range or sign of this notation (a label, 1-8, A1-A4, 5(6), x3, x3=415, d3, [5], _ t v, @12A)';

/** One label, or all of a range such as `1-8` and `A1-A4`. */
function readLabels(text: string): readonly string[] | string {
  const [, prefix = '', first, second = '', last] = RANGE.exec(text) ?? [];
  if (first === undefined || last === undefined || /^[A-Za-z]{1,3}-\d+$/.test(text))
    return isNotedLabel(text) ? [text] : /\p{L}/u.test(text) ? NO_LABEL : NOTHING_KNOWN;
  if (second !== '' && second !== prefix) return 'runs from one section into another; write one range for each';
  if (first.startsWith('0') || last.startsWith('0'))
    return 'is a range with zeros in front; write the labels one by one, or without the zeros';
  const [from, to] = [Number(first), Number(last)];
  if (to < from) return 'runs backwards; write the pages one by one in the order in which they were filmed';
  if (to - from >= LONGEST_RANGE) return `is a range of more than ${LONGEST_RANGE} pages; was another number meant?`;
  return Array.from({ length: to - from + 1 }, (_, at) => `${prefix}${from + at}`);
}
