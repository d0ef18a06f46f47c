import { createHash } from 'node:crypto';
import type { PageText } from '../model/page-text.js';
import type { Profile } from '../model/profile.js';
import type { WrittenIssue, WrittenReturn } from '../model/written-return.js';
import type { FactSeen } from './facts/part-facts.js';
import { readBags } from './fixity/bag.js';
import { checkFixity } from './fixity/check.js';
import { glanceAtRoot } from './kinds.js';
import { countIssueMets, readIssueMets } from './layouts/issue-mets.js';
import { findPageMods, readPageMods } from './layouts/page-mods.js';
import type { Reading } from './reading.js';
import { newReceived } from './received/ledger.js';
import { accountForRest } from './received/leftovers.js';
import { uncheckedThings } from './received/unchecked.js';
import { type BatchIndex, folderOf, pathKey, walkBatch } from './walk.js';

/** How a return is to be read. */
export interface ReadReturnOptions {
  /** The profiles that may apply, in the order in which they are tried: the one asked for, or the built-in ones. */
  readonly profiles: readonly Profile[];
  /** Whether page text is read too. */
  readonly readText: boolean;
  /** Given the text of each page while it is read, where `readText` is set; nothing keeps it afterwards. */
  readonly onPageText?: (text: PageText) => void;
  /** Told of every fact that is found: the part, the fact, its place by the profile, what stands there, the document. */
  readonly onFact?: FactSeen;
  /** Whether files are held against the digests stated for them. */
  readonly fixity?: boolean;
  /** Told after each file that was held against its digests. */
  readonly onFixity?: (done: number, all: number) => void;
  /** Told now and then how many documents have been read. */
  readonly onProgress?: (documents: number) => void;
}

/** A return as it was read, or the sentence that says why it could not be. */
export type ReadReturn =
  | {
      readonly ok: true;
      readonly written: WrittenReturn;
      readonly profile: Profile;
      readonly inputs: readonly { readonly role: string; readonly name: string; readonly sha256: string }[];
    }
  | { readonly ok: false; readonly says: string };

/** Documents read between two pauses: often enough that a signal is answered at once. */
const PAUSE_EVERY = 64;

/** Reads what a vendor sent: one folder, or several of which a later one replaces documents of an earlier one. */
export async function readReturn(folders: readonly string[], options: ReadReturnOptions): Promise<ReadReturn> {
  const index = walkBatch(folders);
  if ('refused' in index) return { ok: false, says: index.refused };
  const choice = recognise(index, options.profiles);
  if (choice === null) return { ok: false, says: notRecognised(index, options.profiles) };
  let documents = 0;
  const reading: Reading = {
    index,
    profile: choice.profile,
    readText: options.readText,
    problems: [],
    questions: [],
    remarks: index.packed === 0 ? [] : [`Documents packed with gzip, named here without ".gz": ${String(index.packed)}.`],
    found: 0,
    digests: [],
    pageFiles: [],
    batches: [],
    stated: [],
    respelt: [],
    received: newReceived(),
    seen: options.onFact ?? null,
    onPageText: (text) => options.onPageText?.(text),
    onDocument: async () => {
      documents += 1;
      if (documents % PAUSE_EVERY !== 0) return;
      options.onProgress?.(documents);
      await new Promise((resolve) => {
        setImmediate(resolve);
      });
    },
  };
  const written = choice.profile.layout === 'issue-mets' ? await readIssueMets(reading) : await readPageMods(reading);
  const two = twoBatches(reading);
  if (two !== null) return { ok: false, says: two };
  readBags(reading);
  await accountForRest(reading);
  const fixity = await checkFixity(reading, options.fixity ?? false, (done, all) => options.onFixity?.(done, all));
  const { received } = reading;
  const remark = `Read with the profile "${choice.profile.name}": ${String(reading.found)} documents of that layout were found.${choice.also}`;
  return {
    ok: true,
    written: {
      ...written,
      issues: fromFolders(written.issues, index),
      unchecked: [...reading.questions, ...written.unchecked, ...fixity.unchecked, ...uncheckedThings(received)],
      remarks: [remark, ...written.remarks, ...respelt(reading)],
      received: { ...received.tally(), ...(fixity.counts === null ? {} : { fixity: fixity.counts }) },
    },
    profile: choice.profile,
    inputs: [{ role: 'batch', name: index.name, sha256: batchDigest(reading.digests) }],
  };
}

/** The issues with the folder from which each came, where there are several. */
function fromFolders(issues: readonly WrittenIssue[], { roots, byKey }: BatchIndex): readonly WrittenIssue[] {
  if (roots.length < 2) return issues;
  return issues.map((issue) => {
    const location = byKey.get(pathKey(issue.place.document ?? ''))?.location ?? '';
    return {
      ...issue,
      folder: Math.max(
        0,
        roots.findIndex((root) => location.startsWith(`${root.location}/`)),
      ),
    };
  });
}

/** What is said of files that bear their names in other letters than the documents give them. */
function respelt(reading: Reading): readonly string[] {
  const [first] = reading.respelt;
  if (first === undefined) return [];
  const count = new Set(reading.respelt.map(({ path }) => path)).size;
  return [
    `Files whose names differ in capital letters or accents from what the documents call them: ${String(count)} (first: "${first.path}", called "${first.href}"). They were taken for the files that are meant; systems that tell such names apart will not find them.`,
  ];
}

/** The sentence that names two batches whose manifests lie in one folder; null where there is one at most. Several folders may bring their own. */
function twoBatches({ batches, index }: Reading): string | null {
  for (const { location } of index.roots) {
    const own = batches.filter(({ manifest }) => manifest.location.startsWith(`${location}/`));
    const [first] = own;
    const other = own.find(({ name }) => name !== first?.name);
    if (first === undefined || other === undefined) continue;
    const folder = `${location}/${folderOf(other.manifest.path)}`.replace(/\/$/, '');
    return (
      `The folder "${location}" holds two batches: "${first.manifest.path}" is the manifest of "${first.name}" and "${other.manifest.path}" that of "${other.name}". ` +
      `Verify one at a time, each from a folder of its own: --batch ${folder}`
    );
  }
  return null;
}

/** One digest for a batch: SHA-256 over a line `path NUL digest` for every document read, in the order of the paths. */
function batchDigest(digests: Reading['digests']): string {
  const lines = digests.map(({ path, sha256 }) => `${path}\0${sha256}\n`).sort();
  return createHash('sha256').update(lines.join('')).digest('hex');
}

/** The first profile of whose layout the batch holds documents, and the sentence that says so. */
function recognise(index: BatchIndex, profiles: readonly Profile[]): { readonly profile: Profile; readonly also: string } | null {
  const fitting = profiles.flatMap((profile) => {
    const count = countDocuments(index, profile);
    return count === 0 ? [] : [{ profile, count }];
  });
  const first = fitting[0];
  if (first === undefined) return null;
  const others = fitting.slice(1).filter(({ profile }) => profile.layout !== first.profile.layout);
  const also = others.map(
    ({ profile, count }) => ` Documents in the layout "${profile.name}" (${String(count)}) lie there too and were not read.`,
  );
  return { profile: first.profile, also: also.join('') };
}

function countDocuments(index: BatchIndex, profile: Profile): number {
  if (profile.layout === 'page-mods') {
    const { editions, pages, films } = findPageMods(index, profile);
    return editions.length + pages.length + films.length;
  }
  return countIssueMets(index, profile);
}

/** How many XML files are looked at to say what a folder holds. */
const LOOKED_AT = 50;

function notRecognised(index: BatchIndex, profiles: readonly Profile[]): string {
  const xml = index.files.filter((file) => /\.xml$/i.test(file.path));
  const seen = new Map<string, number>();
  for (const file of xml.slice(0, LOOKED_AT)) {
    const glance = glanceAtRoot(file);
    const kind =
      glance === null
        ? 'a file that is not XML'
        : glance.type === ''
          ? `<${glance.name}>`
          : `<${glance.name} TYPE="${glance.type.slice(0, 80)}">`;
    seen.set(kind, (seen.get(kind) ?? 0) + 1);
  }
  const what = [...seen.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([kind, count]) => `${String(count)} of ${kind}`);
  const of = xml.length > LOOKED_AT ? `, of which the first ${String(LOOKED_AT)} are` : ':';
  const holds =
    xml.length === 0
      ? `holds ${String(index.files.length)} files, none of them XML`
      : `holds ${String(xml.length)} XML files${of} ${what.join(', ')}`;
  const [only] = profiles;
  if (only !== undefined && profiles.length === 1)
    return `The profile "${only.name}" fits no document of the batch "${index.name}". The batch ${holds}. The profile looks for ${kindsWords(only)}. Correct "documents" of the profile, or check the folder.`;
  const names = profiles.map((profile) => `"${profile.name}"`).join(' or ');
  return `The layout of the batch "${index.name}" is not recognised: it ${holds}; no document is of the layout ${names}, which carry frame numbers. Check the folder, or describe the layout with --profile.`;
}

/** By what names and first elements a profile knows its documents, in words. */
function kindsWords({ documents }: Profile): string {
  const kinds = (['manifest', 'issue', 'reel', 'page'] as const).flatMap((kind) => {
    const { names, roots = [] } = documents[kind];
    const elements = roots.flatMap(({ element, types }) =>
      (types ?? []).map((type) => `<${element} TYPE="${type}">`).concat(types === undefined ? `<${element}>` : []),
    );
    const ways = [...names.map((name) => `the name "${name}"`), ...elements];
    return ways.length === 0 ? [] : [`a document ${kind === 'page' ? 'of a page' : `of the kind "${kind}"`} by ${ways.join(' or ')}`];
  });
  return kinds.length === 0 ? 'no document at all' : kinds.join('; ');
}
