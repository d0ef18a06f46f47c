import { basename } from 'node:path';
import { agreementMistakes, resolveAgreement } from '../../judge/agreement.js';
import type { Policies, ResolvedAgreement } from '../../model/agreement.js';
import type { Profile } from '../../model/profile.js';
import { PROFILES } from '../../profiles/index.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { chosenProfiles } from './chosen-profiles.js';

/** What was ordered, as far as the film is concerned. */
export interface Ordered {
  readonly agreement: ResolvedAgreement;
  /** The profile that was named; null where none was. */
  readonly profile: Profile | null;
}

/** Reads the agreement and the profile that the user named; without a profile its policies are those in which all that are tried agree. Throws UserMistake. */
export async function orderedBy(options: { readonly agreement?: string; readonly profile?: string }): Promise<Ordered> {
  const path = options.agreement;
  const written = path === undefined ? null : (await readJsonFile(path, 'agreement')).value;
  const mistakes = written === null ? [] : agreementMistakes(written);
  if (mistakes.length > 0) throw new UserMistake(mistakes.map((sentence) => `${basename(path ?? '')}: ${sentence}`).join('\n'));
  const [profile] =
    options.profile === undefined ? [] : await chosenProfiles(options.profile, async (file) => (await readJsonFile(file, 'profile')).value);
  return { agreement: resolveAgreement(written, profile?.policies ?? agreedByAll(PROFILES)), profile: profile ?? null };
}

/** The policies that every one of the profiles sets, and sets alike. */
function agreedByAll([first, ...others]: readonly Profile[]): Partial<Policies> {
  const own = Object.entries(first?.policies ?? {}) as [keyof Policies, Policies[keyof Policies]][];
  return Object.fromEntries(own.filter(([name, value]) => others.every(({ policies }) => policies[name] === value)));
}
