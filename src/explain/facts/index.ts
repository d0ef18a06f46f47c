import type { Candidate } from '../choose.js';
import type { Scene } from '../scene.js';
import { liftedEdits } from './lift.js';
import { FACT_NAMES } from './names.js';
import type { Fact } from './statements.js';
import { told } from './told.js';

/** Facts in the order in which their changes are proposed. Numbers and reels have causes of their own, but for being left out. */
const FACTS = Object.keys(FACT_NAMES) as readonly Fact[];

/** Every change of a fact that explains open differences, as far as it reaches. */
export function factEdits(scene: Scene, open: (id: number) => boolean = () => true): Candidate[] {
  return FACTS.flatMap((fact) =>
    liftedEdits(scene, fact, open)
      .filter(({ change }) => change.kind === 'missing' || (fact !== 'number' && fact !== 'reel'))
      .map((edit) => told(scene, edit)),
  );
}
