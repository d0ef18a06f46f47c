import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { XmlDocument, XmlElement, type XmlNode } from 'libxml2-wasm';

/** A file that a page or target names: its ID in the document, its use where one is written, and its path below the folder of the return. */
export interface NamedFile {
  readonly id: string;
  readonly use: string;
  readonly path: string;
}

/** What a document says of one page. */
export interface PageFacts {
  /** ID of its own section, null where pages have none. */
  readonly section: string | null;
  readonly order: number;
  readonly label: string | null;
  readonly frame: number | null;
  readonly files: readonly NamedFile[];
}

/** What a document says of an issue; `documents` are its copies, the one that counts last. */
export interface IssueFacts {
  readonly documents: readonly string[];
  readonly title: string;
  readonly titleName: string;
  readonly date: string;
  readonly dateWritten: string;
  readonly edition: number | null;
  readonly editionLabel: string | null;
  readonly issueNumber: string | null;
  readonly reel: string | null;
  readonly pages: readonly PageFacts[];
}

/** What a reel document says. */
export interface ReelFacts {
  readonly documents: readonly string[];
  readonly number: string;
  readonly targets: readonly { readonly section: string; readonly frame: number | null; readonly files: readonly NamedFile[] }[];
}

/** What the documents of a return say, read with a general XML library and nothing of the program that is tested. */
export interface ReturnFacts {
  readonly issues: readonly IssueFacts[];
  readonly reels: readonly ReelFacts[];
  readonly manifests: readonly string[];
}

/** Every file below a folder, as paths relative to it. */
export function filesBelow(folder: string): string[] {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return entries
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => path.slice(folder.length + 1))
    .sort();
}

/** Reads a return of METS documents. Only what a record needs is taken; a document of another kind is passed over. */
export function readFacts(folder: string): ReturnFacts {
  const issues = new Map<string, IssueFacts>();
  const reels = new Map<string, ReelFacts>();
  const manifests: string[] = [];
  // In the order of names a checked copy, `…_1.xml`, comes before its plain twin; it shall come after it and count.
  const paths = filesBelow(folder).filter((path) => path.endsWith('.xml'));
  for (const path of paths.sort((a, b) => a.length - b.length || (a < b ? -1 : 1))) {
    using document = XmlDocument.fromBuffer(readFileSync(join(folder, path)));
    if (document.root.name === 'batch') manifests.push(path);
    if (document.root.name !== 'mets') continue;
    const stem = path.replace(/(?:_1)?\.xml$/, '');
    const issue = one(document.root, `.//*[local-name()="structMap"]//*[@TYPE="np:issue" or @TYPE="ISSUE"]`);
    const reel = one(document.root, `.//*[local-name()="structMap"]//*[@TYPE="np:reel"]`);
    if (issue !== null) {
      const read = issueOf(document.root, issue, path);
      issues.set(stem, { ...read, documents: [...(issues.get(stem)?.documents ?? []), path] });
    } else if (reel !== null) {
      const read = reelOf(document.root, reel, path);
      reels.set(stem, { ...read, documents: [...(reels.get(stem)?.documents ?? []), path] });
    }
  }
  const byDay = (a: IssueFacts, b: IssueFacts): number => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0);
  return { issues: [...issues.values()].sort(byDay), reels: [...reels.values()], manifests };
}

function issueOf(root: XmlElement, division: XmlElement, path: string): Omit<IssueFacts, 'documents'> {
  const section = sectionOf(root, division);
  const dateWritten = text(section, `.//*[local-name()="dateIssued"][not(@qualifier="questionable")]`) ?? '';
  const [, day, month, year] = /^(\d{2})\.(\d{2})\.(\d{4})$/.exec(dateWritten) ?? [];
  const host = `.//*[local-name()="relatedItem"][@type="host"]`;
  const edition = text(section, `${host}//*[local-name()="detail"][@type="edition"]/*[local-name()="number"]`);
  const pages = all(root, `.//*[local-name()="structMap"][not(@TYPE="LOGICAL")]//*[local-name()="div"]`)
    .filter((candidate) => /^(?:np:page|page|\w+_PAGE)$/.test(attr(candidate, 'TYPE') ?? ''))
    .map((page, at) => pageOf(root, page, at, path));
  return {
    title:
      text(section, `${host}/*[local-name()="identifier"]`) ??
      text(section, `.//*[local-name()="mods"]/*[local-name()="identifier"]`) ??
      '',
    titleName: text(section, `.//*[local-name()="title"]`) ?? attr(root, 'LABEL')?.replace(/,? ?\d{4}-.*$/, '') ?? '',
    date: year === undefined ? dateWritten : `${year}-${month ?? ''}-${day ?? ''}`,
    dateWritten,
    edition: edition === null ? null : Number(edition),
    editionLabel: text(section, `${host}//*[local-name()="detail"][@type="edition"]/*[local-name()="caption"]`),
    issueNumber: text(section, `${host}//*[local-name()="detail"][@type="issue"]/*[local-name()="number"]`),
    reel: pages[0]?.reel ?? null,
    pages,
  };
}

function pageOf(root: XmlElement, division: XmlElement, at: number, path: string): PageFacts & { readonly reel: string | null } {
  const id = attr(division, 'DMDID');
  const section = id === null ? null : sectionOf(root, division);
  const detail = section && text(section, `.//*[local-name()="detail"][@type="page number"]/*[local-name()="number"]`);
  const frame = section && text(section, `.//*[local-name()="identifier"][@type="reel sequence number"]`);
  const start = section && text(section, `.//*[local-name()="extent"]/*[local-name()="start"]`);
  return {
    section: id,
    order: Number(start ?? attr(division, 'ORDER') ?? at + 1),
    label: detail ?? attr(division, 'ORDERLABEL'),
    frame: frame === null ? null : Number(frame),
    files: filesOf(root, division, path),
    reel: section && text(section, `.//*[local-name()="identifier"][@type="reel number"]`),
  };
}

function reelOf(root: XmlElement, division: XmlElement, path: string): Omit<ReelFacts, 'documents'> {
  const targets = all(division, `.//*[@TYPE="np:target"]`).map((target) => {
    const frame = text(sectionOf(root, target), `.//*[local-name()="identifier"][@type="reel sequence number"]`);
    return { section: attr(target, 'DMDID') ?? '', frame: frame === null ? null : Number(frame), files: filesOf(root, target, path) };
  });
  return { number: attr(root, 'LABEL') ?? '', targets };
}

/** The files a division points to itself, not those of divisions below it, each once. */
function filesOf(root: XmlElement, division: XmlElement, path: string): NamedFile[] {
  const pointers = all(division, `./*[local-name()="fptr"]/descendant-or-self::*[@FILEID]`);
  const ids = [...new Set(pointers.map((pointer) => attr(pointer, 'FILEID') ?? ''))];
  return ids.flatMap((id) => {
    const file = one(root, `.//*[local-name()="file"][@ID="${id}"]`);
    const location = file && one(file, `./*[local-name()="FLocat"]`);
    const href = location?.attrs.find((candidate) => candidate.name === 'href')?.value;
    if (file === null || href === undefined) return [];
    const use = attr(file, 'USE') ?? attr(file.parent as XmlElement, 'USE') ?? '';
    return [{ id, use, path: join(dirname(path), href.replace('file://', '')) }];
  });
}

function sectionOf(root: XmlElement, division: XmlElement): XmlElement {
  const id = (attr(division, 'DMDID') ?? '').split(' ')[0] ?? '';
  const section = one(root, `.//*[local-name()="dmdSec"][@ID="${id}"]`);
  if (section === null) throw new RangeError(`${basename(root.name)} has no section "${id}".`);
  return section;
}

function all(node: XmlElement, xpath: string): XmlElement[] {
  return node.find(xpath).filter((found: XmlNode): found is XmlElement => found instanceof XmlElement);
}

function one(node: XmlElement, xpath: string): XmlElement | null {
  return all(node, xpath)[0] ?? null;
}

function text(node: XmlElement, xpath: string): string | null {
  const content = one(node, xpath)?.content.trim() ?? '';
  return content === '' ? null : content;
}

function attr(node: XmlElement, name: string): string | null {
  return node.attr(name)?.value ?? null;
}
