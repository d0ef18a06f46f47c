import type { AbsentEntry, FrameEntry, ReelEntry } from '../model/collation-record.js';

/** A page of an issue, on film or absent, as it is put in order. */
interface Leaf {
  readonly section: string;
  readonly value: number | null;
  readonly at: number;
  readonly set: (order: number) => void;
}

/**
 * Fills in the order of pages where an issue gives none: sections by first appearance, inside a section by the number in the label, not by
 * place on film. Absent pages take their place; held-back frames have none. An issue that gives some orders keeps what it gives.
 */
export function withOrders(reels: readonly ReelEntry[], only: string | null): ReelEntry[] {
  const copies = reels.map((reel) => ({
    ...reel,
    frames: reel.frames.map((frame) => ({ ...frame })),
    ...(reel.absent === undefined ? {} : { absent: reel.absent.map((entry) => ({ ...entry })) }),
  }));
  const issues = new Map<string, { leaves: Leaf[]; ordered: boolean }>();
  const of = (entry: Partial<FrameEntry>): { leaves: Leaf[]; ordered: boolean } => {
    const key = JSON.stringify([entry.title ?? only, entry.date, entry.edition ?? 1]);
    const known = issues.get(key) ?? { leaves: [], ordered: false };
    issues.set(key, known);
    return known;
  };
  let at = 0;
  for (const reel of copies) {
    for (const frame of reel.frames) {
      if ((frame.kind ?? 'page') !== 'page' || frame.deliver === false || frame.date === undefined) continue;
      add(of(frame), frame, at++);
    }
    for (const entry of reel.absent ?? []) if (entry.page !== undefined) add(of(entry), entry, at++);
  }
  for (const { leaves, ordered } of issues.values()) if (!ordered) number(leaves);
  return copies;
}

function add(
  issue: { leaves: Leaf[]; ordered: boolean },
  entry: { order?: number } & Pick<AbsentEntry, 'page' | 'section'>,
  at: number,
): void {
  if (entry.order !== undefined) issue.ordered = true;
  const digits = /(\d{1,6})\D{0,3}$/.exec(entry.page ?? '')?.[1];
  issue.leaves.push({
    section: entry.section ?? '',
    value: digits === undefined ? null : Number(digits),
    at,
    set: (order) => {
      entry.order = order;
    },
  });
}

function number(leaves: readonly Leaf[]): void {
  const sections = [...new Set(leaves.map((leaf) => leaf.section))];
  let order = 0;
  for (const section of sections) {
    const own = leaves.filter((leaf) => leaf.section === section);
    const labelled = own.every((leaf) => leaf.value !== null);
    const sorted = [...own].sort((a, b) => (labelled ? (a.value ?? 0) - (b.value ?? 0) : 0) || a.at - b.at);
    for (const leaf of sorted) leaf.set(++order);
  }
}
