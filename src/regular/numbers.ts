import { addDays } from '../calendar/civil.js';
import { expectedDays, statementFor } from '../calendar/patterns.js';
import type { Run, RunIssue } from './facts.js';
import { counted, type Irregularity, named, ofDays, ofIssue } from './item.js';
import { irregularVolumes } from './volumes.js';

/** An issue on another day than the paper's stands for the nearest of these, at most so far away. */
const MOVED = 3;
/** A new volume begins its numbers with one of these. */
const FIRST_NUMBERS = 5;

/**
 * What the count of the issues and the calendar say together: expected days without an issue, and numbers that do not run on. A gap and a jump
 * that explain each other are one irregularity (ANSI/NISO Z39.71 and MARC 21 863 $w tell gaps from breaks in the numbering).
 */
export function irregularRun(run: Run): readonly Irregularity[] {
  const firsts = run.issues.filter(({ edition }, at) => edition === 1 || run.issues[at - 1]?.day !== run.issues[at]?.day);
  const gaps = gapsOf(run, firsts);
  const found: Irregularity[] = [];
  let told = false;
  for (let at = 1; at < firsts.length; at += 1) {
    const [before, issue, next] = [firsts[at - 1], firsts[at], firsts[at + 1]];
    if (before === undefined || issue === undefined) continue;
    const gap = gaps.get(issue.key) ?? [];
    const step = stepOf(before, issue);
    const known = missingBetween(run, before, issue);
    if (gap.length > 0) found.push(gapItem(run, gap, before, issue, step, known));
    const again = told;
    told = false;
    // Behind a number that is wrong by itself the count comes back, which is no second jump.
    if (step === null || again || fits(step, known, gap.length)) continue;
    // One number that is wrong by itself: the next one goes on from the one before.
    const over = next === undefined ? null : stepOf(before, next);
    const beyond = next === undefined ? null : missingBetween(run, before, next);
    const alone =
      over !== null && beyond !== null && next !== undefined && fits(over - 1, beyond, gap.length + (gaps.get(next.key) ?? []).length);
    if (gap.length === 0 || step < 1) found.push(jumpItem(before, issue, alone ? next : null, known));
    told = alone;
  }
  return [...found, ...irregularVolumes(run, firsts), ...laterEditions(run, firsts)];
}

/** Later editions of a day: they have the number and volume of the first, or count on from it and leave the next day its own (common practice, no source). */
function laterEditions(run: Run, firsts: readonly RunIssue[]): readonly Irregularity[] {
  const byDay = new Map(firsts.map((issue, at) => [issue.day, { issue, next: firsts[at + 1] }]));
  return run.issues.flatMap((issue): readonly Irregularity[] => {
    const { issue: first, next } = byDay.get(issue.day) ?? {};
    if (first === undefined || first === issue) return [];
    const volume = first.volume !== null && issue.volume !== null && first.volume !== issue.volume;
    const step = stepOf(first, issue);
    const before =
      next === undefined || next.count === null || issue.count === null || next.volume !== issue.volume ? null : next.count - issue.count;
    const number = step !== null && step !== 0 && (step < 0 || step > issue.edition - first.edition || (before !== null && before < 1));
    if (!volume && !number) return [];
    const [own, other] = volume ? [issue.volume, first.volume] : [issue.countText, first.countText];
    return [
      ofIssue(issue, {
        code: 'numbering-jumps',
        says: `Edition ${String(issue.edition)} of ${issue.day} has the ${volume ? 'volume' : 'number'} ${own ?? ''}, and edition ${String(first.edition)} of that day ${other ?? ''}.`,
        likely: `${other ?? ''} was probably meant for both, or the edition is of another day.`,
        doubtful: volume ? ['volume'] : ['issueNumber'],
      }),
    ];
  });
}

interface Known {
  /** Issues between that were published, and those of which that is not known. */
  readonly published: number;
  readonly unknown: number;
}

function missingBetween(run: Run, before: RunIssue, issue: RunIssue): Known {
  const between = run.missing.filter(({ real }) => real > before.real && real < issue.real);
  return {
    published: between.filter(({ published }) => published === 'yes').length,
    unknown: between.filter(({ published }) => published === 'unknown').length,
  };
}

/** By how much the count goes on; null where one has no count, or a new volume begins it anew. */
function stepOf(before: RunIssue, issue: RunIssue): number | null {
  if (before.count === null || issue.count === null) return null;
  // No paper comes out more than once for each day that has passed, so far behind its first number a volume cannot be.
  const anew = issue.count <= issue.number - before.number + FIRST_NUMBERS;
  if (before.volume !== issue.volume && issue.count < before.count && anew) return null;
  return issue.count - before.count;
}

function fits(step: number, { published, unknown }: Known, gap: number): boolean {
  return step >= 1 + published && step <= 1 + published + unknown + gap;
}

/** Expected days in front of each issue that are neither on the film nor recorded as missing, by the key of the issue. */
function gapsOf(run: Run, firsts: readonly RunIssue[]): ReadonlyMap<string, readonly string[]> {
  const gaps = new Map<string, readonly string[]>();
  const [first, last] = [firsts[0], firsts.at(-1)];
  if (first === undefined || last === undefined || run.patterns.length === 0 || run.uncertain > 0) return gaps;
  const accounted = new Set([
    ...run.missing.map(({ real }) => real),
    ...run.issues.flatMap(({ real, combinedWith }) => [real, ...(combinedWith === null ? [] : [combinedWith])]),
  ]);
  const open = new Set(expectedDays(run.patterns, first.real, last.real).filter((day) => !accounted.has(day)));
  for (const { real: day } of firsts) {
    if (statementFor(run.patterns, day) === 'expected') continue;
    const near = [1, -1, 2, -2, 3, -3]
      .slice(0, MOVED * 2)
      .map((by) => addDays(day, by))
      .find((one) => open.has(one));
    if (near !== undefined) open.delete(near);
  }
  const days = [...open].toSorted();
  let at = 0;
  for (const issue of firsts) {
    const own: string[] = [];
    for (let day = days[at]; day !== undefined && day < issue.real; day = days[at]) {
      own.push(day);
      at += 1;
    }
    if (own.length > 0) gaps.set(issue.key, own);
  }
  return gaps;
}

function gapItem(run: Run, gap: readonly string[], before: RunIssue, issue: RunIssue, step: number | null, known: Known): Irregularity {
  const skipped = step === null ? null : step - 1 - known.published;
  const numbers =
    step === null
      ? 'The numbers of the issues around cannot tell.'
      : `The numbers go from ${before.countText ?? ''} to ${issue.countText ?? ''}.`;
  const likely =
    skipped === null
      ? null
      : skipped === 0
        ? 'The numbers go on, so probably nothing was published then.'
        : skipped === gap.length
          ? `The numbers leave out as many: ${gap.length === 1 ? 'it was' : 'they were'} probably published and ${gap.length === 1 ? 'is' : 'are'} wanting.`
          : null;
  const from = gap[0] ?? '';
  const days = gap.length === 1 ? from : `${from} to ${gap.at(-1) ?? ''}`;
  return ofDays(run, gap, [before, issue], {
    code: 'gap-unexplained',
    says:
      gap.length === 1
        ? `An issue was due on ${days}; the record has none and does not say why.`
        : `${String(gap.length)} issues were due from ${days}; the record has none of them and does not say why.`,
    likely,
    evidence: [`The issues around are of ${before.day} and ${issue.day}, ${counted(issue.number - before.number, 'day')} apart.`, numbers],
  });
}

function jumpItem(before: RunIssue, issue: RunIssue, next: RunIssue | null, known: Known): Irregularity {
  const expected = (before.count ?? 0) + 1 + known.published;
  return ofIssue(issue, {
    code: 'numbering-jumps',
    says: `The issue of ${issue.day} has the number ${issue.countText ?? ''}, behind ${before.countText ?? ''} of ${before.day}.`,
    likely: next === null ? null : `${String(expected)} was probably meant: the issue of ${next.day} has ${next.countText ?? ''}.`,
    // Where the next number does not tell either may be wrong.
    also: next === null ? before.shots : [],
    evidence: [`Where numbers run on, ${String(expected)} follows; ${named('issue', [before.day, issue.day])} lie beside each other.`],
  });
}
