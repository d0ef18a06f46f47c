import { daysBetween, isDay } from '../calendar/civil.js';
import { reviewDue } from '../calendar/review-days.js';
import type { Account } from '../model/account.js';
import type { DecidedSample, DecisionInput, DecisionRecord, ReviewPeriod, RuledFinding } from '../model/decision.js';
import type { Decision, Findings, Input } from '../model/findings.js';
import { againstOf, lackingIn } from './against.js';
import { moneyOf, secondOf } from './decided-money.js';
import { parseDecimal, writeMinor } from './decimal.js';
import { invoiceResult } from './invoice-result.js';
import { times } from './money.js';
import { deliveryInWords } from './reasons.js';
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
    (lot) =>
      !samples.some((sample) => sample.agreed && sample.judgedAgain && sample.lots.includes(lot)) ||
      input.openDraws.some((draw) => draw.lots.includes(lot)),
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

function personMistakes({ findings, by, second, on }: DecisionInput): readonly string[] {
  const { received } = findings.value.run;
  const mistakes: string[] = [];
  if (by.trim() === '') mistakes.push('Say who decides: --by NAME.');
  if (second?.trim().toLowerCase() === by.trim().toLowerCase() && by.trim() !== '')
    mistakes.push(`--second names ${by.trim()}, who decides; a second person is meant.`);
  if (!isDay(on)) mistakes.push(`The day of the decision is "${on}"; write a day of the calendar as YYYY-MM-DD.`);
  if (received !== null && isDay(on) && daysBetween(received, on) < 0)
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

function inputsOf({ findings, samples, openDraws, account }: DecisionInput): readonly Input[] {
  return [
    ...findings.value.run.inputs,
    { role: 'findings', name: findings.name, sha256: findings.sha256 },
    ...samples.map((sample) => ({ role: 'sample', name: sample.name, sha256: sample.sha256 })),
    ...openDraws.map(({ name, sha256 }) => ({ role: 'draw', name, sha256 })),
    ...(account === null || account.name === '' ? [] : [{ role: 'account', name: account.name, sha256: account.sha256 }]),
  ];
}
