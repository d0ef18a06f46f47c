import { SaxesParser } from 'saxes';
import { toUtf8 } from '../decode.js';
import { UserMistake } from '../mistake.js';

/** An element of a part: its local name, its attributes by local name (those of no namespace, and `r:id` as `r:id`). */
export interface PartElement {
  readonly name: string;
  readonly attribute: (name: string) => string | undefined;
}

/** What is told of a part, in document order. `path` is the local names from the root down to the element, this one included. */
export interface PartReader {
  readonly open?: (element: PartElement, path: readonly string[]) => void;
  readonly text?: (text: string, path: readonly string[]) => void;
  readonly close?: (name: string, path: readonly string[]) => void;
}

/** Namespaces of ECMA-376: the transitional ones, and those of the strict form (part 1, annex A). Others are extensions. */
const NAMESPACES: ReadonlySet<string> = new Set([
  'http://schemas.openxmlformats.org/spreadsheetml/2006/main',
  'http://purl.oclc.org/ooxml/spreadsheetml/main',
  'http://schemas.openxmlformats.org/package/2006/relationships',
  'http://schemas.openxmlformats.org/package/2006/content-types',
  'http://schemas.openxmlformats.org/officeDocument/2006/extended-properties',
  'http://purl.oclc.org/ooxml/officeDocument/extendedProperties',
]);
const RELATIONSHIPS: ReadonlySet<string> = new Set([
  'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
  'http://purl.oclc.org/ooxml/officeDocument/relationships',
]);
/** What a part is written in: its namespaces, and whether its attributes have none or are known by their local names. */
export interface Vocabulary {
  readonly namespaces: ReadonlySet<string>;
  readonly localAttributes: boolean;
}

const SPREADSHEETML: Vocabulary = { namespaces: NAMESPACES, localAttributes: false };

/** The deepest part of a workbook is a drawing; those that are read here go down about ten elements. */
const DEEPEST = 64;

/** Walks through one part of a workbook. Elements of other namespaces, with all that is in them, are passed over. Throws UserMistake. */
export function readPart(bytes: Buffer, where: string, reader: PartReader, vocabulary: Vocabulary = SPREADSHEETML): void {
  const decoded = toUtf8(bytes);
  if (!decoded.ok) throw new UserMistake(`${where}: ${decoded.says}`);
  const parser = new SaxesParser({ xmlns: true, position: false });
  const path: string[] = [];
  let depth = 0;
  // Depth at which an element of another vocabulary began; what it holds is no concern of ours.
  let strange = 0;
  const fail = (says: string): never => {
    throw new UserMistake(`${where}: ${says}; open the workbook in a spreadsheet program and save it again.`);
  };
  parser.on('error', (error) => fail(`the part is not well-formed XML (${(error.message.split('\n')[0] ?? '').slice(0, 120)})`));
  parser.on('doctype', () => fail('the part holds a document type declaration, which no workbook has'));
  parser.on('opentag', (tag) => {
    depth += 1;
    if (depth > DEEPEST) fail(`the part is nested deeper than ${String(DEEPEST)} elements`);
    if (strange > 0) return;
    if (!vocabulary.namespaces.has(tag.uri)) {
      strange = depth;
      return;
    }
    path.push(tag.local);
    const { attributes } = tag;
    const attribute = (name: string): string | undefined => {
      if (vocabulary.localAttributes)
        return Object.values(attributes).find(({ local, uri }) => local === name && vocabulary.namespaces.has(uri))?.value;
      const plain = attributes[name];
      if (plain !== undefined && plain.uri === '') return plain.value;
      if (!name.startsWith('r:')) return undefined;
      return Object.values(attributes).find(({ local, uri }) => RELATIONSHIPS.has(uri) && local === name.slice(2))?.value;
    };
    reader.open?.({ name: tag.local, attribute }, path);
  });
  const text = (piece: string): void => {
    if (strange === 0) reader.text?.(piece, path);
  };
  parser.on('text', text);
  parser.on('cdata', text);
  parser.on('closetag', (tag) => {
    if (strange === 0) {
      reader.close?.(tag.local, path);
      path.pop();
    }
    if (strange === depth) strange = 0;
    depth -= 1;
  });
  parser.write(decoded.utf8.toString('utf8')).close();
}

/** The text of an ST_Xstring (ECMA-376 part 1, section 22.9.2.19): `_x000D_` stands for the character of that number. */
export function plainString(written: string): string {
  if (!written.includes('_x')) return written;
  return written.replace(/_x([0-9A-Fa-f]{4})_/g, (_, digits: string) => String.fromCharCode(Number.parseInt(digits, 16)));
}
