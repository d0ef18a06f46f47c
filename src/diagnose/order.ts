import type { PairRef } from '../model/difference.js';
import { type Candidate, candidate } from './candidate.js';
import type { FindingDraft } from './draft.js';
import { counted, draft, frameName, framesInWords, rangeOf } from './draft.js';
import { groupBy, idsOf, neighbouringRuns } from './runs.js';
import { differencesAt, fieldOf, pairOf, recordFrame, recordReelOf, returnFrame, type Scene } from './scene.js';
import { capital } from './shifts.js';

/** Wrong numbers of single frames, sections scanned backwards, halves exchanged or counted from the wrong side, and wrong reel numbers. */
export function frameOrder(scene: Scene): Candidate[] {
  return [
    ...wrongNumbers(scene),
    ...reversals(scene),
    ...halvesSwapped(scene),
    ...halvesShifted(scene),
    ...notSplit(scene),
    ...reelNumbers(scene),
  ];
}

/** A page that came under a number far from its place. */
function wrongNumbers(scene: Scene): Candidate[] {
  return fieldOf(scene, 'number').flatMap((difference) => {
    const ref = difference.pairs[0];
    if (ref === undefined || pairOf(scene, ref).how !== 'moved') return [];
    const name = frameName(recordFrame(scene, ref));
    const before = returnFrame(scene, { alignment: ref.alignment, pair: ref.pair - 1 });
    const repeated = ref.pair > 0 && before?.frame?.text === difference.returned;
    const statement = {
      code: repeated ? 'frame-number-repeated' : 'frame-number-wrong',
      cause: 'vendor-metadata',
      about: [ref],
      explains: idsOf(differencesAt(scene, ref, 'number')),
      field: 'frame',
      collation: name,
      return: difference.returned,
      says: `Frame ${name} came under the number ${difference.returned ?? '?'}; its title, date and page are those of frame ${name}.`,
      instruction: `Number this page ${name} instead of ${difference.returned ?? '?'}; no rescan.`,
    } as const;
    return [candidate(draft(scene, statement))];
  });
}

function reversals(scene: Scene): Candidate[] {
  return scene.alignments.flatMap((alignment, a) =>
    alignment.reversals.map(({ from, to }) => {
      const refs = alignment.pairs.map((_, p) => ({ alignment: a, pair: p })).filter((ref) => ref.pair >= from && ref.pair <= to);
      const whole = refs.length > alignment.pairs.length * 0.8;
      const ends = whole
        ? alignment.pairs
            .map((_, p) => ({ alignment: a, pair: p }))
            .flatMap((ref) => differencesAt(scene, ref, 'not-scanned', 'empty-number'))
        : [];
      const about = refs.filter((ref) => recordFrame(scene, ref) !== undefined);
      const words = framesInWords(rangeOf(scene, about).frames);
      return candidate(
        draft(scene, {
          code: 'frames-reversed',
          cause: 'vendor-metadata',
          about,
          explains: [...idsOf(refs.flatMap((ref) => differencesAt(scene, ref, 'number', 'empty-number'))), ...idsOf(ends)],
          field: 'frame',
          collation: `${words} in film order`,
          return: 'the same frames from last to first',
          says: whole
            ? `The reel was scanned from its tail: ${words} came in the opposite order.`
            : `${capital(words)} came in the opposite order, as if this section had been scanned from its end.`,
          instruction: `Reverse the numbering of ${words}, and check that no image is turned or mirrored.`,
          evidence: [`Dates and pages agree frame by frame when the order is turned round.`],
          constant: true,
        }),
      );
    }),
  );
}

/** The two halves of split exposures exchanged, over a run of exposures: what the film has as A came as B. */
function halvesSwapped(scene: Scene): Candidate[] {
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
    return candidate(
      draft(scene, {
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
      }),
    );
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
function halvesShifted(scene: Scene): Candidate[] {
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
      if (first === undefined || halfDiffers.length < 3 || halfDiffers.length * 2 < run.length) return [];
      const words = framesInWords(rangeOf(scene, run).frames);
      const at = frameName(recordFrame(scene, first));
      const theirs = returnFrame(scene, first)?.frame;
      const single = recordFrame(scene, first)?.frame?.half === '' && theirs?.half === 'A';
      return [
        candidate(
          draft(scene, {
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
          }),
        ),
      ];
    });
  });
}

/** An exposure of two pages that came as one image, or lost its second half. */
function notSplit(scene: Scene): Candidate[] {
  const lacking = [...fieldOf(scene, 'not-scanned'), ...fieldOf(scene, 'not-delivered')].flatMap((difference) => difference.pairs);
  return lacking.flatMap((ref) => {
    const mine = recordFrame(scene, ref);
    if (mine?.frame == null || mine.frame.half === '' || !mine.deliver) return [];
    const exposure = mine.frame.exposure;
    const other = [-1, 1]
      .map((step) => ({ alignment: ref.alignment, pair: ref.pair + step }))
      .find(
        (one) => scene.alignments[one.alignment]?.pairs[one.pair] !== undefined && recordFrame(scene, one)?.frame?.exposure === exposure,
      );
    const partner = other === undefined ? undefined : returnFrame(scene, other);
    if (other === undefined || partner?.kind !== 'page') return [];
    const unlettered = partner.frame?.half === '';
    if (
      !unlettered &&
      partner.frame?.half === recordFrame(scene, other)?.frame?.half &&
      partner.frame?.half !== '' &&
      widthOf(partner) === null
    )
      return [];
    const ratio = widthRatio(scene, other);
    const single = ratio !== null && ratio < 1.5;
    if (single && !unlettered) return [];
    const issue = mine.issue;
    const shifted = (issue === null ? [] : (scene.pairsOfRecordIssue.get(issue) ?? []))
      .flatMap((one) => differencesAt(scene, one, 'order'))
      .filter((d) => Number(d.returned) - Number(d.collation) < 0);
    const name = frameName(mine);
    const partnerName = frameName(recordFrame(scene, other));
    const base: Partial<FindingDraft> & { about: PairRef[]; explains: number[] } = {
      about: [ref],
      explains: [
        ...idsOf(differencesAt(scene, ref, 'not-scanned', 'not-delivered')),
        ...idsOf(differencesAt(scene, other, 'number')),
        ...idsOf(shifted),
      ],
      field: 'frame',
      collation: `${partnerName} and ${name}`,
      return: partner.frame?.text ?? null,
    };
    if (single) {
      return [
        candidate(
          draft(scene, {
            ...base,
            code: 'page-not-delivered',
            cause: 'vendor-image',
            says: `The second page of exposure ${String(exposure)} (${name}, page ${mine.page ?? '?'}) did not come; the one image is as wide as a single page.`,
            instruction: `Deliver frame ${name} (page ${mine.page ?? '?'}), and letter the other half ${partnerName}.`,
            rescan: 'yes',
            billable: [{ class: 'page', change: 0 }],
          }),
        ),
      ];
    }
    const sure = ratio !== null;
    return [
      candidate(
        draft(scene, {
          ...base,
          at: partnerName < name ? partnerName : name,
          frames: { from: partnerName < name ? partnerName : name, to: partnerName < name ? name : partnerName },
          count: 2,
          code: 'exposure-not-split',
          cause: sure ? 'vendor-image' : 'unclear',
          says: `Exposure ${String(exposure)} holds two pages (${partnerName} and ${name}) and came as one image${sure ? `, ${ratio.toFixed(1)} times as wide as the other pages` : ''}.`,
          instruction: sure
            ? `Split the image of exposure ${String(exposure)} into ${partnerName} and ${name}.`
            : `Look at the image of exposure ${String(exposure)}: if it shows both pages, split it into ${partnerName} and ${name}; if not, deliver ${name}.`,
          evidence: sure
            ? [`The image is ${ratio.toFixed(1)} times as wide as the usual page of this reel.`]
            : ['The return gives no image width, so an unsplit image and a lost half cannot be told apart.'],
          alternatives: sure
            ? []
            : [
                {
                  says: `The image of exposure ${String(exposure)} shows both pages and was not split.`,
                  cause: 'vendor-image',
                  instruction: `Split it into ${partnerName} and ${name}.`,
                },
                { says: `The half ${name} was lost.`, cause: 'vendor-image', instruction: `Deliver frame ${name}.` },
              ],
          rescan: sure ? 'no' : 'yes',
        }),
      ),
    ];
  });
}

function widthOf(frame: { files: readonly { width: number | null }[] }): number | null {
  return frame.files.find((file) => file.width !== null)?.width ?? null;
}

/** Width of a page's image against the median of its reel; null where widths are not given. */
function widthRatio(scene: Scene, ref: PairRef): number | null {
  const frame = returnFrame(scene, ref);
  const width = frame === undefined ? null : widthOf(frame);
  const at = pairOf(scene, ref).returned;
  if (width === null || at === null) return null;
  const widths = (scene.returned.reels[at.reel]?.frames ?? [])
    .flatMap((one) => (one.kind === 'page' ? (widthOf(one) ?? []) : []))
    .sort((a, b) => a - b);
  const median = widths[Math.floor(widths.length / 2)];
  return median === undefined || median === 0 || widths.length < 3 ? null : width / median;
}

/** Frames that came under the number of another reel, one finding for the run. */
function reelNumbers(scene: Scene): Candidate[] {
  const groups = groupBy(
    fieldOf(scene, 'reel'),
    (difference) => `${String(difference.pairs[0]?.alignment ?? '')}|${difference.collation ?? ''}|${difference.returned ?? ''}`,
  );
  return [...groups.values()].map((differences) => {
    const refs = differences.flatMap((difference) => difference.pairs);
    const first = differences[0];
    const words = framesInWords(rangeOf(scene, refs).frames);
    const carrier = refs[0] === undefined ? '' : (recordReelOf(scene, refs[0])?.text ?? '');
    return candidate(
      draft(scene, {
        code: 'reel-number-wrong',
        cause: 'vendor-metadata',
        about: refs,
        explains: [...idsOf(differences), ...idsOf(refs.flatMap((ref) => differencesAt(scene, ref, 'number')))],
        field: 'reel',
        collation: first?.collation ?? null,
        return: first?.returned ?? null,
        says: `${capital(words)} of reel ${carrier} carry the reel number ${first?.returned ?? '?'}; it must be ${first?.collation ?? '?'}.`,
        instruction: `Set the reel number of ${words} to ${first?.collation ?? '?'}.`,
        constant: true,
      }),
    );
  });
}
