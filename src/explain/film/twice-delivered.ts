import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { mainDocument } from '../documents/meetings.js';
import { capital, draft, framesInWords, issueName, rangeOf } from '../draft.js';
import { groupBy, idsOf, pairKey } from '../runs.js';
import { differencesAt, factsOf, recordFrame, recordReelOf, returnFrame, type Scene } from '../scene.js';
import { heldBackDelivered } from './held-back.js';
import { ownFacts } from './wrong-takes.js';

/** Held-back pages that were delivered as a document of their own, or that came from both reels. */
export function twiceDelivered(scene: Scene): Candidate[] {
  const groups = groupBy(
    heldBackDelivered(scene),
    (ref) => `${String(ref.alignment)}:${String(returnFrame(scene, ref)?.issue ?? '')}:${String(recordFrame(scene, ref)?.issue ?? '')}`,
  );
  return [...groups.values()].flatMap((refs) => {
    const first = refs[0];
    const mine = first === undefined ? undefined : recordFrame(scene, first);
    const document = first === undefined ? null : (returnFrame(scene, first)?.issue ?? null);
    if (first === undefined || mine?.issue == null || document === null) return [];
    const otherReel = refs.every((ref) => repeatsOtherReel(scene, ref));
    const ownDocument = (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => recordFrame(scene, ref)?.deliver !== true);
    if (!otherReel && !(ownDocument && refs.length > 1 && mainDocument(scene, mine.issue) !== document)) return [];
    const words = framesInWords(rangeOf(scene, refs).frames);
    const name = issueName(scene, mine.issue);
    const reel = recordReelOf(scene, first)?.text ?? '';
    return [
      candidate(
        draft(scene, {
          code: otherReel ? 'delivered-from-both-reels' : 'issue-delivered-twice',
          cause: 'vendor-metadata',
          about: refs,
          returnIssue: document,
          explains: [
            ...idsOf(refs.flatMap((ref) => differencesAt(scene, ref, 'delivered', 'order', 'page', 'section'))),
            ...ownFacts(scene, refs),
            ...displacedEdition(scene, mine.issue, document),
          ],
          field: 'deliver',
          collation: otherReel ? `deliver from the other reel, hold back ${words}` : `one issue; hold back ${words}`,
          return: otherReel
            ? 'delivered from both reels'
            : `a second document, edition ${String(scene.returned.issues[document]?.edition ?? 1)}`,
          says: otherReel
            ? `${capital(words)} of reel ${reel} (${name}) ${refs.length === 1 ? 'was' : 'were'} to be held back, because the same pages are delivered from another reel; both came.`
            : `${name} came twice: ${words}, the take to be held back, came as a document of its own.`,
          instruction: otherReel ? `Hold back ${words} of reel ${reel}.` : `Deliver ${name} once: withdraw the document made of ${words}.`,
          billable: [{ class: 'page', change: -refs.length }],
        }),
      ),
    ];
  });
}

/** The take that is right carries a later edition number only because the other one took the earlier. */
function displacedEdition(scene: Scene, issue: number, document: number): number[] {
  const main = mainDocument(scene, issue);
  if (main === null || main === document) return [];
  return idsOf(
    factsOf(scene, issue, main, 'edition').filter(
      (difference) => difference.collation === String(scene.returned.issues[document]?.edition ?? 1),
    ),
  );
}

function repeatsOtherReel(scene: Scene, ref: PairRef): boolean {
  const mine = recordFrame(scene, ref);
  const reel = recordReelOf(scene, ref)?.number;
  if (mine?.duplicateOf?.reel != null && mine.duplicateOf.reel !== reel) return true;
  if (mine?.duplicateOf != null || mine?.issue == null) return false;
  if (scene.elsewhere.has(pairKey(ref))) return true;
  const others = (scene.pairsOfRecordIssue.get(mine.issue) ?? []).filter(
    (other) => recordFrame(scene, other)?.deliver === true && recordFrame(scene, other)?.pageKey === mine.pageKey,
  );
  return others.length > 0 && others.every((other) => recordReelOf(scene, other)?.number !== reel);
}
