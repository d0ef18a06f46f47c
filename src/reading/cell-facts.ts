import { editionSaid } from '../calendar/edition-names.js';
import { daySplit } from './day-words.js';
import { frameRange } from './frame-ranges.js';
import { TAKES } from './named-frames.js';
import { LAST_FRAME } from './names.js';
import type { Beside, DateWays } from './own-dates.js';
import { readOwnDay } from './own-dates.js';
import { framePage } from './pages/label.js';
import { FRAME } from './phrase-parts.js';
import { absenceSaid } from './phrases.js';
import { type Ways, wordKey } from './ways.js';

/** Facts of a row by our column. */
export type Facts = ReadonlyMap<string, string>;

/** Columns that hold days. */
export const DAY_COLUMNS: ReadonlySet<string> = new Set(['date', 'combined with', 'date to', 'from', 'to']);

/** What the paper prints as its day. A library writes it as it writes days; but a misprint shows nothing of their order, and a year beside it is not the paper's. */
export const PRINTED_DAY = 'date printed';

/** `6 i.e. 5`: what is printed, then what is right (MARC and AACR2 usage of "i.e."). The place of the right one is where the column is. */
const CORRECTED: ReadonlyMap<string, { readonly printed: string; readonly right: string }> = new Map([
  ['page', { printed: 'page printed', right: 'page' }],
  ['date', { printed: PRINTED_DAY, right: 'date' }],
  ['issue number', { printed: 'issue number', right: 'issue number intended' }],
]);

/** Columns that name a frame. */
export const FRAMES: ReadonlySet<string> = new Set(['frame', 'first frame', 'duplicate of', 'retake of']);
/** `frame 3`. */
const IN_WORDS = new RegExp(`^${FRAME}$`, 'iu');
/** What people write where there is no frame: common practice, no source. */
const NO_FRAME = /^(?:[-\u2013\u2014]+|n\/?a|none|nil|keine?|ohne|aucune?|néant)$/iu;

/** The facts that one cell of our columns states; `fields` are several for a joined column, `beside` is what completes a day. What cannot be read is left as it stands, to be complained about. */
export function cellFacts(text: string, fields: readonly string[], ways: Ways, beside: Beside = {}): Facts {
  const [field, ...others] = fields;
  if (field === undefined || text === '') return new Map();
  if (others.length > 0) return joinedFacts(text, fields);
  if (field === 'frame' && NO_FRAME.test(text)) return new Map();
  const gone = field === 'frame' || field === 'first frame' ? absenceSaid(text) : null;
  if (gone !== null) return new Map([['published', gone]]);
  const corrected = CORRECTED.get(field);
  const [printed, right] = corrected === undefined ? [] : correctedParts(text);
  if (corrected !== undefined && right !== undefined && printed !== undefined) {
    const known = field === 'date' ? rightDay(printed, right, ways) : right;
    return new Map([
      [corrected.printed, field === 'date' ? (readOwnDay(printed, ways, beside) ?? printed) : printed],
      [corrected.right, known],
      ...(field === 'date' ? besideDay(printed, ways) : []),
    ]);
  }
  if (field === 'page' && ways.words.get('page')?.has(wordKey(text)) !== true) {
    const page = framePage(text, ways);
    if (page.is === 'label')
      return new Map([['page', page.label], ...(page.printed === null ? [] : [['page printed', page.printed] as const])]);
  }
  const day = DAY_COLUMNS.has(field) ? readOwnDay(text, ways, beside) : field === PRINTED_DAY ? readOwnDay(text, ways) : null;
  if (day !== null) return new Map([[field, day], ...(field === 'date' ? besideDay(text, ways) : [])]);
  if (field === 'edition') return new Map(editionFacts(text, ways));
  const range = field === 'first frame' ? frameRange(text) : null;
  if (range !== null)
    return new Map([
      [field, range.first],
      [LAST_FRAME, range.last],
    ]);
  // What a mark says is stated of the row, like a phrase of a note.
  if (ways.words.get(field)?.has(wordKey(text)) === true && TAKES.has(field)) return new Map();
  if (FRAMES.has(field)) return new Map([[field, IN_WORDS.exec(text)?.[1] ?? text]]);
  return new Map([[field, plainFact(text, field, ways)]]);
}

/** The weekday and the edition that stand in the cell of a day: what is stated of an issue is kept, also where the day alone would do. */
function besideDay(text: string, ways: Ways): readonly (readonly [string, string])[] {
  const { weekday, edition } = daySplit(text);
  return [...(weekday === null ? [] : [['weekday printed', weekday] as const]), ...(edition === null ? [] : editionFacts(edition, ways))];
}

/** An edition by its number; a name of it is kept as its label. */
function editionFacts(text: string, ways: Ways): readonly (readonly [string, string])[] {
  const number = ways.words.get('edition')?.get(wordKey(text));
  if (number === undefined) return [['edition', text]];
  return [['edition', number], ...(editionSaid(text).is === 'number' ? [] : [['edition label', text] as const])];
}

function plainFact(text: string, field: string, ways: Ways): string {
  // Words under `note` say what the row shows; the note itself stays as it is written.
  const word = field === 'note' ? undefined : ways.words.get(field)?.get(wordKey(text));
  if (word !== undefined) return word;
  if (field === 'title') return ways.titles.get(wordKey(text)) ?? text;
  return text;
}

/** True for a cell that says what is printed and what is right. */
export function isCorrected(text: string, field: string): boolean {
  return CORRECTED.has(field) && correctedParts(text)[1] !== undefined;
}

/** Words between what is printed and what is right (MARC and AACR2 usage of "i.e.", "recte"; others are common practice, no source). */
const RATHER =
  /^(.{1,60}?)\s*[[(]?\s*(?<!\p{L})(?:i\.? ?e\.?,?|recte|correctly|instead of|in place of|(?:an)?statt|richtig:?|eigentlich|au lieu d[eu]|lire|sic(?:[,:]? (?:pour|for|für|recte|i\.? ?e\.?,?)(?!\p{L})|[,:]))\s+([^\])]{1,60}?)\s*[\])]?$/iu;

/** `6 i.e. 5`, `6 [i.e. 5]`, `6 (recte 5)` and `6 statt 5` in their two parts, what is printed and what is right; one part for any other text. */
export function correctedParts(text: string): readonly string[] {
  // Each of these words has a letter of the alphabet in it; most cells have none.
  const match = /[a-z]/i.test(text) ? RATHER.exec(text) : null;
  return match?.[1] === undefined || match[2] === undefined ? [text] : [match[1].replace(/[\s,;]+$/, ''), match[2].trim()];
}

/** `4 January 1899 i.e. 1900`: what is right may be the year alone, or the day and month. */
function rightDay(printed: string, right: string, ways: DateWays): string {
  const whole = readOwnDay(right, ways);
  if (whole !== null && !/^\d{4}$/.test(right)) return whole;
  const base = readOwnDay(printed, ways);
  return base !== null && /^\d{4}$/.test(right) ? `${right}${base.slice(4)}` : right;
}

/** `Vol. 8, No. 283`, `8/283` and `VIII:283` in their parts: as many as there are columns, else the cell stands as it is in the first. */
function joinedFacts(text: string, fields: readonly string[]): Facts {
  const parts = text
    .replace(/\b(vol(ume)?|no|nr|number|issue|iss|nos|jg|jahrgang|nummer|bd|band)\b\.?/giu, ' ')
    .split(/[\s,;:/|]+|(?<=\d)-(?=\d)/)
    .filter((part) => part !== '');
  if (parts.length !== fields.length) return new Map([[fields[0] ?? '', text]]);
  return new Map(fields.map((field, at) => [field, parts[at] ?? '']));
}

/** True where a joined cell falls into as many parts as it has columns. */
export function isJoined(text: string, fields: readonly string[]): boolean {
  return text === '' || joinedFacts(text, fields).size === fields.length;
}
