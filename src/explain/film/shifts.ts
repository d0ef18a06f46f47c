import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, draft, frameName } from '../draft.js';
import { numbered } from '../facts/numbered.js';
import { pairKey } from '../runs.js';
import { differencesAt, recordFrame, returnFrame, type Scene } from '../scene.js';
import { affected, offBy, renumbering } from './shift-effects.js';
import { type Event, eventsOf, restored, wholeRuns } from './shift-events.js';
import { lost } from './shift-lost.js';
import { emptyNumber, lastRecordFrame, surplus } from './shift-surplus.js';

/** A frame left out or taken twice shifts every later number: one cause for the whole run. */
export function shifts(scene: Scene): Candidate[] {
  return scene.alignments.flatMap((alignment, a) => {
    if (alignment.recordReel === null || !alignment.numbered) return [];
    const events = wholeRuns(scene, a, restored(scene, eventsOf(scene, a)));
    return events.flatMap((event) => describe(scene, event));
  });
}

function describe(scene: Scene, event: Event): Candidate[] {
  const first = event.refs[0];
  if (first === undefined) return [];
  if (event.kind === 'lost') return wholeIssues(scene, event) ? [] : [lost(scene, event, first)];
  if (event.kind === 'repeat' || event.kind === 'start') return [renumber(scene, event, first)];
  if (event.kind !== 'empty') return surplus(scene, event, first);
  const [start] = event.wrong;
  return [start !== undefined && comesBack(scene, event) ? renumber(scene, event, start) : emptyNumber(scene, event, first)];
}

/** True where the frame behind the wrong numbers repeats the last of them, or one before it: then no frame was counted that is not there. */
function comesBack(scene: Scene, { wrong }: Event): boolean {
  const last = wrong.at(-1);
  const end = last === undefined ? null : (returnFrame(scene, last)?.frame ?? null);
  if (last === undefined || end === null) return false;
  const pairs = scene.alignments[last.alignment]?.pairs ?? [];
  let behind = last.pair + 1;
  while (behind < pairs.length && (pairs[behind]?.record === null || pairs[behind]?.returned === null)) behind++;
  const next = returnFrame(scene, { alignment: last.alignment, pair: behind })?.frame ?? null;
  return next !== null && (next.exposure < end.exposure || (next.exposure === end.exposure && next.half <= end.half));
}

/** Nothing but whole issues: each of them is told as an issue that was not delivered. */
function wholeIssues(scene: Scene, event: Event): boolean {
  const gone = new Set(event.refs.map(pairKey));
  return event.refs.every((ref) => {
    const frame = recordFrame(scene, ref);
    if (frame?.issue == null || !frame.deliver) return false;
    const pages = (scene.pairsOfRecordIssue.get(frame.issue) ?? []).filter((other) => recordFrame(scene, other)?.deliver === true);
    return pages.length > 1 && pages.every((other) => gone.has(pairKey(other)));
  });
}

function renumber(scene: Scene, event: Event, first: PairRef): Candidate {
  const after = affected(scene, event);
  const mend = renumbering(event, after.words);
  const before = lastRecordFrame(scene, first);
  const repeated = event.kind === 'repeat';
  // a frame of which no image came has its number from the place that the count leaves for it
  const shown = returnFrame(scene, first);
  const number = shown === undefined ? (differencesAt(scene, first, 'number')[0]?.returned ?? '?') : frameName(shown);
  const own = `number frame ${frameName(recordFrame(scene, first))} ${frameName(recordFrame(scene, first))}, and only this frame`;
  return candidate(
    numbered(
      scene,
      event.wrong,
      draft(scene, {
        code: repeated ? 'frame-number-repeated' : 'frame-number-wrong',
        cause: 'vendor-metadata',
        about: event.wrong,
        explains: [...event.own, ...event.ids],
        at: frameName(recordFrame(scene, first)),
        field: 'frame',
        collation: frameName(recordFrame(scene, first)),
        return: shown?.frame?.text ?? null,
        says: repeated
          ? `Two frames carry the number ${number}${after.count > 1 && event.delta !== 0 ? `; ${after.words} ${after.are} numbered ${offBy(event)}` : ''}.`
          : `${capital(after.words)} ${after.are} numbered ${offBy(event)}, although no frame is missing or surplus${before === '' ? '' : ` after frame ${before}`}.`,
        instruction: `${capital(event.delta === 0 ? own : mend)}; no rescans.`,
        constant: true,
      }),
    ),
    repeated ? 0 : 1,
  );
}
