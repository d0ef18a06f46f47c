import type { InvoiceLine } from '../model/invoice.js';
import type { Order, OwedUnit } from './owed.js';

/** A line of a class on which units are put. */
export interface Seat {
  readonly line: InvoiceLine;
  /** Whole units; negative in a credit. */
  readonly quantity: number;
  /** The batch that the line names; null where it names none. */
  readonly order: Order | null;
  /** The batch or the delivery that the line names is not in the account. */
  readonly strange: boolean;
  /** What was released here is here already. */
  readonly units: OwedUnit[];
  /** Released here and not due any more: each still fills its place. */
  readonly lost: readonly OwedUnit[];
}

/** Due units that may stand on the same lines. */
interface Kind {
  readonly order: Order;
  readonly since: number;
  readonly came: ReadonlySet<number>;
  /** On no line yet, the last in film order first. */
  readonly free: OwedUnit[];
}

/** A line with what was put on it here, which may still be put on another. */
interface Filled {
  readonly seat: Seat;
  readonly on: Map<Kind, OwedUnit[]>;
  room: number;
}

/**
 * Puts what is due and not released on the lines, those first that say most of what they bill: a line that names a delivery takes what became due
 * with it, then what came in it and is due by now. Where all that a line may hold stands on others, one of these takes another unit
 * instead if it can, so that nothing stays unpaid that some line could pay.
 */
export function seat(seats: readonly Seat[], byOrder: readonly { readonly order: Order; readonly units: readonly OwedUnit[] }[]): void {
  const { kinds, places } = kindsOf(seats, byOrder);
  const lines = seats
    .map((one): Filled => ({ seat: one, on: new Map(), room: one.strange ? 0 : one.quantity - one.units.length - one.lost.length }))
    .toSorted((a, b) => said(b.seat) - said(a.seat));
  for (const line of lines) {
    const { delivery } = line.seat.line;
    if (delivery === undefined) continue;
    const own = kinds.filter((kind) => kind.since === delivery && mayHold(line.seat, kind));
    while (line.room > 0 && putFirst(line, own, places));
  }
  for (const line of lines) while (line.room > 0 && putOrMove(line, lines, kinds, places));
  for (const { seat: one, on } of lines) one.units.push(...[...on.values()].flat().toSorted((a, b) => at(places, a) - at(places, b)));
}

/** How much a line says of what it bills. */
const said = ({ line }: Seat): number => (line.delivery === undefined ? 0 : 2) + (line.batch === null ? 0 : 1);

const at = (places: ReadonlyMap<string, number>, unit: OwedUnit | undefined): number =>
  (unit === undefined ? undefined : places.get(unit.key)) ?? Number.POSITIVE_INFINITY;

/** What is due and on no line, by where it may stand, and the place of each unit in film order. */
function kindsOf(
  seats: readonly Seat[],
  byOrder: readonly { readonly order: Order; readonly units: readonly OwedUnit[] }[],
): { readonly kinds: readonly Kind[]; readonly places: ReadonlyMap<string, number> } {
  const stuck = new Set(seats.flatMap(({ units }) => units.map(({ key }) => key)));
  const kinds = new Map<string, Kind>();
  const places = new Map<string, number>();
  for (const [number, { order, units }] of byOrder.entries())
    for (const unit of units) {
      places.set(unit.key, places.size);
      if (unit.dueSince === null || stuck.has(unit.key)) continue;
      const came = unit.history.flatMap(({ delivery, state }) => (state === 'wanting' ? [] : [delivery.delivery]));
      const name = JSON.stringify([number, unit.dueSince, came]);
      const kind = kinds.get(name) ?? { order, since: unit.dueSince, came: new Set(came), free: [] };
      kinds.set(name, kind);
      kind.free.push(unit);
    }
  for (const { free } of kinds.values()) free.reverse();
  return { kinds: [...kinds.values()], places };
}

function mayHold({ order, line }: Seat, kind: Kind): boolean {
  return (order === null || order === kind.order) && (line.delivery === undefined || kind.came.has(line.delivery));
}

function put({ on }: Filled, kind: Kind, unit: OwedUnit): void {
  const held = on.get(kind);
  if (held === undefined) on.set(kind, [unit]);
  else held.push(unit);
}

/** Puts the first free unit of these kinds on a line; false where there is none. */
function putFirst(line: Filled, kinds: readonly Kind[], places: ReadonlyMap<string, number>): boolean {
  let first: Kind | null = null;
  for (const kind of kinds)
    if (kind.free.length > 0 && (first === null || at(places, kind.free.at(-1)) < at(places, first.free.at(-1)))) first = kind;
  const unit = first?.free.pop();
  if (first === null || unit === undefined) return false;
  put(line, first, unit);
  line.room -= 1;
  return true;
}

/** Puts one unit more on a line: a free one, else one of another line for which a free one is found there, over as many lines as it takes (an augmenting path). */
function putOrMove(line: Filled, lines: readonly Filled[], kinds: readonly Kind[], places: ReadonlyMap<string, number>): boolean {
  const givesTo = new Map<Filled, { readonly to: Filled; readonly kind: Kind } | null>([[line, null]]);
  for (const here of givesTo.keys()) {
    const room = here.room;
    const fitting = kinds.filter((kind) => mayHold(here.seat, kind));
    if (putFirst(here, fitting, places)) {
      here.room = room;
      let from = here;
      for (let step = givesTo.get(from); step != null; step = givesTo.get(from)) {
        const unit = from.on.get(step.kind)?.pop();
        if (unit !== undefined) put(step.to, step.kind, unit);
        from = step.to;
      }
      line.room -= 1;
      return true;
    }
    for (const other of lines) {
      const kind = givesTo.has(other) ? undefined : fitting.find((one) => (other.on.get(one)?.length ?? 0) > 0);
      if (kind !== undefined) givesTo.set(other, { to: here, kind });
    }
  }
  return false;
}
