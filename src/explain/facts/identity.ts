import { type Candidate, candidate } from '../choose.js';
import { copiesOf } from '../documents/issue-copies.js';
import { boundaries, merged, split } from '../documents/issue-documents.js';
import { counted, draft, framesInWords, issueName, rangeOf } from '../draft.js';
import { follows } from '../film/witnesses.js';
import { groupBy, idsOf, inFilmOrder } from '../runs.js';
import { factsOf, fieldOf, recordIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { datesMoved } from './date-runs.js';
import { carriedOver, dates } from './issue-dates.js';

/** What issues are: their dates, titles, editions, and where one ends and the next begins. */
export function identity(scene: Scene): Candidate[] {
  return [
    ...merged(scene),
    ...boundaries(scene),
    ...split(scene),
    ...carriedOver(scene),
    ...datesMoved(scene),
    ...titles(scene),
    ...dates(scene),
    ...swappedEditions(scene),
  ];
}

/** A wrong title on an issue, or on a run of them. */
function titles(scene: Scene): Candidate[] {
  const groups = groupBy(fieldOf(scene, 'title'), (difference) => `${difference.collation ?? ''}|${difference.returned ?? ''}`);
  return [...groups.values()].flatMap((differences) => {
    const runs: WordedDifference[][] = [];
    for (const difference of differences) {
      const run = runs.at(-1);
      const last = run?.at(-1);
      if (run !== undefined && last !== undefined && follows(scene, last.recordIssue, difference.recordIssue)) run.push(difference);
      else runs.push([difference]);
    }
    return runs.map((run) => {
      const pairs = inFilmOrder(run.flatMap((difference) => difference.pairs));
      const words = framesInWords(rangeOf(scene, pairs).frames);
      const first = run[0];
      return candidate(
        draft(scene, {
          code: 'title-differs',
          cause: 'vendor-metadata',
          about: pairs,
          recordIssue: first?.recordIssue ?? null,
          returnIssue: first?.returnIssue ?? null,
          explains: [
            ...idsOf(run),
            ...run.flatMap((difference) => (difference.returnIssue === null ? [] : copiesOf(scene, difference.returnIssue))),
          ],
          field: 'title',
          collation: first?.collation ?? null,
          return: first?.returned ?? null,
          says: `${run.length === 1 ? issueName(scene, first?.recordIssue ?? null) : counted(run.length, 'issue')} (${words}) came under the title ${first?.returned ?? '?'} instead of ${first?.collation ?? '?'}.`,
          instruction: `Set the title of ${words} to ${first?.collation ?? '?'}.`,
          evidence: [],
        }),
      );
    });
  });
}

/** Two editions of one day that carry each other's number. */
function swappedEditions(scene: Scene): Candidate[] {
  const differences = fieldOf(scene, 'edition');
  return differences.flatMap((one, at) =>
    differences.slice(at + 1).flatMap((two) => {
      const a = recordIssueOf(scene, one.recordIssue);
      const b = recordIssueOf(scene, two.recordIssue);
      if (a === undefined || b === undefined || a.title !== b.title || a.date?.text !== b.date?.text) return [];
      if (one.collation !== two.returned || two.collation !== one.returned) return [];
      const pairs = inFilmOrder([...one.pairs, ...two.pairs]);
      const words = framesInWords(rangeOf(scene, pairs).frames);
      const labels = [one, two].flatMap((difference) =>
        difference.recordIssue === null || difference.returnIssue === null
          ? []
          : factsOf(scene, difference.recordIssue, difference.returnIssue, 'editionLabel'),
      );
      return [
        candidate(
          draft(scene, {
            code: 'editions-swapped',
            cause: 'vendor-metadata',
            about: pairs,
            recordIssue: one.recordIssue,
            returnIssue: one.returnIssue,
            explains: [one.id, two.id, ...idsOf(labels)],
            field: 'edition',
            collation: `${one.collation ?? ''}, then ${two.collation ?? ''}`,
            return: `${one.returned ?? ''}, then ${two.returned ?? ''}`,
            says: `The two editions of ${issueName(scene, one.recordIssue).replace(/, edition \d+$/, '')} (${words}) carry each other's number.`,
            instruction: `Exchange the edition numbers: ${framesInWords(rangeOf(scene, one.pairs).frames)} are edition ${one.collation ?? ''}, ${framesInWords(rangeOf(scene, two.pairs).frames)} edition ${two.collation ?? ''}; leave the images where they are.`,
          }),
        ),
      ];
    }),
  );
}
