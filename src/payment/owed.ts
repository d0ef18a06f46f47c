import type { Account, AccountDelivery, UnitState } from '../model/account.js';
import type { PriceClass } from '../model/agreement.js';

/** The parts of an account that everything else follows from. */
export type AccountFacts = Pick<Account, 'payOn' | 'prices' | 'minorDigits' | 'deliveries' | 'invoices' | 'releases'>;

/** A unit of a class over all deliveries of its batch. */
export interface OwedUnit {
  /** The reel and the frame, which name it in the whole account. */
  readonly key: string;
  readonly reel: string;
  readonly frame: string;
  readonly order: number;
  readonly ordered: boolean;
  readonly history: readonly { readonly delivery: AccountDelivery; readonly state: UnitState; readonly findings: readonly string[] }[];
  /** How it stood in the last delivery that holds its reel, decided or not; null where that delivery has it in no way. */
  readonly last: UnitState | null;
  /** The delivery in which it was first accepted and paid for, while it is accepted still; else null. */
  readonly dueSince: number | null;
}

/** Deliveries of one batch in their order: those that have a reel in common, whatever the vendor calls them. */
export interface Order {
  readonly names: readonly string[];
  readonly deliveries: readonly AccountDelivery[];
}

/** Parts deliveries by batch. */
export function ordersOf(deliveries: readonly AccountDelivery[]): readonly Order[] {
  const groups: AccountDelivery[][] = [];
  for (const delivery of deliveries) {
    const reels = new Set(reelsOf(delivery));
    const mine = groups.filter((group) =>
      group.some((other) => other.batch === delivery.batch || reelsOf(other).some((reel) => reels.has(reel))),
    );
    const rest = groups.filter((group) => !mine.includes(group));
    groups.splice(0, groups.length, ...rest, [...mine.flat(), delivery]);
  }
  return groups
    .map((group) => group.toSorted((a, b) => a.delivery - b.delivery))
    .map((group) => ({ names: [...new Set(group.map(({ batch }) => batch))], deliveries: group }))
    .toSorted((a, b) => ((a.names[0] ?? '') < (b.names[0] ?? '') ? -1 : 1));
}

/** Reels that a delivery speaks of, compared or not. */
function reelsOf({ reels, units }: AccountDelivery): readonly string[] {
  return [...new Set([...reels, ...units.map(({ reel }) => reel)])].filter((reel) => reel !== '');
}

/** What the agreement pays for in a delivery by what was decided. */
const paysFor = (delivery: AccountDelivery, payOn: Account['payOn']): boolean =>
  delivery.decision !== null && (delivery.decision.is !== 'return-for-rework' || payOn === 'accepted-pages');

/**
 * The units of one class in one order. A unit is due once, since the first delivery that pays for it and in which it is accepted, as long
 * as the last decided delivery that holds its reel accepts it.
 */
export function owedUnits(entry: PriceClass, { deliveries }: Order, payOn: Account['payOn']): readonly OwedUnit[] {
  const found = new Map<
    string,
    { readonly reel: string; readonly frame: string; ordered: boolean; readonly history: OwedUnit['history'][number][] }
  >();
  const add = (
    delivery: AccountDelivery,
    reel: string,
    frame: string,
    state: UnitState,
    ordered: boolean,
    findings: readonly string[],
  ): void => {
    const key = unitKey(reel, frame);
    const unit = found.get(key) ?? { reel, frame, ordered, history: [] };
    unit.ordered = ordered;
    unit.history.push({ delivery, state, findings });
    found.set(key, unit);
  };
  for (const delivery of deliveries) {
    for (const group of delivery.units)
      if (group.class === entry.class)
        for (const frame of group.frames) add(delivery, group.reel, frame, group.state, group.ordered, group.findings);
    if (entry.includes !== 'rescans') continue;
    for (const rescan of delivery.rescans)
      if (rescan.cost === 'library')
        for (const frame of rescan.frames)
          add(delivery, rescan.reel, `again:${String(delivery.delivery)}:${frame}`, 'accepted', false, [rescan.finding]);
  }
  return [...found].map(([key, unit], order): OwedUnit => {
    const again = unit.frame.startsWith('again:');
    const holding = deliveries.filter((delivery) => again || unit.reel === '' || delivery.reels.includes(unit.reel));
    const stateIn = (delivery: AccountDelivery | undefined): UnitState | null =>
      unit.history.find((one) => one.delivery === delivery)?.state ?? null;
    // what was scanned again stays so in later deliveries
    const last = again ? 'accepted' : stateIn(holding.at(-1));
    const decided = holding.findLast(({ decision }) => decision !== null);
    const accepted = again || stateIn(decided) === 'accepted';
    const first = unit.history.find((one) => one.state === 'accepted' && paysFor(one.delivery, payOn));
    return { key, ...unit, order, last, dueSince: accepted && first !== undefined ? first.delivery.delivery : null };
  });
}

/** The name of a unit in the whole account. */
export function unitKey(reel: string, frame: string): string {
  return `${reel}\u0000${frame}`;
}
