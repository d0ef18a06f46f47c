import type { FindingDraft } from './draft.js';

/**
 * Causes compete by description length: a difference that nothing explains costs `SINGLE`; a cause costs `CAUSE`, plus `ASSUMPTION` for each
 * thing it takes for granted that the data do not show. The set of causes with the lowest total is taken, found by always taking the
 * cause that saves most, then dropping what became needless.
 */
export const SINGLE = 10;
const CAUSE = 8;
const ASSUMPTION = 3;

/** A possible cause: the finding it would be, and what it assumes beyond what is seen. */
export interface Candidate {
  readonly draft: FindingDraft;
  readonly assumptions: number;
}

export function candidate(draft: FindingDraft, assumptions = 0): Candidate {
  return { draft, assumptions };
}

export function costOf(entry: Candidate): number {
  return CAUSE + ASSUMPTION * entry.assumptions;
}

/** What taking this cause saves, given what is explained already. */
function saving(entry: Candidate, explained: ReadonlySet<number>): number {
  let fresh = 0;
  for (const id of entry.draft.explains) if (!explained.has(id)) fresh++;
  return fresh * SINGLE - costOf(entry);
}

/** The cheapest set of causes, in the order in which they were proposed, and the differences that they leave. */
export function cheapestCauses(candidates: readonly Candidate[], all: readonly number[]): { chosen: FindingDraft[]; left: number[] } {
  const explained = new Set<number>();
  const open = candidates.map((entry, index) => ({ entry, index }));
  const taken: { entry: Candidate; index: number }[] = [];
  for (;;) {
    let best: { entry: Candidate; index: number } | null = null;
    let bestSaving = 0;
    for (const item of open) {
      const value = saving(item.entry, explained);
      if (value > bestSaving) {
        best = item;
        bestSaving = value;
      }
    }
    if (best === null) break;
    // a cause most of whose differences are spoken for would tell the same story twice
    const overlap = best.entry.draft.explains.filter((id) => explained.has(id)).length;
    open.splice(open.indexOf(best), 1);
    if (overlap * 2 > best.entry.draft.explains.length) continue;
    taken.push(best);
    for (const id of best.entry.draft.explains) explained.add(id);
  }
  const kept = taken.filter(({ entry }) => !needless(entry, taken));
  const chosen = kept.sort((a, b) => a.index - b.index).map(({ entry }) => withRivals(entry, candidates, kept));
  return { chosen, left: all.filter((id) => !explained.has(id)) };
}

function needless(entry: Candidate, taken: readonly { entry: Candidate }[]): boolean {
  return (
    entry.draft.explains.every((id) => taken.some((other) => other.entry !== entry && other.entry.draft.explains.includes(id))) &&
    costOf(entry) > 0 &&
    taken[0]?.entry !== entry
  );
}

/** Another cause that explains the same as well, at the same cost, is told beside the one chosen. */
function withRivals(entry: Candidate, candidates: readonly Candidate[], kept: readonly { entry: Candidate }[]): FindingDraft {
  const rivals = candidates.filter(
    (other) =>
      other !== entry &&
      !kept.some((item) => item.entry === other) &&
      costOf(other) === costOf(entry) &&
      other.draft.explains.length === entry.draft.explains.length &&
      other.draft.explains.every((id) => entry.draft.explains.includes(id)),
  );
  if (rivals.length === 0) return entry.draft;
  const more = rivals.map(({ draft }) => ({ says: draft.says, cause: draft.cause, instruction: draft.instruction }));
  return { ...entry.draft, alternatives: [...entry.draft.alternatives, ...more] };
}
