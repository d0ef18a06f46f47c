import type { FrameFact, IssueFact, Needs, StatedFacts } from '../model/expected.js';
import type { DocumentProblem, Place, Unfound } from '../model/film.js';
import type { DocumentPart, FactName, FactRule, Profile } from '../model/profile.js';
import type { WrittenFacts } from '../model/written-return.js';
import { FACT_WORDS, PART_WORDS, unfoundWords } from './profile-words.js';
import { isReadable } from './return-facts.js';

/** What is known of the issue and reel to which a part belongs. */
export interface KnownOf {
  readonly reel: string | null;
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
}

/** One thing that is wrong with a fact of one part. */
interface Entry {
  readonly place: Place;
  readonly known: KnownOf;
  /** What stands there; null where nothing does. */
  readonly text: string | null;
}

interface Note {
  readonly part: DocumentPart;
  readonly fact: FactName;
  /** Must be there and is not. */
  readonly missing: Entry[];
  /** Must not be there and is. */
  readonly surplus: Entry[];
  /** Is there and cannot be understood, with the problem that it is where others can be. */
  readonly unreadable: (Entry & { readonly problem: DocumentProblem | null })[];
  /** Is not there and need not be. */
  silent: number;
  readonly taken: Set<string>;
}

/** One part that is held against the profile. */
export interface HeldPart {
  readonly part: DocumentPart;
  readonly facts: WrittenFacts;
  readonly place: Place;
  readonly known: KnownOf;
  /** What a fact that is not stated was taken to be, in words. */
  readonly taken?: Readonly<Partial<Record<FactName, string>>>;
  /** The problem that a fact is which cannot be understood; asked only where there is one. */
  readonly doubts?: () => Readonly<Partial<Record<FactName, DocumentProblem>>>;
  /** True of a page that is said not to be there, and of what is described nowhere: nothing is missed in it. */
  readonly silent?: boolean;
}

/** What the book comes to: problems of the return, and facts that the library's own profile found nowhere. */
export interface NeedsOutcome {
  readonly problems: readonly DocumentProblem[];
  readonly unfound: readonly Unfound[];
}

/**
 * Gathers over all documents what must be stated and is not, what must not be stated and is, and what cannot be understood: the same cause is told
 * once. What a library's own profile finds or can read next to nowhere is asked of the profile.
 */
export interface NeedsBook {
  readonly hold: (held: HeldPart) => void;
  readonly outcome: () => NeedsOutcome;
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
  const notes: { readonly note: Note; readonly rule: FactRule }[] = [];
  const notesOf = new Map<DocumentPart, typeof notes>();
  const parts = new Map<DocumentPart, number>();
  const opened = (part: DocumentPart): typeof notes => {
    const own = (Object.entries(profile.facts[part]) as [FactName, FactRule][]).map(([fact, rule]) => ({
      note: { part, fact, missing: [], surplus: [], unreadable: [], silent: 0, taken: new Set<string>() },
      rule,
    }));
    notesOf.set(part, own);
    notes.push(...own);
    return own;
  };
  return {
    hold: ({ part, facts, place, known, taken = NOTHING, doubts, silent = false }) => {
      if (!silent) parts.set(part, (parts.get(part) ?? 0) + 1);
      for (const { note, rule } of notesOf.get(part) ?? opened(part)) {
        const { fact } = note;
        const text = facts[fact];
        if (text !== undefined && !isReadable(fact, text, profile))
          note.unreadable.push({ place, known, text, problem: doubts?.()[fact] ?? null });
        if (silent) continue;
        const must = rule.needs === 'must' || rule.movedBy !== undefined;
        if (text === undefined && must) note.missing.push({ place, known, text: null });
        else if (text === undefined) note.silent += 1;
        else if (rule.needs === 'must-not') note.surplus.push({ place, known, text });
        const instead = taken[fact];
        if (text === undefined && instead !== undefined) note.taken.add(instead);
      }
    },
    outcome: () => {
      const all = notes.map(({ note }) => note);
      const questions = all.filter((note) => isQuestion(note, parts.get(note.part) ?? 0, profile));
      return {
        problems: all.flatMap((note) => (questions.includes(note) ? [] : problemsOf(note, profile))),
        unfound: questions.map((note) => unfoundOf(note, parts.get(note.part) ?? 0, profile)),
      };
    },
  };
}

const NOTHING: Readonly<Partial<Record<FactName, string>>> = {};

/** From this share of the parts on, a fact that cannot be found or read is asked of the profile. */
const NEARLY_ALL = 0.9;

/** Whether the library's own profile found or could read a fact so seldom that it may look in the wrong place, or read in the wrong way. */
function isQuestion({ part, fact, missing, unreadable, silent }: Note, parts: number, profile: Profile): boolean {
  if (profile.own !== true || missing.length + unreadable.length === 0) return false;
  if (isWhereRecorded(part, fact, profile)) return missing.length + unreadable.length >= parts && missing.length > 0;
  // a part that says nothing of being there is there
  const asked = fact === 'present' ? parts : parts - silent;
  return missing.length + unreadable.length >= asked * NEARLY_ALL;
}

/** Facts that not every part has, so that most parts are rightly silent. */
function isWhereRecorded(part: DocumentPart, fact: FactName, profile: Profile): boolean {
  const rule = profile.facts[part][fact];
  return fact !== 'present' && (rule?.movedBy !== undefined || (part in SELDOM && (SELDOM[part] ?? []).includes(fact)));
}

const SELDOM: Readonly<Partial<Record<DocumentPart, readonly FactName[]>>> = {
  issue: ['datePrinted', 'editionLabel', 'volume', 'issueNumber', 'presentNote'],
  page: ['page', 'section', 'presentNote'],
};

function problemsOf(note: Note, profile: Profile): readonly DocumentProblem[] {
  const { part, fact, missing, surplus, unreadable } = note;
  const rule = profile.facts[part][fact];
  const heldAgainst: readonly FactName[] = HELD_AGAINST_RECORD[part] ?? [];
  const isTold = rule?.needs === 'must' && rule.movedBy === undefined && !heldAgainst.includes(fact);
  return [
    ...unreadable.flatMap(({ problem }) => problem ?? []),
    ...(isTold && missing.length > 0 ? [problemOf(note, 'must', missing)] : []),
    ...(surplus.length > 0 ? [problemOf(note, 'must-not', surplus)] : []),
  ];
}

/** What is wrong where a fact is not given without which nobody can say what a page or issue is; other facts are asked for as what the profile has agreed. */
const LEFT_OUT: Readonly<Partial<Record<FactName, DocumentProblem['code']>>> = {
  titleId: 'title-differs',
  edition: 'edition-differs',
  reel: 'reel-number-wrong',
  frame: 'frame-number-wrong',
};

/** The difference field that a fact is told under. */
const FIELDS: Readonly<Partial<Record<FactName, string>>> = { titleId: 'title' };

function problemOf({ part, fact, taken }: Note, needs: Needs, entries: readonly Entry[]): DocumentProblem {
  const count = entries.length;
  const first = entries[0]?.place ?? {};
  const text = entries[0]?.text ?? '';
  const documents = new Set(entries.map(({ place }) => place.document)).size;
  const [single, plural] = PART_WORDS[part];
  const at = `"${first.document ?? ''}"${first.element === undefined ? '' : ` ("${first.element}")`}`;
  const who =
    count === 1
      ? `The ${single} in ${at}`
      : `${String(count)} ${plural}${documents === count ? '' : ` in ${documents === 1 ? 'one document' : `${String(documents)} documents`}`}`;
  const [instead] = taken;
  const assumed = taken.size === 1 && instead !== undefined ? `; ${count === 1 ? 'it was' : 'they were'} taken to be ${instead}` : '';
  const begins = count === 1 ? '' : `, the first in ${at}`;
  const name = FACT_WORDS[fact];
  const must = needs === 'must';
  const known = entries.map((entry) => entry.known);
  return {
    code: must ? (LEFT_OUT[fact] ?? 'vocabulary-unknown') : 'not-ordered',
    reel: common(known.map((each) => each.reel)),
    title: common(known.map((each) => each.title)),
    date: common(known.map((each) => each.date)),
    edition: common(known.map((each) => each.edition)),
    says: must
      ? `${who} ${count === 1 ? 'gives' : 'give'} no ${name}${assumed}${begins}.`
      : `${who} ${count === 1 ? 'gives' : 'give'} a ${name} ("${text}"), which is not to be given${begins}.`,
    instruction: must
      ? `Give the ${name} of each ${single}${part === 'page' && fact === 'frame' ? ', or say that the page is missing' : ''}.`
      : `Leave the ${name} of each ${single} out.`,
    collation: null,
    returned: must ? null : text,
    field: FIELDS[fact] ?? fact,
    place: first,
    each: entries.map(({ place, text: given }) => ({ place, text: given })),
  };
}

function common<T>(values: readonly (T | null)[]): T | null {
  const [first, ...others] = [...new Set(values)];
  return others.length === 0 ? (first ?? null) : null;
}

/** Places that one entry names. */
const MOST_PLACES = 100;

/** The question to profile and layout, with what was looked for, where, and what stands there. */
function unfoundOf(note: Note, parts: number, profile: Profile): Unfound {
  const { part, fact, missing, unreadable } = note;
  const rule = profile.facts[part][fact];
  const must = rule?.needs === 'must' || rule?.movedBy !== undefined || ALWAYS_ASKED.includes(fact);
  const places = [...unreadable, ...missing].map(({ place }) => place);
  return {
    field: COMPARED[part]?.[fact] ?? null,
    whereRecorded: isWhereRecorded(part, fact, profile),
    unchecked: {
      what: `the ${FACT_WORDS[fact]} of the ${PART_WORDS[part][1]}`,
      why: unfoundWords({ part, fact, missing: missing.length, texts: unreadable.map(({ text }) => text ?? '') }, parts, profile),
      frames: null,
      places: places.slice(0, MOST_PLACES),
      count: places.length,
      required: must,
    },
  };
}

/** The fact of the comparison that each fact of an issue or page is. */
const COMPARED: Readonly<Partial<Record<DocumentPart, Readonly<Partial<Record<FactName, FrameFact | IssueFact>>>>>> = {
  issue: {
    titleId: 'title',
    date: 'date',
    datePrinted: 'datePrinted',
    edition: 'edition',
    editionLabel: 'editionLabel',
    volume: 'volume',
    issueNumber: 'issueNumber',
  },
  page: { section: 'section', page: 'page', order: 'order', reel: 'reel', frame: 'number' },
};

/** What every verdict rests on, whatever the profile says of it. */
const ALWAYS_ASKED: readonly FactName[] = ['titleId', 'date', 'order'];
