import type { Counts, Finding, ReceivedCounts, ReelCounts, ResultFrame, ResultReel } from '../model/findings.js';

const NONE = { came: 0, compared: 0, found: 0, unchecked: 0 };

/** The account of a side that was read from no folder. */
export const NOTHING_CAME: ReceivedCounts = { folders: NONE, documents: NONE, sections: NONE, files: NONE };

/** Counts of frames, pages, differences and price classes, from the strips and the findings. */
export function countsOf(
  reels: readonly ResultReel[],
  findings: readonly Finding[],
  differences: number,
  prices: Pick<Counts, 'classes' | 'unpriced'>,
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
    ...prices,
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
