import type { PriceClass } from '../model/agreement.js';
import type { Finding, Findings, ResultFrame } from '../model/findings.js';

/** How many units go back to one finding. */
export interface Share {
  readonly finding: string;
  readonly count: number;
}

/** Findings, most severe first, that keep frames from being accepted. A ruling of `accept-as-is` lets billing stand. */
function disputing(finding: Finding): boolean {
  return finding.ruling?.decision !== 'accept-as-is' && (finding.billable.length > 0 || finding.rescan === 'yes');
}

function returnedPage(frame: ResultFrame): boolean {
  return frame.returnedKind === 'page';
}

function fits(entry: PriceClass, frame: ResultFrame): boolean {
  return (
    entry.kind.some((kind) => kind === frame.kind) &&
    frame.deliver === entry.deliver &&
    (entry.includes === 'duplicates' || frame.duplicateOf === null || frame.deliver)
  );
}

/** Frames that came and are counted in a class; what came as a page is billed as one, whatever the record says of it. */
export function cameIn(entry: PriceClass, findings: Findings): readonly ResultFrame[] {
  if (entry.includes === 'per-reel') return [];
  return framesOf(findings).filter((frame) =>
    entry.deliver
      ? returnedPage(frame) && entry.kind.includes('page')
      : frame.returnedKind !== null && !returnedPage(frame) && fits(entry, frame),
  );
}

/** Disputed frames of a class by finding. A frame that several findings dispute is counted under the first, so that the counts add up. */
export function disputedBy(entry: PriceClass, findings: Findings): readonly Share[] {
  const order = findings.findings.filter(disputing).map((finding) => finding.id);
  return sharesOf(order, cameIn(entry, findings));
}

/** Frames of the record that a class would pay for and that did not come, by the first finding that names each. */
export function wantingBy(entry: PriceClass, findings: Findings): readonly Share[] {
  if (entry.includes === 'per-reel') return [];
  const wanting = framesOf(findings).filter(
    (frame) => frame.state !== 'return-only' && fits(entry, frame) && (entry.deliver ? !returnedPage(frame) : frame.returnedKind === null),
  );
  // A frame that is rightly held back shows in no return, so only frames that a finding names are wanting there.
  const naming = findings.findings.filter((finding) => finding.cause !== 'film').map((finding) => finding.id);
  return sharesOf(naming, wanting);
}

/** Frames scanned again since the earlier result: its findings that asked for a rescan and are mended now. */
export function rescansOf(entry: PriceClass, findings: Findings): readonly Share[] {
  if (!entry.deliver || !entry.kind.includes('page') || entry.includes === 'per-reel') return [];
  return findings.corrected
    .filter((finding) => finding.rescan === 'yes')
    .map((finding) => ({ finding: finding.id, count: Math.max(1, finding.count) }));
}

/** Groups of frames that are counted on the reels but not delivered, the narrow ones first; a vendor sometimes bills one of them all the same. */
export function heldBackGroups(findings: Findings): readonly { readonly words: string; readonly count: number }[] {
  const held = framesOf(findings).filter((frame) => frame.state !== 'return-only' && !frame.deliver && !returnedPage(frame));
  const groups: readonly (readonly [string, (frame: ResultFrame) => boolean])[] = [
    ['duplicate pages that were rightly held back', (frame) => frame.kind === 'page' && frame.duplicateOf !== null],
    ['pages that were rightly held back', (frame) => frame.kind === 'page'],
    ['blanks', (frame) => frame.kind === 'blank'],
    ['targets', (frame) => frame.kind === 'target'],
    ['voids', (frame) => frame.kind === 'void'],
    ['frames that are no pages', (frame) => frame.kind !== 'page'],
    ['frames that were rightly held back', () => true],
  ];
  return groups.map(([words, belongs]) => ({ words, count: held.filter(belongs).length }));
}

function framesOf(findings: Findings): readonly ResultFrame[] {
  return findings.reels.flatMap((reel) => reel.frames);
}

function sharesOf(order: readonly string[], frames: readonly ResultFrame[]): readonly Share[] {
  const rank = new Map(order.map((id, at) => [id, at]));
  const counts = new Map<string, number>();
  for (const frame of frames) {
    let first: string | null = null;
    for (const id of frame.findings) {
      const at = rank.get(id);
      if (at !== undefined && (first === null || at < (rank.get(first) ?? at))) first = id;
    }
    if (first !== null) counts.set(first, (counts.get(first) ?? 0) + 1);
  }
  return order.flatMap((finding) => {
    const count = counts.get(finding);
    return count === undefined ? [] : [{ finding, count }];
  });
}
