import type { Decision } from '../../model/findings.js';
import type { Ledger, LedgerBatch, LedgerDelivery, LedgerVendor } from '../../model/ledger.js';

/** Whose move a batch is after its last delivery: the library's to answer, the vendor's to mend, nobody's once it is accepted. */
export type BatchMove = 'library' | 'vendor' | 'nobody';

/** How a batch stands on the day of the ledger. */
export interface BatchState {
  readonly vendor: string;
  readonly batch: string;
  readonly move: BatchMove;
  readonly last: LedgerDelivery;
  readonly items: number;
  readonly advice: Decision;
}

/** One month of a vendor's first deliveries. */
export interface Month {
  /** `2031-03`. */
  readonly month: string;
  readonly batches: number;
  readonly pages: number;
  readonly findings: number;
  /** Findings for each 1,000 pages; null where no pages came. */
  readonly rate: number | null;
}

/** Every batch with its state: the longest overdue first, then what is to be answered soonest, then what waits for the vendor, then what is done. */
export function statesOf({ vendors }: Ledger): readonly BatchState[] {
  const states = vendors.flatMap(({ vendor, batches }) => batches.flatMap((batch) => stateOf(vendor, batch)));
  const rank: Readonly<Record<BatchMove, number>> = { library: 0, vendor: 1, nobody: 2 };
  const key = ({ last }: BatchState): string => last.review.due ?? '9999-12-31';
  return states.toSorted(
    (a, b) =>
      rank[a.move] - rank[b.move] || b.last.review.overdue - a.last.review.overdue || order(key(a), key(b)) || order(a.batch, b.batch),
  );
}

function stateOf(vendor: string, { batch, deliveries, items }: LedgerBatch): readonly BatchState[] {
  const last = deliveries.at(-1);
  if (last === undefined) return [];
  const decision = last.decision?.decision ?? 'put-off';
  const move = decision === 'put-off' ? 'library' : decision === 'accept' ? 'nobody' : 'vendor';
  return [{ vendor, batch, move, last, items: items.length, advice: last.verdict }];
}

/** The months of a vendor's first deliveries without a gap, by the day of receipt, or where that is not known that of the verification. */
export function monthsOf(vendor: LedgerVendor): readonly Month[] {
  const firsts = firstDeliveries(vendor);
  const monthOf = ({ received, verifiedAt }: LedgerDelivery): string => (received ?? verifiedAt).slice(0, 7);
  const known = firsts.map(monthOf).toSorted(order);
  return monthsBetween(known[0], known.at(-1)).map((month) => {
    const came = firsts.filter((delivery) => monthOf(delivery) === month);
    const pages = came.reduce((sum, delivery) => sum + delivery.pages, 0);
    const findings = came.reduce((sum, { faults }) => sum + faults.reduce((total, fault) => total + fault.findings, 0), 0);
    return { month, batches: came.length, pages, findings, rate: pages === 0 ? null : (findings * 1000) / pages };
  });
}

/** The deliveries that came before anybody asked for corrections. */
export function firstDeliveries({ batches }: LedgerVendor): readonly LedgerDelivery[] {
  return batches.flatMap(({ deliveries }) => deliveries.filter(({ delivery }) => delivery === 1));
}

/** Longer spans are a mistake in a date rather than a contract. */
const MOST_MONTHS = 240;

function monthsBetween(first: string | undefined, last: string | undefined): readonly string[] {
  const months: string[] = [];
  if (first === undefined || last === undefined) return months;
  let [year = 0, month = 0] = first.split('-').map(Number);
  for (let text = first; text <= last && months.length < MOST_MONTHS; ) {
    months.push(text);
    month = month === 12 ? 1 : month + 1;
    if (month === 1) year++;
    text = `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}`;
  }
  return months;
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
