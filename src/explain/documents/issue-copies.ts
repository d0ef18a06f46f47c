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

/** Copies of a document's fact that say what the record says: the document's own reading is the wrong one. */
export function agreeingCopies(
  scene: Scene,
  returnIssue: number,
  fact: 'date' | 'edition' | 'title',
  record: string | null,
): { ids: number[]; sources: string[] } {
  const found = fieldOf(scene, 'copy').filter(
    (difference) => difference.returnIssue === returnIssue && difference.ref === null && (difference.about ?? '').startsWith(`${fact} `),
  );
  const copies = returnIssueOf(scene, returnIssue)?.copies.filter((copy) => copy.fact === fact && copy.value === record) ?? [];
  return { ids: idsOf(found), sources: [...new Set(copies.map((copy) => copy.source))] };
}
