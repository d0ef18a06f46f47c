import type { PageFile } from '../../model/film.js';
import type { WrittenLooseFrame } from '../../model/written-return.js';
import { matchName } from '../name-pattern.js';
import { lookForFile, type Reading } from '../reading.js';
import { folderOf, lastPart } from '../walk.js';

/** Frames in the folders for what could not be placed in an issue, each once, however many files it has. */
export function looseFrames(reading: Reading): readonly WrittenLooseFrame[] {
  const { folders, files: rules } = reading.profile;
  const { companions } = rules;
  const frames = new Map<
    string,
    { frame: string; reel: string; reelFolder: string; folder: string; document: string; files: PageFile[] }
  >();
  for (const file of reading.index.files) {
    const folder = folderOf(file.path);
    const name = lastPart(file.path);
    if (matchName(lastPart(folder), folders.unmatched) === null) continue;
    const parts = matchName(name, folders.unmatchedFile);
    const frame = parts?.get('frame');
    if (frame === undefined) {
      if (/\.(?:jp2|tif|tiff|xml)$/i.test(name))
        reading.remarks.push(`"${file.path}" lies among the unmatched frames, but its name carries no frame number.`);
      continue;
    }
    const reelFolder = folderOf(folder);
    // The film's folder is the plainer witness: a title may hold hyphens, so the parts of the name are less sure.
    const reel = lastPart(reelFolder) === '' ? (parts?.get('reel') ?? '') : lastPart(reelFolder);
    const key = `${folder}\n${frame.toUpperCase()}`;
    const known = frames.get(key) ?? { frame, reel, reelFolder, folder, document: file.path, files: [] };
    frames.set(key, known);
    const use = companions.find((companion) => name.toLowerCase().endsWith(companion.ending))?.use;
    if (use !== undefined) known.files.push(lookForFile(reading, folder, use, name, { digest: null, width: null, height: null }));
  }
  return [...frames.values()].map(({ frame, reel, reelFolder, document, files }) => ({
    frame,
    reel,
    reelFolder,
    files,
    place: { document },
  }));
}

/** How many target images lie in the target folder of a film; null where there is no such folder or nothing in it that is one. */
export function targetCount(reading: Reading, filmFolder: string): number | null {
  const { folders } = reading.profile;
  const targets = new Set<string>();
  for (const file of reading.index.files) {
    const folder = folderOf(file.path);
    if (folderOf(folder) !== filmFolder || matchName(lastPart(folder), folders.target) === null) continue;
    const number = matchName(lastPart(file.path), folders.targetFile)?.get('number');
    if (number !== undefined) targets.add(String(Number(number)));
  }
  return targets.size === 0 ? null : targets.size;
}
