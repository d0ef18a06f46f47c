import type { PairRef } from '../model/difference.js';
import type { FrameRange } from '../model/findings.js';
import { type Candidate, candidate } from './candidate.js';
import { counted, draft, frameName, framesInWords, issueName, rangeOf, thing } from './draft.js';
import { differencesAt, pairOf, recordFrame, recordReelOf, returnFrame, type Scene } from './scene.js';

/** Where a run of wrong numbers begins: frames that one side lacks, a repeated number, or numbers that start elsewhere. */
interface Event {
  readonly kind: 'lost' | 'surplus' | 'empty' | 'repeat' | 'start';
  readonly refs: readonly PairRef[];
  /** Ids of the differences at the event itself. */
  readonly own: readonly number[];
  /** Pairs whose numbers are wrong from here up to the next event, and the ids of those differences. */
  readonly wrong: PairRef[];
  readonly ids: number[];
  delta: number;
}

/** A frame left out or taken twice shifts every later number: one cause for the whole run. */
export function shifts(scene: Scene): Candidate[] {
  return scene.alignments.flatMap((alignment, a) => {
    if (alignment.recordReel === null) return [];
    const events = restored(scene, eventsOf(scene, a));
    return events.flatMap((event) => describe(scene, event));
  });
}

function eventsOf(scene: Scene, a: number): Event[] {
  const events: Event[] = [];
  const pairs = scene.alignments[a]?.pairs ?? [];
  let delta = 0;
  // The event whose wrong numbers these are: one that leaves the offset as it was, such as a lost second half, takes none over.
  let carrier: Event | undefined;
  pairs.forEach((pair, p) => {
    const ref = { alignment: a, pair: p };
    if (pair.how !== 'order') return;
    const own = differencesAt(scene, ref, 'not-scanned', 'surplus', 'empty-number');
    const first = own[0];
    if (first !== undefined) {
      const kind = first.field === 'not-scanned' ? 'lost' : first.field === 'surplus' ? 'surplus' : 'empty';
      const last = events.at(-1);
      const before = last?.refs.at(-1);
      if (last !== undefined && before?.pair === p - 1 && last.kind === kind && last.wrong.length === 0) {
        events[events.length - 1] = { ...last, refs: [...last.refs, ref], own: [...last.own, first.id] };
      } else {
        events.push({ kind, refs: [ref], own: [first.id], wrong: [], ids: [], delta: 0 });
      }
      return;
    }
    const wrong = differencesAt(scene, ref, 'number')[0];
    const here = wrong === undefined ? (pair.slot && pair.record !== null ? 0 : delta) : exposureDelta(wrong.collation, wrong.returned);
    const last = events.at(-1);
    const explained = last !== undefined && last.wrong.length === 0 && (last.refs.at(-1)?.pair ?? -2) === p - 1;
    if (here !== delta && !explained && wrong !== undefined) {
      // the numbers change their offset although no frame is missing: a number was used twice, or the count began elsewhere
      events.push({ kind: p > 0 && here < delta ? 'repeat' : 'start', refs: [ref], own: [], wrong: [], ids: [], delta: here });
    }
    if (here !== delta || carrier === undefined) carrier = events.at(-1);
    delta = here;
    if (wrong !== undefined && carrier !== undefined) {
      // A frame without a number inside the run does not break it.
      const between = events.at(-1);
      if (between !== undefined && between !== carrier && between.kind === 'lost' && between.refs.at(-1)?.pair === p - 1)
        carrier.wrong.push(...between.refs);
      carrier.wrong.push(ref);
      carrier.ids.push(wrong.id);
      carrier.delta = here;
    }
  });
  return events;
}

/** A number used twice and the one left empty after it are one slip of the counter. */
function restored(scene: Scene, events: readonly Event[]): Event[] {
  const result: Event[] = [];
  for (const event of events) {
    const last = result.at(-1);
    if (
      event.kind === 'empty' &&
      event.refs.length === 1 &&
      last?.kind === 'repeat' &&
      (event.wrong.length === 0 ? last.delta === -1 : event.delta === last.delta + 1)
    ) {
      result[result.length - 1] = { ...last, own: [...last.own, ...event.own], wrong: upToLastShown(scene, last.wrong) };
      // what is still wrong behind it goes back to what made it wrong before
      const before = result.at(-2);
      if (before !== undefined && before.delta === event.delta) {
        before.wrong.push(...event.wrong);
        before.ids.push(...event.ids);
      }
    } else {
      result.push(event);
    }
  }
  return result;
}

/** Without the frames at the end that the return does not show: where the count is right again behind them, nothing says that theirs was wrong. */
function upToLastShown(scene: Scene, refs: readonly PairRef[]): PairRef[] {
  const last = refs.findLastIndex((ref) => pairOf(scene, ref).returned !== null);
  return refs.slice(0, last < 0 ? refs.length : last + 1);
}

function exposureDelta(collation: string | null, returned: string | null): number {
  return Number.parseInt(returned ?? '0', 10) - Number.parseInt(collation ?? '0', 10);
}

function describe(scene: Scene, event: Event): Candidate[] {
  const first = event.refs[0];
  if (first === undefined) return [];
  if (event.kind === 'lost') return [lost(scene, event, first)];
  if (event.kind === 'repeat' || event.kind === 'start') return [renumber(scene, event, first)];
  return event.kind === 'empty' ? [emptyNumber(scene, event, first)] : surplus(scene, event, first);
}

/** The frames whose numbers are wrong because of the event, or the event's own where none are. */
function affected(scene: Scene, event: Event): { frames: FrameRange | null; count: number; words: string; are: 'is' | 'are' } {
  const range = rangeOf(scene, event.wrong);
  return { frames: range.frames, count: range.count, words: framesInWords(range.frames), are: range.count === 1 ? 'is' : 'are' };
}

function renumbering(event: Event, words: string): string {
  if (event.wrong.length === 0) return '';
  return `renumber ${words} by ${event.delta < 0 ? '+' : '-'}${String(Math.abs(event.delta))}`;
}

function lost(scene: Scene, event: Event, first: PairRef): Candidate {
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
    return candidate(
      draft(scene, {
        ...shared,
        cause: 'vendor-image',
        says: `${capital(framesInWords(own.frames))} (${what}${name}) ${event.refs.length === 1 ? 'was' : 'were'} not scanned${event.wrong.length > 0 ? `; ${after.words} ${after.are} numbered ${String(Math.abs(event.delta))} too low` : ''}.`,
        instruction: `Rescan ${framesInWords(own.frames)} and deliver ${pages.length === 1 ? 'it' : 'them'}${mend === '' ? '' : `; ${mend}`}.`,
        rescan: 'yes',
        billable: [{ class: 'page', change: 0 }],
        evidence:
          event.wrong.length > 0
            ? [`From ${after.frames?.from ?? ''} on, dates and pages agree when the numbers are moved by ${String(-event.delta)}.`]
            : [],
      }),
    );
  }
  return candidate(
    draft(scene, {
      ...shared,
      cause: 'unclear',
      says: `The return's numbering has no place for ${place} (${what})${event.wrong.length > 0 ? `; ${after.words} ${after.are} numbered ${String(Math.abs(event.delta))} too low, and their dates and pages agree` : ''}.`,
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
  return {
    from: frameName(recordFrame(scene, { alignment: first.alignment, pair: low })),
    to: frameName(recordFrame(scene, { alignment: first.alignment, pair: high })),
  };
}

/** Page numbers inside the issue that moved along because a page before them is missing or doubled. */
function orderShift(scene: Scene, event: Event): number[] {
  const ids: number[] = [];
  for (const ref of event.refs) {
    const issue = recordFrame(scene, ref)?.issue ?? returnFrame(scene, ref)?.issue ?? null;
    if (issue === null) continue;
    const step = event.kind === 'lost' ? -1 : 1;
    const own = (event.kind === 'lost' ? recordFrame(scene, ref) : returnFrame(scene, ref))?.order ?? null;
    const pairs = event.kind === 'lost' ? scene.pairsOfRecordIssue.get(issue) : scene.pairsOfReturnIssue.get(issue);
    for (const other of pairs ?? []) {
      if (other.alignment !== ref.alignment || other.pair === ref.pair) continue;
      // Behind it on the film, or behind it in the issue where pages were filmed out of order.
      const place = recordFrame(scene, other)?.order ?? 0;
      if (other.pair < ref.pair && (own === null || place < own)) continue;
      for (const difference of differencesAt(scene, other, 'order', 'page')) {
        if (Number(difference.returned) - Number(difference.collation) === step * event.refs.length) ids.push(difference.id);
      }
    }
  }
  return [...new Set(ids)];
}

function renumber(scene: Scene, event: Event, first: PairRef): Candidate {
  const after = affected(scene, event);
  const mend = renumbering(event, after.words);
  const before = { alignment: first.alignment, pair: first.pair - 1 };
  const repeated = event.kind === 'repeat';
  const number = frameName(returnFrame(scene, first));
  return candidate(
    draft(scene, {
      code: repeated ? 'frame-number-repeated' : 'frame-number-wrong',
      cause: 'vendor-metadata',
      about: event.wrong,
      explains: [...event.own, ...event.ids],
      at: frameName(recordFrame(scene, first)),
      field: 'frame',
      collation: frameName(recordFrame(scene, first)),
      return: returnFrame(scene, first)?.frame?.text ?? null,
      says: repeated
        ? `Two frames carry the number ${number}${after.count > 1 ? `; ${after.words} ${after.are} numbered ${String(Math.abs(event.delta))} too low` : ''}.`
        : `${capital(after.words)} ${after.are} numbered ${String(Math.abs(event.delta))} too ${event.delta < 0 ? 'low' : 'high'}, although no frame is missing or surplus${first.pair > 0 ? ` after frame ${frameName(recordFrame(scene, before))}` : ''}.`,
      instruction: `${capital(mend)}; no rescans.`,
      constant: true,
    }),
    repeated ? 0 : 1,
  );
}

function emptyNumber(scene: Scene, event: Event, first: PairRef): Candidate {
  const after = affected(scene, event);
  const mend = renumbering(event, after.words);
  const numbers = event.refs.map((ref) => String(pairOf(scene, ref).exposure ?? '?'));
  const behind = lastRecordFrame(scene, first);
  const unbroken = scene.policies.frameNumbers === 'unbroken';
  const gap = event.refs.length > 2 || unbroken;
  const range: FrameRange | null = after.frames ?? (behind === '' ? null : { from: behind, to: behind });
  return candidate(
    draft(scene, {
      code: unbroken ? 'frame-number-gap' : gap ? 'frame-number-wrong' : 'frame-scanned-twice',
      cause: gap ? 'vendor-metadata' : 'unclear',
      about: event.refs,
      explains: [...event.own, ...event.ids],
      at: gap && event.wrong[0] !== undefined ? frameName(recordFrame(scene, event.wrong[0])) : behind === '' ? null : behind,
      frames: range,
      count: after.frames === null ? event.refs.length : after.count,
      field: 'frame',
      collation: `no frame after ${behind}`,
      return: numbers.length === 1 ? `number ${numbers[0] ?? ''}` : `numbers ${numbers[0] ?? ''} to ${numbers.at(-1) ?? ''}`,
      says: `After frame ${behind} the return's numbering has ${event.wrong.length > 0 ? counted(event.delta, 'number') : counted(event.refs.length, 'number')} more than the record has frames${event.wrong.length > 0 ? `; ${after.words} ${after.are} numbered ${String(event.delta)} too high, and their dates and pages agree` : ''}.`,
      instruction: gap
        ? `Number the frames without a gap after frame ${behind}${mend === '' ? '' : `: ${mend}`}.`
        : `Look at the film after frame ${behind}: if nothing lies between, ${mend === '' ? 'remove the surplus number' : mend}; no rescans.`,
      alternatives: gap
        ? []
        : [
            {
              says: `An exposure without a page after frame ${behind} was captured twice, or a number was passed over.`,
              cause: 'vendor-metadata',
              instruction: mend === '' ? null : `${capital(mend)}.`,
            },
            { says: `The collation record lacks a frame after ${behind}.`, cause: 'collation', instruction: null },
          ],
      corrections: gap
        ? []
        : [{ reel: recordReelOf(scene, first)?.text ?? '', frame: behind, action: 'insert-after', field: 'frame', from: '', to: 'blank' }],
      constant: true,
    }),
  );
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
function surplus(scene: Scene, event: Event, first: PairRef): Candidate[] {
  const twins = event.refs.map((ref) => twinOf(scene, ref));
  const shifted = event.wrong.length > 0;
  const after = affected(scene, event);
  const behind = lastRecordFrame(scene, first);
  const mend = renumbering(event, after.words);
  const same = twins.every((twin) => twin !== null);
  const unmatched = event.refs.every((ref) => returnFrame(scene, ref)?.kind !== 'page');
  if (!same && !unmatched) return [];
  const pages = event.refs.filter((ref) => returnFrame(scene, ref)?.kind === 'page').length;
  const at = twins[0] ?? behind;
  return [
    candidate(
      draft(scene, {
        code: 'frame-scanned-twice',
        cause: unmatched ? 'unclear' : 'vendor-image',
        about: event.refs,
        explains: [...event.own, ...event.ids, ...orderShift(scene, event)],
        at,
        frames: after.frames ?? { from: at, to: at },
        count: after.frames === null ? 1 : after.count,
        field: 'frame',
        collation: `frame ${at} once`,
        return: `a second image, number ${frameName(returnFrame(scene, first))}`,
        says: `Frame ${at} came ${event.refs.length === 1 ? 'twice' : `${String(event.refs.length + 1)} times`}${shifted ? `; ${after.words} ${after.are} numbered ${String(event.delta)} too high` : ''}.`,
        instruction: `Remove the ${event.refs.length === 1 ? 'second image' : 'surplus images'} of frame ${at}${mend === '' ? '' : ` and ${mend}`}; no rescans.`,
        evidence: same ? [`Number ${frameName(returnFrame(scene, first))} carries the same title, date and page as frame ${at}.`] : [],
        alternatives: unmatched
          ? [{ says: `The collation record lacks a frame after ${behind}.`, cause: 'collation', instruction: null }]
          : [],
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
function twinOf(scene: Scene, ref: PairRef): string | null {
  const mine = returnFrame(scene, ref);
  if (mine?.kind !== 'page') return null;
  for (const step of [-1, 1, -2, 2]) {
    const neighbour = { alignment: ref.alignment, pair: ref.pair + step };
    if (scene.alignments[ref.alignment]?.pairs[neighbour.pair] === undefined) continue;
    const other = returnFrame(scene, neighbour);
    if (other?.kind !== 'page' || recordFrame(scene, neighbour) === undefined || other.issue !== mine.issue) continue;
    const digest = mine.files.some((file) => file.digest !== null && other.files.some((one) => one.digest === file.digest));
    if (digest || (other.pageKey === mine.pageKey && other.section === mine.section)) return frameName(recordFrame(scene, neighbour));
  }
  return null;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
