import type { WrittenCopy, WrittenFacts, WrittenIssue, WrittenPage } from '../../model/written-return.js';
import { readPart } from '../facts/part-facts.js';
import { type FileStatements, noteStated, statementsIn } from '../fixity/stated.js';
import { matchName } from '../name-pattern.js';
import { type DraftFile, IMAGE_LEAVES, lookForFile, noteUnreadable, openDocument, problem, type Reading } from '../reading.js';
import { shortened } from '../vendor-text.js';
import { type BatchFile, folderOf, lastPart, pathKey } from '../walk.js';
import { collapsed, descendants, type XmlElement } from '../xml-tree.js';
import { pageTextCopies } from './page-text-copies.js';

type Names = ReadonlyMap<string, string>;

const NO_IMAGE = { digest: null, width: null, height: null };

/** Reads an edition: its document, where there is one, and the page documents of its folder in the order of their names. */
export async function readEdition(
  reading: Reading,
  edition: BatchFile | null,
  folder: string,
  pageFiles: readonly BatchFile[],
): Promise<WrittenIssue> {
  const { profile } = reading;
  const folderParts = matchName(lastPart(folder), profile.folders.issue);
  const { facts, copies, undescribed } =
    edition === null ? noEdition(reading, folder, folderParts) : editionFacts(reading, edition, folderParts);
  await reading.onDocument();
  const pages: WrittenPage[] = [];
  const place = { document: edition?.path ?? folder };
  for (const file of pageFiles) {
    const page = readPage(reading, file, folderParts);
    if (page === null) continue;
    pages.push(page.page);
    if (
      page.title !== undefined &&
      page.title !== facts.titleId &&
      !copies.some((copy) => copy.fact === 'title' && copy.text === page.title)
    )
      copies.push({ fact: 'title', source: 'page document', text: page.title, place: page.page.place });
    await reading.onDocument();
  }
  // Without an edition document its pages say the title.
  const title = facts.titleId ?? (edition === null ? copies.find((copy) => copy.source === 'page document')?.text : undefined);
  return {
    facts: title === undefined ? facts : { ...facts, titleId: title },
    pages,
    copies,
    reelFolder: folder === '' ? null : folderOf(folder),
    place,
    ...(undescribed === true ? { undescribed } : {}),
  };
}

interface Stated {
  readonly facts: WrittenFacts;
  readonly copies: WrittenCopy[];
  /** No document describes the issue: that it leaves facts out says nothing more. */
  readonly undescribed?: true;
}

function editionFacts(reading: Reading, file: BatchFile, folder: Names | null): Stated {
  const document = openDocument(reading, file);
  const mods = document.ok ? descendants(document.root, 'mods')[0] : undefined;
  const root = document.ok ? document.root : null;
  const places = { sections: mods === undefined ? [] : [mods], document: file.path, root, place: { document: file.path } };
  const { facts, copies } = readPart(reading.profile, 'issue', places, reading.seen);
  if (mods !== undefined) return { facts, copies: [...copies] };
  const says = document.ok ? `It should hold MODS, but its first element is "${shortened(document.root.name)}".` : document.says;
  noteUnreadable(reading, file.path, says, document.ok ? null : document.line, known(folder));
  return { facts: fromName(folder), copies: [...copies], undescribed: true };
}

function noEdition(reading: Reading, folder: string, parts: Names | null): Stated {
  reading.problems.push(
    problem('file-missing', `The folder "${folder === '' ? '.' : folder}" holds pages, but no edition document.`, {
      ...known(parts),
      instruction: 'Send the edition document.',
      place: { document: folder === '' ? '.' : folder },
    }),
  );
  return { facts: fromName(parts), copies: [], undescribed: true };
}

function known(parts: Names | null): { readonly date: string | null; readonly edition: number | null } {
  const edition = parts?.get('edition');
  return { date: parts?.get('date') ?? null, edition: edition === undefined ? null : Number(edition) };
}

/** Without its document an edition is known by its folder alone. */
function fromName(parts: Names | null): WrittenFacts {
  const date = parts?.get('date');
  const edition = parts?.get('edition');
  return { ...(date === undefined ? {} : { date }), ...(edition === undefined ? {} : { edition }) };
}

function readPage(
  reading: Reading,
  file: BatchFile,
  folder: Names | null,
): { readonly page: WrittenPage; readonly title: string | undefined } | null {
  const { page, absentPage } = reading.profile.documents;
  const document = openDocument(reading, file);
  const mods = document.ok ? descendants(document.root, 'mods')[0] : undefined;
  const { name } = file;
  const parts = matchName(name, page.names) ?? matchName(name, absentPage.names);
  if (mods === undefined) {
    const says = document.ok ? `It should hold MODS, but its first element is "${shortened(document.root.name)}".` : document.says;
    noteUnreadable(reading, file.path, says, document.ok ? null : document.line, known(parts ?? folder));
    // A page known to be missing is none that came; any other is still the page that its name says.
    const frame = parts?.get('frame');
    if (frame === undefined) return null;
    const bare = { facts: { frame }, structPosition: null, copies: [], place: { document: file.path } };
    return { page: { ...bare, undescribed: true, files: companionsOf(reading, file) }, title: undefined };
  }
  const place = { document: file.path };
  const files = companionsOf(reading, file);
  const read = readPart(reading.profile, 'page', { sections: [mods], document: file.path, root: mods, files, place }, reading.seen);
  const { titleId, ...facts } = read.facts;
  return {
    page: { facts, structPosition: null, files, copies: [...read.copies, ...pageTextCopies(reading, files)], place },
    title: titleId,
  };
}

/** The files that stand beside a page document under its name, with what a MIX document gives of the image. A page known to be missing has none. */
function companionsOf(reading: Reading, file: BatchFile): readonly DraftFile[] {
  const { documents, files } = reading.profile;
  const { name } = file;
  if (matchName(name, documents.absentPage.names) !== null) return [];
  const { folder } = file;
  const stem = name.replace(/\.mods\.xml$/i, '');
  const { bytes, ...size } = imageData(reading, `${folder === '' ? '' : `${folder}/`}${stem}.mix.xml`);
  return files.companions.map(({ use, ending }) => {
    const draft = lookForFile(reading, folder, use, `${stem}${ending}`, use === 'image' ? { ...NO_IMAGE, ...size } : NO_IMAGE);
    if (use === 'image') noteStated(reading, draft.path, bytes);
    return draft;
  });
}

interface ImageData {
  readonly width: number | null;
  readonly height: number | null;
  readonly bytes: FileStatements;
}

function imageData(reading: Reading, path: string): ImageData {
  const none: ImageData = { width: null, height: null, bytes: { digests: [], sizes: [] } };
  const file = reading.index.byKey.get(pathKey(path));
  if (file === undefined) return none;
  const document = openDocument(reading, file);
  if (!document.ok) {
    noteUnreadable(reading, file.path, document.says, document.line);
    return none;
  }
  const all = descendantsNamed(document.root, IMAGE_LEAVES);
  const first = (...names: readonly string[]): number | null => {
    const text = all.find((leaf) => names.includes(leaf.name) && /^\d{1,9}$/.test(leaf.text) && Number(leaf.text) > 0)?.text;
    return text === undefined ? null : Number(text);
  };
  return { width: first('imageWidth', 'ImageWidth'), height: first('imageHeight', 'ImageLength'), bytes: statementsIn(all) };
}

/** Elements of these names below another, in document order, with their text. */
function descendantsNamed(element: XmlElement, names: readonly string[]): readonly { readonly name: string; readonly text: string }[] {
  return element.children.flatMap((child) => [
    ...(names.includes(child.name) ? [{ name: child.name, text: collapsed(child.text) }] : []),
    ...descendantsNamed(child, names),
  ]);
}
