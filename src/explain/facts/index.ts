import type { Candidate } from '../choose.js';
import type { Scene } from '../scene.js';
import { type FactEdit, isWide, liftedEdits } from './lift.js';
import { FACT_NAMES } from './names.js';
import type { Fact } from './statements.js';
import { told } from './told.js';

/** Facts in the order in which their changes are proposed. Numbers and reels have causes of their own, but for being left out. */
const FACTS = Object.keys(FACT_NAMES) as readonly Fact[];

/** Every change of a fact that explains open differences, as far as it reaches. */
export function factEdits(scene: Scene, open: (id: number) => boolean = () => true): Candidate[] {
  return FACTS.flatMap((fact) =>
    liftedEdits(scene, fact, open)
      .filter(isProposed)
      .flatMap((edit) => {
        const candidate = told(scene, edit, open);
        // no slip of the record where the return's readings break more
        const isRecords = edit.change.kind === 'stuck' || edit.change.kind === 'copied';
        return isRecords && candidate.draft.cause === 'vendor-metadata' ? [] : [candidate];
      }),
  );
}

/** What is done to numbers and reels step by step has causes of its own. */
function isProposed({ fact, change, places, scope }: FactEdit): boolean {
  if (change.kind === 'missing' || (fact !== 'number' && fact !== 'reel')) return true;
  if (places.length < 2) return false;
  // one reel taken for another within a reel is told as such
  if (fact === 'reel') return new Set(places.map(({ reel, differs }) => `${reel} ${differs?.collation} ${differs?.returned}`)).size > 1;
  // on one reel a frame too many or too few before the first says as much
  if (change.kind === 'plus') return isWide(scope) && new Set(places.map(({ reel }) => reel)).size > 1;
  return ['stuck', 'all', 'permuted', 'before', 'after', 'copied'].includes(change.kind);
}
