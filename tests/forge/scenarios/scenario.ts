import type { Policies } from '../../../src/model/agreement.js';
import type { CollationRecord, Weekday } from '../../../src/model/collation-record.js';
import type { Decision, Finding } from '../../../src/model/findings.js';
import type { Scene } from '../faults/scene.js';
import type { FilmTitle } from '../film/film.js';
import { type PlanOptions, planOf } from '../plan.js';
import { recordOf } from '../record/record-of.js';
import type { WriteProfile } from '../write/index.js';
import { filmOf } from './film-text.js';

/** What a finding must say, to the letter. */
export type StatedFinding = Pick<
  Finding,
  | 'code'
  | 'severity'
  | 'cause'
  | 'reel'
  | 'at'
  | 'frames'
  | 'count'
  | 'title'
  | 'date'
  | 'edition'
  | 'rescan'
  | 'billable'
  | 'says'
  | 'instruction'
>;

/** What a verification must come to. */
export interface StatedResult {
  readonly scenario: string;
  readonly tells: string;
  readonly verdict: Decision;
  readonly findings: readonly StatedFinding[];
}

/** The form in which the library keeps the record. */
export type RecordFile = 'json' | 'frames' | 'issues' | 'workbook';

/** A film with what somebody makes of it. */
export interface Telling {
  /** Lines as `filmOf` reads them. */
  readonly film: string;
  /** What the vendor does otherwise than ordered. */
  readonly vendor?: (v: Vendor) => void;
  /** What the library wrote down wrongly. */
  readonly library?: (record: CollationRecord) => CollationRecord;
  readonly policies?: Partial<Policies>;
}

/** One situation, written by hand: the film, the mistake, what must be found, and what looks most like it and is right. */
export interface Scenario extends Telling {
  /** Number in the list of situations with the letter of the variant, or a word for those that have no number. */
  readonly number: string;
  readonly slug: string;
  /** The situation in one sentence. */
  readonly tells: string;
  readonly titles: readonly FilmTitle[];
  readonly profile: WriteProfile;
  readonly record: RecordFile;
  readonly ordered?: PlanOptions;
  readonly verdict: Decision;
  readonly findings: readonly StatedFinding[];
  /** What is told otherwise in the twin; without it the twin is the same film, rendered as ordered. */
  readonly twin?: Partial<Telling>;
  /** A second batch that was sent before, with its own record, where the situation needs one. */
  readonly earlierBatch?: string;
}

/** A return that is being written, with the issues of the film by letter. */
export interface Vendor extends Scene {
  readonly keys: ReadonlyMap<string, number>;
}

/** A record and the return that answers it. */
export interface Half extends Pick<Scene, 'record' | 'plan'> {
  readonly policies: Partial<Policies>;
}

/** Both halves of a scenario. */
export function halvesOf(scenario: Scenario): { readonly differs: Half; readonly agrees: Half } {
  const { film, policies, twin = {} } = scenario;
  return {
    differs: told(scenario, scenario),
    agrees: told(scenario, { film, ...(policies === undefined ? {} : { policies }), ...twin }),
  };
}

/** The batch that was sent before: its record, and the return as ordered. */
export function batchBefore(scenario: Scenario): Half | null {
  if (scenario.earlierBatch === undefined) return null;
  const half = told(scenario, { film: scenario.earlierBatch });
  half.plan.batch = 'batch_ostrel_before';
  return half;
}

function told(scenario: Scenario, telling: Telling): Half {
  const { film, keys } = filmOf(scenario.titles, telling.film);
  const record = recordOf(film);
  const policies = telling.policies ?? {};
  const source = policies.reelNumber === 'source' ? { reelNumber: 'source' as const } : {};
  const plan = planOf(film, { targetsListed: true, absentIssuesStated: true, ...scenario.ordered, ...source });
  plan.batch = 'batch_ostrel_vale';
  telling.vendor?.({ film, plan, record, keys });
  return { record: telling.library?.(record) ?? record, plan, policies };
}

/** A title of the invented vale of Ostrel. */
export function paper(id: string, name: string, days: readonly Weekday[], more: Partial<FilmTitle> = {}): FilmTitle {
  return {
    id,
    name,
    language: 'eng',
    readingDirection: 'ltr',
    patterns: [{ days, usualPages: [4, 8], frequency: days.length === 1 ? 'w' : days.length === 3 ? 'i' : 'd' }],
    frontPageUnnumbered: false,
    ...more,
  };
}

/** A finding with what most findings have in common: a page problem of the vendor's metadata that needs no rescan and changes no bill. */
export function finding(stated: Omit<StatedFinding, 'cause' | 'edition' | 'rescan' | 'billable'> & Partial<StatedFinding>): StatedFinding {
  return { cause: 'vendor-metadata', edition: stated.date === null ? null : 1, rescan: 'no', billable: [], ...stated };
}
