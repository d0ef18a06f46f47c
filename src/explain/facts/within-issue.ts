import { counted, draft, type FindingDraft, framesInWords, issueName, rangeOf, thing } from '../draft.js';
import { inFilmOrder } from '../runs.js';
import { recordFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import type { FactEdit } from './lift.js';

/** Places of the pages of one issue. */
export function countedAnew(
  scene: Scene,
  { places }: FactEdit,
  differences: readonly WordedDifference[],
  explains: readonly number[],
): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const wanted = differences.map(({ collation }) => collation ?? '?').join(', ');
  const given = differences.map(({ returned }) => returned ?? '?').join(', ');
  const issue = places[0]?.issue ?? null;
  return draft(scene, {
    code: 'page-order-differs',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: issue,
    explains,
    field: 'order',
    collation: wanted,
    return: given,
    says: `The pages on ${words} of ${issueName(scene, issue)} stand at places ${given} of the issue; the record has ${wanted}.`,
    instruction: `Put ${words} at places ${wanted} of the issue.`,
  });
}

/** Labels or places of pages of one issue that are wrong by as much. */
export function movedWithin(
  scene: Scene,
  { fact, change, places }: FactEdit,
  differences: readonly WordedDifference[],
  explains: readonly number[],
): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const issue = places[0]?.issue ?? null;
  const by = Number(change.by);
  const first = refs[0] === undefined ? undefined : recordFrame(scene, refs[0]);
  const fromZero = fact === 'order' && by === -1 && differences.some(({ given }) => given?.key === '0');
  const labels = fact === 'page';
  return draft(scene, {
    code: labels ? 'page-numbers-shifted' : 'page-order-differs',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: issue,
    explains,
    page: null,
    field: fact,
    collation: fromZero ? 'counted from 1' : `from ${differences[0]?.collation ?? '?'} on`,
    return: fromZero ? 'counted from 0' : `from ${differences[0]?.returned ?? '?'} on`,
    says: fromZero
      ? `The places of the pages of ${issueName(scene, issue)} (${words}) are counted from 0; they must be counted from 1.`
      : `From ${thing(first)} on, ${counted(refs.length, 'page')} of ${issueName(scene, issue)} (${words}) ${labels ? 'are numbered' : 'stand'} ${labels ? String(Math.abs(by)) : counted(Math.abs(by), 'place')} too ${by > 0 ? (labels ? 'high' : 'far on') : labels ? 'low' : 'early'}.`,
    instruction: fromZero
      ? `Add 1 to the place of each page of ${issueName(scene, issue)}.`
      : labels
        ? `Renumber the pages on ${words} by ${by > 0 ? '-' : '+'}${String(Math.abs(by))}, as printed.`
        : `${by > 0 ? 'Subtract' : 'Add'} ${String(Math.abs(by))} ${by > 0 ? 'from' : 'to'} the place of each page on ${words}.`,
    constant: true,
  });
}
