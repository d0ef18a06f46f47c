import { daysBetween, isDay } from '../calendar/civil.js';
import { reviewDue } from '../calendar/review-days.js';
import type { DecidedInvoice, DecisionInput, DecisionRecord, ReviewPeriod, RuledFinding, SampleSummary } from '../model/decision.js';
import type { Decision, Findings, Input } from '../model/findings.js';
import type { InvoiceResult } from '../model/invoice.js';

/** What keeps a decision from being written, in sentences: no name, no day, results of another delivery. */
export function decisionMistakes(input: DecisionInput): readonly string[] {
  const { findings, samples, invoice, by, on } = input;
  const { received, batch, delivery, at } = findings.value.run;
  const mistakes: string[] = [];
  if (by.trim() === '') mistakes.push('Say who decides.');
  if (!isDay(on)) mistakes.push(`The day of the decision is "${on}"; write a day of the calendar as YYYY-MM-DD.`);
  if (received !== null && !isDay(received))
    mistakes.push(
      `${findings.name} says that the delivery was received on "${received}", which is no day written YYYY-MM-DD; verify again.`,
    );
  else if (received !== null && isDay(on) && daysBetween(received, on) < 0)
    mistakes.push(`The decision is of ${on}, but the delivery was received on ${received}; one of the two days is wrong.`);
  const here = deliveryInWords(batch, delivery);
  for (const { name, value } of samples) {
    if (value.batch !== batch || value.delivery !== delivery)
      mistakes.push(`${name} is a sample of ${deliveryInWords(value.batch, value.delivery)}; the findings are of ${here}.`);
  }
  if (invoice === null) return mistakes;
  const { value, name } = invoice;
  if (value.batch !== batch || value.delivery !== delivery)
    mistakes.push(`${name} is about ${deliveryInWords(value.batch, value.delivery)}; the findings are of ${here}.`);
  else if (value.verifiedAt !== at)
    mistakes.push(
      `${name} was made from a comparison of ${value.verifiedAt}, the findings are of ${at}; hold the invoice against them again.`,
    );
  return mistakes;
}

/** The decision about one delivery. A failed spot check sends it back whatever the comparison says; the invoice changes what is paid, not what is accepted. Throws a RangeError where `decisionMistakes` has something to say. */
export function decide(input: DecisionInput): DecisionRecord {
  const mistakes = decisionMistakes(input);
  if (mistakes.length > 0) throw new RangeError(mistakes.join(' '));
  const findings = input.findings.value;
  const samples = input.samples.map((sample) => sample.value);
  const { decision, reasons } = decided(findings, samples);
  const rulings = findings.findings.flatMap((finding): RuledFinding[] => {
    const { id, code, severity, cause, says, ruling } = finding;
    return ruling === null ? [] : [{ id, code, severity, cause, says, ruling }];
  });
  return {
    format: 'reeltally/decision/1',
    library: findings.agreement.library,
    vendor: findings.agreement.vendor,
    batch: findings.run.batch,
    delivery: findings.run.delivery,
    by: input.by.trim(),
    on: input.on,
    decision,
    reasons,
    verdict: findings.verdict,
    review: reviewOf(findings, input.on),
    rulings,
    unruled: findings.findings.length - rulings.length,
    samples,
    invoice: input.invoice === null ? null : invoiceOf(input.invoice.value),
    inputs: inputsOf(input),
  };
}

function decided(
  findings: Findings,
  samples: readonly SampleSummary[],
): { readonly decision: Decision; readonly reasons: readonly string[] } {
  const failed = samples.filter((sample) => !sample.accepted);
  const sampleReasons =
    samples.length === 0
      ? ['No spot check was made: nobody looked at the images before this decision.']
      : samples.map(
          (sample) =>
            `Spot check (${sample.plan.replace(/\.$/, '')}): ${String(sample.nonconforming)} of ${String(sample.drawn)} looked at ${sample.nonconforming === 1 ? 'is' : 'are'} not as ordered; the lot of ${String(sample.lotSize)} ${sample.accepted ? 'is accepted' : 'is not accepted'}.`,
        );
  const reasons = [...findings.verdict.reasons, ...sampleReasons];
  return { decision: failed.length > 0 ? 'return-for-rework' : findings.verdict.decision, reasons };
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

function invoiceOf(result: InvoiceResult): DecidedInvoice {
  const { number, currency, rounding, billed, due, difference, differences } = result;
  return { number, currency, rounding, billed, due, difference, differences };
}

function inputsOf({ findings, samples, invoice }: DecisionInput): readonly Input[] {
  return [
    ...findings.value.run.inputs,
    { role: 'findings', name: findings.name, sha256: findings.sha256 },
    ...samples.map((sample) => ({ role: 'sample', name: sample.name, sha256: sample.sha256 })),
    ...(invoice === null ? [] : [{ role: 'invoice', name: invoice.name, sha256: invoice.sha256 }]),
  ];
}

function deliveryInWords(batch: string, delivery: number): string {
  return `delivery ${String(delivery)} of ${batch}`;
}
