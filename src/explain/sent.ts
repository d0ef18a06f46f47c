import type { FindingDraft } from './draft.js';
import type { Scene } from './scene.js';

/** So often a finding that is both is taken apart; each time more is held in the vendor's favour. */
const ROUNDS = 5;

/**
 * Findings with the record as it was sent heeded: what the return has as the vendor was told is no mistake of his. A finding that is partly that is told in two.
 * `tell` explains all differences but those that it is given. Where a shift is told, the numbers behind are consequences and say nothing of who began it.
 */
export function heedingSent(
  scene: Scene,
  followed: ReadonlySet<number>,
  tell: (leftOut: ReadonlySet<number>) => readonly FindingDraft[],
): readonly FindingDraft[] {
  if (followed.size === 0) return tell(new Set());
  const isNumber = (id: number): boolean => scene.differences[id]?.field === 'number';
  const telling = ({ explains }: FindingDraft): readonly number[] => {
    const roots = explains.filter((id) => !isNumber(id));
    return roots.length > 0 ? roots : explains;
  };
  const apart = new Set<number>();
  let others = tell(apart);
  for (let round = 0; round < ROUNDS; round += 1) {
    const mixed = others.filter((draft) => telling(draft).some((id) => followed.has(id)) && telling(draft).some((id) => !followed.has(id)));
    if (mixed.length === 0) break;
    for (const draft of mixed) for (const id of telling(draft)) if (followed.has(id)) apart.add(id);
    others = tell(apart);
  }
  const rest = new Set(scene.differences.map(({ id }) => id).filter((id) => !apart.has(id)));
  const own = apart.size === 0 ? [] : tell(rest);
  const isTold = (draft: FindingDraft): boolean => draft.explains.length > 0 && telling(draft).every((id) => followed.has(id));
  return [...others.map((draft) => (isTold(draft) ? inFavour(draft) : draft)), ...own.map(inFavour)];
}

/** The sentence by which such a finding is known to a reader. */
const AS_SENT = 'The vendor followed the record as it was sent: it was changed here afterwards.';

function inFavour(draft: FindingDraft): FindingDraft {
  const { instruction } = draft;
  const then = instruction === null ? null : `${instruction.charAt(0).toLowerCase()}${instruction.slice(1)}`;
  return {
    ...draft,
    cause: 'collation',
    asSent: true,
    instruction: then === null ? null : `Change nothing unless the library orders what the record has now; then ${then}`,
    evidence: [AS_SENT, ...draft.evidence],
    alternatives: [],
  };
}
