import { type Candidate, candidate } from '../choose.js';
import { draft, frameName, framesInWords, issueName, rangeOf } from '../draft.js';
import { issueOf } from '../film/pages.js';
import { labelTestimony } from '../film/witnesses.js';
import { groupBy, idsOf, inFilmOrder, neighbouringRuns } from '../runs.js';
import { differencesAt, recordFrame, returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { setAll } from './corrections.js';

/** What no cause explains of labels, order and sections: labels one by one, order and sections once per issue. */
export function plainPages(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const result: Candidate[] = [];
  for (const difference of left.filter((one) => one.field === 'page')) {
    const ref = difference.pairs[0];
    if (ref === undefined) continue;
    const mine = recordFrame(scene, ref);
    const testimony = labelTestimony(scene, ref, returnFrame(scene, ref)?.pageKey ?? null);
    const orders = differencesAt(scene, ref, 'order').filter((one) => left.includes(one));
    const printed = mine?.pagePrinted != null && mine.pagePrinted !== '-' && mine.pagePrinted !== mine.page;
    result.push(
      candidate(
        draft(scene, {
          code: 'page-number-differs',
          cause: testimony.cause,
          about: [ref],
          explains: [difference.id, ...idsOf(orders)],
          field: 'page',
          collation: difference.collation,
          return: difference.returned,
          says: `Frame ${frameName(mine)} (${issueName(scene, mine?.issue ?? null)}) is page ${difference.collation ?? '?'} in the record and ${difference.returned === 'no number' ? 'has no page number' : `page ${difference.returned ?? '?'}`} in the return.`.replace(
            'page nothing printed',
            'without a printed number',
          ),
          instruction:
            testimony.cause === 'collation'
              ? `Compare the paper on frame ${frameName(mine)} with both readings before anything is changed.`
              : difference.collation === 'nothing printed'
                ? `Leave the page number of frame ${frameName(mine)} out: nothing is printed.`
                : `Set the page number of frame ${frameName(mine)} to ${difference.collation ?? '?'}${printed ? ', as printed' : ''}.`,
          evidence: [
            ...testimony.evidence,
            ...(printed
              ? [`The paper prints ${mine.pagePrinted} where ${mine.page ?? '?'} belongs; the printed label is to be given.`]
              : []),
          ],
          corrections: setAll(scene, [ref], 'page', difference),
        }),
      ),
    );
  }
  const taken = new Set(result.flatMap((entry) => entry.draft.explains));
  const orders = groupBy(
    left.filter((one) => one.field === 'order' && !taken.has(one.id)),
    (difference) => issueOf(scene, difference),
  );
  for (const [issue, differences] of orders) {
    const refs = inFilmOrder(differences.flatMap((difference) => difference.pairs));
    const words = framesInWords(rangeOf(scene, refs).frames);
    const wanted = refs.map((ref) => String(recordFrame(scene, ref)?.order ?? '?'));
    const given = refs.map((ref) => String(returnFrame(scene, ref)?.order ?? '?'));
    result.push(
      candidate(
        draft(scene, {
          code: 'page-order-differs',
          cause: 'vendor-metadata',
          about: refs,
          recordIssue: issue,
          explains: idsOf(differences),
          field: 'order',
          collation: wanted.join(', '),
          return: given.join(', '),
          says: `${refs.length === 1 ? `Frame ${frameName(refs[0] === undefined ? undefined : recordFrame(scene, refs[0]))}` : `The pages on ${words}`} of ${issueName(scene, issue)} ${refs.length === 1 ? 'stands at place' : 'stand at places'} ${given.join(', ')} of the issue; the record has ${wanted.join(', ')}.`,
          instruction: `Put ${words} at ${wanted.length === 1 ? 'place' : 'places'} ${wanted.join(', ')} of the issue.`,
          corrections: [],
        }),
      ),
    );
  }
  const sections = groupBy(
    left.filter((one) => one.field === 'section'),
    (difference) => `${String(issueOf(scene, difference))}|${difference.collation ?? ''}|${difference.returned ?? ''}`,
  );
  for (const differences of sections.values()) {
    const refs = inFilmOrder(differences.flatMap((difference) => difference.pairs));
    for (const run of neighbouringRuns(refs)) {
      const words = framesInWords(rangeOf(scene, run).frames);
      const first = differences[0];
      result.push(
        candidate(
          draft(scene, {
            code: 'section-differs',
            cause: 'vendor-metadata',
            about: run,
            explains: idsOf(differences.filter((difference) => difference.pairs.some((ref) => run.includes(ref)))),
            field: 'section',
            collation: first?.collation ?? null,
            return: first?.returned ?? null,
            says: `${words.charAt(0).toUpperCase()}${words.slice(1)} of ${issueName(scene, first === undefined ? null : issueOf(scene, first))}: section ${first?.returned ?? '?'} in the return, ${first?.collation ?? '?'} in the record.`.replace(
              'section no section',
              'no section',
            ),
            instruction:
              first?.collation === 'no section'
                ? `Take the section off ${words}.`
                : `Set the section of ${words} to ${first?.collation ?? '?'}.`,
          }),
        ),
      );
    }
  }
  return result;
}
