import type { LedgerAccount, LedgerInput, LedgerMoney } from '../model/ledger.js';
import { groupBy } from './group.js';

/** The accounts of one vendor summed up, currency by currency, to the smallest coin. */
export function moneyOf(accounts: readonly LedgerAccount[]): readonly LedgerMoney[] {
  return [...groupBy(accounts, ({ currency }) => currency)]
    .map(([currency, group]): LedgerMoney => {
      const digits = Math.max(...group.map(({ minorDigits }) => minorDigits));
      const sum = (of: (account: LedgerAccount) => string): bigint =>
        group.reduce((total, account) => total + coins(of(account), digits), 0n);
      const owed = group.map(({ open }) => coins(open, digits));
      return {
        currency,
        accounts: group.length,
        billed: written(
          sum(({ billed }) => billed),
          digits,
        ),
        due: written(
          sum(({ due }) => due),
          digits,
        ),
        released: written(
          sum(({ released }) => released),
          digits,
        ),
        // what the library owes on one order is not made less by what a vendor owes on another
        owed: written(
          owed.reduce((total, one) => (one > 0n ? total + one : total), 0n),
          digits,
        ),
        credit: written(
          owed.reduce((total, one) => (one < 0n ? total - one : total), 0n),
          digits,
        ),
      };
    })
    .sort((a, b) => (a.currency < b.currency ? -1 : 1));
}

/** Two accounts that speak of the same batch, in sentences: one of them is an older state of the other. */
export function accountMistakes({ accounts }: Pick<LedgerInput, 'accounts'>): readonly string[] {
  const known = new Map<string, string>();
  return accounts.flatMap(({ name, sha256, value }) => {
    const twice = value.batches.find((batch) => known.has(batch) && known.get(batch) !== sha256);
    for (const batch of value.batches) known.set(batch, sha256);
    return twice === undefined
      ? []
      : [`${name}: another account that was given speaks of the batch ${twice} too. Give only the one that counts.`];
  });
}

/** A decimal text of an account, which has `minorDigits` digits or fewer behind the point, in units of the smallest coin. */
function coins(text: string, digits: number): bigint {
  const [, minus = '', whole = '0', fraction = ''] = /^(-?)(\d+)(?:\.(\d*))?$/.exec(text) ?? [];
  const value = BigInt(whole + fraction.padEnd(digits, '0').slice(0, digits));
  return minus === '' ? value : -value;
}

function written(value: bigint, digits: number): string {
  const text = (value < 0n ? -value : value).toString().padStart(digits + 1, '0');
  const sign = value < 0n ? '-' : '';
  return digits === 0 ? sign + text : `${sign}${text.slice(0, -digits)}.${text.slice(-digits)}`;
}
