import type { Account, AccountRelease, ReleasedFrames } from '../model/account.js';
import { releasedNow } from './billed.js';
import { writeMinor } from './decimal.js';
import type { OwedUnit } from './owed.js';
import { type LineName, type Settled, settle } from './settle.js';

/** Who releases what, for which delivery. */
export type Releasing = Pick<AccountRelease, 'on' | 'by' | 'second' | 'reason' | 'batch' | 'delivery'>;

/**
 * The release of an amount in minor units: first what the vendor owes is set against it, then the invoices are paid in their order, and
 * what goes beyond all that is due is kept apart. Frames are marked where their invoice is paid in full.
 */
export function releaseOf(account: Account, amount: bigint, named: readonly LineName[], who: Releasing): AccountRelease {
  const settled = settle(account, named);
  const open = [
    ...settled.invoices.map(({ invoice, due, released }) => ({ invoice: invoice.number, open: due - released })),
    { invoice: null, open: -settled.beyond },
  ];
  let pool = amount;
  const parts = new Map<string | null, bigint>();
  for (const { invoice, open: owed } of open) {
    if (owed >= 0n) continue;
    parts.set(invoice, owed);
    pool -= owed;
  }
  for (const { invoice, open: owed } of open) {
    if (owed <= 0n || pool <= 0n) continue;
    const part = owed < pool ? owed : pool;
    parts.set(invoice, part);
    pool -= part;
  }
  if (pool !== 0n) parts.set(null, (parts.get(null) ?? 0n) + pool);
  const settledFully = new Set(
    open.filter(({ invoice, open: owed }) => invoice !== null && (parts.get(invoice) ?? 0n) === owed).map(({ invoice }) => invoice),
  );
  const write = (minor: bigint): string => writeMinor(minor, account.minorDigits);
  return {
    ...who,
    amount: write(amount),
    parts: [...parts].filter(([, part]) => part !== 0n).map(([invoice, part]) => ({ invoice, amount: write(part) })),
    named: named.map(({ invoice, line }) => ({ invoice, line })),
    ...framesOf(account, settled, settledFully),
  };
}

/** Frames that the paid invoices hold and no release marked before, and those released before that are due no longer. */
function framesOf(
  { releases }: Account,
  { classes }: Settled,
  paid: ReadonlySet<string | null>,
): { readonly frames: readonly ReleasedFrames[]; readonly takenBack: readonly ReleasedFrames[] } {
  const frames: ReleasedFrames[] = [];
  const takenBack: ReleasedFrames[] = [];
  for (const { entry, lines } of classes) {
    const before = new Map(releasedNow(entry.class, releases).map((place) => [JSON.stringify([place.invoice, place.line]), place.frames]));
    for (const { invoice, line, units, lost } of lines) {
      if (!paid.has(invoice)) continue;
      const known = before.get(JSON.stringify([invoice, line.line]));
      const fresh = units.filter(({ key }) => known?.has(key) !== true);
      const place = { invoice, line: line.line, class: entry.class };
      frames.push(...byReel(fresh).map((one) => ({ ...place, ...one })));
      takenBack.push(...byReel(lost).map((one) => ({ ...place, ...one })));
    }
  }
  return { frames, takenBack };
}

function byReel(units: readonly OwedUnit[]): readonly { readonly reel: string; readonly frames: readonly string[] }[] {
  const found = new Map<string, string[]>();
  for (const { reel, frame } of units) {
    const list = found.get(reel);
    if (list === undefined) found.set(reel, [frame]);
    else list.push(frame);
  }
  return [...found].map(([reel, frames]) => ({ reel, frames }));
}
