import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, frameName, framesInWords, issueName, rangeOf, thing } from '../draft.js';
import { sidedBy } from '../facts/sided.js';
import { weigh } from '../facts/sides.js';
import { statementsWith } from '../facts/statements.js';
import type { Readings } from '../facts/surroundings.js';
import { groupBy, idsOf, inFilmOrder } from '../runs.js';
import { differencesAt, fieldOf, recordFrame, returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** Labels, order and sections of pages inside their issues. */
export function pages(scene: Scene): Candidate[] {
  return [...supplements(scene), ...swapped(scene)];
}

export function issueOf(scene: Scene, difference: WordedDifference): number {
  const ref = difference.pairs[0];
  return (ref === undefined ? undefined : recordFrame(scene, ref)?.issue) ?? -1;
}

/** A supplement that lies inside the issue on the film and was counted where it lies. */
function supplements(scene: Scene): Candidate[] {
  const groups = groupBy(fieldOf(scene, 'order'), (difference) => issueOf(scene, difference));
  return [...groups].flatMap(([issue, differences]) => {
    const refs = (scene.pairsOfRecordIssue.get(issue) ?? []).filter(
      (ref) => recordFrame(scene, ref)?.deliver === true && returnFrame(scene, ref)?.kind === 'page',
    );
    const supplement = refs.filter((ref) => recordFrame(scene, ref)?.supplement === true);
    const wrong = supplement.filter((ref) => differencesAt(scene, ref, 'order').length > 0);
    // counted where it was filmed: before pages that lie behind it on the film and belong before it
    const early = wrong.every((ref) =>
      refs.some(
        (other) =>
          recordFrame(scene, other)?.supplement !== true &&
          (recordFrame(scene, other)?.order ?? 0) < (recordFrame(scene, ref)?.order ?? 0) &&
          (returnFrame(scene, other)?.order ?? 0) > (returnFrame(scene, ref)?.order ?? 0),
      ),
    );
    if (wrong.length === 0 || wrong.length !== supplement.length || !early) return [];
    const words = framesInWords(rangeOf(scene, supplement).frames);
    const labels = supplement.map((ref) => recordFrame(scene, ref)?.page ?? '').filter((label) => label !== '');
    return [
      candidate(
        draft(scene, {
          code: 'supplement-misplaced',
          cause: 'vendor-metadata',
          about: refs.filter((ref) => differencesAt(scene, ref, 'order').length > 0),
          recordIssue: issue,
          explains: idsOf(refs.flatMap((ref) => differencesAt(scene, ref, 'order', 'page', 'section'))),
          field: 'order',
          collation: `supplement at place ${supplement.map((ref) => String(recordFrame(scene, ref)?.order ?? '?')).join(', ')}`,
          return: `at place ${supplement.map((ref) => String(returnFrame(scene, ref)?.order ?? '?')).join(', ')}`,
          says: `The supplement of ${issueName(scene, issue)} (${words}) was counted among the pages where it was filmed; ${counted(differences.length, 'page')} ${differences.length === 1 ? 'has' : 'have'} the wrong place.`,
          instruction: `Put ${words}${labels.length > 0 ? ` (${labels.join(', ')})` : ''} at ${supplement.length === 1 ? 'place' : 'places'} ${supplement.map((ref) => String(recordFrame(scene, ref)?.order ?? '?')).join(', ')} of the issue and restore the other pages.`,
        }),
      ),
    ];
  });
}

/** Two pages of one issue that carry each other's label or place. */
function swapped(scene: Scene): Candidate[] {
  const wrong = inFilmOrder([...fieldOf(scene, 'page'), ...fieldOf(scene, 'order')].flatMap((difference) => difference.pairs));
  const found: Candidate[] = [];
  for (let i = 0; i < wrong.length; i++) {
    for (let j = i + 1; j < Math.min(wrong.length, i + 40); j++) {
      const a = wrong[i];
      const b = wrong[j];
      if (a === undefined || b === undefined) continue;
      const one = recordFrame(scene, a);
      const two = recordFrame(scene, b);
      if (one?.issue == null || one.issue !== two?.issue) break;
      if (!crossed(scene, a, b)) continue;
      const words = framesInWords(rangeOf(scene, [a, b]).frames);
      const { cause, evidence } = weigh(scene, [...readingsOf(scene, 'page', a, b), ...readingsOf(scene, 'order', a, b)]);
      found.push(
        candidate(
          sidedBy(
            cause,
            words,
            draft(scene, {
              code: 'pages-swapped',
              cause: 'vendor-metadata',
              about: [a, b],
              explains: idsOf([a, b].flatMap((ref) => differencesAt(scene, ref, 'page', 'order'))),
              field: 'page',
              collation: `${thing(one)}, then ${thing(two)}`,
              return: `${thing(returnFrame(scene, a))}, then ${thing(returnFrame(scene, b))}`,
              says: `${thing(one) === 'an unnumbered page' ? `Frame ${frameName(one)}` : `Page ${one.page ?? ''}`} and ${thing(two)} of ${issueName(scene, one.issue)} (${words}) carry each other's place.`,
              instruction: `Exchange the metadata of frames ${frameName(one)} and ${frameName(two)}: ${frameName(one)} is ${thing(one)}, ${frameName(two)} is ${thing(two)}.`,
              evidence,
            }),
          ),
        ),
      );
    }
  }
  return found;
}

/** The readings of a fact of two pages, where it differs on both. */
function readingsOf(scene: Scene, fact: 'page' | 'order', a: PairRef, b: PairRef): Readings[] {
  const ids = idsOf([a, b].flatMap((ref) => differencesAt(scene, ref, fact)));
  const places = statementsWith(scene, fact, ids);
  return places.length === 2 ? [{ fact, places }] : [];
}

function crossed(scene: Scene, a: PairRef, b: PairRef): boolean {
  const [labels, orders] = [exchange(scene, 'page', a, b), exchange(scene, 'order', a, b)];
  if (labels === 'other' || orders === 'other') return false;
  // labels that agree show that only the counting followed the film
  const unlabelled = [a, b].every((ref) => returnFrame(scene, ref)?.pageKey === null);
  return labels === 'exchanged' || (orders === 'exchanged' && unlabelled);
}

/** Whether two pages have each other's right reading of a fact, agree in it both, or neither. */
function exchange(scene: Scene, fact: 'page' | 'order', a: PairRef, b: PairRef): 'exchanged' | 'agree' | 'other' {
  const [one, two] = [differencesAt(scene, a, fact)[0], differencesAt(scene, b, fact)[0]];
  if (one === undefined && two === undefined) return 'agree';
  if (one === undefined || two === undefined) return 'other';
  const right = ({ expected }: WordedDifference): string | null => expected[0]?.key ?? null;
  const given = (difference: WordedDifference): string | null => difference.given?.key ?? null;
  return given(one) === right(two) && given(two) === right(one) ? 'exchanged' : 'other';
}
