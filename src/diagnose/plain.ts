import type { Difference } from '../model/difference.js';
import { type Candidate, candidate } from './candidate.js';
import { draft, frameName, issueName } from './draft.js';
import { recordFrame, returnFrame, type Scene } from './scene.js';

/** The last resort: a difference that no cause and no plain finding took is told by itself, so that none is lost. */
export function single(scene: Scene, difference: Difference): Candidate {
  const ref = difference.pairs[0];
  const mine = ref === undefined ? undefined : recordFrame(scene, ref);
  const theirs = ref === undefined ? undefined : returnFrame(scene, ref);
  const code = CODES[difference.field] ?? 'frame-number-wrong';
  const place = mine === undefined ? `Number ${frameName(theirs)} of the return` : `Frame ${frameName(mine)}`;
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

const CODES: Readonly<Partial<Record<Difference['field'], string>>> = {
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
