import { lstatSync } from 'node:fs';
import type { DocumentProblem, PageFile } from '../model/film.js';
import type { Unchecked } from '../model/findings.js';
import type { PageText } from '../model/page-text.js';
import type { Profile } from '../model/profile.js';
import type { FactSeen } from './facts/part-facts.js';
import { BYTE_LEAVES, type StatedOfFile } from './fixity/stated.js';
import { resolveHref } from './href.js';
import type { Received } from './received/ledger.js';
import { type BatchFile, type BatchIndex, pathKey } from './walk.js';
import { readXml, type XmlDocument } from './xml.js';

/** The notes taken while one return is read: what went wrong, what was chosen, what each document's bytes were. */
export interface Reading {
  readonly index: BatchIndex;
  readonly profile: Profile;
  readonly readText: boolean;
  readonly problems: DocumentProblem[];
  readonly remarks: string[];
  readonly digests: { readonly path: string; readonly sha256: string }[];
  readonly pageFiles: DraftFile[];
  /** The account of everything that came. */
  readonly received: Received;
  /** What documents and bags state of the bytes of files that came. */
  readonly stated: StatedOfFile[];
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
      instruction: `Send "${path}" again, complete and as well-formed XML.`,
      ...rest,
      place: line === null ? { document: path } : { document: path, line },
    }),
  );
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
  const draft: DraftFile = { use, href, path: null, state: 'unsafe', ...facts };
  if (resolved.safe) {
    const file = reading.index.byKey.get(pathKey(resolved.path));
    draft.path = file === undefined ? resolved.path : file.path;
    draft.state = file === undefined ? 'missing' : file.kind !== 'file' ? 'unsafe' : isEmpty(file) ? 'empty' : 'present';
    if (file?.kind === 'link') draft.path = null;
    if (file !== undefined) reading.received.file(file.path, draft.state === 'present' ? 'compared' : 'found');
  }
  reading.pageFiles.push(draft);
  return draft;
}

function isEmpty(file: BatchFile): boolean {
  try {
    return lstatSync(file.location).size === 0;
  } catch {
    return true;
  }
}

/**
 * Settles the state of all page files: a use of which not one file came is not looked for (this is a copy of the metadata alone).
 * Answers what is therefore unchecked.
 */
export function settleFiles(reading: Reading): readonly Unchecked[] {
  const came = new Set(reading.pageFiles.filter((file) => file.state === 'present' || file.state === 'empty').map((file) => file.use));
  const absent = new Set<string>();
  for (const file of reading.pageFiles) {
    if (file.state !== 'missing' || came.has(file.use)) continue;
    file.state = 'not-looked-for';
    absent.add(file.use);
  }
  if (absent.size === 0) return [];
  const uses = [...absent].sort().join(', ');
  const what = came.size === 0 ? 'page files' : `page files (${uses})`;
  const why = `No image files in this copy of the batch (${uses}), so it was not asked whether they are there.`;
  return [{ what, why, frames: null, places: [], count: absent.size, required: false }];
}
