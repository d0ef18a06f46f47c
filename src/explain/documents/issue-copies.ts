import { idsOf } from '../runs.js';
import { fieldOf, returnIssueOf, type Scene } from '../scene.js';

/** Documents' other copies of their facts, which differ because the document itself is wrong. */
export function copiesOf(scene: Scene, returnIssue: number): number[] {
  return idsOf(
    fieldOf(scene, 'copy').filter(
      (difference) => difference.returnIssue === returnIssue && /^(date|edition|title|editionLabel) /.test(difference.about ?? ''),
    ),
  );
}

/** Copies of a document's fact that say what is right, where the document's own reading is the wrong one. A copy that says a third thing is a slip of its own. */
export function agreeingCopies(
  scene: Scene,
  returnIssue: number,
  fact: 'date' | 'edition' | 'title',
  right: readonly string[],
): { ids: number[]; sources: string[] } {
  const found = fieldOf(scene, 'copy').filter(
    ({ returnIssue: document, ref, about, given }) =>
      document === returnIssue && ref === null && about?.startsWith(`${fact} `) === true && given !== null && right.includes(given.key),
  );
  const copies = returnIssueOf(scene, returnIssue)?.copies.filter((copy) => copy.fact === fact && right.includes(copy.value ?? '')) ?? [];
  return { ids: idsOf(found), sources: [...new Set(copies.map((copy) => copy.source))] };
}
