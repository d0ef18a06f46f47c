import { usualPages } from '../calendar/patterns.js';
import { inSeries } from '../normalise/in-series.js';
import type { Facts, Run, RunIssue } from './facts.js';
import { counted, type Irregularity, ofIssue } from './item.js';
import { habitOf, irregularHabit, irregularLabels } from './labels.js';
import { type AbsentPages, absentOf, absentPages, contradicts, spreadsOf } from './leaves.js';

/** A count of pages that so few of the issues of a title have is unusual. */
const SELDOM = 0.05;
const LEAST_ISSUES = 8;
/** Pages that went from one issue to the next make two of them unusual. */
const FEW = 2;

/** Pages of an issue that do not count on, or come twice, and issues with a number of pages that the title does not have: one irregularity for an issue. */
export function irregularPages(facts: Facts): readonly Irregularity[] {
  const absent = absentPages(facts);
  return facts.runs.flatMap((run) => {
    const habit = habitOf(run);
    const counts = run.issues.map((issue) => pageCount(issue, absent));
    const often = new Map<number, number>();
    for (const count of counts) often.set(count, (often.get(count) ?? 0) + 1);
    return [
      ...irregularHabit(run),
      ...run.issues.flatMap((issue, at): readonly Irregularity[] => {
        if (contradicts(issue)) return [];
        const found = irregularLabels(run, at, absent, habit) ?? unusualCount(run, issue, often, counts[at] ?? 0);
        return found === null ? [] : [found];
      }),
    ];
  });
}

function pageCount(issue: RunIssue, absent: AbsentPages): number {
  const shown = issue.shots.filter(
    ({ isPage, deliver, entry }) => isPage && deliver && entry.duplicateOf === undefined && entry.supplement !== true,
  );
  const beside = spreadsOf(issue).reduce((sum, { first, last }) => sum + last - first, 0);
  return shown.length + beside + absentOf(issue, absent).length;
}

function unusualCount(run: Run, issue: RunIssue, often: ReadonlyMap<number, number>, count: number): Irregularity | null {
  if (issue.edition !== 1 || count === 0 || isHoliday(issue.day)) return null;
  const given = usualPages(run.patterns, issue.day);
  if (given.includes(count)) return null;
  const alike = often.get(count) ?? 0;
  if ((given.length === 0 && run.issues.length < LEAST_ISSUES) || alike > Math.max(FEW, run.issues.length * SELDOM)) return null;
  const common = [...often]
    .flatMap(([other, times]) => (other > 0 && other !== count && times > run.issues.length * SELDOM ? [other] : []))
    .toSorted((a, b) => a - b);
  const [least] = given.length > 0 ? given : common;
  // A thicker number is made of more sheets of the same kind; its pages count on, or it would be told of them (common practice, no source).
  if (least === undefined || (count > least && count % least === 0)) return null;
  return ofIssue(issue, {
    code: 'page-count-unusual',
    says: `The issue of ${issue.day} has ${counted(count, 'page')}.`,
    evidence: [
      given.length > 0 ? `The title usually has ${pagesInWords(given)}.` : `Most issues of the title have ${pagesInWords(common)}.`,
    ],
  });
}

/** `1 page`, `4, 8 or 10 pages`. */
function pagesInWords(counts: readonly number[]): string {
  return counts.length === 1 ? counted(counts[0] ?? 0, 'page') : `${inSeries(counts.map(String), 'or')} pages`;
}

/** The days around Christmas and the New Year, on which papers are thicker or thinner: common practice, no source. */
function isHoliday(day: string): boolean {
  const date = day.slice(5);
  return date >= '12-20' || date <= '01-03';
}
