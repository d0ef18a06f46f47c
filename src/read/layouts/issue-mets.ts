import type { Profile } from '../../model/profile.js';
import type { WrittenIssue, WrittenReel, WrittenReturn } from '../../model/written-return.js';
import { glanceAtRoot, type RootGlance, typeTail } from '../kinds.js';
import { matchName } from '../name-pattern.js';
import { noteUnreadable, openDocument, problem, type Reading, settleFiles } from '../reading.js';
import { type DocumentChoice, groupCopies } from '../variants.js';
import { type BatchFile, type BatchIndex, folderOf, lastPart } from '../walk.js';
import type { XmlDocument } from '../xml.js';
import { attribute, type XmlElement } from '../xml-tree.js';
import { holdsIssue, readIssueDocument } from './issue-document.js';
import { type Manifest, type ManifestEntry, readManifest, resolveEntries } from './manifest.js';
import { holdsReel, readReelDocument } from './reel-document.js';

type Opened = Extract<XmlDocument, { ok: true }>;

/** Documents of this layout in a batch, by what their names or first elements say. */
export interface IssueMetsFiles {
  readonly manifests: readonly BatchFile[];
  readonly documents: readonly BatchFile[];
  /** XML files that are neither documents of this layout nor page text beside an issue. */
  readonly others: { readonly file: BatchFile; readonly glance: RootGlance | null }[];
}

/** Sorts the XML files of a batch, looking into `mostGlances` of those whose names say nothing. Page text lies beside an issue document under a frame number and is not looked at. */
export function findIssueMets(index: BatchIndex, profile: Profile, mostGlances = Number.POSITIVE_INFINITY): IssueMetsFiles {
  const manifests: BatchFile[] = [];
  const documents: BatchFile[] = [];
  const undecided: BatchFile[] = [];
  const issueFolders = new Set<string>();
  for (const file of index.files) {
    if (!/\.xml$/i.test(file.path)) continue;
    const name = lastPart(file.path);
    if (matchName(name, profile.names.manifest) !== null) manifests.push(file);
    else if (matchName(name, profile.names.issueDocument) !== null) {
      documents.push(file);
      issueFolders.add(folderOf(file.path));
    } else undecided.push(file);
  }
  const others: { file: BatchFile; glance: RootGlance | null }[] = [];
  let glances = 0;
  for (const file of undecided) {
    if (glances >= mostGlances) break;
    const folder = folderOf(file.path);
    if (issueFolders.has(folder) && matchName(lastPart(file.path), profile.names.pageFile) !== null) continue;
    glances += 1;
    const glance = glanceAtRoot(file);
    if (glance?.name === 'batch') manifests.push(file);
    else if (glance?.name === 'mets' || (glance === null && isNamedAfterFolder(file))) documents.push(file);
    else others.push({ file, glance });
  }
  return { manifests, documents, others };
}

/** How the TYPE of these documents ends: `microfilmReel` in all 36 published reel documents that were looked at, `reel` in public programs that read them. */
const ROOT_TYPES: readonly string[] = ['issue', 'reel', 'microfilmreel'];

/** Files of unknown names that are looked into to recognise the layout: a folder of another kind may hold tens of thousands. */
const GLANCES_TO_RECOGNISE = 300;

/** How many documents of this layout a batch holds, about; 0 where the first ones have the names of issue documents but are another kind of METS. */
export function countIssueMets(index: BatchIndex, profile: Profile): number {
  const { manifests, documents } = findIssueMets(index, profile, GLANCES_TO_RECOGNISE);
  const fits = documents.slice(0, 5).some((file) => {
    const glance = glanceAtRoot(file);
    return glance === null || (glance.name === 'mets' && ['', ...ROOT_TYPES].includes(typeTail(glance.type)));
  });
  return fits ? manifests.length + documents.length : manifests.length;
}

/** A reel document has the name of its folder, which tells even where its content cannot be read. */
function isNamedAfterFolder(file: BatchFile): boolean {
  const folder = lastPart(folderOf(file.path));
  const stem = lastPart(file.path).replace(/(?:_\d{1,2})?\.xml$/i, '');
  return folder !== '' && stem.toLowerCase() === folder.toLowerCase();
}

/** Reads a return in which each issue is one METS document with a MODS section per page. */
export async function readIssueMets(reading: Reading): Promise<Omit<WrittenReturn, 'received'>> {
  const found = findIssueMets(reading.index, reading.profile);
  reading.found = found.manifests.length + found.documents.length;
  const manifests: Manifest[] = [];
  for (const choice of groupCopies(found.manifests)) {
    const opened = await openChoice(reading, choice, null);
    if (opened?.document.root.name === 'batch') manifests.push(readManifest(opened.document.root, opened.file.path));
    else if (opened !== null)
      noteUnreadable(
        reading,
        opened.file.path,
        `It should be a batch manifest, but its first element is "${opened.document.root.name}".`,
        null,
      );
  }
  const choices = groupCopies(found.documents);
  const entries = resolveEntries(
    reading,
    manifests,
    choices.map((choice) => choice.plainPath),
  );
  const issues: WrittenIssue[] = [];
  const reels: WrittenReel[] = [];
  let counted = 0;
  for (const choice of choices) {
    const entry = entries.get(choice.plainPath) ?? null;
    const opened = await openChoice(reading, choice, entry);
    if (opened === null) continue;
    const { document, file } = opened;
    const kind = kindOf(document.root);
    if (kind === 'reel') reels.push(readReelDocument(reading, file, document, entry));
    else if (kind === 'issue') issues.push(readIssueDocument(reading, file, document, entry));
    else if (isExpected(reading, file, document.root, entry))
      noteUnreadable(
        reading,
        file.path,
        `It is neither an issue nor a reel document: its first element is "${document.root.name}" and no division says that it is an issue or a reel.`,
        null,
        knownOf(reading, file, entry),
      );
    else {
      found.others.push({ file, glance: { name: document.root.name, type: attribute(document.root, 'TYPE') ?? '' } });
      continue;
    }
    counted += 1;
    // Not every manifest lists reels; one that lists none leaves none out.
    const lists = manifests.some((manifest) => kind === 'issue' || manifest.entries.some((listed) => listed.kind === kind));
    if (lists && entry === null) noteNotListed(reading, file, kind ?? 'issue');
  }
  sayWhatWasRead(reading, manifests, found, counted);
  return {
    layout: 'issue-mets',
    batch: manifests.find((manifest) => manifest.batch !== null && manifest.batch !== '')?.batch ?? reading.index.name,
    issues,
    reels,
    loose: [],
    problems: reading.problems,
    unchecked: settleFiles(reading),
    remarks: reading.remarks,
  };
}

/** What a document is by its divisions, whatever its first element calls it. */
function kindOf(root: XmlElement): 'issue' | 'reel' | null {
  if (root.name !== 'mets') return null;
  return holdsIssue(root) ? 'issue' : holdsReel(root) ? 'reel' : null;
}

/** Whether a document without the divisions of an issue or a reel should have them: by its name, its TYPE or the manifest. */
function isExpected(reading: Reading, file: BatchFile, root: XmlElement, entry: ManifestEntry | null): boolean {
  return (
    entry !== null ||
    matchName(lastPart(file.path), reading.profile.names.issueDocument) !== null ||
    isNamedAfterFolder(file) ||
    (root.name === 'mets' && ROOT_TYPES.includes(typeTail(attribute(root, 'TYPE') ?? '')))
  );
}

/** Reads the latest copy of a document that can be read, and says which it was where there are several. */
async function openChoice(
  reading: Reading,
  choice: DocumentChoice,
  entry: ManifestEntry | null,
): Promise<{ readonly document: Opened; readonly file: BatchFile } | null> {
  for (const file of choice.copies) {
    const document = openDocument(reading, file);
    await reading.onDocument();
    if (!document.ok) {
      noteUnreadable(reading, file.path, document.says, document.line, knownOf(reading, file, entry));
      continue;
    }
    const unread = choice.copies.filter((copy) => copy !== file).map((copy) => `"${copy.path}"`);
    if (unread.length > 0)
      reading.remarks.push(`"${file.path}" was read; ${unread.join(', ')} is another copy of it and was not compared.`);
    return { document, file };
  }
  return null;
}

/** What is known of an issue without its document: from the manifest, else from its name. */
function knownOf(
  reading: Reading,
  file: BatchFile,
  entry: ManifestEntry | null,
): { title: string | null; date: string | null; edition: number | null; reel: string | null } {
  const name = matchName(lastPart(file.path), reading.profile.names.issueDocument);
  const day = name?.get('day');
  const named = day === undefined ? null : `${day.slice(0, 4)}-${day.slice(4, 6)}-${day.slice(6)}`;
  const edition = entry?.edition ?? name?.get('edition') ?? '';
  return {
    title: entry?.titleId ?? null,
    date: entry?.date ?? named,
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
  if (manifests.length === 0) reading.remarks.push('No batch manifest was sent, so nothing was compared with one.');
  if (manifests.length > 1) reading.remarks.push(`The batch holds ${String(manifests.length)} manifests; all of them were read.`);
  const ignored = found.others.filter((other) => other.glance !== null && other.glance.name !== 'alto').map((other) => other.file.path);
  for (const other of found.others)
    if (other.glance === null) noteUnreadable(reading, other.file.path, 'It does not begin like an XML document.', null);
  if (ignored.length > 0)
    reading.remarks.push(
      `XML files that belong to no document of this layout were not read: ${String(ignored.length)}, such as "${ignored[0] ?? ''}".`,
    );
  if (counted === 0) reading.remarks.push('No issue or reel document could be read.');
}
