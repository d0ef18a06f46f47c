import type { Account, AccountClass, AccountDelivery, AccountFrames, AccountInvoice, AccountSums } from '../model/account.js';
import type { ResolvedAgreement } from '../model/agreement.js';
import { type ClassDue, releasedNow, wholeQuantity } from './billed.js';
import { minorDigits } from './currency.js';
import { exactMinor, parseDecimal, writeMinor } from './decimal.js';
import { type AccountFacts, type OwedUnit, ordersOf } from './owed.js';
import { deliveryInWords } from './reasons.js';
import { openAmount, type Settled, settle } from './settle.js';

/** An account, or why there is none, in sentences; and what was noticed on the way. */
export interface Taken {
  readonly account: Account | null;
  readonly mistakes: readonly string[];
  readonly remarks: readonly string[];
}

/** What a result brings into an account. */
export interface Arrival {
  readonly delivery: AccountDelivery;
  readonly agreement: ResolvedAgreement;
}

/** Takes results and invoices into an account, or begins one with them. What a person decided and what was released stays as it was. */
export function takenIn(before: Account | null, arrivals: readonly Arrival[], invoices: readonly AccountInvoice[]): Taken {
  const mistakes: string[] = [];
  const remarks: string[] = [];
  const first = arrivals[0]?.agreement ?? null;
  if (before === null && first === null) return { account: null, mistakes: ['An account begins with a saved result; name one.'], remarks };
  const currency = before?.currency ?? (first?.terms.currency || (invoices.find((one) => one.currency !== '')?.currency ?? ''));
  const prices = before?.prices ?? first?.terms.classes ?? [];
  const payOn = before?.payOn ?? first?.terms.payOn ?? 'accepted';
  if (prices.length === 0)
    mistakes.push('The agreement behind this result has no price classes; put them into terms, classes, and verify again.');
  for (const { agreement, delivery } of arrivals)
    if (JSON.stringify([agreement.terms.classes, agreement.terms.payOn]) !== JSON.stringify([prices, payOn]))
      mistakes.push(
        `${delivery.result.name}: ${deliveryInWords(delivery)} was verified under other prices or terms of payment than the rest of the account; one account has one agreement. Verify again with the same agreement, or keep an account of its own.`,
      );
  const deliveries = arrivals.reduce<readonly AccountDelivery[]>(
    (known, { delivery }) => withDelivery(known, delivery, remarks),
    before?.deliveries ?? [],
  );
  mistakes.push(...twiceCounted(deliveries));
  const taken = invoices.reduce<readonly AccountInvoice[]>(
    (known, invoice) => withInvoice(known, invoice, before?.releases ?? [], mistakes, remarks),
    before?.invoices ?? [],
  );
  for (const invoice of invoices) mistakes.push(...figureMistakes(invoice, minorDigits(currency)));
  for (const invoice of invoices)
    if (invoice.currency !== '' && currency !== '' && invoice.currency !== currency)
      mistakes.push(
        `${invoice.file.name}: the invoice is in ${invoice.currency} and the agreement in ${currency}; ask for an invoice in ${currency}.`,
      );
  if (mistakes.length > 0) return { account: null, mistakes, remarks };
  return {
    account: writtenAccount({
      library: before?.library ?? first?.library ?? '',
      vendor: before?.vendor ?? first?.vendor ?? '',
      currency,
      minorDigits: minorDigits(currency),
      payOn,
      prices,
      deliveries: deliveries.toSorted(byBatch),
      invoices: taken,
      releases: before?.releases ?? [],
    }),
    mistakes,
    remarks,
  };
}

/** Amounts that no coin can pay, and units that are no whole number: nothing is rounded in silence. */
function figureMistakes({ file, lines, subtotals, net, taxes, gross }: AccountInvoice, digits: number): readonly string[] {
  const coin = digits === 0 ? 'no decimals' : `${String(digits)} decimals`;
  const sums = [...lines, ...subtotals, ...(net === null ? [] : [net]), ...taxes, ...(gross === null ? [] : [gross])];
  return [
    ...sums.flatMap(({ row, text, amount }) => {
      const value = parseDecimal(amount);
      return value !== null && exactMinor(value, digits) !== null
        ? []
        : [
            `${file.name}, row ${String(row)}: the amount ${amount} of "${text}" is not a whole number of the currency's smallest unit (${coin}).`,
          ];
    }),
    ...lines.flatMap(({ row, class: name, quantity }) =>
      name === null || quantity === null || wholeQuantity(quantity) !== null
        ? []
        : [`${file.name}, row ${String(row)}: the quantity is ${quantity}; units of the class "${name}" are counted in whole numbers.`],
    ),
  ];
}

function byBatch(a: AccountDelivery, b: AccountDelivery): number {
  return a.batch < b.batch ? -1 : a.batch > b.batch ? 1 : a.delivery - b.delivery;
}

/** Puts a delivery in, in place of an earlier result of it. One that was decided stays until it is decided again. */
function withDelivery(known: readonly AccountDelivery[], delivery: AccountDelivery, remarks: string[]): readonly AccountDelivery[] {
  const same = known.find((one) => one.batch === delivery.batch && one.delivery === delivery.delivery);
  if (same === undefined) return [...known, delivery];
  if (same.result.sha256 === delivery.result.sha256) return known;
  if (same.decision !== null) {
    remarks.push(
      `${deliveryInWords(same)} was decided by ${same.decision.by} on ${same.decision.on} by another result than ${delivery.result.name}. That decision holds until "decide" is run with the new result.`,
    );
    return known;
  }
  return known.map((one) => (one === same ? delivery : one));
}

/** Two results that are both said to be the same delivery of one reel cannot both be it. */
function twiceCounted(deliveries: readonly AccountDelivery[]): readonly string[] {
  return ordersOf(deliveries).flatMap(({ deliveries: own }) =>
    own.flatMap((one, at) => {
      const other = own[at + 1];
      return other === undefined || other.delivery !== one.delivery
        ? []
        : [
            `${one.result.name} and ${other.result.name} are both delivery ${String(one.delivery)}, and have reels in common (${one.batch}, ${other.batch}): each page would be paid twice. Verify the later one with --delivery, or keep two accounts.`,
          ];
    }),
  );
}

/** Puts an invoice in. The same one again changes nothing; another of that number takes its place only while nothing was released on it. */
function withInvoice(
  known: readonly AccountInvoice[],
  invoice: AccountInvoice,
  releases: Account['releases'],
  mistakes: string[],
  remarks: string[],
): readonly AccountInvoice[] {
  const same = known.find(({ number }) => number === invoice.number);
  if (same === undefined) return [...known, invoice];
  if (JSON.stringify({ ...same, file: null }) === JSON.stringify({ ...invoice, file: null })) {
    remarks.push(`Invoice ${invoice.number} is in the account already; it counts once.`);
    return known;
  }
  if (releases.some(({ parts }) => parts.some((part) => part.invoice === invoice.number))) {
    mistakes.push(
      `${invoice.file.name}: an invoice ${invoice.number} with other lines is in the account, and money was released on it. Ask the vendor for a credit note, or for another number.`,
    );
    return known;
  }
  remarks.push(`Invoice ${invoice.number} was in the account with other lines; this one takes its place.`);
  return known.map((one) => (one === same ? invoice : one));
}

/** The account with everything that follows from its parts. */
export function writtenAccount(facts: Omit<Account, 'format' | 'classes' | 'sums'>): Account {
  const settled = settle(facts);
  return {
    format: 'reeltally/account/1',
    ...facts,
    classes: settled.classes.map((dues) => classOf(dues, facts)),
    sums: sumsOf(settled, facts.minorDigits),
  };
}

function classOf(dues: ClassDue, { releases }: Pick<AccountFacts, 'releases'>): AccountClass {
  const { entry, units, lines } = dues;
  const count = (belongs: (unit: OwedUnit) => boolean): number => units.filter(belongs).length;
  const places = new Map<string, { invoice: string; line: string }[]>();
  for (const { invoice, line, units: own } of lines)
    for (const { key } of own) places.set(key, [...(places.get(key) ?? []), { invoice, line: line.line }]);
  const released = new Map<string, { invoice: string; line: string }[]>();
  for (const { invoice, line, frames } of releasedNow(entry.class, releases))
    for (const key of frames.keys()) released.set(key, [...(released.get(key) ?? []), { invoice, line }]);
  const groups = new Map<string, { readonly like: Omit<AccountFrames, 'frames'>; readonly frames: string[] }>();
  for (const unit of units) {
    const like = frameFacts(unit, places.get(unit.key) ?? [], released.get(unit.key) ?? []);
    const key = JSON.stringify(like);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { like, frames: [unit.frame] });
    else group.frames.push(unit.frame);
  }
  return {
    class: entry.class,
    charge: entry.charge ?? 'scan',
    ordered: count(({ ordered }) => ordered),
    came: count(({ last }) => last === 'accepted' || last === 'disputed'),
    accepted: count(({ last }) => last === 'accepted'),
    disputed: count(({ last }) => last === 'disputed'),
    billed: lines.reduce((sum, { quantity }) => sum + quantity, 0),
    due: count(({ dueSince }) => dueSince !== null),
    notBilled: dues.notBilled,
    released: released.size,
    creditClaimed: dues.claimed,
    units: [...groups.values()].map(({ like: { reel, ...rest }, frames }) => ({ reel, frames, ...rest })),
  };
}

function frameFacts(
  { reel, ordered, history, dueSince }: OwedUnit,
  billed: AccountFrames['billed'],
  released: AccountFrames['released'],
): Omit<AccountFrames, 'frames'> {
  const numbers = (belongs: (one: OwedUnit['history'][number]) => boolean): readonly number[] =>
    history.filter(belongs).map(({ delivery }) => delivery.delivery);
  return {
    reel,
    ordered,
    came: numbers(({ state }) => state !== 'wanting'),
    accepted: numbers(({ state }) => state === 'accepted'),
    disputed: history
      .filter(({ state }) => state === 'disputed')
      .map(({ delivery, findings }) => ({ delivery: delivery.delivery, findings })),
    dueSince,
    billed,
    released,
  };
}

function sumsOf(settled: Settled, digits: number): AccountSums {
  const { invoices, beyond } = settled;
  const sum = (of: (one: Settled['invoices'][number]) => bigint): bigint => invoices.reduce((total, one) => total + of(one), 0n);
  const write = (minor: bigint): string => writeMinor(minor, digits);
  return {
    billed: write(sum(({ billed }) => billed)),
    due: write(sum(({ due }) => due)),
    released: write(sum(({ released }) => released) + beyond),
    open: write(openAmount(settled)),
    notAgreed: write(
      invoices.reduce(
        (total, { lines }) => total + lines.reduce((own, { of, named, billed }) => own + (of === null && !named ? billed : 0n), 0n),
        0n,
      ),
    ),
  };
}

/** The account as if every delivery that nobody has decided about were accepted. */
export function asIfAccepted<T extends AccountFacts>(facts: T): T {
  const assumed = { is: 'accept' as const, by: '', second: null, on: '' };
  return { ...facts, deliveries: facts.deliveries.map((one) => ({ ...one, decision: one.decision ?? assumed })) };
}
