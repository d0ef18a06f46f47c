import { toUtf8 } from '../decode.js';
import { UserMistake } from '../mistake.js';
import { attributeValue } from '../xml-attributes.js';
import { NO_PREFIX, type XmlName } from '../xml-names.js';
import type { XmlReader, XmlScan } from '../xml-position.js';
import { scanXml } from '../xml-scan.js';
import { textBetween } from '../xml-text.js';

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
  /** Reads on by itself as far as it can, inside an element without a prefix; false where it can not. */
  readonly ahead?: (scan: XmlScan, path: readonly string[]) => boolean;
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
  const path: string[] = [];
  // Depth at which an element of another vocabulary began; what it holds is no concern of ours.
  let strange = 0;
  const fail = (says: string): never => {
    throw new UserMistake(`${where}: ${says}; open the workbook in a spreadsheet program and save it again.`);
  };
  const { ahead } = reader;
  const events: XmlReader = {
    ...(ahead === undefined
      ? {}
      : { ahead: (scan: XmlScan) => strange === 0 && scan.names[scan.depth]?.prefix === NO_PREFIX && ahead(scan, path) }),
    open: (scan, name) => {
      if (scan.depth > DEEPEST) fail(`the part is nested deeper than ${String(DEEPEST)} elements`);
      if (strange > 0) return;
      if (!vocabulary.namespaces.has(namespaceOf(scan, name))) {
        strange = scan.depth;
        return;
      }
      path.push(name.local);
      reader.open?.({ name: name.local, attribute: (wanted) => attributeIn(scan, wanted, vocabulary) }, path);
    },
    text: (scan, from, to, literal) => {
      if (strange === 0 && reader.text !== undefined) reader.text(textBetween(scan.bytes, from, to, literal), path);
    },
    close: (scan, name) => {
      if (strange === 0) {
        reader.close?.(name.local, path);
        path.pop();
      } else if (strange === scan.depth) strange = 0;
    },
    instruction: () => undefined,
  };
  // How large a part may be is settled where it is unpacked.
  const fault = scanXml(decoded.utf8, events, Number.POSITIVE_INFINITY);
  if (fault === null) return;
  if (fault.refused && fault.says.includes('DOCTYPE')) fail('the part holds a document type declaration, which no workbook has');
  fail(`the part is not well-formed XML (${fault.says})`);
}

function namespaceOf(scan: XmlScan, name: XmlName): string {
  return scan.scope.uris[name.prefix] ?? '';
}

/** The value of an attribute of the element just opened, by the name that its vocabulary knows it by. */
function attributeIn(scan: XmlScan, wanted: string, { namespaces, localAttributes }: Vocabulary): string | undefined {
  const linked = !localAttributes && wanted.startsWith('r:');
  const local = linked ? wanted.slice(2) : wanted;
  for (let at = 0; at < scan.attributeCount; at += 1) {
    const name = scan.attributeNames[at];
    if (name?.local !== local) continue;
    const uri = name.prefix === NO_PREFIX ? '' : namespaceOf(scan, name);
    if (localAttributes ? namespaces.has(uri) : linked ? RELATIONSHIPS.has(uri) : uri === '') return attributeValue(scan, at);
  }
  return undefined;
}

/** The text of an ST_Xstring (ECMA-376 part 1, section 22.9.2.19): `_x000D_` stands for the character of that number. */
export function plainString(written: string): string {
  if (!written.includes('_x')) return written;
  return written.replace(/_x([0-9A-Fa-f]{4})_/g, (_, digits: string) => String.fromCharCode(Number.parseInt(digits, 16)));
}

/** Truth values of XML Schema part 2, section 3.2.2. */
export function isTrue(text: string | undefined): boolean {
  return text === '1' || text === 'true';
}
