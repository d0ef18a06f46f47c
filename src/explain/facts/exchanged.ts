import type { IssueFact } from '../../model/expected.js';
import { type Candidate, candidate } from '../choose.js';
import { draft, framesInWords, inSeries, issueName, rangeOf } from '../draft.js';
import { groupBy, idsOf, inFilmOrder } from '../runs.js';
import { factsOf, recordIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { FACT_NAMES } from './names.js';
import { sidedBy } from './sided.js';
import { weigh } from './sides.js';
import { statementsWith } from './statements.js';

/** Facts by which two issues can be taken for one another. */
const FACTS: readonly IssueFact[] = ['title', 'date', 'edition', 'volume', 'issueNumber'];

interface Wrong {
  readonly issue: number;
  readonly document: number;
  readonly differences: readonly WordedDifference[];
}

/** Two issues that carry each other's facts: editions of one day, or whole documents. */
export function exchangedIssues(scene: Scene): Candidate[] {
  const wrong = scene.meetings.flatMap(({ recordIssue, returnIssue }): Wrong[] => {
    const differences = factsOf(scene, recordIssue, returnIssue, ...FACTS);
    return differences.length === 0 ? [] : [{ issue: recordIssue, document: returnIssue, differences }];
  });
  const byRight = groupBy(wrong, (one) => keyOf(one, ({ expected }) => expected[0]?.key ?? null));
  return wrong.flatMap((one) => {
    const others = byRight.get(keyOf(one, ({ given }) => given?.key ?? null)) ?? [];
    const two = others.find(
      (other) => keyOf(other, ({ given }) => given?.key ?? null) === keyOf(one, ({ expected }) => expected[0]?.key ?? null),
    );
    if (two === undefined || two.issue <= one.issue) return [];
    return [candidate(exchange(scene, one, two))];
  });
}

function keyOf({ differences }: Wrong, reading: (difference: WordedDifference) => string | null): string {
  return JSON.stringify(differences.map((difference) => [difference.field, reading(difference)]));
}

function exchange(scene: Scene, one: Wrong, two: Wrong): Candidate['draft'] {
  const [a, b] = [recordIssueOf(scene, one.issue), recordIssueOf(scene, two.issue)];
  const [first, second] = [pairsOf(one), pairsOf(two)];
  const pairs = inFilmOrder([...first, ...second]);
  const words = framesInWords(rangeOf(scene, pairs).frames);
  const [firstWords, secondWords] = [first, second].map((refs) => framesInWords(rangeOf(scene, refs).frames));
  const fields = one.differences.map(({ field }) => field);
  const beside = [one, two].flatMap(({ issue, document }) => factsOf(scene, issue, document, 'editionLabel', 'datePrinted'));
  const right = one.differences.map(({ collation }) => collation ?? '?').join(', ');
  const given = one.differences.map(({ returned }) => returned ?? '?').join(', ');
  const { cause, evidence } = weigh(
    scene,
    fields.map((field) => ({
      fact: field as IssueFact,
      places: statementsWith(scene, field as IssueFact, idsOf([...one.differences, ...two.differences])),
    })),
  );
  const shared = {
    cause: 'vendor-metadata',
    evidence,
    about: pairs,
    recordIssue: one.issue,
    returnIssue: one.document,
    explains: idsOf([...one.differences, ...two.differences, ...beside]),
    field: fields[0] ?? null,
    collation: `${right}, then ${given}`,
    return: `${given}, then ${right}`,
  } as const;
  if (fields.join(' ') === 'edition' && a?.title === b?.title && a?.date?.text === b?.date?.text) {
    // which edition came first may differ from the order of filming
    return sidedBy(
      cause,
      words,
      draft(scene, {
        ...shared,
        code: 'editions-swapped',
        says: `The two editions of ${issueName(scene, one.issue).replace(/, edition \d+$/, '')} (${words}) carry each other's number.`,
        instruction: `Exchange the edition numbers: ${firstWords ?? ''} are edition ${right}, ${secondWords ?? ''} edition ${given}; leave the images where they are.`,
      }),
    );
  }
  const names = fields.map((field) => FACT_NAMES[field as IssueFact].one);
  const list = inSeries(names);
  return sidedBy(
    cause,
    words,
    draft(scene, {
      ...shared,
      code: FACT_NAMES[(fields.includes('date') ? 'date' : (fields[0] ?? 'date')) as IssueFact].code,
      says: `${issueName(scene, one.issue)} (${firstWords ?? ''}) and ${issueName(scene, two.issue)} (${secondWords ?? ''}) carry each other's ${list}.`,
      instruction: `Exchange the ${list} of the two documents: ${firstWords ?? ''} are ${issueName(scene, one.issue)}, ${secondWords ?? ''} ${issueName(scene, two.issue)}; leave the images where they are.`,
    }),
  );
}

function pairsOf({ differences }: Wrong): WordedDifference['pairs'] {
  return differences[0]?.pairs ?? [];
}
