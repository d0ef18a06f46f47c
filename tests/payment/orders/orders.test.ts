import { describe, expect, it } from 'vitest';
import type { Account } from '../../../src/model/account.js';
import { takenIn, writtenAccount } from '../../../src/payment/account.js';
import { accountDelivery } from '../../../src/payment/delivery.js';
import { invoiceResult } from '../../../src/payment/invoice-result.js';
import { releaseOf } from '../../../src/payment/release.js';
import { openAmount, settle } from '../../../src/payment/settle.js';
import { keptAccount } from './ledger.js';
import { cents, type Event, inCents, inventedOrder, invoiceOf, type Order, resultOf } from './order.js';

/** The whole count, 3,000, takes a while and stands with the slow tests. */
const ORDERS = Number(process.env['ORDERS'] ?? '150');

/** Which frames the account says were released on which line, as the other account names them. */
function stickyOf(account: Account, order: Order): ReadonlyMap<string, ReadonlyMap<string, string>> {
  const batchOf = new Map(order.batches.flatMap(({ name, reels }) => reels.map(({ number }) => [number, name] as const)));
  const found = new Map<string, Map<string, string>>();
  for (const { frames, takenBack } of account.releases) {
    for (const list of [takenBack, frames])
      for (const one of list) {
        const own = found.get(one.class) ?? new Map<string, string>();
        found.set(one.class, own);
        for (const frame of one.frames) {
          const token = `${batchOf.get(one.reel)!}|${one.reel}|${frame}`;
          const place = `${one.invoice}|${String(Number(one.line) - 1)}`;
          if (list === takenBack) {
            if (own.get(token) === place) own.delete(token);
          } else {
            // paid before and not taken back: that would be twice
            expect(own.has(token)).toBe(false);
            own.set(token, place);
          }
        }
      }
  }
  return found;
}

function after(account: Account | null, order: Order, event: Event): Account | null {
  if (event.is === 'release') {
    if (account === null) return null;
    const open = openAmount(settle(account));
    const amount = event.share === 1 ? open : open / 2n;
    const who = { on: '1926-01-20', by: 'Ada Pell', second: null, reason: '', batch: 'batch_a', delivery: 1 };
    return writtenAccount({ ...account, releases: [...account.releases, releaseOf(account, amount, [], who)] });
  }
  const result = event.is === 'sending' ? resultOf(order, event.sending) : null;
  const file = { name: 'findings.json', sha256: event.is === 'sending' ? `${event.sending.batch}${String(event.sending.delivery)}` : '' };
  const taken = takenIn(
    account,
    result === null ? [] : [{ delivery: accountDelivery(result, file), agreement: result.agreement }],
    event.is === 'invoice' ? [invoiceOf(event)] : [],
  );
  expect(taken.mistakes).toEqual([]);
  if (event.is !== 'sending' || taken.account === null || event.sending.decision === null) return taken.account;
  const decision = { is: event.sending.decision, by: 'Ada Pell', second: null, on: '1926-01-20' };
  return writtenAccount({
    ...taken.account,
    deliveries: taken.account.deliveries.map((one) =>
      one.batch === event.sending.batch && one.delivery === event.sending.delivery ? { ...one, decision } : one,
    ),
  });
}

describe('invented orders', () => {
  it(`come out to the cent as in an account kept otherwise (${String(ORDERS)} of them)`, () => {
    for (let seed = 1; seed <= ORDERS; seed += 1) {
      const order = inventedOrder(seed);
      let account: Account | null = null;
      const done: Event[] = [];
      for (const event of order.events) {
        account = after(account, order, event);
        done.push(event);
        if (account === null) continue;
        const settled = settle(account);
        const kept = keptAccount(order, done, stickyOf(account, order));
        for (const { invoice, due, released } of settled.invoices) {
          expect([seed, invoice.number, cents(due)]).toEqual([seed, invoice.number, cents(kept.due.get(invoice.number)!)]);
          // no invoice is paid beyond what is due at the time of paying
          if (event.is === 'release') expect(released <= due || openAmount(settled) <= 0n).toBe(true);
        }
        for (const one of account.classes) {
          expect([seed, one.class, one.due]).toEqual([seed, one.class, kept.owed.get(one.class)!.size]);
          // no frame is paid on two lines of one charge
          for (const unit of one.units) expect(unit.billed.length).toBeLessThanOrEqual(1);
        }
        // every cent between billed and due is traced
        for (const { number } of account.invoices) {
          const { differences, difference, billed, due } = invoiceResult(account, number);
          expect([seed, number, differences.reduce((sum, { effect }) => sum + inCents(effect), 0n)]).toEqual([
            seed,
            number,
            inCents(difference),
          ]);
          expect(inCents(billed) - inCents(due)).toBe(inCents(difference));
        }
        // what was given out in full leaves nothing open, unless money came back for a frame, and its line has room for another
        const last = account.releases.at(-1);
        if (event.is === 'release' && event.share === 1 && last?.takenBack.length === 0)
          expect([seed, account.sums.open]).toEqual([seed, '0.00']);
      }
    }
  }, 600_000);
});
