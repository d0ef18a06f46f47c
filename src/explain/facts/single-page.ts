import { capital, draft, type FindingDraft, frameName, framesInWords, issueName, rangeOf } from '../draft.js';
import { idsOf } from '../runs.js';
import { differencesAt, recordFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** One fact of one page that came otherwise. */
export function singlePageFact(scene: Scene, difference: WordedDifference, explains: readonly number[]): FindingDraft {
  if (difference.field === 'order') return place(scene, difference, explains);
  return difference.field === 'section' ? section(scene, difference, explains) : label(scene, difference, explains);
}

function label(scene: Scene, difference: WordedDifference, explains: readonly number[]): FindingDraft {
  const ref = difference.pairs[0];
  const mine = ref === undefined ? undefined : recordFrame(scene, ref);
  // a place that is as far off as the label moved with it
  const step = Number(difference.returned) - Number(difference.collation);
  const orders =
    ref === undefined ? [] : differencesAt(scene, ref, 'order').filter((one) => Number(one.returned) - Number(one.collation) === step);
  const printed = mine?.pagePrinted != null && mine.pagePrinted !== '-' && mine.pagePrinted !== mine.page ? mine.pagePrinted : null;
  const right = difference.collation ?? '?';
  const bare = difference.form === 'surplus';
  return draft(scene, {
    code: 'page-number-differs',
    cause: 'vendor-metadata',
    about: difference.pairs,
    explains: [...explains, ...idsOf(orders)],
    field: 'page',
    collation: difference.collation,
    return: difference.returned,
    says: `Frame ${frameName(mine)} (${issueName(scene, mine?.issue ?? null)}) is ${bare ? 'without a printed number' : `page ${right}`} in the record and page ${difference.returned ?? '?'} in the return.`,
    instruction: bare
      ? `Leave the page number of frame ${frameName(mine)} out: nothing is printed.`
      : `Set the page number of frame ${frameName(mine)} to ${right}${printed === null ? '' : ', as printed'}.`,
    evidence: [
      ...(printed === null ? [] : [`The paper prints ${printed} where ${mine?.page ?? '?'} belongs; the printed label is to be given.`]),
    ],
  });
}

function place(scene: Scene, difference: WordedDifference, explains: readonly number[]): FindingDraft {
  const ref = difference.pairs[0];
  const mine = ref === undefined ? undefined : recordFrame(scene, ref);
  const [right, given] = [difference.collation ?? '?', difference.returned ?? '?'];
  const words = framesInWords(rangeOf(scene, difference.pairs).frames);
  return draft(scene, {
    code: 'page-order-differs',
    cause: 'vendor-metadata',
    about: difference.pairs,
    recordIssue: mine?.issue ?? null,
    explains,
    field: 'order',
    collation: right,
    return: given,
    says: `Frame ${frameName(mine)} of ${issueName(scene, mine?.issue ?? null)} stands at place ${given} of the issue; the record has ${right}.`,
    instruction: `Put ${words} at place ${right} of the issue.`,
  });
}

function section(scene: Scene, difference: WordedDifference, explains: readonly number[]): FindingDraft {
  const ref = difference.pairs[0];
  const mine = ref === undefined ? undefined : recordFrame(scene, ref);
  const words = framesInWords(rangeOf(scene, difference.pairs).frames);
  const none = difference.form === 'surplus';
  return draft(scene, {
    code: 'section-differs',
    cause: 'vendor-metadata',
    about: difference.pairs,
    explains,
    field: 'section',
    collation: difference.collation,
    return: difference.returned,
    says: `${capital(words)} of ${issueName(scene, mine?.issue ?? null)}: section ${difference.returned ?? '?'} in the return, ${none ? 'no section' : (difference.collation ?? '?')} in the record.`,
    instruction: none ? `Take the section off ${words}.` : `Set the section of ${words} to ${difference.collation ?? '?'}.`,
  });
}
