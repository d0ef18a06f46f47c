import type { Account, AccountInvoice } from '../../../src/model/account.js';
import type { PriceClass, ResolvedAgreement } from '../../../src/model/agreement.js';
import type { Finding, Findings, ResultFrame } from '../../../src/model/findings.js';
import type { InvoiceLine } from '../../../src/model/invoice.js';
import { EXAMPLE, finding, frame } from '../../report/example.js';

/** Numbers between 0 and 1 from a seed: mulberry32 (T. Ettinger, public domain). */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** How one frame of the film comes out in one delivery. */
export type Outcome = 'good' | 'bad' | 'bad-ruled' | 'lost' | 'minor';

/** A frame of the film: delivered, or held back. */
export interface FilmFrame {
  readonly number: string;
  readonly kind: 'page' | 'blank';
}

/** One reel of an invented order. */
export interface FilmReel {
  readonly number: string;
  readonly frames: readonly FilmFrame[];
}

/** A delivery: what came of each frame, and what a person decided. */
export interface Sending {
  readonly batch: string;
  readonly delivery: number;
  /** By `reel frame`. */
  readonly outcomes: ReadonlyMap<string, Outcome>;
  readonly decision: 'accept' | 'accept-with-corrections' | 'return-for-rework' | null;
}

/** A line of an invoice as planned: class, units (negative in a credit), price billed. */
export interface PlannedLine {
  readonly class: string | null;
  readonly quantity: number;
  readonly price: string;
  readonly batch: string | null;
  /** Which sending of the batch the line names, if any. */
  readonly delivery: number | null;
  readonly rate: string | null;
}

/** What happens to an order, one after the other. */
export type Event =
  | { readonly is: 'sending'; readonly sending: Sending }
  | { readonly is: 'invoice'; readonly number: string; readonly lines: readonly PlannedLine[] }
  | { readonly is: 'release'; readonly share: number };

/** An invented order. */
export interface Order {
  readonly payOn: 'accepted' | 'accepted-pages';
  readonly prices: readonly PriceClass[];
  readonly batches: readonly { readonly name: string; readonly reels: readonly FilmReel[] }[];
  readonly events: readonly Event[];
}

const PRICES = ['0.32', '0.325', '1.00', '0.055', '2.5', '0.333'];

/** An invented order: one or two batches, up to three deliveries each, invoices and credits between them. */
export function inventedOrder(seed: number): Order {
  const next = chance(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const upTo = (most: number): number => Math.floor(next() * (most + 1));
  const prices: PriceClass[] = [
    { class: 'page', kind: ['page'], deliver: true, unitPrice: pick(PRICES), charge: 'scan', per: 'frame' },
    { class: 'held back', kind: ['blank'], deliver: false, unitPrice: pick(PRICES), charge: 'scan', per: 'frame' },
    ...(next() < 0.4
      ? [{ class: 'text', kind: ['page' as const], deliver: true, unitPrice: pick(PRICES), charge: 'text', per: 'frame' as const }]
      : []),
    ...(next() < 0.4
      ? [{ class: 'reel', kind: ['page' as const], deliver: true, unitPrice: '18.50', charge: 'reel', per: 'reel' as const }]
      : []),
  ];
  const batches = Array.from({ length: 1 + upTo(1) }, (_, b) => ({
    name: `batch_${'ab'[b]!}`,
    reels: Array.from({ length: 1 + upTo(1) }, (_, r) => ({
      number: `${String(b + 1)}0${String(r + 1)}`,
      frames: Array.from({ length: 1 + upTo(7) }, (_, f): FilmFrame => ({ number: String(f + 1), kind: next() < 0.75 ? 'page' : 'blank' })),
    })),
  }));
  const events: Event[] = [];
  let invoice = 0;
  const frameCount = (name: string): number =>
    batches.reduce(
      (sum, { reels }) =>
        sum +
        (name === 'reel'
          ? reels.length
          : reels.reduce((own, { frames }) => own + frames.filter(({ kind }) => (name === 'held back') === (kind === 'blank')).length, 0)),
      0,
    );
  const billing = (): void => {
    const lines = Array.from({ length: 1 + upTo(3) }, (): PlannedLine => {
      const entry = next() < 0.1 ? null : pick(prices);
      const most = entry === null ? 3 : frameCount(entry.class) + 2;
      const quantity = next() < 0.2 ? -(1 + upTo(2)) : upTo(most);
      const price = entry === null ? '24.00' : next() < 0.1 ? '0.40' : entry.unitPrice!;
      const batch = entry !== null && next() < 0.25 ? pick([...batches.map(({ name }) => name), 'batch_none']) : null;
      const delivery = entry !== null && next() < 0.35 ? pick([1, 1, 2, 2, 3]) : null;
      return { class: entry?.class ?? null, quantity, price, batch, delivery, rate: null };
    });
    const rate = next() < 0.5 ? pick(['19', '7.7', '20']) : null;
    invoice += 1;
    events.push({ is: 'invoice', number: `Q-${String(invoice)}`, lines: lines.map((line) => ({ ...line, rate })) });
  };
  const counts = batches.map(() => 0);
  const steps = 3 + upTo(5);
  for (let step = 0; step < steps; step += 1) {
    const roll = next();
    if (step === 0 || roll < 0.4) {
      const b = step === 0 ? 0 : upTo(batches.length - 1);
      const batch = batches[b]!;
      if (counts[b]! >= 3) continue;
      counts[b]! += 1;
      const outcomes = new Map(
        batch.reels.flatMap(({ number, frames }) =>
          frames.map(
            (frame) =>
              [`${number} ${frame.number}`, pick<Outcome>(['good', 'good', 'good', 'good', 'bad', 'bad-ruled', 'lost', 'minor'])] as const,
          ),
        ),
      );
      events.push({
        is: 'sending',
        sending: {
          batch: batch.name,
          delivery: counts[b]!,
          outcomes,
          decision: pick(['accept', 'accept', 'accept-with-corrections', 'return-for-rework', null]),
        },
      });
    } else if (roll < 0.7) billing();
    else events.push({ is: 'release', share: pick([1, 1, 0.5]) });
  }
  billing();
  events.push({ is: 'release', share: 1 });
  return { payOn: pick(['accepted', 'accepted', 'accepted-pages']), prices, batches, events };
}

/** The result that a verification of such a delivery gives, as far as payment looks at it. */
export function resultOf(order: Order, sending: Sending): Findings {
  const batch = order.batches.find(({ name }) => name === sending.batch)!;
  const findings: Finding[] = [];
  const named = (reel: string, frame: string, severity: Finding['severity'], ruled: boolean): string => {
    const id = `f-${reel}-${frame}`;
    const ruling = ruled ? { decision: 'accept-as-is', note: '', by: 'Ada Pell', on: '1926-01-10' } : null;
    findings.push(
      finding({ id, code: 'page-number-differs', severity, says: `Frame ${frame} of reel ${reel} is wrong.`, reel, at: frame, ruling }),
    );
    return id;
  };
  const reels = batch.reels.map(({ number: reel, frames }) => ({
    number: reel,
    absent: [],
    frames: frames.map(({ number, kind }): ResultFrame => {
      const outcome = sending.outcomes.get(`${reel} ${number}`)!;
      const page = kind === 'page';
      const ids =
        outcome === 'good' || (outcome === 'lost' && !page)
          ? []
          : [named(reel, number, outcome === 'minor' ? 'minor' : 'critical', outcome === 'bad-ruled')];
      const came = page && outcome !== 'lost';
      return frame(number, {
        ...(came ? {} : { returned: null, returnedKind: null }),
        kind,
        deliver: page,
        files: [],
        findings: ids,
      });
    }),
  }));
  const agreement: ResolvedAgreement = {
    ...EXAMPLE.agreement,
    terms: { ...EXAMPLE.agreement.terms, currency: 'EUR', payOn: order.payOn, classes: order.prices },
  };
  return {
    ...EXAMPLE,
    agreement,
    run: { ...EXAMPLE.run, batch: sending.batch, delivery: sending.delivery },
    reels,
    findings,
    corrected: [],
  };
}

/** The invoice that a reader would give. */
export function invoiceOf(event: Extract<Event, { is: 'invoice' }>): AccountInvoice {
  const lines = event.lines.map(
    (line, at): InvoiceLine => ({
      line: String(at + 1),
      text: line.class ?? 'freight',
      class: line.class,
      quantity: String(line.quantity),
      unitPrice: line.price,
      amount: cents(halfAway(BigInt(line.quantity) * thousandths(line.price), 10n)),
      taxRate: line.rate,
      batch: line.batch,
      ...(line.delivery === null ? {} : { delivery: line.delivery }),
      row: at + 2,
    }),
  );
  return {
    number: event.number,
    currency: 'EUR',
    lines,
    subtotals: [],
    net: null,
    taxes: [],
    gross: null,
    file: { name: 'q.csv', sha256: '' },
  };
}

/** A price in thousandths. */
export function thousandths(price: string): bigint {
  const [whole = '', decimals = ''] = price.split('.');
  return BigInt(whole + decimals.padEnd(3, '0'));
}

/** A quotient rounded, halves away from zero. */
export function halfAway(value: bigint, by: bigint): bigint {
  const size = value < 0n ? -value : value;
  const whole = size / by + ((size % by) * 2n >= by ? 1n : 0n);
  return value < 0n ? -whole : whole;
}

/** Cents as text. */
export function cents(value: bigint): string {
  const size = (value < 0n ? -value : value).toString().padStart(3, '0');
  return `${value < 0n ? '-' : ''}${size.slice(0, -2)}.${size.slice(-2)}`;
}

/** Cents of a text. */
export const inCents = (text: string): bigint => BigInt(text.replace('.', ''));

/** The deliveries, with the decision that belongs to each. */
export type Decided = Account['deliveries'][number]['decision'];
