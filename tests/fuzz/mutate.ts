import type { Random } from '../forge/film/random.js';
import { HOSTILE } from '../report/hostile.js';

/** Pieces at which readers of any format have stumbled. */
const PIECES = [
  '',
  '\0',
  '\ufeff',
  '"',
  "'",
  '<',
  '>',
  '&',
  '&#0;',
  '&lt;',
  ']]>',
  '<!--',
  '<![CDATA[',
  '<?',
  '{',
  '}',
  '[',
  ']',
  ',',
  ';',
  '\t',
  '\n',
  '\r\n',
  '\\',
  '\\u0000',
  '-',
  '-1',
  '0',
  '1e999',
  '9'.repeat(20),
  '__proto__',
  'constructor',
  '\u00e9',
  'e\u0301',
  '\ud83d\ude00',
  'null',
  'true',
  '../',
  '*',
  '1-400',
  '(-)',
  '[5?]',
  '1879-02-30',
  '0000-00-00',
  '9999-12-31',
  'XXXX',
  '1899-01-XX',
];
const NUMBERS = [0, 1, -1, 2, 255, 65_536, 2 ** 31, 2 ** 53, 0.5, 1e308];

/** Bytes with a few places changed, cut out, doubled or moved. */
export function mutatedBytes(random: Random, bytes: Buffer): Buffer {
  let changed: Buffer = Buffer.from(bytes);
  for (let left = 1 + random.below(4); left > 0; left -= 1) changed = changedOnce(random, changed);
  return changed;
}

function changedOnce(random: Random, bytes: Buffer): Buffer {
  const at = random.below(bytes.length + 1);
  const length = Math.min(bytes.length - at, 1 + random.below(random.chance(200) ? 400 : 12));
  const before = bytes.subarray(0, at);
  const piece = bytes.subarray(at, at + length);
  const after = bytes.subarray(at + length);
  switch (random.below(7)) {
    case 0:
      return before.length > 0 ? Buffer.from(before) : bytes;
    case 1:
      return Buffer.concat([before, after]);
    case 2:
      return Buffer.concat([before, piece, piece, after]);
    case 3:
      return Buffer.concat([before, Buffer.from(random.pick(PIECES)), piece, after]);
    case 4:
      return Buffer.concat([before, Buffer.from(random.pick(PIECES)), after]);
    case 5: {
      const copy = Buffer.from(bytes);
      if (copy.length > 0) copy[Math.min(at, copy.length - 1)] = random.below(256);
      return copy;
    }
    default: {
      const to = random.below(before.length + 1);
      return Buffer.concat([before.subarray(0, to), piece, before.subarray(to), after]);
    }
  }
}

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** A JSON text that is still JSON, with a few values of other kinds, lengths and meanings. */
export function mutatedJson(random: Random, text: string): string {
  let value = JSON.parse(text) as Json;
  for (let left = 1 + random.below(3); left > 0; left -= 1) {
    const places = placesIn(value);
    const path = random.pick(places);
    value = replaced(value, path, (found, parent) => otherValue(random, found, parent));
  }
  return JSON.stringify(value);
}

function placesIn(value: Json): readonly (readonly string[])[] {
  const found: string[][] = [];
  const walk = (at: Json, path: string[]): void => {
    found.push(path);
    if (typeof at === 'object' && at !== null) for (const [key, inner] of Object.entries(at)) walk(inner, [...path, key]);
  };
  walk(value, []);
  return found;
}

/** `undefined` takes the value out. */
function replaced(value: Json, [key, ...path]: readonly string[], change: (found: Json, parent: Json) => Json | undefined): Json {
  if (key === undefined || typeof value !== 'object' || value === null) return change(value, null) ?? null;
  const inner = (value as Readonly<Record<string, Json>>)[key] ?? null;
  const next = path.length === 0 ? change(inner, value) : replaced(inner, path, change);
  if (Array.isArray(value)) {
    const list = value as readonly Json[];
    return next === undefined ? list.filter((_, at) => String(at) !== key) : list.map((one, at) => (String(at) === key ? next : one));
  }
  const entries = Object.entries(value as Readonly<Record<string, Json>>);
  return Object.fromEntries(entries.flatMap(([name, one]) => (name !== key ? [[name, one]] : next === undefined ? [] : [[name, next]])));
}

function otherValue(random: Random, found: Json, parent: Json): Json | undefined {
  if (Array.isArray(found) && random.chance(600)) {
    const list = found as readonly Json[];
    return random.pick<() => readonly Json[]>([
      () => [],
      () => [...list, ...list],
      () => random.shuffled(list),
      () => list.slice(0, 1),
      () => list.slice(1),
    ])();
  }
  if (typeof found === 'string' && random.chance(700)) {
    const siblings =
      typeof parent === 'object' && parent !== null ? Object.values(parent).filter((one): one is string => typeof one === 'string') : [];
    return random.pick([
      random.pick(Object.values(HOSTILE)),
      random.pick(PIECES),
      `${found}${random.pick(PIECES)}`,
      found.slice(1),
      ...siblings,
    ]);
  }
  if (typeof found === 'number' && random.chance(700)) return random.pick([...NUMBERS, found + 1, found - 1, -found]);
  // One of them takes the value out.
  const others: readonly (Json | undefined)[] = [undefined, null, '', 0, [], {}, true, random.pick(NUMBERS), random.pick(PIECES)];
  return others[random.below(others.length)];
}

/** A CSV text that is still one, with cells, rows and columns changed. */
export function mutatedCsv(random: Random, text: string): string {
  const rows = text.split('\n').map((line) => line.split(','));
  for (let left = 1 + random.below(5); left > 0; left -= 1) {
    const at = random.below(rows.length);
    const row = rows[at] ?? [];
    const column = random.below(Math.max(1, row.length));
    const other = rows[random.below(rows.length)] ?? [];
    switch (random.below(6)) {
      case 0:
        row[column] = random.pick(PIECES);
        break;
      case 1:
        row[column] = other[column] ?? '';
        break;
      case 2:
        rows.splice(at, 1);
        break;
      case 3:
        rows.splice(at, 0, [...other]);
        break;
      case 4:
        row[column] = random.pick(Object.values(HOSTILE)).replaceAll(/[",\n\r]/g, ' ');
        break;
      default:
        row[column] = `${row[column] ?? ''}${random.pick(PIECES)}`;
    }
  }
  return rows.map((cells) => cells.join(',')).join('\n');
}
