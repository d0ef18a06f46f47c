import { readFile } from 'node:fs/promises';
import process from 'node:process';
import { type Drawn, drawPicture, NO_FILE, NoPicture } from './draw.js';

/** What the process that draws is asked, one at a time. */
export interface Wish {
  readonly path: string;
  readonly height: number;
}

/** What it answers: the picture, or why there is none. `missing` names a package that is not installed. */
export type Answer = { readonly drawn: Drawn } | { readonly why: string; readonly missing?: string };

// Decoders of pictures are large, written in other languages, and are given files of unknown origin: they run in a process of their own, which may break.
process.on('message', (wish: Wish) => {
  answer(wish).then(
    (said) => process.send?.(said),
    () => process.exit(1),
  );
});
process.on('disconnect', () => process.exit(0));

async function answer({ path, height }: Wish): Promise<Answer> {
  try {
    return { drawn: await drawPicture(await readFile(path), height) };
  } catch (error) {
    if (error instanceof NoPicture) return { why: error.message };
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return { why: NO_FILE };
    const missing = code === 'ERR_MODULE_NOT_FOUND' ? (/'([^']+)'/.exec(message)?.[1] ?? 'a package') : undefined;
    if (missing !== undefined) return { why: `the package ${missing} is not installed`, missing };
    return { why: `it cannot be decoded (${message.split('\n')[0]?.slice(0, 200) ?? ''})` };
  }
}
