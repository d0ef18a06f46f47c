import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { mainDocument } from '../documents/meetings.js';
import { draft, frameName, framesInWords, issueName, rangeOf } from '../draft.js';
import { groupBy, idsOf } from '../runs.js';
import { differencesAt, fieldOf, pairOf, recordFrame, returnFrame, type Scene } from '../scene.js';
import { heldBackDelivered, twinsOf } from './held-back.js';
import { twiceDelivered } from './twice-delivered.js';
import { inverted, ownFacts, wrongTakes } from './wrong-takes.js';

/** Duplicates, retakes and the choice between takes: what was to be held back came instead of, or beside, what was to be delivered. */
export function takes(scene: Scene): Candidate[] {
  return [...wrongTakes(scene), ...inverted(scene), ...retakes(scene), ...asOtherPage(scene), ...twiceDelivered(scene)];
}

/** Retakes filmed elsewhere on the reel that the vendor left where they were filmed. */
function retakes(scene: Scene): Candidate[] {
  const frames = scene.alignments.flatMap((alignment, a) =>
    alignment.pairs.flatMap((pair, p) => {
      const ref = { alignment: a, pair: p };
      const frame = pair.record === null ? undefined : recordFrame(scene, ref);
      return frame?.retakeOf != null && frame.deliver ? [ref] : [];
    }),
  );
  const wrong = frames.filter((ref) => pairOf(scene, ref).returned !== null && misplaced(scene, ref));
  const groups = groupBy(wrong, (ref) => `${String(ref.alignment)}:${String(recordFrame(scene, ref)?.issue ?? '')}`);
  return [...groups.values()].map((refs) => {
    const originals = heldBackDelivered(scene).filter((held) => twinsOf(scene, held, refs) !== undefined);
    const issue = refs[0] === undefined ? null : (recordFrame(scene, refs[0])?.issue ?? null);
    const words = framesInWords(rangeOf(scene, refs).frames);
    const originalWords = originals.length === 0 ? '' : framesInWords(rangeOf(scene, originals).frames);
    const orders = (scene.pairsOfRecordIssue.get(issue ?? -1) ?? []).flatMap((ref) => differencesAt(scene, ref, 'order', 'page'));
    return candidate(
      draft(scene, {
        code: 'retake-not-placed',
        cause: 'vendor-metadata',
        about: refs,
        explains: [
          ...idsOf([...refs, ...originals].flatMap((ref) => differencesAt(scene, ref, 'delivered', 'order', 'page', 'section'))),
          ...idsOf(orders),
          ...idsOf(fieldOf(scene, 'extra-document').filter((one) => one.recordIssue === issue)),
          ...ownFacts(scene, refs),
          ...ownFacts(scene, originals),
        ],
        field: 'order',
        collation: `inside ${issueName(scene, issue)}`,
        return: `left where ${refs.length === 1 ? 'it was' : 'they were'} filmed`,
        says: `The ${refs.length === 1 ? 'retake' : 'retakes'} on ${words} ${refs.length === 1 ? 'belongs' : 'belong'} inside ${issueName(scene, issue)}, and ${refs.length === 1 ? 'was' : 'were'} left where ${refs.length === 1 ? 'it was' : 'they were'} filmed${originals.length === 0 ? '' : `, while the spoilt ${originals.length === 1 ? 'frame' : 'frames'} came too`}.`,
        instruction: `Move ${words} to ${refs.length === 1 ? 'its place' : 'their places'} in ${issueName(scene, issue)}${originals.length === 0 ? '' : `; hold back ${originalWords}`}.`,
        billable: originals.length === 0 ? [] : [{ class: 'page', change: -originals.length }],
      }),
    );
  });
}

function misplaced(scene: Scene, ref: PairRef): boolean {
  const mine = recordFrame(scene, ref)?.issue ?? null;
  const theirs = returnFrame(scene, ref)?.issue ?? null;
  if (mine === null || theirs === null) return false;
  // a document that holds other pages as well is a split issue, not a retake left behind
  if (
    mainDocument(scene, mine) !== theirs &&
    (scene.pairsOfReturnIssue.get(theirs) ?? []).some((other) => recordFrame(scene, other)?.retakeOf == null)
  )
    return false;
  if (mainDocument(scene, mine) !== theirs) return true;
  const step = moved(scene, ref);
  if (step === 0) return false;
  // counted where it was filmed, behind the pages that lie before it on the film
  const order = returnFrame(scene, ref)?.order ?? 0;
  const own = recordFrame(scene, ref)?.order ?? 0;
  const others = scene.pairsOfRecordIssue.get(mine) ?? [];
  if (!others.some((other) => recordFrame(scene, other)?.retakeOf == null && (recordFrame(scene, other)?.order ?? 0) > own)) return false;
  // the whole issue moved along with it, as where two issues were merged or a supplement was counted in
  if (others.some((other) => recordFrame(scene, other)?.retakeOf == null && moved(scene, other) === step)) return false;
  return (scene.pairsOfReturnIssue.get(theirs) ?? []).every(
    (other) => recordFrame(scene, other)?.retakeOf != null || (returnFrame(scene, other)?.order ?? 0) < order,
  );
}

/** By how many places a page stands further on in the return's issue than in the record's. */
function moved(scene: Scene, ref: PairRef): number {
  const difference = differencesAt(scene, ref, 'order')[0];
  return difference === undefined ? 0 : Number(difference.returned) - Number(difference.collation);
}

/** A held-back duplicate that was delivered under the label of another page, one that is not on the film. */
function asOtherPage(scene: Scene): Candidate[] {
  return heldBackDelivered(scene).flatMap((held) => {
    const mine = recordFrame(scene, held);
    const theirs = returnFrame(scene, held);
    const issue = mine?.issue ?? null;
    if (mine === undefined || theirs === undefined || issue === null) return [];
    const given = theirs.pageKey ?? (theirs.order === null ? null : String(theirs.order));
    const otherLabel = given !== null && given !== mine.pageKey && given !== mine.pagePrintedKey;
    if (!otherLabel || returnFrame(scene, held)?.issue !== mainDocument(scene, issue)) return [];
    const absent = fieldOf(scene, 'absence-missing').filter((difference) => {
      const absence = difference.absence === null ? undefined : scene.record.absences[difference.absence];
      return (
        absence !== undefined && absence.issue === issue && (absence.page?.toUpperCase() === given || String(absence.order ?? '') === given)
      );
    });
    const later = (scene.pairsOfRecordIssue.get(issue) ?? [])
      .filter((ref) => ref.alignment === held.alignment && ref.pair > held.pair)
      .flatMap((ref) => differencesAt(scene, ref, 'order', 'page'))
      .filter((difference) => Number(difference.returned) - Number(difference.collation) === 1);
    const name = frameName(mine);
    return [
      candidate(
        draft(scene, {
          code: 'duplicate-delivered-as-page',
          cause: 'vendor-metadata',
          about: [held],
          explains: [...idsOf(differencesAt(scene, held, 'delivered', 'page', 'order', 'section')), ...idsOf(absent), ...idsOf(later)],
          page: theirs.page,
          field: 'deliver',
          collation: `duplicate of page ${mine.page ?? '?'}, held back`,
          return: `delivered as page ${given}`,
          says: `Frame ${name} is a second exposure of page ${mine.page ?? '?'} and was delivered as page ${given} of ${issueName(scene, issue)}${absent.length > 0 ? ', a page that is not on the film' : ''}.`,
          instruction: `Hold back frame ${name}${absent.length > 0 ? ` and state page ${given} as absent` : ''}; keep the other labels as printed.`,
          billable: [{ class: 'page', change: -1 }],
        }),
        absent.length > 0 ? 0 : 1,
      ),
    ];
  });
}
