import { readFrameNumber } from '../normalise/labels.js';
import type { Facts, Shot } from './facts.js';
import { counted, type Irregularity, ofShots } from './item.js';

/** Frame numbers that do not count on, and halves of exposures without the other half. */
export function irregularFrames({ reels }: Facts): readonly Irregularity[] {
  return reels.flatMap(({ number, print, shots }) => {
    // Places in a printed volume are counted on and mean nothing.
    if (print) return [];
    return shots.flatMap((shot, at): readonly Irregularity[] => {
      const before = shots[at - 1];
      const after = shots[at + 1];
      const own = readFrameNumber(shot.entry.frame);
      if (own === null) return [];
      const last = before === undefined ? null : readFrameNumber(before.entry.frame);
      const next = after === undefined ? null : readFrameNumber(after.entry.frame);
      if (before !== undefined && last !== null && own.exposure > last.exposure + 1) {
        const gone = own.exposure - last.exposure - 1;
        return [
          ofShots([shot], null, {
            code: 'frame-numbers-broken',
            says: `On reel ${number} frame ${shot.key} follows frame ${before.key}: ${counted(gone, 'number')} ${gone === 1 ? 'is' : 'are'} left out.`,
            likely: 'A frame was overlooked in the record, or the count jumped. Look at the counter of the film reader there.',
            also: [before],
          }),
        ];
      }
      if (last !== null && own.exposure < last.exposure)
        return [
          ofShots([shot], null, {
            code: 'frame-numbers-broken',
            says: `On reel ${number} frame ${shot.key} stands behind frame ${before?.key ?? ''}: the numbers go back.`,
            also: before === undefined ? [] : [before],
          }),
        ];
      const alone =
        (own.half === 'A' && !(next?.exposure === own.exposure && next.half === 'B')) ||
        (own.half === 'B' && !(last?.exposure === own.exposure && last.half === 'A'));
      if (!alone) return [];
      return [
        ofShots([shot], null, {
          code: 'frame-numbers-broken',
          says: `Frame ${shot.key} of reel ${number} is half an exposure, and the other half is not in the record.`,
          likely: 'Give the exposure its number without a letter, or write a row for the other half.',
          also: own.half === 'A' ? (after === undefined ? [] : [after]) : before === undefined ? [] : [before],
        }),
      ];
    });
  });
}

/** Held-back frames that repeat nothing, and duplicates and retakes of frames that are not there. */
export function irregularDuplicates(facts: Facts): readonly Irregularity[] {
  const byPlace = new Map<string, Shot>(
    facts.reels.flatMap(({ number, shots }) => shots.map((shot) => [`${number}|${shot.key}`, shot] as const)),
  );
  const shown = new Set(
    facts.reels.flatMap(({ shots }) =>
      shots.flatMap(({ issue, label, deliver }) => (deliver && issue !== null && label !== null ? [`${issue}|${label}`] : [])),
    ),
  );
  // An issue of which nothing is delivered is held back on purpose: it was not ordered.
  const delivered = new Set(facts.reels.flatMap(({ shots }) => shots.flatMap(({ deliver, issue }) => (deliver ? (issue ?? []) : []))));
  const both = keepsBoth(facts);
  return facts.reels.flatMap(({ number, shots }) =>
    shots.flatMap((shot): readonly Irregularity[] => {
      const { entry } = shot;
      for (const [field, pointer] of [
        ['duplicate', entry.duplicateOf],
        ['retake', entry.retakeOf],
      ] as const) {
        if (pointer === undefined) continue;
        const at = pointer.lastIndexOf(':');
        const key = readFrameNumber(pointer.slice(at + 1));
        const place = `${at < 0 ? number : pointer.slice(0, at).trim()}|${key === null ? pointer : `${String(key.exposure)}${key.half}`}`;
        // A frame of a reel that is not in this record cannot be looked at.
        if (at >= 0 && !facts.reels.some(({ number: other }) => other === pointer.slice(0, at).trim())) continue;
        const twin = byPlace.get(place);
        if (twin === undefined || twin === shot)
          return [
            ofShots([shot], null, {
              code: 'duplicate-unpaired',
              says: `Frame ${shot.key} of reel ${number} is said to be a ${field} of frame ${pointer}, which ${twin === shot ? 'it is itself' : 'the record does not have'}.`,
            }),
          ];
        if (twin.label !== null && shot.label !== null && (twin.label !== shot.label || twin.issue !== shot.issue))
          return [
            ofShots([shot], null, {
              code: 'duplicate-unpaired',
              says: `Frame ${shot.key} of reel ${number} is said to be a ${field} of frame ${pointer}, which shows another page.`,
              evidence: [`${inWords(shot)} and ${inWords(twin)}.`],
            }),
          ];
        const odd =
          worseTake(shot, twin, field, number) ?? needlessRetake(shot, twin, field) ?? (both ? null : needlessCopy(shot, twin, shots));
        return odd === null ? [] : [odd];
      }
      if (!shot.isPage || shot.deliver || shot.issue === null || shot.label === null || !delivered.has(shot.issue)) return [];
      if (shown.has(`${shot.issue}|${shot.label}`)) return [];
      return [
        ofShots([shot], null, {
          code: 'duplicate-unpaired',
          says: `Frame ${shot.key} of reel ${number} is held back, and no other frame shows the page.`,
          likely: 'Deliver it, or record that the page is not on the film.',
          evidence: [`It is ${inWords(shot)}.`],
        }),
      ];
    }),
  );
}

/** The better of two takes is delivered: that which was filmed to make the other good, and that of which no fault is noted. */
function worseTake(shot: Shot, twin: Shot, field: 'duplicate' | 'retake', reel: string): Irregularity | null {
  if (!shot.isPage || !twin.isPage || shot.deliver === twin.deliver) return null;
  const [kept, held] = shot.deliver ? [shot, twin] : [twin, shot];
  const faulty = ({ entry }: Shot): boolean => (entry.condition ?? []).length > 0;
  const madeGood = field === 'retake' && held === shot;
  if (!madeGood && !(faulty(kept) && !faulty(held) && field === 'duplicate')) return null;
  return ofShots([kept], null, {
    code: 'duplicate-unpaired',
    says: madeGood
      ? `Frame ${held.key} of reel ${reel} was filmed to make frame ${kept.key} good, and it is frame ${kept.key} that is delivered.`
      : `Frame ${kept.key} of reel ${reel} is ${(kept.entry.condition ?? []).join(' and ')} and delivered; frame ${held.key} shows the same page without a fault noted, and is held back.`,
    likely: `Frame ${held.key} is probably the one to deliver.`,
    also: [held],
    doubtful: ['delivered'],
  });
}

/** A frame that was filmed again is not wanted beside the good one. */
function needlessRetake(shot: Shot, twin: Shot, field: 'duplicate' | 'retake'): Irregularity | null {
  if (field !== 'retake' || !shot.isPage || !shot.deliver || !twin.deliver) return null;
  return ofShots([shot], null, {
    code: 'duplicate-unpaired',
    says: `Frame ${shot.key} of reel ${shot.reel} was filmed to make frame ${twin.key} good, and both are to be delivered.`,
    likely: `Hold frame ${twin.key} back; where both are to be kept, name the frame as a duplicate and not as a retake.`,
    also: [twin],
    doubtful: ['delivered', 'order'],
  });
}

/** Whether a library has most second copies delivered beside the first ones. */
function keepsBoth({ reels }: Facts): boolean {
  const copies = reels.flatMap(({ shots }) => shots.filter(({ entry }) => entry.duplicateOf !== undefined));
  return copies.length > 1 && copies.filter(({ deliver }) => deliver).length > copies.length / 2;
}

/** Both copies of a page are kept because each lacks something; where nothing is noted of the issue one of them was to be held back. */
function needlessCopy(shot: Shot, twin: Shot, shots: readonly Shot[]): Irregularity | null {
  if (!shot.isPage || !shot.deliver || !twin.deliver) return null;
  // a sheet of issues has one note for all frames of its row
  const noted = twin.entry.note !== undefined || shots.some(({ issue, entry }) => issue === shot.issue && entry.note !== undefined);
  if (noted || [shot, twin].every(({ entry }) => (entry.condition ?? []).length > 0)) return null;
  return ofShots([shot], null, {
    code: 'duplicate-unpaired',
    says: `Frame ${shot.key} of reel ${shot.reel} repeats frame ${twin.key}, and both are delivered; nothing is noted of what either lacks.`,
    likely: 'Hold one of them back, or note why both are kept.',
    also: [twin],
    doubtful: ['delivered', 'order'],
  });
}

function inWords({ key, entry }: Shot): string {
  return `page ${entry.page ?? '-'} of ${entry.date ?? 'no date'} in frame ${key}`;
}
