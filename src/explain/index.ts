import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { Difference } from '../model/difference.js';
import type { ExpectedReturn } from '../model/expected.js';
import type { Side } from '../model/film.js';
import type { Findings } from '../model/findings.js';
import { type Candidate, cheapestCauses } from './choose.js';
import { absences } from './documents/absences.js';
import { withFollowingCopies } from './documents/copies.js';
import { plainDocuments } from './documents/documents.js';
import { findElsewhere } from './documents/elsewhere.js';
import { lostDocuments } from './documents/lost-documents.js';
import { aboutOthers, orderedTwice, withOtherCopies } from './documents/other-batches.js';
import type { FindingDraft } from './draft.js';
import { everywhere } from './facts/everywhere.js';
import { identity } from './facts/identity.js';
import { plainIssueFacts } from './facts/issue-facts.js';
import { leftOut } from './facts/left-out.js';
import { plainPages } from './facts/page-facts.js';
import { plainNumbers, single } from './facts/plain.js';
import { frameOrder } from './film/order.js';
import { pages } from './film/pages.js';
import { presence } from './film/presence.js';
import { shifts } from './film/shifts.js';
import { takes } from './film/takes.js';
import { type Scene, setScene } from './scene.js';
import { type WordedDifference, worded } from './worded.js';

export type { FindingDraft } from './draft.js';

/** Causes in the order in which they are proposed; where two save the same, the earlier one is taken. */
const CAUSES: readonly ((scene: Scene) => Candidate[])[] = [
  leftOut,
  lostDocuments,
  frameOrder,
  takes,
  shifts,
  identity,
  presence,
  pages,
  absences,
];

/** Kinds of single findings for what no cause explains. */
const PLAIN: readonly ((scene: Scene, left: readonly WordedDifference[]) => Candidate[])[] = [
  plainNumbers,
  everywhere,
  plainIssueFacts,
  plainPages,
  plainDocuments,
];

/** Turns differences into findings: every difference is explained by exactly one finding, and the set of causes is the cheapest found. The remarks are about the other batches. */
export function explain(
  alignments: readonly Alignment[],
  compared: { readonly differences: readonly Difference[]; readonly meetings: Scene['meetings'] },
  record: Side,
  expected: ExpectedReturn,
  returned: Side,
  policies: Policies,
  others: readonly Findings[],
): { readonly drafts: FindingDraft[]; readonly remarks: readonly string[] } {
  const { meetings } = compared;
  const differences = compared.differences.map((difference) => worded(difference, record, returned));
  const elsewhere = findElsewhere(alignments, record, returned, others);
  const scene = setScene({ record, expected, returned, alignments, differences, meetings, policies, elsewhere });
  const { chosen, left } = cheapestCauses(
    CAUSES.flatMap((cause) => cause(scene)),
    differences.map((difference) => difference.id),
  );
  const remaining = new Set(left);
  const found = withFollowingCopies(scene, chosen, remaining);
  for (const plain of PLAIN) {
    const open = differences.filter((difference) => remaining.has(difference.id));
    for (const entry of plain(scene, open)) {
      found.push(entry.draft);
      for (const id of entry.draft.explains) remaining.delete(id);
    }
  }
  for (const difference of differences) if (remaining.has(difference.id)) found.push(single(scene, difference).draft);
  return { drafts: [...withOtherCopies(scene, found), ...orderedTwice(scene)], remarks: aboutOthers(scene, others) };
}
