import { readPages, SIGNS } from '../../normalise/pages-notation.js';
import { saidOf } from '../phrases.js';
import { WITH_SUPPLEMENT } from '../phrases-of-issues.js';
import { type Ways, wordKey } from '../ways.js';
import { type Gone, type Listed, notedShots, type PagesFacts, type PagesReading } from './facts.js';
import { type Part, type Piece, partsIn } from './parts.js';
import type { Token } from './tokens.js';
import type { PagesWord } from './words.js';

/** Facts that are still being gathered. */
interface Gathered {
  readonly listed: Listed[];
  readonly gone: Gone[];
  readonly damage: string[];
  readonly notes: string[];
  readonly supplement: Listed[];
  openSupplement: boolean;
  /** Those of which only the damage is told, and which others may list as well: `1-4 (3 torn)`. */
  readonly asides: Set<Listed>;
  all: boolean;
  whole: PagesFacts['whole'];
  /** Words in front of labels that speak of those behind the next comma as well: `lacks 4, 5`. */
  front: Absent | null;
}

type Absent = Extract<PagesWord, { readonly is: 'absent' }>;
type Stopped = Exclude<PagesReading, { readonly is: 'facts' | 'slip' }>;

const fault = (says: string): Stopped => ({ is: 'fault', says });
const NOT_APART = fault(
  'does not fall into pages, ranges and words about them; write the pages in the notation, such as 1-3,[4], and the rest as a note.',
);
const WHICH = fault('says that pages are not on the film, but not which; write them in brackets, such as 1-3,[4].');
const WHERE = fault(
  'says that a page was filmed twice, but not where the second frame lies; write it there as x2, or as d2 where it is delivered too, such as 1,2,x2,3,4.',
);
const BLANK_SIDE = fault(
  'may be a side of the issue on which nothing is printed, such as 4(-), or a frame without a page, _; write which of them.',
);
const HOW_MANY = fault('does not say how many such frames there are; write a sign for each, _ for a blank, t for a target, v for a void.');
const COVER = fault('has a cover among the pages; give it labels of its own, such as U1-U4.');
const SUPPLEMENT_LAST = fault(
  'has a supplement before other pages; give it a row of its own with "yes" under "supplement", in the order of filming.',
);
const ADDED = fault(
  'adds numbers of pages, but does not say what they are; write the labels, such as A1-A8,B1-B4, and a supplement in a row of its own.',
);
const COUNT_AND_LIST = fault('gives a number of pages and a list of them as well; write one of both.');

/** The facts in the pieces of a cell that is not written in the notation. */
export function partsFacts(tokens: readonly Token[], ways: Ways): PagesReading {
  const unknown = tokens.find(({ is }) => is === 'unknown');
  if (unknown !== undefined) return { is: 'unknown', words: unknown.text };
  const parts = partsIn(tokens);
  if (parts === null || parts.length === 0) return NOT_APART;
  const found: Gathered = {
    listed: [],
    gone: [],
    damage: [],
    notes: [],
    supplement: [],
    openSupplement: false,
    asides: new Set(),
    all: false,
    whole: null,
    front: null,
  };
  for (const [at, part] of parts.entries()) {
    const stopped = gather(part, found, parts, at, ways);
    if (stopped !== null) return stopped;
  }
  const { all, whole, gone, damage, notes, supplement: more, openSupplement } = found;
  const listed = withoutAsides(countAlone(found, ways));
  const counts = listed.filter(({ is }) => is === 'count').length;
  if (counts > 1) return ADDED;
  if (counts === 1 && listed.some((one) => one.is === 'shots' && one.labels.length > 0)) return COUNT_AND_LIST;
  return { is: 'facts', facts: { listed, all, gone, whole, damage, notes, supplement: more, openSupplement }, literal: false };
}

/** A number that alone lists pages beside what is said of some of them, `4 (p. 3 torn)`, is what numbers alone are in the column. */
function countAlone(found: Gathered, { loneNumbers }: Ways): Gathered {
  const pages = found.listed.filter((one) => !found.asides.has(one) && (one.is === 'count' || one.labels.length > 0));
  const [only] = pages;
  if (loneNumbers !== 'count' || pages.length !== 1 || only?.is !== 'shots' || !/^[1-9]\d{0,2}$/.test(only.text)) return found;
  const count: Listed = { is: 'count', count: Number(only.text) };
  // `1, 2 torn` lists two pages.
  const beyond = [...found.asides].some((one) => one.is === 'shots' && one.labels.some((label) => !(Number(label) <= Number(only.text))));
  if (beyond) return found;
  return { ...found, listed: found.listed.map((one) => (one === only ? count : one)) };
}

function withoutAsides({ listed, asides }: Gathered): readonly Listed[] {
  const others = listed.filter((one) => !asides.has(one));
  const known = new Set(others.flatMap((one) => (one.is === 'shots' ? one.labels : [])));
  const counted = others.some(({ is }) => is === 'count');
  return listed.filter((one) => !asides.has(one) || (!counted && one.is === 'shots' && !one.labels.every((label) => known.has(label))));
}

/** Adds what a part says; gives back why it cannot be read, if so. */
function gather(part: Part, found: Gathered, parts: readonly Part[], at: number, ways: Ways): Stopped | null {
  const { pieces, joined } = part;
  const labels = pieces.flatMap((piece) => (piece.is === 'label' ? [piece.text] : []));
  const broken = labels.flatMap((text) => readPages(text).faults)[0];
  if (broken !== undefined) return fault(`holds "${broken.part}", which ${broken.says}.`);
  const words = pieces.flatMap((piece) => (piece.is === 'word' ? [piece.word] : []));
  const telling = words.filter(({ is }) => is !== 'page' && is !== 'leaf' && is !== 'nothing');
  const [word, other] = telling;
  const front = joined === ';' ? null : found.front;
  found.front = null;
  if (words.some(({ is }) => is === 'cover')) return COVER;
  if (words.some(({ is }) => is === 'supplement')) return supplement(telling, part, labels, found, ways);
  if (words.some(({ is }) => is === 'twice')) return WHERE;
  if (joined === '+' && isBareNumber(part) && isBareNumber(parts[at - 1])) return ADDED;
  const count = countIn(part, parts.length === 1);
  if (count !== null && telling.every(({ is }) => is === 'all'))
    return add(found, { is: 'count', count: words.some(({ is }) => is === 'leaf') ? count * 2 : count });
  if (other !== undefined && !telling.every(({ is }) => is === 'damage')) return NOT_APART;
  if (word === undefined || word.is === 'all') {
    if (front !== null && labels.length > 0) {
      found.front = front;
      return absent(front, labels, part, found, ways);
    }
    return word === undefined ? shots(pieces, found) : everything(labels, found);
  }
  switch (word.is) {
    case 'absent':
      return count === null ? absentPart(word, labels, part, found, parts.length === 1, ways) : WHICH;
    case 'damage':
      return damage(telling, part, labels, found);
    case 'sign':
      return signs(word, labels, found);
    case 'unnumbered':
      return labels.length === 0 ? NOT_APART : add(found, ...labels.map((text) => notedShots(`${text}(-)`).listed));
    case 'printed':
    case 'right':
      return corrected(word.is, pieces, found);
    default:
      return NOT_APART;
  }
}

function add(found: Gathered, ...listed: readonly Listed[]): Stopped | null {
  if (found.supplement.length > 0 || found.openSupplement) return SUPPLEMENT_LAST;
  found.listed.push(...listed);
  return null;
}

/** The pages of a supplement: `Beilage 2 S.` are two that begin anew, `pp. 5-8 supplement` are those. */
function supplement(telling: readonly PagesWord[], part: Part, labels: readonly string[], found: Gathered, ways: Ways): Stopped | null {
  if (telling.some(({ is }) => is !== 'supplement')) return NOT_APART;
  const [one] = labels;
  if (labels.length > 1) return NOT_APART;
  const count = countIn(part, true) ?? (ways.loneNumbers === 'count' && /^[1-9]\d?$/.test(one ?? '') ? Number(one) : null);
  const listed: Listed = count === null ? notedShots(one ?? '').listed : { is: 'count', count };
  const stopped = settled(WITH_SUPPLEMENT, part, found, ways);
  // Pages that are named lie on the film, whatever they belong to.
  if (stopped === null && count === null && one !== undefined) return add(found, listed);
  if (stopped !== undefined) return stopped;
  if (one === undefined) found.openSupplement = true;
  else found.supplement.push(listed);
  return null;
}

function everything(labels: readonly string[], found: Gathered): Stopped | null {
  if (labels.length > 0) return add(found, ...labels.map((text) => notedShots(text).listed));
  found.all = true;
  return null;
}

/** A bare number, as it is added to another. */
function isBareNumber(part: Part | undefined): boolean {
  return part?.pieces.some((piece) => piece.is === 'label' && /^\d+$/.test(piece.text)) === true;
}

/** `4 pp`, `all 4`; `pp. 4` where nothing else stands there. */
function countIn({ pieces }: Part, alone: boolean): number | null {
  const labels = pieces.flatMap((piece, at) => (piece.is === 'label' ? [{ text: piece.text, at }] : []));
  const [one] = labels;
  if (labels.length !== 1 || one === undefined || !/^[1-9]\d{0,2}$/.test(one.text) || pieces.some(({ is }) => is === 'noted')) return null;
  const says = pieces.some(
    (piece, at) =>
      piece.is === 'word' &&
      (piece.word.is === 'all' ||
        (piece.word.is === 'leaf' && at > one.at) ||
        (piece.word.is === 'page' && (at > one.at || (piece.word.many && alone)))),
  );
  return says ? Number(one.text) : null;
}

function shots(pieces: readonly Piece[], found: Gathered): Stopped | null {
  const said = pieces.filter(({ is }) => is !== 'word');
  const [one] = said;
  if (said.length !== 1 || one === undefined) return NOT_APART;
  const noted = notedShots(one.text);
  found.gone.push(...noted.gone);
  return noted.frames === 0 && noted.gone.length > 0 ? null : add(found, noted.listed);
}

function absentPart(word: Absent, labels: readonly string[], part: Part, found: Gathered, alone: boolean, ways: Ways): Stopped | null {
  const inFront = part.pieces[0]?.is === 'word';
  if (labels.length === 0) {
    if (!alone) return WHICH;
    const stopped = settled(word.key, part, found, ways);
    if (stopped === undefined) found.whole = word.published;
    return stopped ?? null;
  }
  if (inFront) found.front = word;
  // `3 and 4 missing` speaks of both.
  const before = found.listed.at(-1);
  const joins = part.joined === 'and' && !inFront && before?.is === 'shots' && before.labels.length === before.frames;
  if (joins) found.listed.pop();
  return absent(word, joins ? [before.text, ...labels] : labels, part, found, ways);
}

function absent(word: Absent, labels: readonly string[], part: Part, found: Gathered, ways: Ways): Stopped | null {
  const stopped = settled(word.key, part, found, ways);
  if (stopped !== undefined) return stopped;
  const mark = word.published === 'no' ? '-' : '';
  found.gone.push(...labels.flatMap((text) => pagesOf(text).map((page): Gone => ({ page, mark }))));
  return null;
}

/** What stands in the way of taking a phrase as a fact; undefined for nothing, null where it is a note. */
function settled(key: string, part: Part, found: Gathered, ways: Ways): Stopped | null | undefined {
  const word = part.pieces.find((piece) => piece.is === 'word' && piece.word.is === 'absent');
  const wording = word === undefined ? key : wordKey(word.text);
  const said = key === '' ? 'fact' : saidOf(ways, key, wording);
  const words = part.pieces.map(({ text }) => text).join(' ');
  if (said === undefined) return { is: 'unsettled', phrase: wording, key, words };
  if (said === 'fact') return undefined;
  found.notes.push(words);
  return null;
}

/** The labels of a label text or range. */
function pagesOf(text: string): readonly string[] {
  return readPages(text).items.flatMap((item) => (item.is === 'page' ? [item.label] : []));
}

function damage(words: readonly PagesWord[], { pieces }: Part, labels: readonly string[], found: Gathered): Stopped | null {
  const text = words.flatMap((word) => (word.is === 'damage' ? [word.text] : [])).join(', ');
  if (labels.length === 0) {
    found.notes.push(pieces.map((piece) => piece.text).join(' '));
    return null;
  }
  found.damage.push(...labels.flatMap(pagesOf).map((page) => `${page}: ${text}`));
  const listed = labels.map((one) => notedShots(one).listed);
  for (const one of listed) found.asides.add(one);
  return add(found, ...listed);
}

function signs(word: Extract<PagesWord, { readonly is: 'sign' }>, labels: readonly string[], found: Gathered): Stopped | null {
  const sign = [...SIGNS].find(([, kind]) => kind === word.kind)?.[0] ?? '_';
  const [number = ''] = labels;
  if (labels.length === 0 && word.many) return HOW_MANY;
  const count = labels.length === 0 || number === '1' ? 1 : Number(number);
  if (labels.length > 1 || !Number.isInteger(count) || (count > 1 && !word.many) || count > 20) return BLANK_SIDE;
  return add(found, ...Array.from({ length: count }, (): Listed => ({ is: 'shots', text: sign, labels: [], frames: 1 })));
}

function corrected(is: 'printed' | 'right', pieces: readonly Piece[], found: Gathered): Stopped | null {
  const said = pieces.filter((piece) => piece.is !== 'word' || (piece.word.is !== 'page' && piece.word.is !== 'nothing'));
  const [first, between, second] = said;
  if (said.length !== 3 || first?.is !== 'label' || between?.is !== 'word' || second?.is !== 'label') return NOT_APART;
  const [page, printed] = is === 'printed' ? [first.text, second.text] : [second.text, first.text];
  return add(found, notedShots(`${page}(${printed})`).listed);
}
