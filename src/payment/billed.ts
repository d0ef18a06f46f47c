import type { PriceClass } from '../model/agreement.js';
import type { InvoiceLine } from '../model/invoice.js';
import { parseDecimal } from './decimal.js';
import { type AccountFacts, type Order, type OwedUnit, ordersOf, owedUnits, unitKey } from './owed.js';
import { type Seat, seat } from './seats.js';

/** A line of a class with what of it is due. */
export interface LineDue {
  readonly invoice: string;
  readonly line: InvoiceLine;
  /** Whole units; negative in a credit. */
  readonly quantity: number;
  /** Units that the line pays: those released on it before that are due still, then others in film order. */
  readonly units: readonly OwedUnit[];
  /** Units that were released on this line and are not due any more. */
  readonly lost: readonly OwedUnit[];
  /** Units of the line that a credit undoes. */
  readonly credited: number;
  /** Units due: those above and the credited ones; a credit is due in full. */
  readonly due: number;
  /** The batch or the delivery that the line names is not in the account. */
  readonly strange: boolean;
}

/** One class over all invoices. */
export interface ClassDue {
  readonly entry: PriceClass;
  readonly orders: readonly Order[];
  readonly units: readonly OwedUnit[];
  readonly lines: readonly LineDue[];
  /** How many are due and on no line. */
  readonly notBilled: number;
  /** Released and no longer due, less what was credited for it. */
  readonly claimed: number;
}

interface Working extends Seat {
  readonly invoice: string;
  readonly lost: OwedUnit[];
  credited: number;
}

/** Says for each line of a class which units it pays. A unit is paid on one line; what was released stays where it was released. */
export function classDue(entry: PriceClass, facts: AccountFacts): ClassDue {
  const orders = ordersOf(facts.deliveries);
  const byOrder = orders.map((order) => ({ order, units: owedUnits(entry, order, facts.payOn) }));
  const units = byOrder.flatMap((one) => one.units);
  const lines = workingLines(entry, facts, orders);
  stick(entry, facts, units, lines);
  seat(lines, byOrder);
  undoByCredits(lines);
  const lost = lines.reduce((sum, line) => sum + line.lost.length, 0);
  const undone = lines.reduce((sum, line) => sum + Math.min(line.credited, line.lost.length), 0);
  const settled = lines.map(
    ({ invoice, line, quantity, units: own, lost: gone, credited, strange }): LineDue => ({
      invoice,
      line,
      quantity,
      units: own,
      lost: gone,
      credited,
      due: quantity < 0 ? quantity : own.length + credited,
      strange,
    }),
  );
  const due = units.filter(({ dueSince }) => dueSince !== null).length;
  return {
    entry,
    orders,
    units,
    lines: settled,
    // credits beyond all that was billed make no more due than there is
    notBilled: Math.min(due, Math.max(0, due - settled.reduce((sum, line) => sum + line.due, 0))),
    claimed: lost - undone,
  };
}

/** Whether a line names a batch, or a delivery of it, of which the account has no result. */
function isStrange({ batch, delivery }: InvoiceLine, order: Order | null, orders: readonly Order[]): boolean {
  if (batch !== null && order === null) return true;
  const known = order === null ? orders : [order];
  return delivery !== undefined && !known.some(({ deliveries }) => deliveries.some((one) => one.delivery === delivery));
}

function workingLines(entry: PriceClass, { invoices }: AccountFacts, orders: readonly Order[]): readonly Working[] {
  return invoices.flatMap(({ number, lines }) =>
    lines
      .filter((line) => line.class === entry.class)
      .map((line): Working => {
        const order = line.batch === null ? null : (orders.find(({ names }) => names.includes(line.batch ?? '')) ?? null);
        const quantity = wholeQuantity(line.quantity) ?? 0;
        return { invoice: number, line, quantity, order, strange: isStrange(line, order, orders), units: [], lost: [], credited: 0 };
      }),
  );
}

/** A quantity as a whole number; null where it is none. */
export function wholeQuantity(text: string | null): number | null {
  const value = text === null ? null : parseDecimal(text);
  if (value === null) return null;
  const divisor = 10n ** BigInt(value.scale);
  const count = value.units / divisor;
  const size = count < 0n ? -count : count;
  return value.units % divisor === 0n && size <= BigInt(Number.MAX_SAFE_INTEGER) ? Number(count) : null;
}

/** Puts what was released back on the line on which it was released. */
function stick(entry: PriceClass, { releases }: AccountFacts, units: readonly OwedUnit[], lines: readonly Working[]): void {
  const byKey = new Map(units.map((unit) => [unit.key, unit]));
  const taken = new Set<string>();
  for (const { invoice, line, frames } of releasedNow(entry.class, releases)) {
    const own = lines.find((one) => one.invoice === invoice && one.line.line === line);
    if (own === undefined) continue;
    for (const [key, { reel, frame }] of frames) {
      const unit = byKey.get(key) ?? { key, reel, frame, order: 0, ordered: false, history: [], last: null, dueSince: null };
      if (unit.dueSince === null) own.lost.push(unit);
      else if (!taken.has(key)) {
        own.units.push(unit);
        taken.add(key);
      }
    }
  }
}

/** What stands released of a class on each line: what was released, without what was taken back later. */
export function releasedNow(
  name: string,
  releases: AccountFacts['releases'],
): readonly {
  readonly invoice: string;
  readonly line: string;
  readonly frames: ReadonlyMap<string, { readonly reel: string; readonly frame: string }>;
}[] {
  const found = new Map<string, { invoice: string; line: string; frames: Map<string, { reel: string; frame: string }> }>();
  for (const { frames, takenBack } of releases)
    for (const [list, adds] of [
      [takenBack, false],
      [frames, true],
    ] as const)
      for (const { invoice, line, class: own, reel, frames: names } of list) {
        if (own !== name) continue;
        const at = JSON.stringify([invoice, line]);
        const place = found.get(at) ?? { invoice, line, frames: new Map() };
        found.set(at, place);
        for (const frame of names)
          if (adds) place.frames.set(unitKey(reel, frame), { reel, frame });
          else place.frames.delete(unitKey(reel, frame));
      }
  return [...found.values()];
}

/** Lets each credit undo what was billed too much: first what was released and is not accepted any more. What meets nothing lowers what is due. */
function undoByCredits(lines: readonly Working[]): void {
  let left = lines.reduce((sum, { quantity }) => sum + Math.max(0, -quantity), 0);
  for (const excess of [(line: Working) => line.lost.length, (line: Working) => line.quantity - line.units.length])
    for (const line of lines) {
      const units = Math.min(left, Math.max(0, line.quantity < 0 ? 0 : excess(line) - line.credited));
      line.credited += units;
      left -= units;
    }
}
