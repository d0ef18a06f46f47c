import { type Event, halfAway, inCents, type Order, type Outcome, thousandths } from './order.js';

/**
 * An account of an invented order kept in another way than the program's, with none of its code: every frame is a token that is owed or
 * not, every unit of a line a slot that takes at most one token, and money follows from the slots.
 */
export interface Kept {
  /** Due on each invoice in cents, tax included. */
  readonly due: ReadonlyMap<string, bigint>;
  /** Tokens owed by class, and how many of them hold a slot or wait for an invoice. */
  readonly owed: ReadonlyMap<string, ReadonlySet<string>>;
}

interface Slot {
  readonly invoice: string;
  readonly line: number;
  readonly batch: string | null;
  readonly positive: boolean;
  /** The frame that is paid here; null while nothing is. */
  token: string | null;
  /** Its money was released. */
  sticky: boolean;
  undone: boolean;
}

/** What is owed in a class after these events: by the latest decision that saw the frame, once anything paid for it. */
function owedIn(order: Order, name: string, events: readonly Event[]): ReadonlySet<string> {
  const entry = order.prices.find((one) => one.class === name)!;
  const owed = new Set<string>();
  for (const batch of order.batches)
    for (const reel of batch.reels) {
      const frames = reel.frames.filter(({ kind }) => (kind === 'page') === entry.deliver);
      let everPaid = new Set<string>();
      let now = new Set<string>();
      for (const event of events) {
        if (event.is !== 'sending' || event.sending.batch !== batch.name || event.sending.decision === null) continue;
        const fine = new Set(
          frames
            .filter(({ number, kind }) => accepts(event.sending.outcomes.get(`${reel.number} ${number}`)!, kind))
            .map(({ number }) => number),
        );
        now = entry.per === 'reel' ? (fine.size > 0 ? new Set(['reel']) : new Set()) : fine;
        if (event.sending.decision !== 'return-for-rework' || order.payOn === 'accepted-pages') everPaid = new Set([...everPaid, ...now]);
      }
      for (const token of now) if (everPaid.has(token)) owed.add(`${batch.name}|${reel.number}|${token}`);
    }
  return owed;
}

function accepts(outcome: Outcome, kind: 'page' | 'blank'): boolean {
  if (outcome === 'lost') return kind === 'blank';
  return outcome !== 'bad';
}

/** Puts the tokens owed into the slots of the class, in the order of film and invoices: released ones stay, lines that name a batch come first. */
function seated(
  order: Order,
  name: string,
  events: readonly Event[],
  sticky: ReadonlyMap<string, string>,
): { slots: Slot[]; credits: Slot[] } {
  const owed = owedIn(order, name, events);
  const all = events.flatMap((event) =>
    event.is === 'invoice'
      ? event.lines.flatMap((line, at) =>
          line.class === name
            ? Array.from(
                { length: Math.abs(line.quantity) },
                (): Slot => ({
                  invoice: event.number,
                  line: at,
                  batch: line.batch,
                  positive: line.quantity > 0,
                  token: null,
                  sticky: false,
                  undone: false,
                }),
              )
            : [],
        )
      : [],
  );
  const slots = all.filter(({ positive }) => positive);
  const placed = new Set<string>();
  for (const [token, place] of sticky) {
    const slot = slots.find((one) => `${one.invoice}|${String(one.line)}` === place && !one.sticky);
    if (slot === undefined) continue;
    slot.sticky = true;
    if (owed.has(token)) {
      slot.token = token;
      placed.add(token);
    }
  }
  const known = order.batches.filter(({ name: batch }) => events.some((event) => event.is === 'sending' && event.sending.batch === batch));
  for (const named of [true, false])
    for (const slot of slots) {
      if (slot.sticky || (slot.batch !== null) !== named) continue;
      const token = [...inFilmOrder(order, owed)].find(
        (one) => !placed.has(one) && (slot.batch === null || one.startsWith(`${slot.batch}|`)),
      );
      if (token === undefined || (named && !known.some(({ name: batch }) => batch === slot.batch))) continue;
      slot.token = token;
      placed.add(token);
    }
  const credits = all.filter(({ positive }) => !positive);
  // a credit undoes what was paid and is not owed any more, then whatever else is billed too much
  for (const wanted of [(one: Slot) => one.sticky && one.token === null, (one: Slot) => one.token === null])
    for (const credit of credits) {
      if (credit.undone) continue;
      const slot = slots.find((one) => wanted(one) && !one.undone);
      if (slot === undefined) break;
      slot.undone = true;
      credit.undone = true;
    }
  return { slots, credits };
}

function* inFilmOrder(order: Order, owed: ReadonlySet<string>): Generator<string> {
  for (const batch of order.batches)
    for (const reel of batch.reels) {
      if (owed.has(`${batch.name}|${reel.number}|reel`)) yield `${batch.name}|${reel.number}|reel`;
      for (const { number } of reel.frames)
        if (owed.has(`${batch.name}|${reel.number}|${number}`)) yield `${batch.name}|${reel.number}|${number}`;
    }
}

/** What is due after these events; `sticky` says which token was released on which line of each class, `INVOICE|LINE counted from 0`. */
export function keptAccount(order: Order, events: readonly Event[], sticky: ReadonlyMap<string, ReadonlyMap<string, string>>): Kept {
  const byLine = new Map<string, bigint>();
  const owed = new Map<string, ReadonlySet<string>>();
  for (const entry of order.prices) {
    owed.set(entry.class, owedIn(order, entry.class, events));
    const { slots, credits } = seated(order, entry.class, events, sticky.get(entry.class) ?? new Map());
    const units = new Map<string, bigint>();
    for (const slot of slots)
      if (slot.token !== null || slot.undone)
        units.set(`${slot.invoice}|${String(slot.line)}`, (units.get(`${slot.invoice}|${String(slot.line)}`) ?? 0n) + 1n);
    for (const slot of credits)
      units.set(`${slot.invoice}|${String(slot.line)}`, (units.get(`${slot.invoice}|${String(slot.line)}`) ?? 0n) - 1n);
    for (const [line, count] of units) byLine.set(line, halfAway(count * thousandths(entry.unitPrice!), 10n));
  }
  const due = new Map<string, bigint>();
  for (const event of events) {
    if (event.is !== 'invoice') continue;
    const net = event.lines.reduce((sum, _, at) => sum + (byLine.get(`${event.number}|${String(at)}`) ?? 0n), 0n);
    const rate = event.lines[0]?.rate ?? null;
    // tax in tenths of percent: 19 is 190 of 1000
    const tax = rate === null ? 0n : halfAway(net * inCents(Number(rate).toFixed(2)), 10000n);
    due.set(event.number, net + tax);
  }
  return { due, owed };
}
