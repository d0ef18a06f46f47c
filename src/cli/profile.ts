import { shownProfile, triedProfile } from '../acts/profile.js';
import { print } from './streams.js';

/** Prints a built-in profile as a library's own profile that starts from nothing: complete, to be changed. Throws UserMistake. */
export async function profileShow(name: string): Promise<number> {
  await print(`${JSON.stringify(shownProfile(name), null, 2)}\n`);
  return 0;
}

/** Reads a return with a profile and prints what was found where; gives 1 where something that must be there is not, or cannot be read. Throws UserMistake. */
export async function profileTry(wish: string, options: { readonly batch: readonly string[] }): Promise<number> {
  const { lines, found } = await triedProfile(wish, options.batch);
  await print(`${lines.join('\n')}\n`);
  return found ? 0 : 1;
}
