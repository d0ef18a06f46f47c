import type { Alignment } from '../model/alignment.js';
import type { Difference, DifferenceField } from '../model/difference.js';
import type { Side } from '../model/film.js';
import { spot } from './film-map.js';

/** The facts that differ now at each frame of the record, by its key. */
export type FactsAt = ReadonlyMap<string, ReadonlySet<DifferenceField>>;

/** Collects what differs at each frame of the record, whatever finding explains it. */
export function factsAt(alignments: readonly Alignment[], record: Side, differences: readonly Difference[]): FactsAt {
  const facts = new Map<string, Set<DifferenceField>>();
  for (const { field, pairs } of differences) {
    for (const { alignment, pair } of pairs) {
      const aligned = alignments[alignment];
      const reel = aligned?.recordReel == null ? undefined : record.reels[aligned.recordReel];
      const frame = reel?.frames[aligned?.pairs[pair]?.record ?? -1];
      if (reel === undefined || frame?.frame == null) continue;
      const key = spot(reel.text, frame.frame.text);
      facts.set(key, (facts.get(key) ?? new Set()).add(field));
    }
  }
  return facts;
}

/** The facts that a finding was about, by the field that it names; every other field is a fact by its own name. */
const BEHIND: Readonly<Record<string, readonly DifferenceField[]>> = {
  frame: ['number', 'not-scanned', 'surplus', 'empty-number', 'number-unfilled'],
  number: ['number'],
  deliver: ['delivered', 'not-delivered', 'not-scanned'],
  section: ['section', 'page'],
  reel: ['reel', 'extra-document'],
  image: ['digest', 'same-file'],
  document: ['document', 'not-delivered', 'not-scanned'],
};

/** Whether a fact that the finding named differs among these. */
export function namesOne(field: string | null, facts: ReadonlySet<DifferenceField> | undefined): boolean {
  if (field === null || facts === undefined) return false;
  const wanted: readonly string[] = BEHIND[field] ?? [field];
  return [...facts].some((fact) => wanted.includes(fact));
}
