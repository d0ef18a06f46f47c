import type { Needs, StatedFacts } from '../model/expected.js';
import type { DocumentProblem, Place } from '../model/film.js';
import type { DocumentPart, FactName, FactRule, Profile } from '../model/profile.js';
import type { WrittenFacts } from '../model/written-return.js';

/** What is known of the issue and reel to which a part belongs. */
export interface KnownOf {
  readonly reel: string | null;
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
}

interface Note {
  readonly part: DocumentPart;
  readonly fact: FactName;
  readonly needs: Needs;
  readonly places: Place[];
  readonly known: KnownOf[];
  readonly texts: string[];
  readonly taken: Set<string>;
}

/** Gathers what must be stated and is not, and what must not be stated and is, over all documents: the same cause is told once. */
export interface NeedsBook {
  /** Holds the facts of one part against the profile; `taken` says in words what a fact that is not stated was taken to be. */
  readonly hold: (
    part: DocumentPart,
    facts: WrittenFacts,
    place: Place,
    known: KnownOf,
    taken?: Readonly<Partial<Record<FactName, string>>>,
  ) => void;
  readonly problems: () => readonly DocumentProblem[];
}

/**
 * Facts that the record states or does not state: whether they are missing is seen when the return is held against it. The rest is the return's own
 * matter, such as a number that every page must have.
 */
const HELD_AGAINST_RECORD: Readonly<Partial<Record<DocumentPart, readonly (FactName & keyof StatedFacts)[]>>> = {
  issue: ['date', 'datePrinted', 'editionLabel', 'volume', 'issueNumber'],
  page: ['page', 'order', 'section'],
};

/** Whether the return must state each fact that the record states: what the profile asks for, or leaves to a policy of the agreement. The rest is told by the return's own documents. */
export function statedFacts(profile: Profile): StatedFacts {
  const stated: Partial<Record<keyof StatedFacts, Needs>> = { title: 'may', edition: 'may', number: 'may', reel: 'may' };
  for (const [part, facts] of Object.entries(HELD_AGAINST_RECORD) as [DocumentPart, readonly (FactName & keyof StatedFacts)[]][])
    for (const fact of facts) {
      const rule = profile.facts[part][fact] ?? (fact === 'section' ? profile.facts.section.section : undefined);
      const asked = rule !== undefined && rule.sources.length > 0 && (rule.needs === 'must' || rule.movedBy !== undefined);
      stated[fact] = asked ? 'must' : 'may';
    }
  return stated;
}

/** A new book for one return. */
export function newNeedsBook(profile: Profile): NeedsBook {
  const notes = new Map<string, Note>();
  const note = (part: DocumentPart, fact: FactName, needs: Needs): Note => {
    const key = `${part} ${fact}`;
    const known = notes.get(key) ?? { part, fact, needs, places: [], known: [], texts: [], taken: new Set<string>() };
    notes.set(key, known);
    return known;
  };
  return {
    hold: (part, facts, place, known, taken = {}) => {
      for (const [fact, rule] of Object.entries(profile.facts[part]) as [FactName, FactRule][]) {
        const text = facts[fact];
        const heldAgainst: readonly FactName[] = HELD_AGAINST_RECORD[part] ?? [];
        const wrong =
          (rule.needs === 'must' && text === undefined && rule.movedBy === undefined && !heldAgainst.includes(fact)) ||
          (rule.needs === 'must-not' && text !== undefined);
        if (!wrong) continue;
        const entry = note(part, fact, rule.needs);
        entry.places.push(place);
        entry.known.push(known);
        if (text !== undefined) entry.texts.push(text);
        const instead = taken[fact];
        if (instead !== undefined) entry.taken.add(instead);
      }
    },
    problems: () => [...notes.values()].map(problemOf),
  };
}

const PARTS: Readonly<Record<DocumentPart, readonly [string, string]>> = {
  issue: ['issue', 'issues'],
  section: ['section', 'sections'],
  page: ['page', 'pages'],
  target: ['target', 'targets'],
  scannerTarget: ["scanner's target", "scanner's targets"],
  reel: ['reel document', 'reel documents'],
};

const FACTS: Readonly<Record<FactName, string>> = {
  titleId: 'title identifier',
  date: 'date',
  datePrinted: 'printed date',
  edition: 'edition order',
  editionLabel: 'edition label',
  volume: 'volume',
  issueNumber: 'issue number',
  present: 'statement of being there',
  presentNote: 'note on what is missing',
  section: 'section label',
  page: 'page number',
  order: 'place in the issue',
  reel: 'reel number',
  frame: 'frame number',
};

/** The difference field that a fact is told under. */
const FIELDS: Readonly<Partial<Record<FactName, string>>> = { titleId: 'title' };

function problemOf({ part, fact, needs, places, known, texts, taken }: Note): DocumentProblem {
  const count = places.length;
  const first = places[0] ?? {};
  const documents = new Set(places.map((place) => place.document)).size;
  const [single, plural] = PARTS[part];
  const at = `"${first.document ?? ''}"${first.element === undefined ? '' : ` ("${first.element}")`}`;
  const who =
    count === 1
      ? `The ${single} in ${at}`
      : `${String(count)} ${plural}${documents === count ? '' : ` in ${documents === 1 ? 'one document' : `${String(documents)} documents`}`}`;
  const [instead] = taken;
  const assumed = taken.size === 1 && instead !== undefined ? `; ${count === 1 ? 'it was' : 'they were'} taken to be ${instead}` : '';
  const begins = count === 1 ? '' : `, the first in ${at}`;
  const name = FACTS[fact];
  const must = needs === 'must';
  return {
    code: must ? 'vocabulary-unknown' : 'not-ordered',
    reel: common(known.map((each) => each.reel)),
    title: common(known.map((each) => each.title)),
    date: common(known.map((each) => each.date)),
    edition: common(known.map((each) => each.edition)),
    says: must
      ? `${who} ${count === 1 ? 'gives' : 'give'} no ${name}${assumed}${begins}.`
      : `${who} ${count === 1 ? 'gives' : 'give'} a ${name} ("${texts[0] ?? ''}"), which is not to be given${begins}.`,
    instruction: must
      ? `Give the ${name} of each ${single}${part === 'page' && fact === 'frame' ? ', or say that the page is missing' : ''}.`
      : `Leave the ${name} of each ${single} out.`,
    collation: null,
    returned: must ? null : (texts[0] ?? null),
    field: FIELDS[fact] ?? fact,
    place: first,
  };
}

function common<T>(values: readonly (T | null)[]): T | null {
  const [first, ...others] = [...new Set(values)];
  return others.length === 0 ? (first ?? null) : null;
}
