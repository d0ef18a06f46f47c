import type { PairRef } from '../../model/difference.js';
import type { FrameRange } from '../../model/findings.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, counted, draft, frameName } from '../draft.js';
import { idsOf } from '../runs.js';
import { pairOf, recordFrame, recordReelOf, returnFrame, type Scene } from '../scene.js';
import { equalPicturesOf } from './equal-pictures.js';
import { affected, offBy, orderShift, renumbering } from './shift-effects.js';
import type { Event } from './shift-events.js';

/** Numbers under which nothing came and of which the record knows no frame. */
export function emptyNumber(scene: Scene, event: Event, first: PairRef): Candidate {
  const after = affected(scene, event);
  const mend = renumbering(event, after.words);
  const numbers = event.refs.map((ref) => String(pairOf(scene, ref).exposure ?? '?'));
  const behind = lastRecordFrame(scene, first);
  const place = behindWords(behind);
  const unbroken = scene.policies.frameNumbers === 'unbroken';
  const gap = event.refs.length > 2 || unbroken;
  // in front of the first frame others may lie that the record does not count; elsewhere frames may have been captured again and held back
  const sure = unbroken && behind !== '';
  const range: FrameRange | null = after.frames ?? (behind === '' ? null : { from: behind, to: behind });
  return candidate(
    draft(scene, {
      code: sure ? 'frame-number-gap' : gap ? 'frame-number-wrong' : 'frame-scanned-twice',
      cause: sure ? 'vendor-metadata' : 'unclear',
      about: event.refs,
      explains: [...event.own, ...event.ids],
      at: gap && event.wrong[0] !== undefined ? frameName(recordFrame(scene, event.wrong[0])) : behind === '' ? null : behind,
      frames: range,
      count: after.frames === null ? event.refs.length : after.count,
      field: 'frame',
      collation: `no frame ${place}`,
      return: numbers.length === 1 ? `number ${numbers[0] ?? ''}` : `numbers ${numbers[0] ?? ''} to ${numbers.at(-1) ?? ''}`,
      says: `${capital(place)} the return's numbering has ${counted(event.wrong.length > 0 && event.delta > 0 ? event.delta : event.refs.length, 'number')} more than the record has frames${event.wrong.length > 0 ? `; ${after.words} ${after.are} numbered ${offBy(event)}, and their dates and pages agree` : ''}.`,
      instruction: sure
        ? `Number the frames without a gap ${behind === '' ? 'from the first one on' : place}${mend === '' ? '' : `: ${mend}`}.`
        : `Look at the film ${place}: if nothing lies ${behind === '' ? 'there' : 'between'}, ${mend === '' ? 'remove the surplus number' : mend}; no rescans.`,
      alternatives: sure
        ? []
        : [
            {
              says: gap
                ? `Frames ${place} were captured twice and held back, or numbers were passed over.`
                : `An exposure without a page ${place} was captured twice, or a number was passed over.`,
              cause: 'vendor-metadata',
              instruction: mend === '' ? null : `${capital(mend)}.`,
            },
            {
              says: `The collation record lacks ${numbers.length === 1 ? 'a frame' : 'frames'} ${place}.`,
              cause: 'collation',
              instruction: null,
            },
          ],
      corrections: gap
        ? []
        : [{ reel: recordReelOf(scene, first)?.text ?? '', frame: behind, action: 'insert-after', field: 'frame', from: '', to: 'blank' }],
      constant: true,
    }),
  );
}

/** `after frame 12`, or what to say where nothing lies before. */
export function behindWords(behind: string): string {
  return behind === '' ? 'before the first frame' : `after frame ${behind}`;
}

/** The record's last frame before a pair that has none. */
export function lastRecordFrame(scene: Scene, ref: PairRef): string {
  for (let p = ref.pair - 1; p >= 0; p--) {
    const frame = recordFrame(scene, { alignment: ref.alignment, pair: p });
    if (frame !== undefined) return frameName(frame);
  }
  return '';
}

/** A page captured a second time: the same content as its neighbour, and later numbers one too high. What looks otherwise is left to the causes of presence. */
export function surplus(scene: Scene, event: Event, first: PairRef): Candidate[] {
  const twins = event.refs.map((ref) => twinOf(scene, ref));
  const shifted = event.wrong.length > 0;
  const after = affected(scene, event);
  const behind = lastRecordFrame(scene, first);
  const place = behindWords(behind);
  const mend = renumbering(event, after.words);
  const same = twins.every((twin) => twin !== null);
  const unmatched = event.refs.every((ref) => returnFrame(scene, ref)?.kind !== 'page');
  if (!same && !unmatched) return [];
  const pages = event.refs.filter((ref) => returnFrame(scene, ref)?.kind === 'page').length;
  // that pictures are equal is no more than that the frame came twice
  const pictures = event.refs.flatMap((ref, n) => {
    const twin = twins[n] ?? null;
    return twin === null ? [] : idsOf(equalPicturesOf(scene, pairOf(scene, ref).returned, pairOf(scene, twin).returned));
  });
  const at = twins[0] == null ? behind : frameName(recordFrame(scene, twins[0]));
  const image = returnFrame(scene, first);
  const number = image?.frame == null ? null : frameName(image);
  // In front of all frames of the record there is none whose second image it could be.
  const isFirst = at === '';
  const images = isFirst ? place : `of frame ${at}`;
  const remove = `Remove the ${event.refs.length > 1 ? 'surplus images' : isFirst ? 'surplus image' : 'second image'} ${images}${mend === '' ? '' : ` and ${mend}`}; no rescans.`;
  const came = isFirst
    ? `${counted(event.refs.length, 'exposure')} came ${place} of the record`
    : `Frame ${at} came ${event.refs.length === 1 ? 'twice' : `${String(event.refs.length + 1)} times`}`;
  return [
    candidate(
      draft(scene, {
        code: 'frame-scanned-twice',
        cause: unmatched ? 'unclear' : 'vendor-image',
        about: event.refs,
        explains: [...event.own, ...event.ids, ...orderShift(scene, event), ...pictures],
        at: isFirst ? null : at,
        frames: after.frames ?? (isFirst ? null : { from: at, to: at }),
        count: after.frames === null ? 1 : after.count,
        field: 'frame',
        collation: isFirst ? `no frame ${place}` : `frame ${at} once`,
        return: `${isFirst ? 'an image' : 'a second image'}${number === null ? '' : `, number ${number}`}`,
        says: `${came}${shifted ? `; ${after.words} ${after.are} numbered ${offBy(event)}` : ''}.`,
        instruction: unmatched
          ? `Look at the film ${isFirst ? place : `at frame ${at}`}: where ${isFirst ? 'nothing lies there' : 'it is there once'}, ${remove.charAt(0).toLowerCase()}${remove.slice(1)}`
          : remove,
        evidence: same ? [`${number === null ? 'It' : `Number ${number}`} carries the same title, date and page as frame ${at}.`] : [],
        alternatives: unmatched ? [{ says: `The collation record lacks a frame ${place}.`, cause: 'collation', instruction: null }] : [],
        billable: pages > 0 ? [{ class: 'page', change: -pages }] : [],
        corrections: unmatched
          ? [{ reel: recordReelOf(scene, first)?.text ?? '', frame: behind, action: 'insert-after', field: 'frame', from: '', to: 'blank' }]
          : [],
        constant: true,
      }),
    ),
  ];
}

/** The neighbouring frame of the record whose page the surplus one repeats: same document, and the same label or order beside it. */
function twinOf(scene: Scene, ref: PairRef): PairRef | null {
  const mine = returnFrame(scene, ref);
  if (mine?.kind !== 'page') return null;
  for (const step of [-1, 1, -2, 2]) {
    const neighbour = { alignment: ref.alignment, pair: ref.pair + step };
    if (scene.alignments[ref.alignment]?.pairs[neighbour.pair] === undefined) continue;
    const other = returnFrame(scene, neighbour);
    if (other?.kind !== 'page' || recordFrame(scene, neighbour) === undefined || other.issue !== mine.issue) continue;
    const digest = mine.files.some((file) => file.digest !== null && other.files.some((one) => one.digest === file.digest));
    if (digest || (other.pageKey === mine.pageKey && other.section === mine.section)) return neighbour;
  }
  return null;
}
