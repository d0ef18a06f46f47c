import { lstatSync } from 'node:fs';
import type { DocumentProblem, FileUse, PageFile } from '../model/film.js';
import type { Unchecked } from '../model/findings.js';
import type { PageText } from '../model/page-text.js';
import type { Profile } from '../model/profile.js';
import type { FactSeen } from './facts/part-facts.js';
import { BYTE_LEAVES, type StatedOfFile } from './fixity/stated.js';
import { resolveHref } from './href.js';
import { UNREAD } from './received/kinds-of-things.js';
import type { Received } from './received/ledger.js';
import { shortened } from './vendor-text.js';
import { type BatchFile, type BatchIndex, pathKey } from './walk.js';
import { readXml, type XmlDocument } from './xml.js';

/** The notes taken while one return is read: what went wrong, what was chosen, what each document's bytes were. */
export interface Reading {
  readonly index: BatchIndex;
  readonly profile: Profile;
  readonly readText: boolean;
  readonly problems: DocumentProblem[];
  /** What the library's own profile asks for and finds nowhere. */
  readonly questions: Unchecked[];
  readonly remarks: string[];
  readonly digests: { readonly path: string; readonly sha256: string }[];
  readonly pageFiles: DraftFile[];
  /** The account of everything that came. */
  readonly received: Received;
  /** What documents and bags state of the bytes of files that came. */
  readonly stated: StatedOfFile[];
  /** Files that are read although a document spells their name otherwise, in capitals or accents. */
  readonly respelt: { readonly href: string; readonly path: string }[];
  /** What each manifest calls the batch. */
  readonly batches: { readonly name: string; readonly manifest: BatchFile }[];
  /** How many documents of the layout the batch holds, told by the layout. */
  found: number;
  /** Told of every fact that is found, where somebody asks. */
  readonly seen: FactSeen | null;
  /** Given the text of each page that is read. */
  readonly onPageText: (text: PageText) => void;
  /** Told after each document; a pause in it lets other work go on. */
  readonly onDocument: () => Promise<void>;
}

/** A page file whose state is settled once all documents are read. */
export type DraftFile = { -readonly [K in keyof PageFile]: PageFile[K] };

/** Local names of what is taken from the administrative sections of a METS document: what they state of bytes, and MIX lengths in pixels (0.2 to 2.0). */
export const IMAGE_LEAVES: readonly string[] = [...BYTE_LEAVES, 'ImageWidth', 'ImageLength', 'imageWidth', 'imageHeight'];

/** A problem with nothing but a sentence, a code and a place; the rest is filled in where it is known. */
export function problem(
  code: DocumentProblem['code'],
  says: string,
  rest: Partial<Omit<DocumentProblem, 'code' | 'says'>>,
): DocumentProblem {
  return {
    code,
    says,
    reel: null,
    title: null,
    date: null,
    edition: null,
    instruction: null,
    collation: null,
    returned: null,
    field: null,
    place: {},
    ...rest,
  };
}

/** Reads one document of the layout, keeps its digest, turns warnings into remarks, and accounts for it as compared. */
export function openDocument(reading: Reading, file: BatchFile): XmlDocument {
  const document = openXml(reading, file);
  if (document.ok) reading.received.document(file.path, 'compared');
  return document;
}

/** Reads any XML file of the batch; what became of it is for the caller to say. */
export function openXml(reading: Reading, file: BatchFile): XmlDocument {
  const wanted = new Set([...IMAGE_LEAVES, ...reading.profile.reelFacts]);
  const document: XmlDocument =
    file.kind === 'file'
      ? readXml(file.location, wanted)
      : { ok: false, sha256: null, says: 'It is a link or a device and not a file. Send the file itself.', line: null };
  if (document.sha256 !== null) reading.digests.push({ path: file.path, sha256: document.sha256 });
  if (document.ok) for (const warning of document.warnings) reading.remarks.push(`"${file.path}" ${warning}.`);
  return document;
}

/** Notes that a document cannot be read, with what is known of the issue it should hold. */
export function noteUnreadable(
  reading: Reading,
  path: string,
  says: string,
  line: number | null,
  rest: Partial<DocumentProblem> = {},
): void {
  const where = line === null ? '' : ` (line ${String(line)})`;
  reading.received.document(path, 'found');
  reading.problems.push(
    problem('document-unreadable', `The document "${path}" cannot be read${where}. ${says}`, {
      instruction: `Send "${path}" again, whole, as well-formed XML without a document type.`,
      ...rest,
      place: line === null ? { document: path } : { document: path, line },
    }),
  );
}

/** Uses under which programmes list the text of a page, where the profile does not say which it is. */
const TEXT_USES: ReadonlySet<string> = new Set(['ocr', 'text', 'alto', 'fulltext']);

/** Whether files of a use are the text of pages. */
export function isTextUse({ profile }: Reading, use: string): boolean {
  const is = profile.files.uses[use]?.is;
  return is === undefined ? TEXT_USES.has(use) : is === 'text';
}

/** Looks for a file that a document names; its state may still become `not-looked-for` once all documents are read. */
export function lookForFile(
  reading: Reading,
  folder: string,
  use: string,
  href: string,
  facts: Pick<PageFile, 'digest' | 'width' | 'height'>,
): DraftFile {
  const resolved = resolveHref(folder, href);
  const name = shortened(href);
  const draft = resolved.safe
    ? draftAt(reading, resolved.path, use, name, facts)
    : ({ use, href: name, path: null, state: 'unsafe', because: resolved.because, ...facts } satisfies DraftFile);
  reading.pageFiles.push(draft);
  return draft;
}

function draftAt(
  reading: Reading,
  path: string,
  use: string,
  href: string,
  facts: Pick<PageFile, 'digest' | 'width' | 'height'>,
): DraftFile {
  const { index, received, respelt, readText } = reading;
  const file = index.byKey.get(pathKey(path));
  if (file === undefined) return { use, href, path, state: 'missing', ...facts };
  if (file.path !== path && !file.location.endsWith(path)) respelt.push({ href, path: file.path });
  if (file.kind !== 'file') {
    received.file(file.path, 'found');
    const isLink = file.kind === 'link';
    return { use, href, path: isLink ? null : file.path, state: 'unsafe', because: isLink ? 'link' : 'device', ...facts };
  }
  const state = isEmpty(file) ? 'empty' : 'present';
  if (state === 'empty') received.file(file.path, 'found');
  else if (isTextUse(reading, use) && !readText) received.file(file.path, 'unchecked', UNREAD.text);
  else received.file(file.path, 'compared');
  return { use, href, path: file.path, state, ...facts };
}

function isEmpty(file: BatchFile): boolean {
  try {
    return lstatSync(file.location).size === 0;
  } catch {
    return true;
  }
}

/**
 * Settles the state of all page files: a use of which not one file came is not looked for (this is a copy of the metadata alone). Answers the uses:
 * those that documents name, and those of which the profile asks for pictures.
 */
export function settleFiles({ pageFiles, profile }: Reading): readonly FileUse[] {
  const uses = new Map<string, { came: boolean; named: number }>();
  for (const [use, { is, needs }] of Object.entries(profile.files.uses))
    if (is === 'image' && needs !== 'may' && needs !== 'must-not') uses.set(use, { came: false, named: 0 });
  for (const { use, state } of pageFiles) {
    const known = uses.get(use) ?? { came: false, named: 0 };
    uses.set(use, known);
    known.named += 1;
    known.came ||= state === 'present' || state === 'empty';
  }
  for (const file of pageFiles) if (file.state === 'missing' && uses.get(file.use)?.came === false) file.state = 'not-looked-for';
  return [...uses].map(([use, known]) => ({ use, ...known })).sort((a, b) => (a.use < b.use ? -1 : 1));
}
