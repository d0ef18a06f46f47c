import { type ChildProcess, fork } from 'node:child_process';
import { statSync } from 'node:fs';
import type { Answer, Wish } from './child.js';
import { type Drawn, NO_FILE } from './draw.js';

export { NO_FILE };

/** A picture that was made of a file, or the reason why there is none, as half a sentence about the file. */
export type Picture = { readonly drawn: Drawn } | { readonly why: string };

/** How pictures are made. */
export interface PictureWish {
  /** Most pixels from top to bottom: body text of six columns can be read at 1,600, not below 1,200. */
  readonly height?: number;
  /** Seconds for one file. */
  readonly seconds?: number;
  /** After each file: how many are done. */
  readonly onDone?: (done: number) => void;
  /** Stops the work; what is not made by then has that as its reason. */
  readonly signal?: AbortSignal;
}

const HEIGHT = 1600;
const SECONDS = 20;
/** Two at a time: a third gains nothing on the machines of a reading room, and each takes up to 500 MB. */
const PROCESSES = 2;
const MEMORY = '--max-old-space-size=512';

/** Makes a small grey picture of each file, in the order of the paths. A file that breaks, hangs or is no picture costs one reason and nothing else. */
export async function makePictures(paths: readonly string[], wish: PictureWish = {}): Promise<readonly Picture[]> {
  const made: Picture[] = paths.map(() => ({ why: 'it was not tried' }));
  let next = 0;
  let done = 0;
  const work = async (): Promise<void> => {
    let child: ChildProcess | null = null;
    for (let at = next++; at < paths.length && wish.signal?.aborted !== true; at = next++) {
      const path = paths[at] ?? '';
      // Many batches come without their pictures: nothing is started for those.
      if (!isGone(path)) {
        child ??= fork(new URL('../pictures/child.js', import.meta.url), {
          execArgv: [MEMORY],
          serialization: 'advanced',
          stdio: 'ignore',
        });
        const picture = await asked(child, { path, height: wish.height ?? HEIGHT }, wish.seconds ?? SECONDS, wish.signal);
        if (picture === null || 'broke' in picture) {
          child.kill('SIGKILL');
          child = null;
        }
        made[at] = picture === null ? { why: 'it was not tried' } : 'broke' in picture ? { why: picture.broke } : picture;
      } else made[at] = { why: NO_FILE };
      done += 1;
      wish.onDone?.(done);
    }
    child?.disconnect();
  };
  await Promise.all(Array.from({ length: Math.min(PROCESSES, paths.length) }, work));
  return made;
}

/** Whether there is no file of that name; one that cannot be looked at is left to the process, which says why. */
function isGone(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false }) === undefined;
  } catch {
    return false;
  }
}

/** One file by one process: its answer, what broke, or null where the work was stopped. */
async function asked(child: ChildProcess, wish: Wish, seconds: number, signal: AbortSignal | undefined): Promise<Answer | Broken | null> {
  return new Promise((resolve) => {
    const late = AbortSignal.timeout(seconds * 1000);
    const end = (answer: Answer | Broken | null): void => {
      child.removeAllListeners();
      late.removeEventListener('abort', tooLate);
      signal?.removeEventListener('abort', stopped);
      resolve(answer);
    };
    const stopped = (): void => end(null);
    const tooLate = (): void => end({ broke: `it was not decoded within ${String(seconds)} seconds` });
    late.addEventListener('abort', tooLate, { once: true });
    signal?.addEventListener('abort', stopped, { once: true });
    child.once('message', (answer) => end(answer as Answer));
    child.once('exit', () => end({ broke: 'it broke the program that decodes it' }));
    child.once('error', () => end({ broke: 'the program that decodes it could not be started' }));
    child.send(wish, (error) => {
      if (error !== null) end({ broke: 'the program that decodes it ended' });
    });
  });
}

/** Why a process gave no answer. */
interface Broken {
  readonly broke: string;
}
