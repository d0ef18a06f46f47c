import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { draft, type FindingDraft, frameName } from '../draft.js';
import { idsOf } from '../runs.js';
import { differencesAt, fieldOf, pairOf, recordFrame, returnFrame, type Scene } from '../scene.js';

/** An exposure of two pages that came as one image, or lost its second half. */
export function notSplit(scene: Scene): Candidate[] {
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
    // an image without a number shows no letters in any case
    if (partner.frame === null && (widthRatio(scene, other) ?? 1) < 1.5) return [];
    const unlettered = (partner.frame?.half ?? '') === '';
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
