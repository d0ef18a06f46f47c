import { isUtf8 } from 'node:buffer';
import { createHash } from 'node:crypto';
import { utf8Text } from './decode.js';
import { isUnobjectionable } from './json-glance.js';
import { columnAt, lineAt, linesOf, scanJson } from './json-scan.js';
import { jsonFault } from './json-tokens.js';
import { UserMistake } from './mistake.js';
import { readRegularFile } from './regular-file.js';
import { LOOKED_AT, placeInWords, type SchemaObjection, schemaObjections, shown } from './schema-sentences.js';
import { formatOf, type JsonKind, type JsonKinds, kindNames, schemaCheck } from './schemas.js';

/** Far above any record or result of a large project, far below what would exhaust the memory. */
const largestFile = 256 * 1024 * 1024;
/** Above this length only the first objection is looked for: a million of them help nobody. */
const longestForAll = 4_000_000;
const mostObjections = 10;

/** Reads a JSON file of one of our formats. Throws UserMistake, with every sentence it can say, where it is not one. `sha256` is of the file's bytes. */
export async function readJsonFile<K extends JsonKind>(
  path: string,
  kind: K,
): Promise<{ readonly value: JsonKinds[K]; readonly sha256: string }> {
  const bytes = await readRegularFile(path, largestFile);
  const value = parseJson(decode(bytes, path), path, kind);
  return { value, sha256: createHash('sha256').update(bytes).digest('hex') };
}

/** Reads a JSON text of one of our formats; `name` is what the sentences call it. Throws UserMistake. */
export function parseJson<K extends JsonKind>(text: string, name: string, kind: K): JsonKinds[K] {
  const plain = text.startsWith('\ufeff') ? text.slice(1) : text;
  const value = parse(plain, name);
  // Before the schema check, which calls itself for each level.
  const objection = isUnobjectionable(plain, value) ? null : scanJson(plain);
  if (objection) throw new UserMistake(`${name}, line ${lineAt(plain, objection.offset)}: ${objection.says}.`);
  requireFormat(value, name, kind);
  const check = schemaCheck(kind, plain.length <= longestForAll);
  if (check(value)) return value as JsonKinds[K];
  const errors = check.errors ?? [];
  throw new UserMistake(report(schemaObjections(errors, value), errors.length > LOOKED_AT, plain, name, kind));
}

/** The value of `parseJsonLoosely` where it is of one of our formats; `bytes` are those it was parsed from. Throws UserMistake. */
export function checkedJson<K extends JsonKind>(value: unknown, bytes: Buffer, name: string, kind: K): JsonKinds[K] {
  // told with every sentence only where there is something to tell
  return schemaCheck(kind, false)(value) ? (value as JsonKinds[K]) : parseJson(decode(bytes, name), name, kind);
}

/** A JSON text of no published format, decoded and parsed with the same sentences about faults; what it holds is for the caller to find out. Throws UserMistake. */
export function parseJsonLoosely(bytes: Buffer, name: string): unknown {
  const text = decode(bytes, name);
  const plain = text.startsWith('\ufeff') ? text.slice(1) : text;
  const value = parse(plain, name);
  const objection = isUnobjectionable(plain, value) ? null : scanJson(plain);
  if (objection) throw new UserMistake(`${name}, line ${lineAt(plain, objection.offset)}: ${objection.says}.`);
  return value;
}

function decode(bytes: Buffer, name: string): string {
  if (!isUtf8(bytes)) throw new UserMistake(`${name}: the file is not UTF-8 text; save it again with the encoding UTF-8.`);
  return utf8Text(bytes);
}

function parse(text: string, name: string): unknown {
  if (text.trim() === '') throw new UserMistake(`${name}: the file is empty.`);
  try {
    return JSON.parse(text) as unknown;
  } catch (error) {
    if (error instanceof RangeError) throw new UserMistake(`${name}: lists and groups stand inside each other too deep.`);
    // The engine's own message names the place only for some faults and in some versions.
    const offset = jsonFault(text);
    const found = offset < text.length ? `${shown(pieceAt(text, offset))} stands where it cannot stand` : 'the text ends too early';
    throw new UserMistake(
      `${name}, line ${lineAt(text, offset)}, column ${columnAt(text, offset)}: this is not JSON: ${found}. Look for a missing comma, quote or bracket there or just before.`,
    );
  }
}

function pieceAt(text: string, offset: number): string {
  return /^[\w.+-]{1,40}/.exec(text.slice(offset, offset + 40))?.[0] ?? text.charAt(offset);
}

/** Told first and alone, because a file of another kind would be wrong in every field. */
function requireFormat(value: unknown, name: string, kind: JsonKind): void {
  const wanted = formatOf(kind);
  const needed = `${kindNames[kind]} is needed here, with "format": "${wanted}"`;
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, 'format')) {
    throw new UserMistake(`${name}: this file does not say what it is; ${needed}.`);
  }
  const format: unknown = Reflect.get(value, 'format');
  if (format !== wanted) throw new UserMistake(`${name}: this file says that it is ${shown(format)}; ${needed}.`);
}

function report(objections: readonly SchemaObjection[], isCut: boolean, text: string, name: string, kind: JsonKind): string {
  const told = objections.slice(0, mostObjections);
  const paths = told.map((objection) => objection.path);
  const lines = linesOf(text, paths);
  const sentences = told.map(({ path, says }) => {
    const line = lines.get(JSON.stringify(path));
    return `  ${line === undefined ? '' : `line ${line}, `}${placeInWords(path)}: ${says}.`;
  });
  const rest = objections.length - told.length;
  if (isCut) sentences.push('  and very many more like these.');
  else if (rest > 0) sentences.push(`  and ${rest} more like these.`);
  return [`${name}: this is not ${kindNames[kind]} as the format describes it:`, ...sentences].join('\n');
}
