import type { AccountDelivery } from '../model/account.js';
import type { InvoiceDifferenceKind } from '../model/invoice.js';
import type { ClassDue, LineDue } from './billed.js';
import type { OwedUnit } from './owed.js';

/** Units of a line that are billed and not due, for one reason. */
export interface Reason {
  readonly kind: InvoiceDifferenceKind;
  readonly count: number;
  readonly findings: readonly string[];
  readonly says: string;
}

/** A reason that can still explain so many units. */
interface Room {
  readonly kind: InvoiceDifferenceKind;
  readonly findings: readonly string[];
  left: number;
  readonly says: (count: number) => string;
}

/** Why units of the lines of a class are not due, line by line in the order of the invoices; each unit that is not due explains one unit billed. */
export function reasonsOf(dues: ClassDue): ReadonlyMap<LineDue, readonly Reason[]> {
  const rooms = roomsOf(dues);
  const came = dues.units.filter(({ last }) => last === 'accepted' || last === 'disputed').length;
  let billed = 0;
  const before: LineDue[] = [];
  const found = new Map<LineDue, readonly Reason[]>();
  for (const line of dues.lines) {
    if (line.quantity > 0) {
      found.set(line, reasonsForLine(line, dues, rooms, Math.max(0, Math.min(billed, billed + line.quantity - came)), before));
      before.push(line);
    }
    billed += line.quantity;
  }
  return found;
}

function reasonsForLine(line: LineDue, dues: ClassDue, rooms: Room[], again: number, before: readonly LineDue[]): readonly Reason[] {
  const { quantity, due, strange } = line;
  let left = quantity - due;
  if (left <= 0) return [];
  const name = `"${dues.entry.class}"`;
  if (strange)
    return [
      {
        kind: 'batch-not-known',
        count: left,
        findings: [],
        says: `${units(left)} of the class ${name} ${left === 1 ? 'is' : 'are'} billed for ${namedIn(line.line)}, of which the account has no result.`,
      },
    ];
  const reasons: Reason[] = [];
  const take = (kind: InvoiceDifferenceKind, count: number, findings: readonly string[], says: string): void => {
    if (count <= 0) return;
    reasons.push({ kind, count, findings, says });
    left -= count;
  };
  // a line that says the same as an earlier one, where more is billed than came, is that line once more
  const repeats =
    again > 0 &&
    before.some(
      (other) => other.quantity === quantity && other.line.batch === line.line.batch && other.line.delivery === line.line.delivery,
    );
  const twice = repeats ? left : Math.min(left, again);
  take(
    'billed-already',
    twice,
    [],
    `${units(twice)} of the class ${name} ${twice === 1 ? 'is' : 'are'} billed already: ${linesInWords(before)}. A frame is paid once for a charge.`,
  );
  const disputed = rooms.filter(({ kind, left: open }) => kind === 'disputed' && open > 0);
  const all = disputed.reduce((sum, room) => sum + room.left, 0);
  // where fewer are billed than are disputed nobody can tell which of them are meant
  if (left > 0 && left < all && disputed.length > 1) {
    const count = left;
    take(
      'disputed',
      count,
      disputed.flatMap((room) => room.findings),
      `${units(count)} of the ${String(all)} disputed in the class ${name} ${count === 1 ? 'is' : 'are'} billed.`,
    );
  } else for (const room of rooms) drain(room, left, take);
  const group = left > 0 ? heldBack(dues, left) : undefined;
  if (group !== undefined)
    take(
      'held-back-billed',
      left,
      [],
      `${units(left)} too many in the class ${name}: as many as the film has ${group}; ask whether they were counted.`,
    );
  take(
    'not-explained',
    left,
    [],
    `${units(left)} more ${left === 1 ? 'is' : 'are'} billed in the class ${name} than came, and no finding explains it; ask the vendor for the count.`,
  );
  return reasons;
}

/** What a line says that it bills: `the batch X`, `delivery 3`, `delivery 3 of the batch X`. */
function namedIn({ batch, delivery }: LineDue['line']): string {
  const whole = batch === null ? [] : [`the batch ${batch}`];
  return [...(delivery === undefined ? [] : [`delivery ${String(delivery)}`]), ...whole].join(' of ');
}

function drain(
  room: Room,
  left: number,
  take: (kind: InvoiceDifferenceKind, count: number, findings: readonly string[], says: string) => void,
): void {
  const count = Math.min(left, room.left);
  if (count <= 0) return;
  room.left -= count;
  take(room.kind, count, room.findings, room.says(count));
}

/** What can explain that units are not due, in the order in which it is asked: disputed, not decided, scanned again, not returned. */
function roomsOf({ entry, units: all, orders }: ClassDue): Room[] {
  const open = all.filter(({ dueSince }) => dueSince === null);
  const name = `"${entry.class}"`;
  const deliveries = orders.flatMap((order) => order.deliveries);
  const told = new Map(deliveries.flatMap(({ findings }) => findings.map(({ id, says }) => [id, says] as const)));
  const byFinding = (units: readonly OwedUnit[]): ReadonlyMap<string, number> => {
    const counts = new Map<string, number>();
    for (const unit of units) {
      const id = unit.history.at(-1)?.findings[0] ?? '';
      counts.set(id, (counts.get(id) ?? 0) + 1);
    }
    return counts;
  };
  const disputed = [...byFinding(open.filter(({ last }) => last === 'disputed'))].map(
    ([id, left]): Room => ({
      kind: 'disputed',
      findings: [id],
      left,
      says: (count) => `${units(count)} billed ${count === 1 ? 'is' : 'are'} not accepted: ${told.get(id) ?? ''}`.trim(),
    }),
  );
  const waiting = open.filter(({ last }) => last === 'accepted');
  const undecided = deliveries
    .map((delivery) => ({ delivery, count: waiting.filter(({ history }) => history.at(-1)?.delivery === delivery).length }))
    .filter(({ count }) => count > 0)
    .map(
      ({ delivery, count }): Room => ({
        kind: 'not-decided',
        findings: [],
        left: count,
        says: (some) => `${units(some)} of the class ${name} came with ${deliveryInWords(delivery)}, which ${fateInWords(delivery)}.`,
      }),
    );
  const rescans =
    entry.deliver && entry.kind.includes('page') && (entry.per ?? 'frame') === 'frame' ? deliveries.flatMap((one) => one.rescans) : [];
  const unpaid = rescans
    .filter(({ cost }) => cost === 'vendor' || entry.includes !== 'rescans')
    .map(
      ({ finding, frames, cost, says }): Room => ({
        kind: 'rescan-not-agreed',
        findings: [finding],
        left: frames.length,
        says: (count) =>
          `${units(count)} more than came, as many as were scanned again: ${cost === 'vendor' ? "that was the vendor's to mend" : `the class ${name} does not pay for rescans`}. ${says}`,
      }),
    );
  const wanting = [...byFinding(open.filter(({ last, ordered }) => last === 'wanting' && ordered))]
    .filter(([id]) => id !== '')
    .map(
      ([id, left]): Room => ({
        kind: 'not-returned',
        findings: [id],
        left,
        says: (count) =>
          `${units(count)} of the class ${name} ${count === 1 ? 'is' : 'are'} billed and did not come as such: ${told.get(id) ?? ''}`.trim(),
      }),
    );
  return [...disputed, ...undecided, ...unpaid, ...wanting];
}

function heldBack({ entry, orders }: ClassDue, left: number): string | undefined {
  if (!entry.deliver || (entry.per ?? 'frame') !== 'frame') return undefined;
  const last = orders.flatMap(({ deliveries }) => deliveries.at(-1) ?? []);
  return last.flatMap(({ heldBack: groups }) => groups).find(({ count }) => count === left)?.words;
}

/** `delivery 2 of batch_pilot`. */
export function deliveryInWords({ batch, delivery }: Pick<AccountDelivery, 'batch' | 'delivery'>): string {
  return `delivery ${String(delivery)} of ${batch}`;
}

function fateInWords({ decision }: AccountDelivery): string {
  if (decision === null) return 'nobody has decided about yet';
  return decision.is === 'return-for-rework' ? 'goes back for rework' : 'was not the first to be paid';
}

function linesInWords(lines: readonly LineDue[]): string {
  const words = lines.map(({ invoice, line, quantity }) => `invoice ${invoice}, line ${line.line} (${units(quantity)})`);
  return words.length > 4 ? `${words.slice(0, 3).join('; ')} and ${String(words.length - 3)} more lines` : words.join('; ');
}

/** `1 unit`, `2 units`. */
export function units(count: number): string {
  return `${String(count)} unit${count === 1 ? '' : 's'}`;
}
