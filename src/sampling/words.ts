import type { JudgedSample, MergedReadings, SamplePlan, SampleUnit, SavedDraw } from '../model/sample.js';
import type { InTime } from './in-time.js';
import { cannotReject, protection } from './operating-curve.js';

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
  if (cannotReject(plan))
    return [
      `This plan cannot reject the lot: it looks at ${count(plan.size, unit)} and fails only with ${plan.reject} or more wrong. Choose a larger sample, or an acceptance number under ${plan.size}.`,
    ];
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

/** What can be learned of a lot in the time there is, and how long its plan takes with the units beside it. */
export function timeInWords(time: InTime, plan: SamplePlan, unit: SampleUnit, beside: number): readonly string[] {
  const { minutes, seconds, all, size, atMost } = time;
  const learned =
    size === 0
      ? 'none of them falls to this lot'
      : `${size === all ? 'all' : String(size)} of them in this lot. If all of these are right, at most ${count(atMost, unit)} of the lot (${percent(atMost / plan.lot)}) ${atMost === 1 ? 'is' : 'are'} wrong, with 95 % certainty`;
  const needs = Math.ceil(((plan.size + beside) * seconds) / 60);
  return [
    `At ${seconds} seconds for ${unit === 'page' ? 'a page' : 'an issue'} there is time for ${count(all, unit)} in ${minutes} minutes: ${learned}.`,
    `The plan takes ${needs} minute${needs === 1 ? '' : 's'} of it for this lot: ${count(plan.size, unit)}${beside === 0 ? '' : `, and ${beside} beside them for a reason`}.`,
  ];
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
      `The ${judged.drawn === 1 ? 'page belongs' : 'pages belong'} to ${count(issues.seen, 'issue')}, ${issues.wrong} of them with a wrong page. The counts above are for pages drawn singly.`,
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

/** Who looked at the same units, where they disagree, and how that counts; `without` is what comes out if every such question were answered yes. */
export function readersInWords(
  { readers, twice, disagree }: Pick<MergedReadings, 'readers' | 'twice' | 'disagree'>,
  without: { readonly wrong: number; readonly outcome: JudgedSample['outcome'] },
): readonly string[] {
  if (readers.length < 2) return [];
  const who = readers.map(({ by, units }) => `${by === '' ? 'somebody without a name' : by} (${units})`).join(', ');
  const says = [`Looked at by ${who}; ${twice} by more than one of them.`];
  const units = new Set(disagree.map(({ id }) => id)).size;
  if (units > 0)
    says.push(
      `About ${units} of these the readers disagree: a question that one of them answers no counts as no until they agree. If all such questions were answered yes, ${without.wrong} would be wrong and the lot ${without.outcome === 'rejected' ? 'rejected' : 'accepted'}.`,
    );
  return says;
}

/** What is to be known of a draw beside its figures: whether it was the agreed plan, the only draw, and fixed before the seed. */
export function standingInWords({
  agreed,
  before,
  reason,
  fixed,
}: Pick<SavedDraw, 'agreed' | 'before' | 'reason' | 'fixed'>): readonly string[] {
  const why = reason === '' ? 'No reason was given.' : `The reason given: ${reason}`;
  return [
    ...(agreed ? [] : [`This is not the plan that the agreement names. ${why}`]),
    ...(before === 0 ? [] : [`The list was drawn from ${before === 1 ? 'once' : `${before} times`} before. ${why}`]),
    ...(fixed === null ? ['Nothing shows that list and plan were fixed before the seed was thrown.'] : []),
  ];
}

function count(number: number, unit: SampleUnit): string {
  return `${number} ${unit}${number === 1 ? '' : 's'}`;
}

function percent(share: number): string {
  return `${(share * 100).toFixed(2)} %`;
}
