import type { PriceClass, ResolvedAgreement } from '../model/agreement.js';
import type { ClassCount, Counts, Finding, ReceivedCounts, ReelCounts, ResultFrame, ResultReel } from '../model/findings.js';

const NONE = { came: 0, compared: 0, found: 0, unchecked: 0 };

/** The account of a side that was read from no folder. */
export const NOTHING_CAME: ReceivedCounts = { folders: NONE, documents: NONE, sections: NONE, files: NONE };

/** Counts of frames, pages, differences and price classes, from the strips and the findings. */
export function countsOf(
  reels: readonly ResultReel[],
  findings: readonly Finding[],
  differences: number,
  agreement: ResolvedAgreement,
  received: ReceivedCounts,
): Counts {
  const perReel = reels.map(reelCounts);
  const sum = (key: 'returned' | 'matched' | 'unmatched'): number => perReel.reduce((total, reel) => total + reel[key], 0);
  return {
    reels: perReel,
    pagesReturned: sum('returned'),
    pagesMatched: sum('matched'),
    pagesUnmatched: sum('unmatched'),
    differences,
    findings: findings.length,
    received,
    classes: agreement.terms.classes.map((entry) => classCount(entry, reels, findings)),
  };
}

/** A page came for this frame. */
function returnedPage(frame: ResultFrame): boolean {
  return frame.returnedKind === 'page';
}

function reelCounts(reel: ResultReel): ReelCounts {
  const own = reel.frames.filter((frame) => frame.frame !== null || frame.state !== 'return-only');
  const kinds = new Map<string, { kind: string; deliver: boolean; count: number }>();
  for (const frame of own) {
    const key = `${frame.kind} ${String(frame.deliver)}`;
    const entry = kinds.get(key);
    if (entry === undefined) kinds.set(key, { kind: frame.kind, deliver: frame.deliver, count: 1 });
    else entry.count++;
  }
  const came = reel.frames.filter(returnedPage);
  return {
    reel: reel.number,
    frames: own.length,
    kinds: [...kinds.values()].sort((a, b) => (a.kind < b.kind ? -1 : a.kind > b.kind ? 1 : Number(b.deliver) - Number(a.deliver))),
    absent: reel.absent.length,
    returned: came.length,
    matched: came.filter((frame) => frame.state !== 'return-only' && frame.deliver).length,
    unmatched: came.filter((frame) => frame.state === 'return-only' || !frame.deliver).length,
  };
}

function classCount(entry: PriceClass, reels: readonly ResultReel[], findings: readonly Finding[]): ClassCount {
  if (entry.includes === 'per-reel')
    return { class: entry.class, record: reels.length, returned: reels.length, accepted: reels.length, disputed: 0 };
  const disputing = new Set(
    findings
      .filter((finding) => finding.ruling?.decision !== 'accept-as-is' && (finding.billable.length > 0 || finding.rescan === 'yes'))
      .map((finding) => finding.id),
  );
  const frames = reels.flatMap((reel) => reel.frames);
  const fits = (frame: ResultFrame, deliver: boolean): boolean =>
    entry.kind.some((kind) => kind === frame.kind) &&
    deliver === entry.deliver &&
    (entry.includes === 'duplicates' || frame.duplicateOf === null || frame.deliver);
  const mine = frames.filter((frame) => frame.state !== 'return-only' && fits(frame, frame.deliver));
  // what came as a page is billed as one, whatever the record says of the frame
  const came = frames.filter((frame) =>
    entry.deliver
      ? returnedPage(frame) && entry.kind.includes('page')
      : frame.returnedKind !== null && !returnedPage(frame) && fits(frame, frame.deliver),
  );
  const disputed = came.filter((frame) => frame.findings.some((id) => disputing.has(id))).length;
  return { class: entry.class, record: mine.length, returned: came.length, accepted: came.length - disputed, disputed };
}
