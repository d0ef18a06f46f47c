/** Runs of a fixed shape: so many letters, then so many digits, then perhaps a letter. */
interface Shape {
  readonly letters: number;
  readonly least: number;
  readonly most: number;
  readonly letterAfter: boolean;
}

const digits = (least: number, most = least): Shape => ({ letters: 0, least, most, letterAfter: false });

const SHAPES: ReadonlyMap<string, Shape> = new Map([
  ['day', digits(8)],
  ['edition', digits(2)],
  ['frame', { letters: 0, least: 1, most: 9, letterAfter: true }],
  ['number', digits(1, 12)],
  ['lccn', { letters: 3, least: 8, most: 10, letterAfter: false }],
]);
const FREE = new Set(['title', 'reel', 'batch', 'label', 'any', 'this']);
const DATE = 'date';
const FOLDER = 'folder';
const DEFAULT_DATE = 'YYYY-MM-DD';

/** Longest text that is looked at, and longest pattern. */
const LONGEST = 4000;
const LONGEST_PATTERN = 200;

/** Why a pattern cannot be used, in one sentence; null when it can. */
export function patternFault(pattern: string): string | null {
  if (pattern.length === 0 || pattern.length > LONGEST_PATTERN)
    return `A name pattern must have 1 to ${String(LONGEST_PATTERN)} characters.`;
  const unknown = placeholders(pattern).find((name) => !SHAPES.has(name) && !FREE.has(name) && name !== DATE && name !== FOLDER);
  if (unknown !== undefined) return `The name pattern "${pattern}" has the unknown placeholder {${unknown}}.`;
  return /[{}]/.test(pattern.replace(/\{[a-z]{1,20}\}/g, ''))
    ? `The name pattern "${pattern}" has a brace that does not belong to a placeholder.`
    : null;
}

/** The names of the placeholders in a pattern, in order. */
export function placeholders(pattern: string): readonly string[] {
  return [...pattern.matchAll(/\{([a-z]{1,20})\}/g)].map((match) => match[1] ?? '');
}

/** What else a name is known by: the shape of `{date}`, and the folder that `{folder}` stands for. */
export interface NameContext {
  readonly shape?: string | undefined;
  readonly folder?: string;
}

/** The parts of a text by placeholder, from the first pattern that fits it whole; null when none does. */
export function matchName(text: string, patterns: readonly string[], context: NameContext = {}): ReadonlyMap<string, string> | null {
  if (text.length > LONGEST) return null;
  for (const pattern of patterns) {
    const parts = matchOne(text, compiled(pattern, context.shape ?? DEFAULT_DATE), context.folder ?? null);
    if (parts !== null) return parts;
  }
  return null;
}

type Token =
  | { readonly kind: 'literal'; readonly text: string; readonly part: number }
  | { readonly kind: 'shape'; readonly shape: Shape; readonly part: number }
  | { readonly kind: 'folder'; readonly part: number }
  | { readonly kind: 'free'; readonly word: boolean; readonly part: number };

interface Compiled {
  readonly tokens: readonly Token[];
  readonly names: readonly string[];
  /** Plain text at the end, which tells most names apart at once. */
  readonly ending: string;
}

/** By shape of dates, then by pattern. */
const cache = new Map<string, Map<string, Compiled>>();

function compiled(pattern: string, shape: string): Compiled {
  const known = cache.get(shape)?.get(pattern);
  if (known !== undefined) return known;
  const names = placeholders(pattern);
  let part = -1;
  const tokens = pattern.split(/(\{[a-z]{1,20}\})/).flatMap((piece): readonly Token[] => {
    if (piece === '') return [];
    if (!piece.startsWith('{')) return [{ kind: 'literal', text: piece.toLowerCase(), part: -1 }];
    part += 1;
    const name = piece.slice(1, -1);
    const own = SHAPES.get(name);
    if (own !== undefined) return [{ kind: 'shape', shape: own, part }];
    if (name === DATE) return dateTokens(shape, part);
    return name === FOLDER ? [{ kind: 'folder', part }] : [{ kind: 'free', word: name === 'reel', part }];
  });
  const last = tokens.at(-1);
  const made = { tokens, names, ending: last?.kind === 'literal' ? last.text : '' };
  const ofShape = cache.get(shape) ?? new Map<string, Compiled>();
  cache.set(shape, ofShape.set(pattern, made));
  return made;
}

/** A date of such a shape: `D` and `M` have one or two digits, `DD`, `MM` and `YYYY` as many as letters. */
function dateTokens(shape: string, part: number): readonly Token[] {
  return shape.split(/(Y+|M+|D+)/).flatMap((piece): readonly Token[] => {
    if (piece === '') return [];
    if (!/^[YMD]/.test(piece)) return [{ kind: 'literal', text: piece.toLowerCase(), part }];
    return [{ kind: 'shape', shape: piece.length === 1 ? digits(1, 2) : digits(piece.length), part }];
  });
}

/** One text held against one pattern. */
interface Attempt {
  readonly text: string;
  readonly tokens: readonly Token[];
  readonly folder: string;
  /** Where each token ends. */
  readonly stops: number[];
  /** Calls so far. */
  steps: number;
  /** Token and place from which the rest is known to fail, once there are enough steps to make a note of it worth while. */
  failed: Set<number> | null;
  /** By token, the free run that leads nowhere: from its first place to its end. */
  readonly dead: ({ readonly from: number; readonly to: number } | undefined)[];
}

/** So many steps decide nearly every name. */
const FEW_STEPS = 100;

/**
 * Fills the tokens from the beginning and goes back where one cannot be filled. What failed once is not tried again: a free run that leads nowhere
 * leads nowhere from any later place in it, so the work grows with the length of the text and no faster, whatever stands in it.
 */
function matchOne(text: string, { tokens, names, ending }: Compiled, folder: string | null): ReadonlyMap<string, string> | null {
  const lower = text.toLowerCase();
  // A few letters grow when they become small ones; their names are compared as they stand.
  const plain = lower.length === text.length ? lower : text;
  if (!plain.endsWith(ending)) return null;
  const attempt: Attempt = { text: plain, tokens, folder: folder?.toLowerCase() ?? '', stops: [], steps: 0, failed: null, dead: [] };
  return fill(attempt, 0, 0) ? partsOf(text, tokens, names, attempt.stops) : null;
}

function partsOf(
  text: string,
  tokens: readonly Token[],
  names: readonly string[],
  stops: readonly number[],
): ReadonlyMap<string, string> | null {
  const starts: number[] = [];
  const ends: number[] = [];
  let at = 0;
  for (let t = 0; t < tokens.length; t += 1) {
    const token = tokens[t] as Token;
    const to = stops[t] ?? at;
    if (token.part >= 0) {
      starts[token.part] ??= at;
      ends[token.part] = to;
      if (token.kind === 'free' && token.word && !/\d/.test(text.slice(at, to))) return null;
    }
    at = to;
  }
  const parts = new Map<string, string>();
  for (let part = 0; part < names.length; part += 1) parts.set(names[part] ?? '', text.slice(starts[part], ends[part]));
  return parts;
}

function fill(attempt: Attempt, t: number, at: number): boolean {
  const token = attempt.tokens[t];
  if (token === undefined) return at === attempt.text.length;
  if (token.kind === 'free') return fillFree(attempt, t, at, token.word);
  if (token.kind !== 'shape') {
    const wanted = token.kind === 'literal' ? token.text : attempt.folder;
    return wanted !== '' && attempt.text.startsWith(wanted, at) && fillTo(attempt, t, at + wanted.length);
  }
  attempt.steps += 1;
  const place = t * (attempt.text.length + 1) + at;
  if (attempt.failed?.has(place) === true) return false;
  if (fillShape(attempt, t, at, token.shape)) return true;
  if (attempt.steps > FEW_STEPS) (attempt.failed ??= new Set()).add(place);
  return false;
}

/** Ends a token at a place and fills the rest. */
function fillTo(attempt: Attempt, t: number, to: number): boolean {
  attempt.stops[t] = to;
  return fill(attempt, t + 1, to);
}

/** Fills a run of a fixed shape, the longest first. */
function fillShape(attempt: Attempt, t: number, at: number, { letters, least, most, letterAfter }: Shape): boolean {
  const { text } = attempt;
  let from = at;
  while (from - at < letters && isLetter(text.charCodeAt(from))) from += 1;
  let count = 0;
  while (count < most && isDigit(text.charCodeAt(from + count))) count += 1;
  if (count >= least && letterAfter && isLetter(text.charCodeAt(from + count)) && fillTo(attempt, t, from + count + 1)) return true;
  for (; count >= least; count -= 1) if (fillTo(attempt, t, from + count)) return true;
  return false;
}

function fillFree(attempt: Attempt, t: number, at: number, word: boolean): boolean {
  const { text, dead } = attempt;
  const known = dead[t];
  if (known !== undefined && at >= known.from && at < known.to) return false;
  let to = at;
  while (to < text.length && fills(text, to, word)) {
    to += 1;
    // From here on the run is known to lead nowhere.
    if (known !== undefined && to > known.from && to <= known.to) {
      to = known.to;
      break;
    }
    if (fillTo(attempt, t, to)) return true;
  }
  dead[t] = { from: at, to };
  return false;
}

function fills(text: string, at: number, word: boolean): boolean {
  return text.charCodeAt(at) !== 0x2f && !(word && /\s/.test(text.charAt(at)));
}

function isDigit(code: number): boolean {
  return code >= 0x30 && code <= 0x39;
}

function isLetter(code: number): boolean {
  return (code >= 0x61 && code <= 0x7a) || (code >= 0x41 && code <= 0x5a);
}
