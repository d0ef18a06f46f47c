import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, counted, draft, frameName, framesInWords, issueName, rangeOf, thing } from '../draft.js';
import { sidedBy } from '../facts/sided.js';
import { recordFrame, recordReelOf, returnFrame, type Scene } from '../scene.js';
import { needless } from './needless.js';
import { affected, offBy, orderShift, renumbering } from './shift-effects.js';
import type { Event } from './shift-events.js';

/** Frames of the record without a place in the numbering, with the numbers that are wrong behind them. */
export function lost(scene: Scene, event: Event, first: PairRef): Candidate {
  const pages = event.refs.filter((ref) => recordFrame(scene, ref)?.deliver === true);
  const after = affected(scene, event);
  const own = rangeOf(scene, event.refs);
  const what = event.refs.length === 1 ? thing(recordFrame(scene, first)) : counted(event.refs.length, 'frame');
  const doubt = pages.length === 0 ? lookAlikes(scene, event) : null;
  const mend = renumbering(event, after.words);
  const place = doubt === null ? framesInWords(own.frames) : `one of ${framesInWords({ from: doubt.from, to: doubt.to })}`;
  const issue = pages[0] === undefined ? null : (recordFrame(scene, pages[0])?.issue ?? null);
  const shared = {
    code: 'frame-not-scanned',
    about: event.refs,
    explains: [...event.own, ...event.ids, ...orderShift(scene, event)],
    at: doubt?.from ?? frameName(recordFrame(scene, first)),
    frames: after.frames ?? own.frames,
    count: after.frames === null ? own.count : after.count,
    field: 'frame',
    collation: `${place} (${what})`,
    return: 'no place in the numbering',
    constant: true,
  } as const;
  if (pages.length > 0) {
    const name = issue === null ? '' : ` of ${issueName(scene, issue)}`;
    const { cause, evidence } = needless(scene, event.refs, issue);
    const told = draft(scene, {
      ...shared,
      cause: 'vendor-image',
      says: `${capital(framesInWords(own.frames))} (${what}${name}) ${event.refs.length === 1 ? 'was' : 'were'} not scanned${event.wrong.length > 0 ? `; ${after.words} ${after.are} numbered ${offBy(event)}` : ''}.`,
      instruction: `Rescan ${framesInWords(own.frames)} and deliver ${pages.length === 1 ? 'it' : 'them'}${mend === '' ? '' : `; ${mend}`}.`,
      rescan: 'yes',
      billable: [{ class: 'page', change: 0 }],
      evidence: [
        ...evidence,
        ...(event.wrong.length > 0
          ? [`From ${after.frames?.from ?? ''} on, dates and pages agree when the numbers are moved by ${String(-event.delta)}.`]
          : []),
      ],
    });
    return candidate(cause === 'collation' ? { ...sidedBy(cause, framesInWords(own.frames), told, 'the film'), rescan: 'no' } : told);
  }
  return candidate(
    draft(scene, {
      ...shared,
      cause: 'unclear',
      says: `The return's numbering has no place for ${place} (${what})${event.wrong.length > 0 ? `; ${after.words} ${after.are} numbered ${offBy(event)}, and their dates and pages agree` : ''}.`,
      instruction: `Look at the film at ${place}: if the frame is there, ${mend === '' ? 'scan and count it' : `count it and ${mend}`}; no page needs a rescan.`,
      evidence:
        event.wrong.length > 0
          ? [`Every page from frame ${after.frames?.from ?? ''} on agrees once the numbers are moved by ${String(-event.delta)}.`]
          : [],
      alternatives: [
        { says: `The scanner skipped ${place}.`, cause: 'vendor-metadata', instruction: mend === '' ? null : `${capital(mend)}.` },
        { says: `The collation record counts a frame at ${place} that is not on the film.`, cause: 'collation', instruction: null },
      ],
      corrections: event.refs.map((ref) => ({
        reel: recordReelOf(scene, ref)?.text ?? '',
        frame: frameName(recordFrame(scene, ref)),
        action: 'remove',
        field: 'frame',
        from: frameName(recordFrame(scene, ref)),
        to: '',
      })),
    }),
  );
}

/** Frames of the same kind on either side of a lost one that cannot be told from it. */
function lookAlikes(scene: Scene, event: Event): { from: string; to: string } | null {
  const first = event.refs[0];
  const last = event.refs.at(-1);
  const kind = first === undefined ? undefined : recordFrame(scene, first)?.kind;
  if (first === undefined || last === undefined || kind === undefined) return null;
  const alike = (alignment: number, pair: number): boolean => {
    const found = scene.alignments[alignment]?.pairs[pair];
    if (found?.record == null || found.how !== 'order') return false;
    const frame = recordFrame(scene, { alignment, pair });
    // a listed target says no more of itself than a blank does
    return (
      frame?.kind === kind &&
      !frame.deliver &&
      (found.returned === null ||
        returnFrame(scene, { alignment, pair })?.kind === 'target' ||
        returnFrame(scene, { alignment, pair })?.kind === 'unmatched')
    );
  };
  let low = first.pair;
  let high = last.pair;
  while (alike(first.alignment, low - 1)) low--;
  while (alike(first.alignment, high + 1)) high++;
  if (low === first.pair && high === last.pair) return null;
  const [from, to] = [low, high].map((pair) => frameName(recordFrame(scene, { alignment: first.alignment, pair })));
  // a record that gives them all one number does not tell them apart either
  return from === undefined || to === undefined || from === to ? null : { from, to };
}
