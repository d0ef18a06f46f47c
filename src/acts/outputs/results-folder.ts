import { renameSync, rmSync } from 'node:fs';
import { open, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pid } from 'node:process';
import { UserMistake } from '../../read/mistake.js';
import { type FileSet, fileSetIn, SET_NOTE, temporaryName } from '../../read/set-note.js';
import { CORRECTIONS_FILE, FORMATS, type Report, RULINGS_FILE } from '../../report/index.js';
import { makeFolder } from './make-folder.js';
import { refuseInReturn } from './outside-batch.js';
import { isRunning } from './running.js';
import { SEEN_FILE } from './seen-file.js';
import { systemReason } from './system-reason.js';

/** One file of a folder of results. */
export interface ResultFile {
  readonly name: string;
  readonly content: Report;
}

/** A file that is made when its turn has come to be written, so that a set of large ones never lies in memory together. */
export interface LaterFile {
  readonly name: string;
  readonly make: () => Report | Iterable<string> | Promise<Report>;
}

/** Every name that a folder of results can hold. */
const RESULT_NAMES: ReadonlySet<string> = new Set([...FORMATS.map((format) => format.file), CORRECTIONS_FILE, RULINGS_FILE, SEEN_FILE]);

/** A temporary file of ours names its process, so that a later run can tell whether it was left behind. */
const TEMPORARY = /^\..+\.reeltally-(\d{1,10})\.tmp$/;

const ownTemporary = (name: string): string => temporaryName(name, pid);

/** Throws UserMistake where `folder` lies in what a vendor sent, or holds results that may not be written over. Looked at before the work begins, and again before writing. */
export async function refuseExisting(folder: string, replace: boolean, ours: ReadonlySet<string> = RESULT_NAMES): Promise<void> {
  await refuseInReturn(folder);
  if (replace) return;
  const present = (await namesIn(folder)).filter((name) => ours.has(name)).toSorted();
  if (present.length === 0) return;
  throw new UserMistake(
    `${folder} already holds results (${present.join(', ')}). Give another folder with --out, or --replace to write over them.`,
  );
}

/**
 * Writes all files of a result into `folder`, or none: each first under a temporary name in the same folder, forced to the disk. Then a note of the whole
 * set is put there in one step (POSIX rename(2)), from which on the new set counts; the files get their names, and the note goes. A run that is stopped
 * in between leaves the note, by which readers find the new files and the next run puts them in place. Results of an earlier run that this one does not
 * write are removed with `replace`. `ours` are the names of all files that such a folder can hold. Throws UserMistake for whatever stands in the way.
 */
export async function writeResults(
  folder: string,
  files: readonly (ResultFile | LaterFile)[],
  replace: boolean,
  ours: ReadonlySet<string> = RESULT_NAMES,
): Promise<void> {
  await refuseExisting(folder, replace, ours);
  const before = await prepare(folder, files, ours);
  const stale = before.filter((name) => ours.has(name) && !files.some((file) => file.name === name));
  await putInPlace(folder, { pid, files: files.map(({ name }) => name), removed: stale }).catch((error: unknown) => {
    throw new UserMistake(
      `The results in ${folder} could not be put in place: ${systemReason(error)}. Some of its files may be new and some old: run the command again with --replace.`,
    );
  });
}

/** Makes the folder, clears what an interrupted run left, and writes every file under its temporary name. Gives the names that were there. */
async function prepare(folder: string, files: readonly (ResultFile | LaterFile)[], ours: ReadonlySet<string>): Promise<readonly string[]> {
  try {
    await makeFolder(folder);
    await finishSet(folder);
    const before = await readdir(folder, { withFileTypes: true });
    const blocked = before.find((entry) => entry.isDirectory() && ours.has(entry.name));
    if (blocked !== undefined)
      throw new UserMistake(`${join(folder, blocked.name)} is a folder; a file of that name is to be written. Move it away.`);
    const names = before.map((entry) => entry.name);
    await removeLeftovers(folder, names);
    for (const file of files) await writeTemporary(folder, file);
    await syncFolder(folder);
    return names;
  } catch (error) {
    for (const { name } of files) await rm(join(folder, ownTemporary(name)), { force: true }).catch(() => undefined);
    // What went wrong in making a file is no fault of the disk.
    if (error instanceof UserMistake || !(error instanceof Error && 'code' in error)) throw error;
    throw new UserMistake(`The results could not be written to ${folder}: ${systemReason(error)}. What was there before is unchanged.`);
  }
}

async function writeTemporary(folder: string, one: ResultFile | LaterFile): Promise<void> {
  const content = 'make' in one ? await one.make() : one.content;
  const file = await open(join(folder, ownTemporary(one.name)), 'wx');
  try {
    await writeFile(file, content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** From the note on, nothing waits: no other work of this process comes between the renames. */
async function putInPlace(folder: string, set: FileSet): Promise<void> {
  try {
    await writeTemporary(folder, { name: SET_NOTE, content: JSON.stringify(set) });
    await rename(join(folder, ownTemporary(SET_NOTE)), join(folder, SET_NOTE));
    await syncFolder(folder);
    settle(folder, set);
  } catch (error) {
    await rm(join(folder, SET_NOTE), { force: true });
    for (const name of [SET_NOTE, ...set.files]) await rm(join(folder, ownTemporary(name)), { force: true });
    throw error;
  }
  await syncFolder(folder);
}

function settle(folder: string, { pid: owner, files, removed }: FileSet): void {
  for (const name of files) {
    try {
      renameSync(join(folder, temporaryName(name, owner)), join(folder, name));
    } catch (error) {
      // One that a stopped run had put in place already has no temporary file any more.
      if (owner === pid || !(error instanceof Error && 'code' in error && error.code === 'ENOENT')) throw error;
    }
  }
  for (const name of removed) rmSync(join(folder, name), { force: true });
  rmSync(join(folder, SET_NOTE), { force: true });
}

/** Puts in place what a run was stopped from putting in place. One that still runs does so itself. */
async function finishSet(folder: string): Promise<void> {
  const set = await fileSetIn(folder);
  if (set !== null && !(set.pid !== pid && isRunning(set.pid))) settle(folder, set);
}

async function namesIn(folder: string): Promise<readonly string[]> {
  try {
    return await readdir(folder);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
    throw new UserMistake(`The results cannot be written to ${folder}: ${systemReason(error)}.`);
  }
}

/** Removes temporary files of runs that ended before they could. One that still runs keeps its own. */
async function removeLeftovers(folder: string, names: readonly string[]): Promise<void> {
  for (const name of names) {
    const owner = TEMPORARY.exec(name)?.[1];
    if (owner !== undefined && !(Number(owner) !== pid && isRunning(Number(owner)))) await rm(join(folder, name), { force: true });
  }
}

/** Forces the new names to the disk too; systems that cannot open a folder (Windows) do without. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null);
  if (handle === null) return;
  await handle.sync().catch(() => undefined);
  await handle.close();
}
