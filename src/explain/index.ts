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
import { boundaries, merged, split } from './documents/issue-documents.js';
import { lostDocuments } from './documents/lost-documents.js';
import { aboutOthers, orderedTwice, withOtherCopies } from './documents/other-batches.js';
import { parted } from './documents/parted.js';
import type { FindingDraft } from './draft.js';
import { exchangedIssues } from './facts/exchanged.js';
import { factEdits } from './facts/index.js';
import { plainNumbers } from './facts/numbers.js';
import { frameOrder } from './film/order.js';
import { pages } from './film/pages.js';
import { presence } from './film/presence.js';
import { shifts } from './film/shifts.js';
import { takes } from './film/takes.js';
import { type Explained, explained } from './repair/index.js';
import { type Scene, setScene, without } from './scene.js';
import { heedingSent } from './sent.js';
import { type WordedDifference, worded } from './worded.js';

export type { FindingDraft } from './draft.js';

/** Causes in the order in which they are proposed; where two save the same, the earlier one is taken. */
const CAUSES: readonly ((scene: Scene) => Candidate[])[] = [
  lostDocuments,
  frameOrder,
  takes,
  shifts,
  merged,
  boundaries,
  split,
  parted,
  exchangedIssues,
  presence,
  pages,
  absences,
];

/** Turns differences into findings: every difference is explained by exactly one finding, and the set of causes is the cheapest found. The remarks are about the other batches; `followed` are differences in which the return is as the record was sent. */
export function explain(
  alignments: readonly Alignment[],
  compared: { readonly differences: readonly Difference[]; readonly meetings: Scene['meetings'] },
  record: Side,
  expected: ExpectedReturn,
  returned: Side,
  policies: Policies,
  others: readonly Findings[],
  followed: ReadonlySet<number> = new Set(),
): { readonly drafts: Explained[]; readonly remarks: readonly string[] } {
  const { meetings } = compared;
  const differences = compared.differences.map((difference) => worded(difference, record, returned));
  const elsewhere = findElsewhere(alignments, record, returned, others);
  const scene = setScene({ record, expected, returned, alignments, differences, told: [], meetings, policies, elsewhere });
  const found = heedingSent(scene, followed, (leftOut) => findingsOf(scene, leftOut));
  const drafts = [...withOtherCopies(scene, found), ...orderedTwice(scene)].map((draft) => explained(scene, draft));
  return { drafts, remarks: aboutOthers(scene, others) };
}

/** The findings that explain all differences but those left out. What follows from a cause that was given up for a better one is told in a further round. */
function findingsOf(scene: Scene, leftOut: ReadonlySet<number>): readonly FindingDraft[] {
  let found: FindingDraft[] = [];
  const spoken = new Set(leftOut);
  const open = (): WordedDifference[] => scene.differences.filter(({ id }) => !spoken.has(id));
  for (let left = open(), before = Number.POSITIVE_INFINITY; left.length > 0; left = open()) {
    const [first] = left;
    if (left.length >= before && first !== undefined) throw new RangeError(`no cause tells of a difference of ${first.field}`);
    before = left.length;
    found.push(...causesOf(scene, spoken));
    found.push(...changesOf(scene, spoken));
    const remaining = new Set(open().map(({ id }) => id));
    for (const rest of [plainNumbers, plainDocuments]) {
      found = withFollowingCopies(scene, found, remaining);
      for (const { draft } of rest(
        scene,
        scene.differences.filter(({ id }) => remaining.has(id)),
      )) {
        found.push(draft);
        for (const id of draft.explains) remaining.delete(id);
      }
    }
    for (const { id } of left) if (!remaining.has(id)) spoken.add(id);
  }
  return found;
}

/** What happened to frames, pages and documents; `spoken` takes in what it explains. Changes of facts are weighed against it, and told afterwards. */
function causesOf(scene: Scene, spoken: Set<number>): readonly FindingDraft[] {
  const told = new Set(spoken);
  const chosen: FindingDraft[] = [];
  let left = scene.differences.flatMap(({ id }) => (told.has(id) ? [] : [id]));
  // a cause that is partly spoken for is told again, of what is left to it, until nothing more is explained
  for (let before = Number.POSITIVE_INFINITY; left.length > 0 && left.length < before; ) {
    before = left.length;
    const changes = factEdits(scene, (id) => !told.has(id));
    const rest = told.size === 0 ? scene : without(scene, told);
    const causes = cheapestCauses([...changes, ...CAUSES.flatMap((cause) => cause(rest))], left, told);
    const ofFacts = new Set(changes);
    chosen.push(...causes.chosen.flatMap(({ cause, draft }) => (ofFacts.has(cause) ? [] : [draft])));
    left = causes.left;
  }
  for (const { explains } of chosen) for (const id of explains) spoken.add(id);
  return chosen;
}

/** Changes of facts, of what the causes leave to them: as far as that reaches, and no further. */
function changesOf(scene: Scene, spoken: Set<number>): readonly FindingDraft[] {
  const facts: FindingDraft[] = [];
  let left = scene.differences.flatMap(({ id }) => (spoken.has(id) ? [] : [id]));
  for (let before = Number.POSITIVE_INFINITY; left.length > 0 && left.length < before; ) {
    before = left.length;
    const round = cheapestCauses(
      factEdits(scene, (id) => !spoken.has(id)),
      left,
      spoken,
      0,
    );
    facts.push(...round.chosen.map(({ draft }) => draft));
    left = round.left;
  }
  return facts;
}
