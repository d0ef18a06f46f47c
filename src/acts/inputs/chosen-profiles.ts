import type { OwnProfile, Profile } from '../../model/profile.js';
import { NAMED_PROFILES, PROFILES } from '../../profiles/index.js';
import { UserMistake } from '../../read/mistake.js';
import { resolveProfile } from '../../read/profile.js';

/** The profiles that may apply: the built-in one of that name, the library's own in that file, or all that are tried where none is named. Throws UserMistake. */
export async function chosenProfiles(wish: string | undefined, read: (path: string) => Promise<OwnProfile>): Promise<readonly Profile[]> {
  if (wish === undefined) return PROFILES;
  const builtIn = NAMED_PROFILES.find((profile) => profile.name === wish);
  if (builtIn !== undefined) return [builtIn];
  // A plain word is a misspelt name rather than a file.
  if (/^[\w-]+$/.test(wish)) throw new UserMistake(`--profile: ${noSuchProfile(wish)}`);
  return [resolveProfile(await read(wish), NAMED_PROFILES)];
}

/** The sentence that says which profiles there are. */
export function noSuchProfile(wish: string): string {
  const names = NAMED_PROFILES.map((profile) => profile.name).join(', ');
  const file = /[/\\.]/.test(wish) ? '' : `, such as ./${wish}.json`;
  return `there is no profile ${wish}. Built in are ${names}; a library's own is named by its file${file}.`;
}
