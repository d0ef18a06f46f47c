import type {
  DivisionPart,
  DocumentKind,
  DocumentPart,
  FactName,
  FactRule,
  FactRules,
  OwnFactRule,
  OwnProfile,
  Profile,
} from '../model/profile.js';
import { profileFaults } from './facts/profile-faults.js';
import { UserMistake } from './mistake.js';

/** What a profile is that starts from nothing: no document is known, no fact has a place. */
const NOTHING: Omit<Profile, 'name' | 'layout'> = {
  format: 'reeltally/profile/2',
  documents: { manifest: { names: [] }, issue: { names: [] }, reel: { names: [] }, page: { names: [] }, absentPage: { names: [] } },
  divisions: {
    issue: { types: [] },
    section: { types: [] },
    page: { types: [] },
    reel: { types: [] },
    target: { types: [] },
    scannerTargets: { types: [] },
  },
  pagesOfIssue: 'below',
  facts: { issue: {}, section: {}, page: {}, target: {}, scannerTarget: {}, reel: {} },
  reelFacts: [],
  files: { uses: {}, otherUses: 'may', ignored: [], companions: [] },
  folders: { unmatched: [], unmatchedFile: [], target: [], targetFile: [], issue: [] },
  present: [],
  laterCopies: false,
  titleKeys: {},
  reelNumber: { supplierSuffix: null },
  carrier: 'film',
  altoImageNumber: 'nothing',
  policies: {},
  severityCaps: {},
};

/**
 * A library's own profile laid over the built-in one that it starts from, or over nothing: a list replaces a list, an object is laid over the
 * object. Throws UserMistake, naming the part, for what cannot be used.
 */
export function resolveProfile(own: OwnProfile, builtIn: readonly Profile[]): Profile {
  const base = own.startsFrom === 'nothing' ? fromNothing(own) : builtIn.find((profile) => profile.name === own.startsFrom);
  if (base === undefined) {
    const known = [...builtIn.map((profile) => profile.name), 'nothing'].join(', ');
    throw new UserMistake(`The profile "${own.name}" starts from "${own.startsFrom}", which is not built in. It can start from ${known}.`);
  }
  const profile: Profile = {
    ...base,
    name: own.name,
    own: true,
    layout: own.layout ?? base.layout,
    documents: eachOver(base.documents, own.documents),
    divisions: eachOver(base.divisions, own.divisions),
    pagesOfIssue: own.pagesOfIssue ?? base.pagesOfIssue,
    facts: factsOver(base.facts, own.facts ?? {}),
    reelFacts: own.reelFacts ?? base.reelFacts,
    files: { ...base.files, ...own.files, uses: { ...base.files.uses, ...inLowerCase(own.files?.uses ?? {}) } },
    folders: { ...base.folders, ...own.folders },
    present: own.present ?? base.present,
    titleKeys: { ...base.titleKeys, ...own.titleKeys },
    reelNumber: { ...base.reelNumber, ...own.reelNumber },
    laterCopies: own.laterCopies ?? base.laterCopies,
    carrier: own.carrier ?? base.carrier,
    altoImageNumber: own.altoImageNumber ?? base.altoImageNumber,
    policies: { ...base.policies, ...own.policies },
    severityCaps: { ...base.severityCaps, ...own.severityCaps },
  };
  const faults = profileFaults(profile);
  if (faults.length > 0) throw new UserMistake(`The profile "${own.name}" cannot be used. ${faults.join(' ')}`);
  return profile;
}

function fromNothing(own: OwnProfile): Profile {
  if (own.layout === undefined)
    throw new UserMistake(
      `The profile "${own.name}" starts from nothing, so it must say its "layout": "issue-mets" where each issue is one METS document, "page-mods" where each page and edition is one document.`,
    );
  return { ...NOTHING, name: own.name, layout: own.layout };
}

/** Uses are known without regard to case. */
function inLowerCase(uses: Profile['files']['uses']): Profile['files']['uses'] {
  return Object.fromEntries(Object.entries(uses).map(([use, rule]) => [use.toLowerCase(), rule]));
}

function eachOver<K extends DocumentKind | DivisionPart, T extends object>(
  base: Readonly<Record<K, T>>,
  own: Readonly<Partial<Record<K, Partial<T>>>> | undefined,
): Readonly<Record<K, T>> {
  const merged: Record<K, T> = { ...base };
  for (const key of Object.keys(base) as K[]) merged[key] = { ...base[key], ...own?.[key] };
  return merged;
}

function factsOver(base: Profile['facts'], own: NonNullable<OwnProfile['facts']>): Profile['facts'] {
  const merged: Record<DocumentPart, FactRules> = { ...base };
  for (const part of Object.keys(base) as DocumentPart[]) {
    const rules: Partial<Record<FactName, FactRule>> = { ...base[part] };
    for (const [fact, rule] of Object.entries(own[part] ?? {}) as [FactName, OwnFactRule][])
      rules[fact] = { ...(rules[fact] ?? { sources: [] }), ...(isList(rule) ? { sources: rule } : rule) };
    merged[part] = rules;
  }
  return merged;
}

function isList(rule: OwnFactRule): rule is Extract<OwnFactRule, readonly unknown[]> {
  return Array.isArray(rule);
}
