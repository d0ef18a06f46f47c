import type { FindingCode } from '../../catalogue/codes.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, draft, frameName, framesInWords, issueName, rangeOf } from '../draft.js';
import { exposureOffset } from '../film/shift-events.js';
import { idsOf } from '../runs.js';
import { recordFrame, returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** What no cause explains of the numbers: frames that are wrong by as much and follow each other among those left are one finding. */
export function plainNumbers(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const runs: { offset: number | null; differences: WordedDifference[] }[] = [];
  for (const difference of left.filter((one) => one.field === 'number')) {
    const ref = difference.pairs[0];
    const offset = ref === undefined ? null : exposureOffset(scene, ref);
    const last = runs.at(-1);
    if (last?.differences[0]?.pairs[0]?.alignment === ref?.alignment && last?.offset === offset && offset !== null)
      last.differences.push(difference);
    else runs.push({ offset, differences: [difference] });
  }
  return runs.flatMap(({ offset, differences }) => {
    if (offset === null || offset === 0 || differences.length < 2) return [];
    const refs = differences.flatMap((difference) => difference.pairs);
    const words = framesInWords(rangeOf(scene, refs).frames);
    return [
      candidate(
        draft(scene, {
          code: 'frame-number-wrong',
          cause: 'vendor-metadata',
          about: refs,
          explains: idsOf(differences),
          field: 'frame',
          collation: differences[0]?.collation ?? null,
          return: differences[0]?.returned ?? null,
          says: `${capital(words)} are numbered ${String(Math.abs(offset))} too ${offset < 0 ? 'low' : 'high'}; their dates and pages agree.`,
          instruction: `Renumber ${words} by ${offset < 0 ? '+' : '-'}${String(Math.abs(offset))}; no rescans.`,
          constant: true,
        }),
      ),
    ];
  });
}

/** The last resort: a difference that no cause and no plain finding took is told by itself, so that none is lost. */
export function single(scene: Scene, difference: WordedDifference): Candidate {
  const ref = difference.pairs[0];
  const mine = ref === undefined ? undefined : recordFrame(scene, ref);
  const theirs = ref === undefined ? undefined : returnFrame(scene, ref);
  const code = CODES[difference.field] ?? 'frame-number-wrong';
  const place =
    mine === undefined
      ? theirs?.frame == null
        ? 'A page of the return'
        : `Number ${frameName(theirs)} of the return`
      : `Frame ${frameName(mine)}`;
  return candidate(
    draft(scene, {
      code,
      cause: 'vendor-metadata',
      about: difference.pairs,
      recordIssue: difference.recordIssue,
      returnIssue: difference.returnIssue,
      explains: [difference.id],
      field: difference.field,
      collation: difference.collation,
      return: difference.returned,
      says: `${place} (${issueName(scene, difference.recordIssue ?? null)}): the record has ${difference.collation ?? 'nothing'}, the return ${difference.returned ?? 'nothing'}.`,
      instruction: `Look at the film there and bring the return into line with the record: ${difference.collation ?? 'nothing'}.`,
    }),
  );
}

const CODES: Readonly<Partial<Record<WordedDifference['field'], FindingCode>>> = {
  'not-scanned': 'frame-not-scanned',
  surplus: 'page-not-in-collation',
  'empty-number': 'frame-number-gap',
  'not-delivered': 'page-not-delivered',
  delivered: 'suppressed-frame-delivered',
  number: 'frame-number-wrong',
  reel: 'reel-number-wrong',
  page: 'page-number-differs',
  order: 'page-order-differs',
  section: 'section-differs',
  title: 'title-differs',
  date: 'date-differs',
  datePrinted: 'printed-date-differs',
  edition: 'edition-differs',
  editionLabel: 'edition-label-differs',
  volume: 'volume-differs',
  issueNumber: 'issue-number-differs',
  'extra-document': 'issue-split',
};
