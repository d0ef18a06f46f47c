import { type Event, halfAway, inCents, type Order, type Outcome, thousandths } from './order.js';

/**
 * An account of an invented order kept in another way than the program's, with none of its code: every frame is a token that is owed or
 * not, every unit of a line a slot that takes at most one token, and money follows from the slots.
 */
export interface Kept {
  /** Due on each invoice in cents, tax included. */
  readonly due: ReadonlyMap<string, bigint>;
  /** Tokens owed by class, and how many of them hold a slot or wait for an invoice. */
  readonly owed: ReadonlyMap<string, ReadonlyMap<string, Owed>>;
}

/** A token that is owed: since which delivery, and in which it came. */
interface Owed {
  readonly since: number;
  readonly came: ReadonlySet<number>;
}

interface Slot {
  readonly invoice: string;
  readonly line: number;
  readonly batch: string | null;
  readonly delivery: number | null;
  readonly positive: boolean;
  /** The frame that is paid here; null while nothing is. */
  token: string | null;
  /** Its money was released. */
  sticky: boolean;
  undone: boolean;
}

/** What is owed in a class after these events: by the latest decision that saw the frame, since anything paid for it. */
function owedIn(order: Order, name: string, events: readonly Event[]): ReadonlyMap<string, Owed> {
  const entry = order.prices.find((one) => one.class === name)!;
  const owed = new Map<string, Owed>();
  for (const batch of order.batches)
    for (const reel of batch.reels) {
      const frames = reel.frames.filter(({ kind }) => (kind === 'page') === entry.deliver);
      const since = new Map<string, number>();
      const came = new Map<string, Set<number>>();
      let now: ReadonlySet<string> = new Set();
      for (const event of events) {
        if (event.is !== 'sending' || event.sending.batch !== batch.name) continue;
        const { delivery, decision, outcomes } = event.sending;
        const tokens = (belongs: (outcome: Outcome, kind: 'page' | 'blank') => boolean): ReadonlySet<string> => {
          const those = frames.filter(({ number, kind }) => belongs(outcomes.get(`${reel.number} ${number}`)!, kind));
          return new Set(entry.per === 'reel' ? those.slice(0, 1).map(() => 'reel') : those.map(({ number }) => number));
        };
        for (const token of tokens((outcome, kind) => outcome !== 'lost' || kind === 'blank'))
          came.set(token, (came.get(token) ?? new Set()).add(delivery));
        if (decision === null) continue;
        now = tokens(accepts);
        if (decision !== 'return-for-rework' || order.payOn === 'accepted-pages')
          for (const token of now) if (!since.has(token)) since.set(token, delivery);
      }
      const first = entry.per === 'reel' ? ['reel'] : reel.frames.map(({ number }) => number);
      for (const token of first)
        if (now.has(token) && since.has(token))
          owed.set(`${batch.name}|${reel.number}|${token}`, { since: since.get(token)!, came: came.get(token)! });
    }
  return owed;
}

function accepts(outcome: Outcome, kind: 'page' | 'blank'): boolean {
  if (outcome === 'lost') return kind === 'blank';
  return outcome !== 'bad';
}

/**
 * Puts the tokens owed into the slots of the class: released ones stay; slots of lines that say more come first; one that names a delivery has the
 * tokens owed since then, then any that came with it. No slot is left empty that could be filled by moving what is in the others (Kuhn's matching).
 */
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
                  delivery: line.delivery,
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
  fill(slots, owed, placed, events);
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

/** Fills the slots that hold nothing released; `placed` are the tokens that are released. */
function fill(slots: readonly Slot[], owed: ReadonlyMap<string, Owed>, placed: ReadonlySet<string>, events: readonly Event[]): void {
  const sent = events.flatMap((event) => (event.is === 'sending' ? [event.sending] : []));
  const names = ({ batch, delivery }: Slot, of: { readonly batch: string; readonly delivery: number }): boolean =>
    (batch === null || batch === of.batch) && (delivery === null || delivery === of.delivery);
  const open = slots.filter((slot) => !slot.sticky && ((slot.batch ?? slot.delivery) === null || sent.some((one) => names(slot, one))));
  const says = ({ batch, delivery }: Slot): number => (delivery === null ? 0 : 2) + (batch === null ? 0 : 1);
  const ranked = open.toSorted((a, b) => says(b) - says(a));
  const tokens = [...owed].filter(([token]) => !placed.has(token));
  const holder = new Map<string, Slot>();
  const batchOf = (token: string): string => token.slice(0, token.indexOf('|'));
  for (const slot of ranked) {
    if (slot.delivery === null) continue;
    const own = tokens.find(([token, { since }]) => !holder.has(token) && names(slot, { batch: batchOf(token), delivery: since }));
    if (own !== undefined) holder.set(own[0], slot);
  }
  const seated = new Set(holder.values());
  const finds = (slot: Slot, seen: Set<string>): boolean =>
    tokens.some(([token, { came }]) => {
      if (seen.has(token) || ![...came].some((delivery) => names(slot, { batch: batchOf(token), delivery }))) return false;
      seen.add(token);
      const other = holder.get(token);
      if (other !== undefined && !finds(other, seen)) return false;
      holder.set(token, slot);
      return true;
    });
  for (const slot of ranked) if (!seated.has(slot)) finds(slot, new Set());
  for (const [token, slot] of holder) slot.token = token;
}

/** What is due after these events; `sticky` says which token was released on which line of each class, `INVOICE|LINE counted from 0`. */
export function keptAccount(order: Order, events: readonly Event[], sticky: ReadonlyMap<string, ReadonlyMap<string, string>>): Kept {
  const byLine = new Map<string, bigint>();
  const owed = new Map<string, ReadonlyMap<string, Owed>>();
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
