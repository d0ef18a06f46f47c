import type { ErrorObject } from 'ajv/dist/2020.js';
import type { JsonPath } from './json-scan.js';
import { headKey } from './sheet-heads.js';

/** What is wrong with one value of a document: where, and a sentence without the place. */
export interface SchemaObjection {
  readonly path: JsonPath;
  readonly says: string;
}

/** So many errors are looked at: which of them are worth telling is asked of each with regard to all others, and nobody reads more. */
export const LOOKED_AT = 1000;

/** Turns errors of the schema check into sentences: what stands there, and what is expected. `document` is the value checked. Of very many errors only the first are told. */
export function schemaObjections(errors: readonly ErrorObject[], document: unknown): readonly SchemaObjection[] {
  const nearest = ofNearestWays(errors.slice(0, LOOKED_AT));
  const telling = nearest.filter((error) => !isSecondary(error, nearest));
  const seen = new Set<string>();
  return telling
    .map((error) => ({ path: pathOf(error.instancePath, document), says: sentence(error) }))
    .filter((objection) => {
      const key = JSON.stringify(objection);
      return seen.has(key) ? false : seen.add(key);
    });
}

/** A place in words: `reels 1, frames 13, page`; places in lists are counted from 1. */
export function placeInWords(path: JsonPath): string {
  const words: string[] = [];
  for (const step of path) {
    if (typeof step === 'number') words.push(`${words.pop() ?? 'entry'} ${step + 1}`);
    else words.push(step);
  }
  return words.length === 0 ? 'the file as a whole' : shown(words.join(', '), false);
}

/** A value as it stands in the file, cut to a readable length, with everything invisible or misleading spelled out. */
export function shown(value: unknown, quoted = true): string {
  if (value === undefined) return 'nothing';
  const text = quoted || typeof value !== 'string' ? JSON.stringify(value) : value;
  const cut = text.length > 80 ? `${text.slice(0, 77)}...` : text;
  return cut.replace(
    /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
    (hidden) => `\\u${hidden.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/**
 * Where a value may be written in several ways that one of its fields tells apart (`"in": "folder"`), only the way that it means is worth telling; and
 * where that field says none of them, that alone, with all that it may say.
 */
function ofNearestWays(errors: readonly ErrorObject[]): readonly ErrorObject[] {
  return errors
    .filter(({ keyword }) => keyword === 'anyOf' || keyword === 'oneOf')
    .reduce((left: readonly ErrorObject[], choice) => (left.includes(choice) ? ofNearestWay(left, choice) : left), errors);
}

function ofNearestWay(errors: readonly ErrorObject[], choice: ErrorObject): readonly ErrorObject[] {
  const wayOf = (error: ErrorObject): string | null =>
    error.schemaPath.startsWith(`${choice.schemaPath}/`) && error.instancePath.startsWith(choice.instancePath)
      ? (error.schemaPath.slice(choice.schemaPath.length + 1).split('/')[0] ?? null)
      : null;
  const isTag = ({ keyword, instancePath }: ErrorObject): boolean =>
    keyword === 'const' &&
    instancePath.startsWith(`${choice.instancePath}/`) &&
    !instancePath.slice(choice.instancePath.length + 1).includes('/');
  const ways = new Map<string, ErrorObject[]>();
  for (const error of errors) {
    const way = wayOf(error);
    if (way !== null) ways.set(way, [...(ways.get(way) ?? []), error]);
  }
  const tags = errors.filter((error) => wayOf(error) !== null && isTag(error));
  const [first] = tags;
  if (first === undefined) return errors;
  // a way that is told apart by a field and has no objection to it is the one that is meant
  const isOfOtherKind = (list: readonly ErrorObject[]): boolean =>
    list.some(({ keyword, instancePath }) => keyword === 'type' && instancePath === choice.instancePath);
  const meant = [...ways.values()].filter((list) => !list.some(isTag) && !isOfOtherKind(list));
  const told: readonly ErrorObject[] =
    meant.length > 0
      ? [...meant]
          .sort((a, b) => a.length - b.length)
          .slice(0, 1)
          .flat()
      : [{ ...first, keyword: 'enum', params: { allowedValues: tags.map(({ params }) => params['allowedValue'] as unknown) } }];
  return [...errors.filter((error) => error !== choice && wayOf(error) === null), ...told];
}

/** Of the ways in which a value may be written, only the one that it comes near to is worth telling. */
function isSecondary(error: ErrorObject, errors: readonly ErrorObject[]): boolean {
  const others = errors.filter((other) => other !== error && other.instancePath.startsWith(error.instancePath));
  if (error.keyword === 'anyOf' || error.keyword === 'propertyNames') return others.length > 0;
  // a list or group that can stand here has objections of its own further in: it is not another kind of value that is wanted
  const isOtherKind =
    error.keyword === 'type' &&
    errors.some(({ keyword, instancePath }) => keyword === 'anyOf' && instancePath === error.instancePath) &&
    errors.some(({ instancePath }) => instancePath.startsWith(`${error.instancePath}/`));
  if (isOtherKind) return true;
  const isNullBranch = error.keyword === 'type' && error.params['type'] === 'null';
  return isNullBranch && others.some((other) => other.keyword !== 'anyOf');
}

function sentence(error: ErrorObject): string {
  const { keyword, params, data } = error;
  const schema: unknown = error.parentSchema;
  const stands = `${shown(data)} stands here`;
  switch (keyword) {
    case 'required':
      return `the field ${shown(params['missingProperty'])} is missing`;
    case 'additionalProperties':
      return noSuchField(String(params['additionalProperty']), fieldsOf(schema));
    case 'enum':
      return `${stands}; expected one of ${list(params['allowedValues'])}`;
    case 'const':
      return `${stands}; expected ${shown(params['allowedValue'])}`;
    case 'type':
      return wrongType(data, params['type']);
    case 'format':
      return `${stands}; expected a day that exists, written YYYY-MM-DD`;
    case 'pattern':
      return error.propertyName === undefined
        ? `${stands}; expected: ${describe(schema)}`
        : `the field ${shown(error.propertyName)} is not a name that can stand here`;
    case 'uniqueItems':
      return `entries ${Number(params['j']) + 1} and ${Number(params['i']) + 1} are the same; keep one of them`;
    case 'minLength':
      return 'the text is empty; leave the field out instead';
    case 'maxLength':
      return `the text has ${String(data).length} characters; at most ${String(params['limit'])} are allowed`;
    default:
      return `${stands}; it ${error.message ?? 'does not fit'} (${describe(schema)})`;
  }
}

function noSuchField(name: string, fields: readonly string[]): string {
  const near = fields.find((field) => headKey(field) === headKey(name));
  const hint = near === undefined ? `the fields here are ${fields.join(', ')}` : `it is written ${shown(near)}`;
  return `there is no field ${shown(name)} here; ${hint}`;
}

function wrongType(data: unknown, wanted: unknown): string {
  const names: ReadonlyMap<string, string> = new Map([
    ['string', 'text in double quotes'],
    ['integer', 'a whole number without quotes'],
    ['number', 'a number without quotes'],
    ['boolean', 'true or false without quotes'],
    ['array', 'a list in square brackets'],
    ['object', 'a group of fields in braces'],
    ['null', 'null'],
  ]);
  const types = Array.isArray(wanted) ? wanted.map(String) : String(wanted).split(',');
  const expected = types.map((type) => names.get(type) ?? type).join(' or ');
  const hint = types.includes('string') && typeof data === 'number' ? `: "${data}"` : '';
  return `${shown(data)} stands here; expected ${expected}${hint}`;
}

function fieldsOf(schema: unknown): readonly string[] {
  if (typeof schema !== 'object' || schema === null || !('properties' in schema)) return [];
  return typeof schema.properties === 'object' && schema.properties !== null ? Object.keys(schema.properties) : [];
}

function describe(schema: unknown): string {
  if (typeof schema !== 'object' || schema === null || !('description' in schema)) return 'another form';
  return String(schema.description).replace(/\.$/, '');
}

function list(values: unknown): string {
  return Array.isArray(values) ? values.map((value) => shown(value)).join(', ') : shown(values);
}

/** `/reels/0/frames` -> `['reels', 0, 'frames']`; only the document tells whether `0` is a place in a list. */
function pathOf(pointer: string, document: unknown): JsonPath {
  const path: (string | number)[] = [];
  let value: unknown = document;
  for (const step of pointer.split('/').slice(1)) {
    const name = step.replaceAll('~1', '/').replaceAll('~0', '~');
    path.push(Array.isArray(value) ? Number(name) : name);
    value = typeof value === 'object' && value !== null ? Reflect.get(value, name) : undefined;
  }
  return path;
}
