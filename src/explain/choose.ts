import type { FindingDraft } from './draft.js';

/**
 * Causes compete by description length: a difference that nothing explains costs `SINGLE`; a cause costs `CAUSE`, plus `ASSUMPTION` for each
 * thing it takes for granted that the data do not show. The set of causes with the lowest total is taken, found by always taking the
 * cause that saves most, then dropping what became needless.
 */
export const SINGLE = 10;
const CAUSE = 8;
const ASSUMPTION = 3;

/** A possible cause: the finding it would be, and what it costs to say it. */
export interface Candidate {
  readonly draft: FindingDraft;
  readonly cost: number;
}

/** A cause that assumes so many things beyond what is seen. */
export function candidate(draft: FindingDraft, assumptions = 0): Candidate {
  return { draft, cost: CAUSE + ASSUMPTION * assumptions };
}

/** A cause of a cost of its own. */
export function weighed(draft: FindingDraft, cost: number): Candidate {
  return { draft, cost };
}

/** A cause that was chosen, and its finding with what explains the same as well told beside it. */
export interface Chosen {
  readonly cause: Candidate;
  readonly draft: FindingDraft;
}

interface Offer {
  readonly entry: Candidate;
  readonly index: number;
  saving: number;
}

/**
 * The cheapest set of causes, in the order in which they were proposed, and the differences that they leave. `explained` are those that have
 * their cause already, and `least` is what a cause must save.
 */
export function cheapestCauses(
  candidates: readonly Candidate[],
  all: readonly number[],
  explained: Set<number> = new Set(),
  least = 1,
): { chosen: Chosen[]; left: number[] } {
  const saves = ({ draft, cost }: Candidate): number => draft.explains.filter((id) => !explained.has(id)).length * SINGLE - cost;
  const open = heapOf(candidates.map((entry, index): Offer => ({ entry, index, saving: saves(entry) })));
  const taken: Offer[] = [];
  for (let best = open.pop(); best !== undefined && best.saving >= least; best = open.pop()) {
    // what others explained since saves nothing twice: the offer goes back with what it saves now
    const saving = saves(best.entry);
    if (saving < best.saving) {
      open.push({ ...best, saving });
      continue;
    }
    // a cause most of whose differences are spoken for would tell the same story twice
    const { explains } = best.entry.draft;
    if (explains.filter((id) => explained.has(id)).length * 2 > explains.length) continue;
    taken.push(best);
    for (const id of explains) explained.add(id);
  }
  const kept = withoutNeedless(taken);
  const told = withRivals(
    kept.map(({ entry }) => entry),
    candidates,
  );
  const chosen = kept.sort((a, b) => a.index - b.index).map(({ entry }): Chosen => ({ cause: entry, draft: told(entry) }));
  return { chosen, left: all.filter((id) => !explained.has(id)) };
}

/** What is left when causes go of which others explain everything; the first one taken stays. */
function withoutNeedless(taken: readonly Offer[]): Offer[] {
  const told = new Map<number, number>();
  for (const { entry } of taken) for (const id of entry.draft.explains) told.set(id, (told.get(id) ?? 0) + 1);
  const kept: Offer[] = [];
  for (const [at, offer] of [...taken.entries()].reverse()) {
    const { explains } = offer.entry.draft;
    if (at > 0 && offer.entry.cost > 0 && explains.every((id) => (told.get(id) ?? 0) > 1)) {
      for (const id of explains) told.set(id, (told.get(id) ?? 0) - 1);
    } else kept.push(offer);
  }
  return kept;
}

/** Tells beside each cause the others that explain exactly the same at the same cost. */
function withRivals(kept: readonly Candidate[], candidates: readonly Candidate[]): (entry: Candidate) => FindingDraft {
  const keyOf = ({ draft, cost }: Candidate): string => `${String(cost)}:${[...draft.explains].sort((a, b) => a - b).join(',')}`;
  const alike = new Map<string, Candidate[]>(kept.map((entry) => [keyOf(entry), []]));
  const chosen = new Set(kept);
  for (const other of candidates) if (!chosen.has(other)) alike.get(keyOf(other))?.push(other);
  return (entry) => {
    const rivals = alike.get(keyOf(entry)) ?? [];
    // what asks for the same is no other reading
    const others = rivals.filter(
      ({ draft }) =>
        draft.instruction !== entry.draft.instruction &&
        draft.says !== entry.draft.says &&
        !(draft.field === entry.draft.field && draft.cause === entry.draft.cause),
    );
    if (others.length === 0) return entry.draft;
    const more = others.map(({ draft }) => ({ says: draft.says, cause: draft.cause, instruction: draft.instruction }));
    return { ...entry.draft, alternatives: [...entry.draft.alternatives, ...more] };
  };
}

/** Offers, the one that saves most first; of equals the one proposed first. */
function heapOf(offers: readonly Offer[]): { readonly pop: () => Offer | undefined; readonly push: (offer: Offer) => void } {
  const heap: Offer[] = [];
  const before = (a: Offer, b: Offer): boolean => a.saving > b.saving || (a.saving === b.saving && a.index < b.index);
  const push = (offer: Offer): void => {
    let at = heap.length;
    heap.push(offer);
    while (at > 0) {
      const up = (at - 1) >> 1;
      const parent = heap[up];
      if (parent === undefined || !before(offer, parent)) break;
      heap[at] = parent;
      at = up;
    }
    heap[at] = offer;
  };
  const pop = (): Offer | undefined => {
    const first = heap[0];
    const last = heap.pop();
    if (first === undefined || last === undefined || heap.length === 0) return first;
    let at = 0;
    for (;;) {
      const [left, right] = [heap[2 * at + 1], heap[2 * at + 2]];
      const child = left !== undefined && (right === undefined || before(left, right)) ? 2 * at + 1 : 2 * at + 2;
      const below = heap[child];
      if (below === undefined || !before(below, last)) break;
      heap[at] = below;
      at = child;
    }
    heap[at] = last;
    return first;
  };
  for (const offer of offers) push(offer);
  return { pop, push };
}
