import type { DocumentRule, Profile } from '../../model/profile.js';
import type { WrittenIssue, WrittenReel, WrittenReturn } from '../../model/written-return.js';
import { frameInName, readPart } from '../facts/part-facts.js';
import { glanceAtRoot, type RootGlance, typeTail } from '../kinds.js';
import { matchName } from '../name-pattern.js';
import { noteUnreadable, openXml, problem, type Reading, settleFiles } from '../reading.js';
import { UNREAD } from '../received/kinds-of-things.js';
import { compareTwins, statementsOf } from '../twins.js';
import { type DocumentChoice, groupCopies } from '../variants.js';
import { shortened } from '../vendor-text.js';
import { type BatchFile, type BatchIndex, lastPart } from '../walk.js';
import type { XmlDocument } from '../xml.js';
import { attribute, type XmlElement } from '../xml-tree.js';
import { readIssueDocument } from './issue-document.js';
import { lineOf, type Manifest, type ManifestEntry, manifestStatements, readManifest, resolveEntries } from './manifest.js';
import { divisionsIn, kindByDivisions } from './mets/divisions.js';
import { askedUses, noteDocumentNeeds, noteScannerFiles, type ScannerFile, usualUses } from './mets/needs.js';
import { readReelDocument } from './reel-document.js';

type Opened = Extract<XmlDocument, { ok: true }>;

/** Documents of this layout in a batch, by what their names or first elements say. */
export interface IssueMetsFiles {
  readonly manifests: readonly BatchFile[];
  readonly documents: readonly BatchFile[];
  /** XML files that are neither documents of this layout nor page text beside an issue. */
  readonly others: { readonly file: BatchFile; readonly glance: RootGlance | null }[];
}

/**
 * Sorts the XML files of a batch by name and, where the profile tells documents by their first element, looks into `mostGlances` of those whose names
 * say nothing. Page text lies beside an issue document under a name of its page's files and is not looked at.
 */
export function findIssueMets(index: BatchIndex, profile: Profile, mostGlances = Number.POSITIVE_INFINITY): IssueMetsFiles {
  const { manifest, issue, reel } = profile.documents;
  const manifests: BatchFile[] = [];
  const documents: BatchFile[] = [];
  const undecided: BatchFile[] = [];
  const issueFolders = new Set<string>();
  for (const file of index.files) {
    if (!/\.xml$/i.test(file.path)) continue;
    if (isNamed(file, manifest)) manifests.push(file);
    else if (isNamed(file, issue)) {
      documents.push(file);
      issueFolders.add(file.folder);
    } else undecided.push(file);
  }
  const others: { file: BatchFile; glance: RootGlance | null }[] = [];
  const looks = [manifest, issue, reel].some((rule) => rule.roots !== undefined);
  let glances = 0;
  for (const file of undecided) {
    if (glances >= mostGlances) break;
    if (issueFolders.has(file.folder) && frameInName(profile, file.name) !== undefined) continue;
    const named = isNamed(file, reel);
    glances += 1;
    const glance = looks || named ? glanceAtRoot(file) : null;
    if (glance !== null && (manifest.roots ?? []).some((root) => root.element === glance.name)) manifests.push(file);
    // What a METS document is, its divisions say, whatever its first element calls itself.
    else if (glance === null ? named : hasRoot(glance, issue) || hasRoot(glance, reel)) documents.push(file);
    else if (looks) others.push({ file, glance });
  }
  return { manifests, documents, others };
}

function isNamed(file: BatchFile, rule: DocumentRule): boolean {
  return rule.names.length > 0 && matchName(file.name, rule.names, { folder: lastPart(file.folder) }) !== null;
}

/** Whether a document of this kind begins with such an element; its TYPE is not asked. */
function hasRoot(glance: RootGlance, rule: DocumentRule): boolean {
  return (rule.roots ?? []).some((root) => root.element === glance.name);
}

/** Whether the first element says of itself that it is such a document, or says nothing. */
function callsItself(glance: RootGlance, rule: DocumentRule): boolean {
  return (rule.roots ?? []).some(
    ({ element, types }) =>
      element === glance.name &&
      (types === undefined || glance.type === '' || types.some((type) => typeTail(type) === typeTail(glance.type))),
  );
}

/** Files of unknown names that are looked into to recognise the layout: a folder of another kind may hold tens of thousands. */
const GLANCES_TO_RECOGNISE = 300;

/** How many documents of this layout a batch holds, about; 0 where the first ones have the names of issue documents but are another kind of METS. */
export function countIssueMets(index: BatchIndex, profile: Profile): number {
  const { manifests, documents } = findIssueMets(index, profile, GLANCES_TO_RECOGNISE);
  const { issue, reel } = profile.documents;
  const namesOnly = issue.roots === undefined && reel.roots === undefined;
  const fits = documents.slice(0, 5).some((file) => {
    const glance = glanceAtRoot(file);
    return namesOnly || glance === null || callsItself(glance, issue) || callsItself(glance, reel);
  });
  return fits ? manifests.length + documents.length : manifests.length;
}

/** Reads a return in which each issue is one METS document with a MODS section per page. */
export async function readIssueMets(reading: Reading): Promise<Omit<WrittenReturn, 'received'>> {
  const found = findIssueMets(reading.index, reading.profile);
  reading.found = found.manifests.length + found.documents.length;
  const manifests: Manifest[] = [];
  const stated = new Set<string>();
  // The one that lies nearest to the top is the batch's own.
  const depth = ({ plainPath }: DocumentChoice): number => plainPath.split('/').length;
  for (const choice of [...choicesOf(reading, found.manifests)].sort((a, b) => depth(a) - depth(b))) {
    const opened = await openChoice(reading, choice, null);
    if (opened?.document.root.name === 'batch') {
      const manifest = readManifest(opened.document.root, opened.file.path);
      const says = JSON.stringify(manifestStatements(manifest));
      if (stated.has(says)) {
        for (const file of [opened.file, ...opened.twins]) reading.received.document(file.path, 'unchecked', UNREAD.manifest);
        continue;
      }
      stated.add(says);
      manifests.push(manifest);
      if (manifest.batch !== null && manifest.batch.trim() !== '')
        reading.batches.push({ name: manifest.batch.trim(), manifest: opened.file });
      reading.received.document(opened.file.path, 'compared');
      compareTwins(reading, { file: opened.file, says: manifestStatements(manifest) }, opened.twins, (_reading, file, { root }) =>
        root.name === 'batch' ? manifestStatements(readManifest(root, file.path)) : null,
      );
    } else if (opened !== null)
      noteUnreadable(
        reading,
        opened.file.path,
        `It should be a batch manifest, but its first element is "${shortened(opened.document.root.name)}".`,
        null,
      );
  }
  const choices = choicesOf(reading, found.documents);
  const entries = resolveEntries(
    reading,
    manifests,
    choices.map((choice) => choice.plainPath),
  );
  const issues: WrittenIssue[] = [];
  const reels: WrittenReel[] = [];
  const scannerFiles: ScannerFile[] = [];
  const undivided: Undivided[] = [];
  let counted = 0;
  for (const choice of choices) {
    const entry = entries.get(choice.plainPath) ?? null;
    const opened = await openChoice(reading, choice, entry);
    if (opened === null) continue;
    const { document, file, twins } = opened;
    const kind = kindByDivisions(document.root, reading.profile);
    if (kind !== null) {
      reading.received.document(file.path, 'compared');
      const read = readDocument(reading, kind, file, document, entry);
      issues.push(...read.issues);
      reels.push(...read.reels);
      scannerFiles.push(...read.scannerFiles);
      compareTwins(reading, { file, says: statementsOf(read) }, twins, (apart, twin, other) =>
        kindByDivisions(other.root, apart.profile) === kind ? statementsOf(readDocument(apart, kind, twin, other, entry)) : null,
      );
    } else if (isExpected(reading, file, document.root, entry)) undivided.push({ file, root: document.root, entry });
    else {
      found.others.push({ file, glance: { name: document.root.name, type: attribute(document.root, 'TYPE') ?? '' } });
      continue;
    }
    counted += 1;
    // Not every manifest lists reels; one that lists none leaves none out.
    const lists = manifests.some((manifest) => kind === 'issue' || manifest.entries.some((listed) => listed.kind === kind));
    if (lists && entry === null) noteNotListed(reading, file, kind ?? 'issue');
  }
  // Where the library's own profile finds no issue in any document, it is the profile that is asked, once.
  const isAsked = reading.profile.own === true && issues.length === 0 && undivided.length > 0;
  for (const one of undivided) noteUndivided(reading, one, isAsked);
  sayWhatWasRead(reading, manifests, found, counted);
  noteDocumentNeeds(reading, manifests.length, issues.length, reels.length, isAsked);
  const fileUses = settleFiles(reading);
  noteScannerFiles(reading, scannerFiles);
  return {
    layout: 'issue-mets',
    batch: reading.batches[0]?.name ?? reading.index.name,
    issues,
    reels,
    loose: [],
    askedUses: askedUses(reading, issues),
    usualUses: usualUses(issues),
    fileUses,
    problems: reading.problems,
    unchecked: [],
    remarks: reading.remarks,
    ...(isAsked ? { undivided: undivided.map(({ file, root }) => ({ document: file.path, types: typesOf(root, reading.profile) })) } : {}),
  };
}

/** A document that should be an issue's or a reel's by its name, its TYPE or the manifest, and holds no division of either. */
interface Undivided {
  readonly file: BatchFile;
  readonly root: XmlElement;
  readonly entry: ManifestEntry | null;
}

function noteUndivided(reading: Reading, { file, root, entry }: Undivided, isAsked: boolean): void {
  if (isAsked) {
    reading.received.document(file.path, 'unchecked', {
      what: 'documents in which no issue was found',
      why: 'The profile names no division of theirs.',
    });
    return;
  }
  const says = `It is neither an issue nor a reel document: its first element is "${shortened(root.name)}" and no division says that it is an issue or a reel.`;
  noteUnreadable(reading, file.path, says, null, knownOf(reading, file, entry));
}

/** The types of the divisions of a document, each with that of its structMap, as they stand there. */
function typesOf(root: XmlElement, profile: Profile): readonly string[] {
  const types = divisionsIn(root, profile).nodes.map(({ division, map }) => {
    const type = attribute(division, 'TYPE') ?? 'no TYPE';
    return map === '' ? type : `${type} (map ${map})`;
  });
  return [...new Set(types)].slice(0, MOST_TYPES);
}

const MOST_TYPES = 20;

/** What an issue or reel document holds. */
function readDocument(
  reading: Reading,
  kind: 'issue' | 'reel',
  file: BatchFile,
  document: Opened,
  entry: ManifestEntry | null,
): { readonly issues: readonly WrittenIssue[]; readonly reels: readonly WrittenReel[]; readonly scannerFiles: readonly ScannerFile[] } {
  if (kind === 'issue') return { issues: readIssueDocument(reading, file, document, lineOf(entry)), reels: [], scannerFiles: [] };
  const { reel, scannerFiles } = readReelDocument(reading, file, document, lineOf(entry));
  return { issues: [], reels: [reel], scannerFiles };
}

/** Documents with their later copies, where the profile says that there may be such. */
function choicesOf(reading: Reading, files: readonly BatchFile[]): readonly DocumentChoice[] {
  return reading.profile.laterCopies ? groupCopies(files) : files.map((file) => ({ plainPath: file.path, copies: [file] }));
}

/** Whether a document without the divisions of an issue or a reel should have them: by its name, its TYPE or the manifest. */
function isExpected(reading: Reading, file: BatchFile, root: XmlElement, entry: ManifestEntry | null): boolean {
  const { issue, reel } = reading.profile.documents;
  const glance = { name: root.name, type: attribute(root, 'TYPE') ?? '' };
  return (
    entry !== null ||
    isNamed(file, issue) ||
    isNamed(file, reel) ||
    (glance.type !== '' && (callsItself(glance, issue) || callsItself(glance, reel)))
  );
}

/** Reads the latest copy of a document that can be read; its twins are the earlier copies. */
async function openChoice(
  reading: Reading,
  choice: DocumentChoice,
  entry: ManifestEntry | null,
): Promise<{ readonly document: Opened; readonly file: BatchFile; readonly twins: readonly BatchFile[] } | null> {
  for (const [at, file] of choice.copies.entries()) {
    const document = openXml(reading, file);
    await reading.onDocument();
    if (!document.ok) {
      noteUnreadable(reading, file.path, document.says, document.line, knownOf(reading, file, entry));
      continue;
    }
    return { document, file, twins: choice.copies.slice(at + 1) };
  }
  return null;
}

/** What is known of an issue without its document: from the manifest, else from the names of its file and folders, as the profile reads them. */
function knownOf(
  reading: Reading,
  file: BatchFile,
  entry: ManifestEntry | null,
): { title: string | null; date: string | null; edition: number | null; reel: string | null } {
  const name = matchName(file.name, reading.profile.documents.issue.names);
  const places = { sections: [], document: file.path, listed: lineOf(entry), place: { document: file.path } };
  const { facts, copies } = readPart(reading.profile, 'issue', places, null);
  const copied = (fact: 'date' | 'edition'): string | undefined => facts[fact] ?? copies.find((copy) => copy.fact === fact)?.text;
  const edition = entry?.edition ?? name?.get('edition') ?? copied('edition') ?? '';
  return {
    title: entry?.titleId ?? null,
    date: entry?.date ?? name?.get('day') ?? name?.get('date') ?? copied('date') ?? null,
    edition: /^\d{1,3}$/.test(edition) ? Number(edition) : null,
    reel: entry?.reel ?? null,
  };
}

function noteNotListed(reading: Reading, file: BatchFile, kind: 'issue' | 'reel'): void {
  reading.problems.push(
    problem('file-not-listed', `The ${kind} document "${file.path}" was sent, but the manifest does not list it.`, {
      ...knownOf(reading, file, null),
      instruction: `List "${file.path}" in the manifest or take it out of the batch.`,
      returned: file.path,
      place: { document: file.path },
    }),
  );
}

function sayWhatWasRead(reading: Reading, manifests: readonly Manifest[], found: IssueMetsFiles, counted: number): void {
  const { names, roots } = reading.profile.documents.manifest;
  const mayBeSent = names.length > 0 || roots !== undefined;
  if (manifests.length === 0 && mayBeSent) reading.remarks.push('No batch manifest was sent, so nothing was compared with one.');
  if (manifests.length > 1) reading.remarks.push(`The batch holds ${String(manifests.length)} manifests; all of them were read.`);
  for (const other of found.others)
    if (other.glance === null) noteUnreadable(reading, other.file.path, 'It does not begin like an XML document.', null);
  const copied = [...choicesOf(reading, found.manifests), ...choicesOf(reading, found.documents)].filter(
    (choice) => choice.copies.length > 1,
  ).length;
  if (copied > 0)
    reading.remarks.push(
      `Documents that lie there in several copies: ${String(copied)}. Of each the latest was read (the one marked "_1", or higher).`,
    );
  if (counted === 0) reading.remarks.push('No issue or reel document could be read.');
}
