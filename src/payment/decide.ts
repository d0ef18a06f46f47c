import { daysBetween, isDay } from '../calendar/civil.js';
import { reviewDue } from '../calendar/review-days.js';
import type { Account, AccountRelease } from '../model/account.js';
import type { DecidedRelease, DecidedSample, DecisionInput, DecisionRecord, ReviewPeriod, RuledFinding } from '../model/decision.js';
import type { Decision, Findings, Input } from '../model/findings.js';
import { writtenAccount } from './account.js';
import { exactMinor, parseDecimal, writeMinor } from './decimal.js';
import { invoiceResult } from './invoice-result.js';
import { times } from './money.js';
import { deliveryInWords } from './reasons.js';
import { releaseOf } from './release.js';
import { type LineName, openAmount, settle } from './settle.js';
import { classCounts } from './units.js';

/** A decision, and the account with it in; or what keeps it from being written, in sentences. */
export interface Decided {
  readonly record: DecisionRecord | null;
  readonly account: Account | null;
  readonly mistakes: readonly string[];
}

/** What the program advises: the verdict of the comparison, or to send the delivery back where a spot check failed. */
function adviceOf(
  findings: Findings,
  samples: readonly DecidedSample[],
): { readonly decision: Decision; readonly reasons: readonly string[] } {
  const looked =
    samples.length === 0
      ? ['No spot check was made: nobody looked at the images before this decision.']
      : samples.map(
          (sample) =>
            `Spot check (${sample.plan.replace(/\.$/, '')}): ${String(sample.nonconforming)} of ${String(sample.drawn)} looked at ${sample.nonconforming === 1 ? 'is' : 'are'} not as ordered; the lot of ${String(sample.lotSize)} ${sample.accepted ? 'is accepted' : 'is not accepted'}.`,
        );
  const decision = samples.some(({ accepted }) => !accepted) ? 'return-for-rework' : findings.verdict.decision;
  return { decision, reasons: [...findings.verdict.reasons, ...looked] };
}

/** What a person decides about one delivery and its money, held against the advice and the account. */
export function decide(input: DecisionInput): Decided {
  const findings = input.findings.value;
  const samples = input.samples.map(({ value }) => value);
  const mistakes = [...personMistakes(input), ...sampleMistakes(input)];
  const money = moneyOf(input);
  mistakes.push(...money.mistakes);
  if (mistakes.length > 0) return { record: null, account: null, mistakes };
  const advice = adviceOf(findings, samples);
  const notLookedAt = input.lots.filter(
    (lot) => !samples.some((sample) => sample.agreed && sample.judgedAgain && sample.lots.includes(lot)),
  );
  const against = againstOf(input, advice.decision, notLookedAt, money);
  const lacking = lackingIn(input, against, money);
  if (lacking.length > 0) return { record: null, account: null, mistakes: lacking };
  const rulings = ruledFindings(findings, money.account?.minorDigits ?? 2);
  const record: DecisionRecord = {
    format: 'reeltally/decision/2',
    library: findings.agreement.library,
    vendor: findings.agreement.vendor,
    batch: findings.run.batch,
    deliveryNumber: findings.run.delivery,
    by: input.by.trim(),
    second: secondOf(input),
    on: input.on,
    delivery: input.delivery,
    release: money.decided,
    reason: input.reason.trim(),
    advice,
    against,
    verdict: findings.verdict,
    review: reviewOf(findings, input.on),
    rulings,
    unruled: findings.findings.length - rulings.length,
    samples,
    notLookedAt,
    notChecked: findings.unchecked.map(({ what, why, required }) => ({ what, why, required })),
    invoices: invoicesOf(money.account),
    inputs: inputsOf(input),
  };
  return { record, account: money.account, mistakes: [] };
}

const secondOf = ({ second }: DecisionInput): string | null => (second === null || second.trim() === '' ? null : second.trim());

function personMistakes({ findings, by, second, on }: DecisionInput): readonly string[] {
  const { received } = findings.value.run;
  const mistakes: string[] = [];
  if (by.trim() === '') mistakes.push('Say who decides: --by NAME.');
  if (second?.trim().toLowerCase() === by.trim().toLowerCase() && by.trim() !== '')
    mistakes.push(`--second names ${by.trim()}, who decides; a second person is meant.`);
  if (!isDay(on)) mistakes.push(`The day of the decision is "${on}"; write a day of the calendar as YYYY-MM-DD.`);
  if (received !== null && !isDay(received))
    mistakes.push(
      `${findings.name} says that the delivery was received on "${received}", which is no day written YYYY-MM-DD; verify again.`,
    );
  else if (received !== null && isDay(on) && daysBetween(received, on) < 0)
    mistakes.push(`The decision is of ${on}, but the delivery was received on ${received}; one of the two days is wrong.`);
  return mistakes;
}

function sampleMistakes({ findings, samples }: DecisionInput): readonly string[] {
  const { batch, delivery } = findings.value.run;
  return samples.flatMap(({ name, value }) =>
    value.batch === batch && value.delivery === delivery
      ? []
      : [`${name} is a sample of ${deliveryInWords(value)}; the findings are of ${deliveryInWords(findings.value.run)}.`],
  );
}

interface Money {
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

function moneyOf(input: DecisionInput): Money {
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
        `--release: "${release ?? ''}" is no amount of ${before.currency || 'money'}; write it as 1234.50, with a point and without grouping.`,
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

/** Why this decision needs a reason and a second name. */
function againstOf(
  input: DecisionInput,
  advice: Decision,
  notLookedAt: readonly string[],
  { amount, due, named, decided }: Money,
): readonly string[] {
  const { delivery } = input;
  const against: string[] = [];
  if (delivery !== 'put-off' && delivery !== advice)
    against.push(
      advice === 'cannot-decide'
        ? 'The program could not advise anything.'
        : `The advice is to ${IN_WORDS[advice]}, and the decision is to ${IN_WORDS[delivery]}.`,
    );
  const pays = delivery === 'accept' || delivery === 'accept-with-corrections' || amount > 0n;
  if (pays && notLookedAt.length > 0)
    against.push(
      `Nobody looked at the agreed sample of ${notLookedAt.length === 1 ? `the lot ${notLookedAt[0] ?? ''}` : `${String(notLookedAt.length)} lots (${notLookedAt.slice(0, 5).join(', ')}${notLookedAt.length > 5 ? ' and more' : ''})`}.`,
    );
  if (amount > due && decided !== null) {
    const most = named > 0n && amount <= due + named;
    against.push(
      `${decided.amount} ${decided.currency} are released and ${decided.due} are due${most ? '; the rest is for lines that the agreement does not know' : ''}.`.replace(
        '  ',
        ' ',
      ),
    );
  }
  return against;
}

const IN_WORDS: Readonly<Record<Decision | 'put-off', string>> = {
  accept: 'accept',
  'accept-with-corrections': 'accept with corrections',
  'return-for-rework': 'return for rework',
  'cannot-decide': 'decide nothing',
  'put-off': 'put it off',
};

function lackingIn(input: DecisionInput, against: readonly string[], { amount, due, decided }: Money): readonly string[] {
  const lacking: string[] = [];
  const reason = input.reason.trim() !== '';
  const second = secondOf(input) !== null;
  if (against.length > 0 && (!reason || !second)) {
    const needs = [...(reason ? [] : ['a reason (--reason TEXT)']), ...(second ? [] : ['a second name (--second NAME)'])].join(' and ');
    lacking.push(...against, `This needs ${needs}.`);
  } else if (input.release !== null && amount < due && !reason)
    lacking.push(`${decided?.amount ?? ''} is less than the ${decided?.due ?? ''} that are due; say why with --reason.`);
  return lacking;
}

/** Findings that were ruled on, and what each ruling is worth: what the classes pay more than if the finding stood. */
function ruledFindings(findings: Findings, digits: number): readonly RuledFinding[] {
  const { classes } = findings.agreement.terms;
  const now = classCounts(classes, findings);
  return findings.findings.flatMap((finding): RuledFinding[] => {
    const { id, code, severity, cause, says, ruling } = finding;
    if (ruling === null) return [];
    const without = classCounts(classes, {
      reels: findings.reels,
      findings: findings.findings.map((one) => (one === finding ? { ...one, ruling: null } : one)),
    });
    const worth = classes.reduce((sum, entry, at) => {
      const units = (now[at]?.accepted ?? 0) - (without[at]?.accepted ?? 0);
      const price = parseDecimal(entry.unitPrice ?? '');
      return sum + (price === null ? 0n : times(price, units, digits));
    }, 0n);
    return [{ id, code, severity, cause, says, ruling, money: worth === 0n ? null : writeMinor(worth, digits) }];
  });
}

function reviewOf(findings: Findings, on: string): ReviewPeriod {
  const { received } = findings.run;
  const { terms } = findings.agreement;
  const due = received === null ? null : reviewDue(received, terms);
  return {
    received,
    days: terms.reviewDays,
    dayKind: terms.reviewDayKind,
    holidays: terms.holidays,
    due,
    inTime: due === null ? null : daysBetween(on, due) >= 0,
  };
}

function invoicesOf(account: Account | null): DecisionRecord['invoices'] {
  if (account === null) return [];
  return account.invoices.map(({ number }) => {
    const { billed, due, difference, released, differences } = invoiceResult(account, number);
    return { number, billed, due, difference, released, differences };
  });
}

function inputsOf({ findings, samples, account }: DecisionInput): readonly Input[] {
  return [
    ...findings.value.run.inputs,
    { role: 'findings', name: findings.name, sha256: findings.sha256 },
    ...samples.map((sample) => ({ role: 'sample', name: sample.name, sha256: sample.sha256 })),
    ...(account === null || account.name === '' ? [] : [{ role: 'account', name: account.name, sha256: account.sha256 }]),
  ];
}
