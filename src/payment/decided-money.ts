import type { Account, AccountRelease } from '../model/account.js';
import type { DecidedRelease, DecisionInput } from '../model/decision.js';
import { writtenAccount } from './account.js';
import { exactMinor, parseDecimal, writeMinor } from './decimal.js';
import { releaseOf } from './release.js';
import { type LineName, openAmount, settle } from './settle.js';

/** The second name, null where nobody gave one. */
export const secondOf = ({ second }: DecisionInput): string | null => (second === null || second.trim() === '' ? null : second.trim());

/** The money of a decision, and what keeps it from being decided, in sentences. */
export interface Money {
  /** The account with the decision and the release in; null where none is kept. */
  readonly account: Account | null;
  readonly decided: DecidedRelease | null;
  /** Minor units; `due` is what was due and open before the release and without the named lines. */
  readonly amount: bigint;
  readonly due: bigint;
  readonly named: bigint;
  readonly mistakes: readonly string[];
}

const NO_MONEY: Money = { account: null, decided: null, amount: 0n, due: 0n, named: 0n, mistakes: [] };

/** The account with the decision and what is released in it. */
export function moneyOf(input: DecisionInput): Money {
  const { account: sourced, release, also, findings } = input;
  if (sourced === null) {
    const wish = release !== null || also.length > 0;
    return wish
      ? { ...NO_MONEY, mistakes: ['Money is released against an account: name it with --account. "reeltally invoice" writes it.'] }
      : NO_MONEY;
  }
  const before = decidedAccount(sourced.value, input);
  const digits = before.minorDigits;
  const value = release === null ? null : parseDecimal(release);
  const amount = value === null ? 0n : exactMinor(value, digits);
  if ((release !== null && value === null) || amount === null)
    return {
      ...NO_MONEY,
      mistakes: [
        `--release: "${release ?? ''}" is not an amount of ${before.currency || 'money'}; write it as 1234.50, with a point and without grouping.`,
      ],
    };
  const names = also.map((wish) => lineNamed(before, wish));
  const mistakes = names.flatMap((name) => (typeof name === 'string' ? [name] : []));
  if (mistakes.length > 0) return { ...NO_MONEY, mistakes };
  const lines = names.filter((name) => typeof name !== 'string');
  const due = openAmount(settle(before));
  const withNamed = openAmount(settle(before, lines));
  const write = (minor: bigint): string => writeMinor(minor, digits);
  const { batch, delivery } = findings.value.run;
  const who = { on: input.on, by: input.by.trim(), second: secondOf(input), reason: input.reason.trim(), batch, delivery };
  const wished = release === null ? null : releaseOf(before, amount, lines, who);
  // nothing at all is no release
  const given: AccountRelease | null = wished === null || (amount === 0n && wished.parts.length === 0) ? null : wished;
  const account = given === null ? before : writtenAccount({ ...before, releases: [...before.releases, given] });
  return {
    account,
    decided: {
      currency: before.currency,
      amount: write(amount),
      due: write(due),
      left: account.sums.open,
      parts: given?.parts ?? [],
      named: given === null ? [] : lines.map(({ invoice, line, text, amount: own }) => ({ invoice, line, text, amount: own })),
    },
    amount,
    due,
    named: withNamed - due,
    mistakes: [],
  };
}

/** The account with what is decided about this delivery. To put off leaves it as it is. */
function decidedAccount(account: Account, { findings, delivery, by, second, on }: DecisionInput): Account {
  const { batch, delivery: number } = findings.value.run;
  const decision = delivery === 'put-off' ? null : { is: delivery, by: by.trim(), second: second?.trim() || null, on };
  return writtenAccount({
    ...account,
    deliveries: account.deliveries.map((one) => (one.batch === batch && one.delivery === number ? { ...one, decision } : one)),
  });
}

/** The line that the agreement does not know and that somebody names: by its words, or as `INVOICE:LINE`. */
function lineNamed(
  { invoices, releases }: Account,
  wish: string,
): (LineName & { readonly text: string; readonly amount: string }) | string {
  const known = invoices.flatMap(({ number, lines }) =>
    lines.filter((line) => line.class === null).map(({ line, text, amount }) => ({ invoice: number, line, text, amount })),
  );
  const free = known.filter(
    ({ invoice, line }) => !releases.some(({ named }) => named.some((one) => one.invoice === invoice && one.line === line)),
  );
  const folded = (text: string): string => text.trim().replace(/\s+/g, ' ').toLowerCase();
  const found = free.filter(({ invoice, line, text }) => folded(text) === folded(wish) || `${invoice}:${line}` === wish.trim());
  const [only] = found;
  if (only !== undefined && found.length === 1) return only;
  const list = (found.length > 1 ? found : free).map(({ invoice, line, text }) => `${invoice}:${line} (${text})`).join(', ');
  if (found.length > 1) return `--also: "${wish}" stands on several lines; name one of them: ${list}.`;
  return `--also: no line that the agreement does not know and that is not released yet is called "${wish}"${list === '' ? '' : `; there are ${list}`}.`;
}
