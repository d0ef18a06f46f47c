import type { DocumentPart, FactPaths, OwnProfile, Profile, ProfileNames } from '../model/profile.js';
import { pathFault } from './fact-path.js';
import { UserMistake } from './mistake.js';
import { patternFault } from './name-pattern.js';

/**
 * A library's own profile laid over the built-in one that it starts from: a list replaces a list, a fact's paths replace that fact's paths.
 * Throws UserMistake, naming the part, for a path or pattern that cannot be used.
 */
export function resolveProfile(own: OwnProfile, builtIn: readonly Profile[]): Profile {
  const base = builtIn.find((profile) => profile.name === own.startsFrom);
  if (base === undefined) throw new UserMistake(`The profile "${own.name}" starts from "${own.startsFrom}", which is not built in.`);
  const profile: Profile = {
    ...base,
    name: own.name,
    names: { ...base.names, ...own.names },
    facts: mergeFacts(base.facts, own.facts ?? {}),
    reelFacts: own.reelFacts ?? base.reelFacts,
    companions: own.companions ?? base.companions,
    present: own.present ?? base.present,
    reelNumber: { ...base.reelNumber, ...own.reelNumber },
    altoImageNumber: own.altoImageNumber ?? base.altoImageNumber,
    policies: { ...base.policies, ...own.policies },
    severityCaps: { ...base.severityCaps, ...own.severityCaps },
  };
  const faults = profileFaults(profile);
  if (faults.length > 0) throw new UserMistake(`The profile "${own.name}" cannot be used. ${faults.join(' ')}`);
  return profile;
}

const PARTS: readonly DocumentPart[] = ['issue', 'section', 'page', 'target', 'reel'];

function mergeFacts(base: Profile['facts'], own: NonNullable<OwnProfile['facts']>): Profile['facts'] {
  const merged = { ...base };
  for (const part of PARTS) merged[part] = { ...base[part], ...own[part] };
  return merged;
}

/** Everything in a profile that cannot be used, in sentences. */
export function profileFaults(profile: Profile): readonly string[] {
  const faults: string[] = [];
  for (const [part, patterns] of Object.entries(profile.names) as [keyof ProfileNames, readonly string[]][]) {
    for (const pattern of patterns) {
      const fault = patternFault(pattern);
      if (fault !== null) faults.push(`In names.${part}: ${fault}`);
    }
  }
  for (const part of PARTS) {
    for (const [fact, paths] of Object.entries(profile.facts[part]) as [keyof FactPaths, readonly string[]][]) {
      for (const path of paths) {
        const fault = pathFault(path);
        if (fault !== null) faults.push(`In facts.${part}.${fact}: ${fault}`);
      }
    }
  }
  const suffix = profile.reelNumber.supplierSuffix;
  if (suffix !== null && !/^[-\w.#]{1,20}$/.test(suffix))
    faults.push(`In reelNumber.supplierSuffix: "${suffix}" must be 1 to 20 letters, hyphens, dots or # for a digit.`);
  return faults;
}
