import type { PageFile } from '../../model/film.js';
import type { WrittenLooseFrame } from '../../model/written-return.js';
import { glanceAtRoot } from '../kinds.js';
import { matchName } from '../name-pattern.js';
import { readPageText } from '../page-text.js';
import { lookForFile, noteUnreadable, openDocument, type Reading } from '../reading.js';
import { type BatchFile, type BatchIndex, folderOf, lastPart } from '../walk.js';

/** Frames in the folders for what could not be placed in an issue, each once, however many files it has. */
export function looseFrames(reading: Reading): readonly WrittenLooseFrame[] {
  const { folders, files: rules } = reading.profile;
  const { companions } = rules;
  const frames = new Map<
    string,
    { frame: string; reel: string; reelFolder: string; folder: string; document: string; files: PageFile[] }
  >();
  for (const file of filesIn(reading, folders.unmatched)) {
    const { folder, name } = file;
    const parts = matchName(name, folders.unmatchedFile);
    const frame = parts?.get('frame');
    // What carries no frame number is nobody's, and told with everything that no document names.
    if (frame === undefined) continue;
    const reelFolder = folderOf(folder);
    // The film's folder is the plainer witness: a title may hold hyphens, so the parts of the name are less sure.
    const reel = lastPart(reelFolder) === '' ? (parts?.get('reel') ?? '') : lastPart(reelFolder);
    const key = `${folder}\n${frame.toUpperCase()}`;
    const known = frames.get(key) ?? { frame, reel, reelFolder, folder, document: file.path, files: [] };
    frames.set(key, known);
    const use = companions.find((companion) => name.toLowerCase().endsWith(companion.ending))?.use;
    if (use === undefined) continue;
    const draft = lookForFile(reading, folder, use, name, { digest: null, width: null, height: null });
    known.files.push(draft);
    if (draft.state === 'present') checkSideFile(reading, file);
  }
  return [...frames.values()].map(({ frame, reel, reelFolder, document, files }) => ({
    frame,
    reel,
    reelFolder,
    files,
    place: { document },
  }));
}

const filesByPatterns = new WeakMap<BatchIndex, Map<readonly string[], readonly BatchFile[]>>();

/** The files of every folder whose name fits, in the order of their paths. */
function filesIn({ index }: Reading, patterns: readonly string[]): readonly BatchFile[] {
  const byPatterns = filesByPatterns.get(index) ?? new Map<readonly string[], readonly BatchFile[]>();
  filesByPatterns.set(index, byPatterns);
  const known = byPatterns.get(patterns);
  if (known !== undefined) return known;
  const files = [...index.byFolder].flatMap(([folder, own]) => (matchName(lastPart(folder), patterns) === null ? [] : own));
  files.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  byPatterns.set(patterns, files);
  return files;
}

/** An XML file beside a frame that has no document: nothing is taken from it, but it must be whole. Page text is read where the user asked for it. */
function checkSideFile(reading: Reading, file: BatchFile): void {
  if (!/\.xml$/i.test(file.path)) return;
  if (glanceAtRoot(file)?.name.toLowerCase() !== 'alto') {
    const document = openDocument(reading, file);
    if (!document.ok) noteUnreadable(reading, file.path, document.says, document.line);
    return;
  }
  if (!reading.readText) return;
  const text = readPageText(file.location, file.path);
  if (text.sha256 !== null) reading.digests.push({ path: file.path, sha256: text.sha256 });
  if (text.ok) reading.received.document(file.path, 'compared');
  else noteUnreadable(reading, file.path, text.says, text.line);
}

/** The targets of the work shift lie outside the folders of the films and belong to none of them: they are there, and nothing is compared with them. */
export function claimShiftTargets(reading: Reading, filmFolders: ReadonlySet<string>): void {
  const { folders } = reading.profile;
  for (const file of filesIn(reading, folders.target)) {
    if (filmFolders.has(folderOf(file.folder)) || matchName(file.name, folders.targetFile) === null) continue;
    reading.received.file(file.path, 'compared');
    checkSideFile(reading, file);
  }
}

/** How many target images lie in the target folder of a film; null where there is no such folder or nothing in it that is one. */
export function targetCount(reading: Reading, filmFolder: string): number | null {
  const { folders } = reading.profile;
  const targets = new Set<string>();
  for (const file of filesIn(reading, folders.target)) {
    if (folderOf(file.folder) !== filmFolder) continue;
    const number = matchName(file.name, folders.targetFile)?.get('number');
    if (number === undefined) continue;
    targets.add(String(Number(number)));
    reading.received.file(file.path, 'compared');
    checkSideFile(reading, file);
  }
  return targets.size === 0 ? null : targets.size;
}
