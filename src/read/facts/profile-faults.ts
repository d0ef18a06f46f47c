import type { DocumentPart, FactName, FactRule, FactSource, Profile } from '../../model/profile.js';
import { pathFault } from '../fact-path.js';
import { patternFault, placeholders } from '../name-pattern.js';
import { COPIED_FACTS, FACT_PLACEHOLDERS } from './part-facts.js';

/** Everything in a profile that cannot be used, in sentences that name the part. */
export function profileFaults(profile: Profile): readonly string[] {
  return [
    ...Object.entries(profile.documents).flatMap(([kind, rule]) => patternFaults(`documents.${kind}.names`, rule.names)),
    ...(Object.entries(profile.folders) as [string, readonly string[]][]).flatMap(([kind, patterns]) =>
      patternFaults(`folders.${kind}`, patterns),
    ),
    ...(Object.keys(profile.facts) as DocumentPart[]).flatMap((part) =>
      (Object.entries(profile.facts[part]) as [FactName, FactRule][]).flatMap(([fact, rule]) =>
        ruleFaults(`facts.${part}.${fact}`, fact, rule),
      ),
    ),
    ...layoutFaults(profile),
    ...suffixFaults(profile.reelNumber.supplierSuffix),
  ];
}

function patternFaults(where: string, patterns: readonly string[]): readonly string[] {
  return patterns.flatMap((pattern) => {
    const fault = patternFault(pattern);
    return fault === null ? [] : [`In ${where}: ${fault}`];
  });
}

function ruleFaults(where: string, fact: FactName, rule: FactRule): readonly string[] {
  const faults = [...rule.sources, ...(rule.copies ?? [])].flatMap((source) => sourceFaults(where, fact, source));
  if (rule.copies !== undefined && rule.copies.length > 0 && !COPIED_FACTS.has(fact))
    faults.push(`In ${where}: copies can be compared for ${[...COPIED_FACTS.keys()].join(', ')} only.`);
  if ((rule.copies ?? []).some((source) => typeof source !== 'string' && (source.in === 'constant' || source.in === 'count')))
    faults.push(`In ${where}: a constant or a count is not a copy, because nobody wrote it.`);
  if (rule.sources.some((source) => typeof source !== 'string' && source.in === 'count') && fact !== 'frame')
    faults.push(`In ${where}: only the frame number can be counted on.`);
  if ([...rule.sources, ...(rule.copies ?? [])].some((source) => typeof source !== 'string' && source.in === 'place') && fact !== 'order')
    faults.push(`In ${where}: only the order of a page can be its place in the structMap.`);
  if (rule.shape !== undefined && !isShape(rule.shape))
    faults.push(`In ${where}: "${rule.shape}" is no way to write a date. Use D or DD, M or MM and YYYY, each once, such as D.M.YYYY.`);
  return faults;
}

function sourceFaults(where: string, fact: FactName, source: FactSource): readonly string[] {
  const faults: string[] = [];
  const path = typeof source === 'string' ? source : 'path' in source ? source.path : undefined;
  const fault = path === undefined ? null : pathFault(path);
  if (fault !== null) faults.push(`In ${where}: ${fault}`);
  if (typeof source === 'string' || !('pattern' in source)) return faults;
  const patterns = typeof source.pattern === 'string' ? [source.pattern] : source.pattern;
  const wanted = [...FACT_PLACEHOLDERS[fact]];
  // A pattern without the fact's placeholder serves where the same list has others that hold it.
  if (!patterns.some((pattern) => placeholders(pattern).some((name) => wanted.includes(name))))
    faults.push(`In ${where}: no pattern of "${patterns.join('", "')}" holds {${wanted.join('} or {')}}.`);
  return [...faults, ...patternFaults(where, patterns)];
}

/** The ways to write each part of a date. */
const DATE_PARTS: readonly (readonly string[])[] = [['YYYY'], ['M', 'MM'], ['D', 'DD']];

function isShape(shape: string): boolean {
  const parts = shape.match(/Y+|M+|D+/g) ?? [];
  return shape.length <= 20 && parts.length === 3 && DATE_PARTS.every((ways) => parts.some((part) => ways.includes(part)));
}

/** What a layout cannot do without. */
function layoutFaults(profile: Profile): readonly string[] {
  const { issue, page } = profile.divisions;
  if (profile.layout === 'page-mods')
    return profile.documents.page.names.length === 0
      ? ['In documents.page.names: this layout knows its page documents by name alone, and no name is given.']
      : [];
  const faults: string[] = [];
  if (issue.types.length === 0) faults.push('In divisions.issue.types: no type of division is given, so no document would be an issue.');
  if (page.types.length === 0) faults.push('In divisions.page.types: no type of division is given, so no issue would have pages.');
  return faults;
}

function suffixFaults(suffix: string | null): readonly string[] {
  return suffix === null || /^[-\w.#]{1,20}$/.test(suffix)
    ? []
    : [`In reelNumber.supplierSuffix: "${suffix}" must be 1 to 20 letters, hyphens, dots or # for a digit.`];
}
