import type { ManifestLine } from '../facts/part-facts.js';
import { resolveHref } from '../href.js';
import { problem, type Reading } from '../reading.js';
import type { Statement } from '../twins.js';
import { withoutMark } from '../variants.js';
import { shortened } from '../vendor-text.js';
import { folderOf, pathKey } from '../walk.js';
import { attribute, collapsed, type XmlElement } from '../xml-tree.js';

/** One line of a batch manifest as written. */
export interface ManifestEntry {
  readonly kind: 'issue' | 'reel';
  readonly titleId: string | null;
  readonly date: string | null;
  readonly edition: string | null;
  readonly reel: string | null;
  readonly path: string;
  readonly manifest: string;
  readonly element: string;
  readonly line: XmlElement;
}

/** The line as the facts of a document are read from it. */
export function lineOf(entry: ManifestEntry | null): ManifestLine | null {
  return entry === null ? null : { line: entry.line, place: { document: entry.manifest, element: entry.element } };
}

/** A manifest: its name for the batch and its lines. */
export interface Manifest {
  readonly batch: string | null;
  readonly entries: readonly ManifestEntry[];
}

/**
 * Reads a batch manifest: `batch` with `issue` (lccn, issueDate, editionOrder) and `reel` (reelNumber), the text of each a path. Names as in
 * the manifest of the public batch wyu_ellison (opening) and in public programs that read such manifests.
 */
export function readManifest(root: XmlElement, path: string): Manifest {
  const counts = { issue: 0, reel: 0 };
  const entries: ManifestEntry[] = [];
  for (const child of root.children) {
    if (child.name !== 'issue' && child.name !== 'reel') continue;
    counts[child.name] += 1;
    entries.push({
      kind: child.name,
      titleId: valueOf(child, 'lccn'),
      date: valueOf(child, 'issueDate'),
      edition: valueOf(child, 'editionOrder'),
      reel: valueOf(child, 'reelNumber'),
      path: shortened(collapsed(child.text), LONGEST_PATH),
      manifest: path,
      element: `${child.name}[${String(counts[child.name])}]`,
      line: child,
    });
  }
  return { batch: attribute(root, 'name'), entries };
}

/** A path that is longer leads nowhere on any system that people use. */
const LONGEST_PATH = 1000;

function valueOf(line: XmlElement, name: string): string | null {
  const value = attribute(line, name);
  return value === null ? null : shortened(value);
}

/** What a manifest states, for holding two copies of it against each other: paths differ rightly, since each leads to its own copies. */
export function manifestStatements({ batch, entries }: Manifest): readonly Statement[] {
  return [
    { fact: 'name of the batch', where: '', text: batch ?? '' },
    ...entries.flatMap(({ kind, element, titleId, date, edition, reel }) => [
      {
        fact: `list of ${kind}s`,
        where: element,
        text: [titleId, date, edition, reel]
          .map((text) => text ?? '')
          .join(' ')
          .trim(),
      },
    ]),
  ];
}

/**
 * Finds the documents that a manifest lists, by the path as written, else by the longest tail of it that only one document has: real
 * manifests begin with the name of a folder that is not in the delivery. Answers entries by the document's plain path, without `_1`.
 * Every entry that leads nowhere, or where another led before, becomes a problem.
 */
export function resolveEntries(
  reading: Reading,
  manifests: readonly Manifest[],
  documents: readonly string[],
): ReadonlyMap<string, ManifestEntry> {
  const tails = tailIndex(documents);
  const entries = manifests.flatMap((manifest) => manifest.entries);
  const exact = entries.map((entry) => {
    const direct = resolveHref(folderOf(entry.manifest), entry.path);
    return direct.safe ? (tails.get(pathKey(withoutMark(direct.path))) ?? null) : null;
  });
  // Another title's issue of the same day has the same last parts: a document that is listed as it stands is nobody else's.
  const claimed = new Set(exact);
  const found = new Map<string, ManifestEntry>();
  let byTail = 0;
  entries.forEach((entry, at) => {
    const written = exact[at] ?? null;
    const tailed = written === null ? longestTail(entry.path, tails) : null;
    const document = written ?? (claimed.has(tailed) ? null : tailed);
    const earlier = document === null ? undefined : found.get(document);
    if (document === null) reading.problems.push(missing(entry));
    else if (earlier !== undefined) reading.problems.push(listedTwice(entry, earlier));
    else {
      found.set(document, entry);
      if (written === null) byTail += 1;
    }
  });
  if (byTail > 0)
    reading.remarks.push(`Paths in the manifest that do not exist as written were found by their last parts: ${String(byTail)}.`);
  return found;
}

/** Every tail of every document's path, with the document that it means; null where it means several. */
function tailIndex(documents: readonly string[]): ReadonlyMap<string, string | null> {
  const tails = new Map<string, string | null>();
  const whole = new Set(documents.map(pathKey));
  for (const document of documents) {
    const parts = pathKey(document).split('/');
    for (let from = 1; from < parts.length; from += 1) {
      const tail = parts.slice(from).join('/');
      // A whole path goes before the same text as the tail of a longer one.
      if (!whole.has(tail)) tails.set(tail, tails.has(tail) ? null : document);
    }
  }
  for (const document of documents) tails.set(pathKey(document), document);
  return tails;
}

function longestTail(path: string, tails: ReadonlyMap<string, string | null>): string | null {
  const parts = pathKey(withoutMark(path.slice(0, 1000)))
    .split(/[/\\]/)
    .filter((part) => part !== '' && part !== '.' && part !== '..');
  for (let from = 0; from < parts.length; from += 1) {
    const document = tails.get(parts.slice(from).join('/'));
    if (document !== undefined) return document;
  }
  return null;
}

function editionOf(entry: ManifestEntry): number | null {
  return entry.edition !== null && /^\d{1,3}$/.test(entry.edition) ? Number(entry.edition) : null;
}

function missing(entry: ManifestEntry): ReturnType<typeof problem> {
  const what =
    entry.kind === 'issue'
      ? entry.date === null
        ? 'an issue without a date'
        : `an issue of ${entry.date}`
      : entry.reel === null
        ? 'a reel without a number'
        : `reel ${entry.reel}`;
  return problem('file-missing', `The manifest lists ${what} at "${entry.path}", but no such document was sent.`, {
    reel: entry.reel,
    title: entry.titleId,
    date: entry.date,
    edition: editionOf(entry),
    instruction: `Send the document "${entry.path}" or take it off the manifest.`,
    returned: entry.path,
    place: { document: entry.manifest, element: entry.element },
  });
}

function listedTwice(entry: ManifestEntry, earlier: ManifestEntry): ReturnType<typeof problem> {
  return problem('manifest-disagrees', `The manifest lists "${entry.path}" twice (${earlier.element} and ${entry.element}).`, {
    reel: entry.reel,
    title: entry.titleId,
    date: entry.date,
    edition: editionOf(entry),
    instruction: `List the document "${entry.path}" once.`,
    returned: entry.path,
    place: { document: entry.manifest, element: entry.element },
  });
}
