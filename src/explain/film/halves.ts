import type { PairRef } from '../../model/difference.js';
import type { Frame } from '../../model/film.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, frameName, framesInWords, rangeOf } from '../draft.js';
import { numbered } from '../facts/numbered.js';
import { numbersTestimony } from '../facts/sides.js';
import { idsOf, neighbouringRuns } from '../runs.js';
import { differencesAt, recordFrame, returnFrame, type Scene } from '../scene.js';

/** The two halves of split exposures exchanged, over a run of exposures: what the film has as A came as B. */
export function halvesSwapped(scene: Scene): Candidate[] {
  const runs: PairRef[][] = [];
  scene.alignments.forEach((alignment, a) => {
    alignment.pairs.forEach((_, p) => {
      const first = { alignment: a, pair: p };
      const second = { alignment: a, pair: p + 1 };
      if (alignment.pairs[p + 1] === undefined || !exchanged(scene, first, second)) return;
      const run = runs.at(-1);
      const last = run?.at(-1);
      if (run !== undefined && last?.alignment === a && onlyUnsplitBetween(scene, last, first)) run.push(first, second);
      else runs.push([first, second]);
    });
  });
  return runs.map((refs) => {
    const last = refs.at(-1);
    const from = frameName(refs[0] === undefined ? undefined : recordFrame(scene, refs[0]));
    const to = frameName(last === undefined ? undefined : recordFrame(scene, last));
    const words = `frames ${from} to ${to}`;
    const title = scene.record.titles.find(
      (entry) => entry.id === scene.record.issues[(refs[0] === undefined ? undefined : recordFrame(scene, refs[0])?.issue) ?? -1]?.title,
    );
    const told = draft(scene, {
      code: 'halves-swapped',
      cause: 'vendor-metadata',
      about: refs,
      explains: idsOf(splitBetween(scene, refs).flatMap((ref) => differencesAt(scene, ref, 'number', 'page', 'order', 'section'))),
      field: 'frame',
      collation: 'A is the half that is read first',
      return: 'the two halves exchanged',
      says: `On ${words} the two halves of ${counted(refs.length / 2, 'exposure')} are exchanged: what is read first came as B.`,
      instruction: `Exchange the halves A and B on ${words}${title?.readingDirection === 'rtl' ? ': this title is read from right to left' : ''}; no rescans.`,
      constant: true,
    });
    return candidate(numbered(scene, refs, told));
  });
}

function exchanged(scene: Scene, first: PairRef, second: PairRef): boolean {
  const one = recordFrame(scene, first)?.frame;
  const two = recordFrame(scene, second)?.frame;
  const left = returnFrame(scene, first)?.frame;
  const right = returnFrame(scene, second)?.frame;
  if (one == null || two == null || left == null || right == null || one.half === '' || one.exposure !== two.exposure) return false;
  return (
    left.exposure === right.exposure &&
    left.half === two.half &&
    right.half === one.half &&
    left.half !== right.half &&
    left.exposure === one.exposure
  );
}

/** True when hardly a split exposure lies between that is not exchanged: the exchange went on. */
function onlyUnsplitBetween(scene: Scene, last: PairRef, next: PairRef): boolean {
  let halves = 0;
  for (let pair = last.pair + 1; pair < next.pair; pair++) {
    const frame = recordFrame(scene, { alignment: last.alignment, pair });
    if (frame?.kind === 'page' && frame.deliver && (frame.frame?.half ?? '') !== '') halves++;
  }
  return halves <= 6;
}

/** The halves of every split exposure from the first to the last of a run. */
function splitBetween(scene: Scene, refs: readonly PairRef[]): PairRef[] {
  const first = refs[0];
  const last = refs.at(-1);
  if (first === undefined || last === undefined) return [];
  const all = Array.from({ length: last.pair - first.pair + 1 }, (_, at) => ({ alignment: first.alignment, pair: first.pair + at }));
  return all.filter((ref) => (recordFrame(scene, ref)?.frame?.half ?? '') !== '' && returnFrame(scene, ref)?.kind === 'page');
}

/** Halves counted from the wrong exposure: every later half lies one place off. */
export function halvesShifted(scene: Scene): Candidate[] {
  return scene.alignments.flatMap((alignment, a) => {
    const wrong = alignment.pairs
      .map((_, p) => ({ alignment: a, pair: p }))
      .filter((ref) => differencesAt(scene, ref, 'number').length > 0);
    const runs = neighbouringRuns(wrong);
    return runs.flatMap((run) => {
      const halfDiffers = run.filter((ref) => {
        const mine = recordFrame(scene, ref)?.frame;
        const theirs = returnFrame(scene, ref)?.frame;
        return mine != null && theirs != null && mine.half !== theirs.half;
      });
      const first = run[0];
      if (first === undefined || halfDiffers.length < 3 || halfDiffers.length * 2 < run.length || !goOn(scene, run)) return [];
      const words = framesInWords(rangeOf(scene, run).frames);
      const at = frameName(recordFrame(scene, first));
      const theirs = returnFrame(scene, first)?.frame;
      const single = recordFrame(scene, first)?.frame?.half === '' && theirs?.half === 'A';
      const told = draft(scene, {
        code: 'halves-shifted',
        cause: 'vendor-metadata',
        about: run,
        explains: idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'number'))),
        field: 'frame',
        collation: at,
        return: theirs?.text ?? null,
        says: single
          ? `Frame ${at} is a single page and was counted as half of an exposure; so every half on ${words} is lettered one place off.`
          : `The halves on ${words} are lettered one place off.`,
        instruction: single
          ? `Treat frame ${at} as a single page and letter the halves anew from the next exposure on; no rescans.`
          : `Letter the halves on ${words} anew, beginning with ${at}; no rescans.`,
        constant: true,
      });
      // halves that are counted wrongly run on as well as right ones
      return [candidate(numbersTestimony(scene, run).cause === 'collation' ? numbered(scene, run, told) : told)];
    });
  });
}

/** Whether the numbers of a run go on from frame to frame on either side: what was lettered anew was still counted. */
function goOn(scene: Scene, run: readonly PairRef[]): boolean {
  const rises = (numbers: readonly (Frame | undefined)[]): boolean =>
    numbers.every((frame, at) => at === 0 || (frame !== undefined && slotOf(frame) > slotOf(numbers[at - 1])));
  return rises(run.map((ref) => recordFrame(scene, ref))) && rises(run.map((ref) => returnFrame(scene, ref)));
}

const slotOf = (frame: Frame | undefined): number => 2 * (frame?.frame?.exposure ?? 0) + (frame?.frame?.half === 'B' ? 1 : 0);
