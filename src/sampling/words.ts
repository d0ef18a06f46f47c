import type { JudgedSample, SamplePlan, SampleUnit } from '../model/sample.js';
import { protection } from './operating-curve.js';

/** A plan in one sentence for people. */
export function planInWords(plan: SamplePlan, unit: SampleUnit): string {
  const draws = plan.size === plan.lot ? `look at all ${count(plan.lot, unit)}` : `draw ${plan.size} of ${count(plan.lot, unit)}`;
  return `${basis(plan)}: ${draws}; ${deciding(plan)}.`;
}

function basis(plan: SamplePlan): string {
  if (plan.kind === 'limiting-quality') return `Limiting quality ${plan.limit} %, risk ${plan.risk}`;
  if (plan.kind === 'share') return `${plan.percent} % or ${plan.atLeast}, whichever is more`;
  return `MIL-STD-105E, level ${plan.level}, ${plan.severity}, AQL ${plan.aql} (letter ${plan.letter}${plan.usedLetter === plan.letter ? '' : `, by the arrows ${plan.usedLetter}`})`;
}

function deciding(plan: SamplePlan): string {
  const between =
    plan.reject > plan.accept + 1 ? `, with between ${plan.accept} and ${plan.reject} it passes and the next is on normal` : '';
  return `the lot passes with at most ${plan.accept} wrong, fails with ${plan.reject} or more${between}`;
}

/** What a plan protects against, in sentences, to be read before the draw. */
export function protectionInWords(plan: SamplePlan, unit: SampleUnit): readonly string[] {
  const { usuallyPasses, passesOneInTen, passesOneInTwenty } = protection(plan);
  const share = (wrong: number): string => `${count(wrong, unit)} wrong (${percent(wrong / plan.lot)})`;
  const says = [
    usuallyPasses === 0
      ? `Only a lot without a wrong ${unit} passes at least 95 times in 100.`
      : `A lot with ${share(usuallyPasses)} or fewer passes at least 95 times in 100.`,
  ];
  if (passesOneInTen !== null && passesOneInTen !== passesOneInTwenty)
    says.push(`A lot with ${share(passesOneInTen)} passes at most 10 times in 100.`);
  if (passesOneInTwenty !== null) says.push(`A lot with ${share(passesOneInTwenty)} passes at most 5 times in 100.`);
  if (plan.kind === 'share') says.push(`A lot with ${share(plan.statedCount)} passes with a chance of ${percent(plan.passes)}.`);
  if (plan.kind === 'acceptance-quality-limit' && plan.rests !== 'several-sources')
    says.push(`The cell of the table that gives this plan rests on ${plan.rests === 'memory' ? 'memory' : 'one source'} alone.`);
  return says;
}

/** What came of a sample, in sentences: outcome, rate, interval with its convention, clusters, what to widen to. */
export function judgedInWords(judged: Omit<JudgedSample, 'says'>): readonly string[] {
  const { plan, unit } = judged.draw;
  const { interval, endless, issues, extras } = judged;
  const says = [
    `${judged.wrong} of ${count(judged.drawn, unit)} looked at ${judged.wrong === 1 ? 'is' : 'are'} wrong (${percent(judged.rate)}); the lot is ${
      judged.outcome === 'rejected' ? 'rejected' : 'accepted'
    }.`,
    `Of ${count(plan.lot, unit)} in the lot, ${interval.low} to ${interval.high} may be wrong (95 %, exact for this lot; both ends are counts that the sample does not contradict), and with the same certainty on one side no more than ${judged.atMost}.`,
    `For an endless lot the rate would lie between ${percent(endless.low)} and ${percent(endless.high)} (95 %, Clopper-Pearson).`,
  ];
  if (judged.outcome === 'accepted-back-to-normal')
    says.push('There are more wrong ones than the acceptance number: the next lot goes back to normal inspection.');
  if (unit === 'page')
    says.push(
      `The ${judged.drawn === 1 ? 'page belongs' : 'pages belong'} to ${count(issues.seen, 'issue')}, ${issues.wrong} of them with a wrong page. The counts above are for pages drawn singly; a fact that a whole issue shares, such as its date, is better judged with the issue as unit.`,
    );
  if (extras.seen > 0)
    says.push(
      `Beside the random ones ${count(extras.seen, unit)} looked at for a reason, ${extras.wrong} wrong; they do not count in the figures above.`,
    );
  if (judged.outcome === 'rejected') {
    const rest = plan.lot - judged.drawn;
    says.push(
      rest > 0
        ? `Widen to the rest of the lot, ${count(rest, unit)}, or send the lot back for rework.`
        : 'The whole lot was looked at: send it back for rework.',
    );
  }
  return says;
}

function count(number: number, unit: SampleUnit): string {
  return `${number} ${unit}${number === 1 ? '' : 's'}`;
}

function percent(share: number): string {
  return `${(share * 100).toFixed(2)} %`;
}
