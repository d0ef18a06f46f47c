import type { DocumentPart, FactName, FactRule, FactSource, Profile } from '../../model/profile.js';
import type { FactSeen } from './part-facts.js';

/** What a profile finds at one of the places of a fact. */
export interface PlaceSurvey {
  readonly source: FactSource;
  readonly isCopy: boolean;
  /** How often a text stood there, and in how many documents. */
  readonly found: number;
  readonly documents: number;
  /** Up to three different texts. */
  readonly values: readonly string[];
}

/** One fact of a part with all its places; `found` counts the parts that state it. */
export interface FactSurvey {
  readonly part: DocumentPart;
  readonly fact: FactName;
  readonly rule: FactRule;
  readonly found: number;
  readonly places: readonly PlaceSurvey[];
}

interface Counted {
  found: number;
  readonly documents: Set<string>;
  readonly values: Set<string>;
}

/** Gathers which facts are found where while a return is read with a profile. */
export function newSurvey(profile: Profile): { readonly seen: FactSeen; readonly facts: () => readonly FactSurvey[] } {
  const counts = new Map<FactSource, Map<string, Counted>>();
  const keyOf = (part: DocumentPart, fact: FactName): string => `${part} ${fact}`;
  return {
    seen: (part, fact, source, text, document) => {
      const bySource = counts.get(source) ?? new Map<string, Counted>();
      counts.set(source, bySource);
      const key = keyOf(part, fact);
      const entry = bySource.get(key) ?? { found: 0, documents: new Set<string>(), values: new Set<string>() };
      bySource.set(key, entry);
      entry.found += 1;
      entry.documents.add(document);
      if (entry.values.size < 3) entry.values.add(text);
    },
    facts: () =>
      (Object.keys(profile.facts) as DocumentPart[]).flatMap((part) =>
        (Object.entries(profile.facts[part]) as [FactName, FactRule][]).map(([fact, rule]): FactSurvey => {
          const at = (source: FactSource, isCopy: boolean): PlaceSurvey => {
            const entry = counts.get(source)?.get(keyOf(part, fact));
            return { source, isCopy, found: entry?.found ?? 0, documents: entry?.documents.size ?? 0, values: [...(entry?.values ?? [])] };
          };
          const places = [...rule.sources.map((source) => at(source, false)), ...(rule.copies ?? []).map((source) => at(source, true))];
          const found = places.reduce((sum, place) => sum + (place.isCopy ? 0 : place.found), 0);
          return { part, fact, rule, found, places };
        }),
      ),
  };
}
