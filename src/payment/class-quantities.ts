import type { PriceClass } from '../model/agreement.js';
import type { ClassCount, Findings } from '../model/findings.js';
import type { InvoiceDifferenceKind } from '../model/invoice.js';
import { disputedBy, heldBackGroups, rescansOf, type Share, wantingBy } from './class-frames.js';

/** Units of one class that are billed and not due, for one reason. */
export interface Part {
  readonly kind: InvoiceDifferenceKind;
  readonly count: number;
  readonly findings: readonly string[];
  readonly says: string;
}

/** Frames scanned again that a class pays for: those of a class that says so. */
export function paidRescans(entry: PriceClass, findings: Findings): number {
  return entry.includes === 'rescans' ? sum(rescansOf(entry, findings)) : 0;
}

/** Parts `over` units, billed beyond what is due in a class, by reason: disputed frames first, then rescans, then frames that never came, then frames rightly held back. */
export function partsOf(entry: PriceClass, count: ClassCount, findings: Findings, over: number): readonly Part[] {
  const parts: Part[] = [];
  let left = over;
  const take = (part: Part): void => {
    if (part.count <= 0) return;
    parts.push(part);
    left -= part.count;
  };
  const name = `"${entry.class}"`;
  const disputed = disputedBy(entry, findings);
  // Where fewer are billed than are disputed nobody can tell which of them are meant.
  if (left >= count.disputed) for (const share of disputed) take(disputedPart(share, findings));
  else if (left > 0)
    take({
      kind: 'disputed',
      count: left,
      findings: disputed.map((share) => share.finding),
      says: `${units(left)} of the ${String(count.disputed)} disputed in the class ${name} ${left === 1 ? 'is' : 'are'} billed.`,
    });
  const rescans = entry.includes === 'rescans' ? [] : rescansOf(entry, findings);
  const again = Math.min(left, sum(rescans));
  take({
    kind: 'rescan-not-agreed',
    count: again,
    findings: rescans.map((share) => share.finding),
    says: `As many units as were scanned again are billed beside what was accepted (${String(again)}); the class ${name} does not pay for rescans.`,
  });
  for (const share of wantingBy(entry, findings)) {
    const missing = Math.min(left, share.count);
    take({
      kind: 'not-returned',
      count: missing,
      findings: [share.finding],
      says: `${units(missing)} of the class ${name} ${missing === 1 ? 'is' : 'are'} billed and did not come.`,
    });
  }
  const group = heldBackGroups(findings).find((held) => held.count === left && left > 0);
  if (group !== undefined && entry.deliver && entry.includes !== 'per-reel')
    take({
      kind: 'held-back-billed',
      count: left,
      findings: [],
      says: `${units(left)} too many in the class ${name}: as many as the film has ${group.words}; ask whether they were counted.`,
    });
  take({
    kind: 'not-explained',
    count: left,
    findings: [],
    says: `${units(left)} more ${left === 1 ? 'is' : 'are'} billed in the class ${name} than came, and no finding explains it; ask the vendor for the count.`,
  });
  return parts;
}

function disputedPart(share: Share, findings: Findings): Part {
  const finding = findings.findings.find((entry) => entry.id === share.finding);
  const why = finding?.says ?? '';
  return {
    kind: 'disputed',
    count: share.count,
    findings: [share.finding],
    says: `${units(share.count)} billed ${share.count === 1 ? 'is' : 'are'} not accepted: ${why}`,
  };
}

/** `1 unit`, `2 units`. */
export function units(count: number): string {
  return `${String(count)} unit${count === 1 ? '' : 's'}`;
}

function sum(shares: readonly Share[]): number {
  return shares.reduce((total, share) => total + share.count, 0);
}
