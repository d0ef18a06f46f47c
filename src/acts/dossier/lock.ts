import { open, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { pid } from 'node:process';
import { isBefore } from '../../dossier/journal.js';
import { LOCK_FILE } from '../../dossier/places.js';
import { staleLock } from '../../dossier/stale-lock.js';
import type { LockFile } from '../../model/dossier.js';
import { parseJson } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { isRunning } from '../outputs/running.js';
import { systemReason } from '../outputs/system-reason.js';
import type { Surroundings } from '../surroundings.js';
import { openDossier } from './open.js';

/** Does the work while nobody else writes in the dossier. Throws UserMistake with who does, where somebody does. */
export async function alone<T>(root: string, around: Surroundings, work: () => Promise<T>): Promise<T> {
  const path = join(root, LOCK_FILE);
  const mine: LockFile = { format: 'reeltally/lock/1', who: around.who, host: around.host, pid, since: around.clock() };
  const text = `${JSON.stringify(mine)}\n`;
  if (!(await taken(path, text))) {
    await clearStale(path, around);
    if (!(await taken(path, text))) throw inUse(await whoWrites(path), root);
  }
  try {
    await tellClock(root, around);
    return await work();
  } finally {
    // Only one's own: somebody may have thought this lock forgotten.
    if ((await readFile(path, 'utf8').catch(() => '')) === text) await rm(path, { force: true });
  }
}

/** Makes the lock file, unless it is there; a network drive keeps this promise too (O_EXCL of POSIX open(2)). */
async function taken(path: string, text: string): Promise<boolean> {
  try {
    const file = await open(path, 'wx');
    try {
      await file.writeFile(text);
    } finally {
      await file.close();
    }
    return true;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return false;
    throw new UserMistake(`Nothing can be written into the dossier: ${systemReason(error)}.`);
  }
}

async function clearStale(path: string, { say, host, clock }: Surroundings): Promise<void> {
  const lock = await whoWrites(path);
  if (lock === null) return;
  const stale = staleLock(lock, { host, now: clock(), runs: isRunning });
  if (stale === null) throw inUse(lock, path.slice(0, -LOCK_FILE.length - 1));
  // Renamed first: of two who find it forgotten only one can rename it.
  const aside = `${path}.${String(pid)}`;
  const moved = await rename(path, aside).then(
    () => true,
    () => false,
  );
  if (!moved) return;
  await rm(aside, { force: true });
  say(stale, 'remark');
}

/** What the lock file says; null where it is gone or cannot be read. */
async function whoWrites(path: string): Promise<LockFile | null> {
  const text = await readFile(path, 'utf8').catch(() => null);
  if (text === null) return null;
  try {
    return parseJson(text, LOCK_FILE, 'lock');
  } catch (error) {
    if (error instanceof UserMistake) return null;
    throw error;
  }
}

function inUse(lock: LockFile | null, root: string): UserMistake {
  return new UserMistake(
    lock === null
      ? `Somebody else writes in ${root} at this moment, or ${LOCK_FILE} there was left behind. Try again; if nobody works there, remove ${LOCK_FILE}.`
      : `${lock.who === '' ? 'Somebody' : lock.who} on the machine ${lock.host} has been writing in ${root} since ${lock.since}. Only one person writes at a time: try again when that is done.`,
  );
}

/** Says where the clock of this machine is behind what was written last: the days that are taken from it would be wrong. */
async function tellClock(root: string, { now, say }: Surroundings): Promise<void> {
  const last = (await openDossier(root, 'however it is')).journal.at(-1)?.line;
  if (last == null || !isBefore(now, last.at)) return;
  say(
    `it is ${now} by the clock of this machine, and ${last.name} was ${last.did} on ${last.at}${last.by === '' ? '' : ` by ${last.by}`}. One of the two clocks is wrong; look at every day that is not typed.`,
    'remark',
  );
}
