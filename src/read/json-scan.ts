import { eachToken } from './json-tokens.js';

/** Where a value stands in a JSON text: names of fields and places in lists, from the outermost. */
export type JsonPath = readonly (string | number)[];

/** Something in a JSON text that the grammar allows and we do not: a sentence without the file's name, and where. */
export interface JsonObjection {
  readonly says: string;
  readonly offset: number;
}

interface Container {
  readonly keys: Map<string, number> | null;
  key: string;
  index: number;
}

/** Lists and groups may stand inside each other so deep. */
export const DEEPEST_JSON = 64;
/** Our schemas' patterns are safe on any text; the cap keeps one field from filling every report. */
export const LONGEST_JSON_TEXT = 100_000;

/**
 * Walks a JSON text that JSON.parse has accepted, without recursion. Returns the first objection: a field given twice, a name that
 * code could take for its own, nesting below 64, a text above 100 000 characters, a number that cannot be kept exactly. `visit` is
 * called at the start of every value with its path (shared between calls: copy it to keep it) and offset.
 */
export function scanJson(text: string, visit?: (path: JsonPath, offset: number) => void): JsonObjection | null {
  const stack: Container[] = [];
  const path: (string | number)[] = [];
  let awaitsKey = false;
  let objection: JsonObjection | null = null;
  const startValue = (offset: number): void => {
    if (!visit) return;
    const inside = stack.at(-1);
    if (inside) path[stack.length - 1] = inside.keys ? inside.key : inside.index;
    path.length = stack.length;
    visit(path, offset);
  };
  const takeKey = (inside: Container, keys: Map<string, number>, from: number, to: number): JsonObjection | null => {
    const piece = text.slice(from, to);
    const key = piece.includes('\\') ? String(JSON.parse(piece)) : piece.slice(1, -1);
    const earlier = keys.get(key);
    if (earlier !== undefined) {
      return { says: `the field ${piece} is given twice here, first in line ${lineAt(text, earlier)}; keep one of them`, offset: from };
    }
    if (key === '__proto__') return { says: `"__proto__" cannot be the name of a field; choose another name`, offset: from };
    keys.set(key, from);
    inside.key = key;
    return null;
  };
  eachToken(text, (from, to) => {
    const mark = text.charAt(from);
    const inside = stack.at(-1);
    if (mark === '{' || mark === '[') {
      startValue(from);
      if (stack.length === DEEPEST_JSON)
        objection = { says: `lists and groups stand inside each other more than ${DEEPEST_JSON} deep`, offset: from };
      stack.push({ keys: mark === '{' ? new Map() : null, key: '', index: 0 });
      awaitsKey = mark === '{';
    } else if (mark === '}' || mark === ']') {
      stack.pop();
      awaitsKey = false;
    } else if (mark === ',') {
      if (inside) inside.index += 1;
      awaitsKey = inside?.keys != null;
    } else if (mark === ':') {
      awaitsKey = false;
    } else if (awaitsKey && inside?.keys) {
      objection = takeKey(inside, inside.keys, from, to);
    } else {
      startValue(from);
      if (to - from > LONGEST_JSON_TEXT) objection = { says: `a text has more than ${LONGEST_JSON_TEXT} characters`, offset: from };
      else if (mark !== '"' && to - from > 15) objection = longNumber(text.slice(from, to), from);
    }
    return objection === null;
  });
  return objection;
}

function longNumber(piece: string, offset: number): JsonObjection | null {
  if (!/^-?\d{16,}$/.test(piece) || Number.isSafeInteger(Number(piece))) return null;
  return { says: `${piece.slice(0, 40)} is too long for a number and would lose digits; write it as text, in double quotes`, offset };
}

/** Line of an offset, counted from 1. */
export function lineAt(text: string, offset: number): number {
  let line = 1;
  for (let at = text.indexOf('\n'); at >= 0 && at < offset; at = text.indexOf('\n', at + 1)) line += 1;
  return line;
}

/** Column of an offset in its line, counted from 1. */
export function columnAt(text: string, offset: number): number {
  return offset - text.lastIndexOf('\n', offset - 1);
}

/** Lines of the values at the given paths; a path that is not there is left out. Keys are the paths as JSON text. */
export function linesOf(text: string, paths: readonly JsonPath[]): ReadonlyMap<string, number> {
  const wanted = new Set(paths.map((path) => JSON.stringify(path)));
  const depths = new Set(paths.map((path) => path.length));
  const lines = new Map<string, number>();
  scanJson(text, (path, offset) => {
    if (!depths.has(path.length)) return;
    const key = JSON.stringify(path);
    if (wanted.has(key)) lines.set(key, lineAt(text, offset));
  });
  return lines;
}
