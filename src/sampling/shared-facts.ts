import type { CountInterval, Draw, IssueSize, SampleQuestion, SharedFacts, WrongUnit } from '../model/sample.js';
import { designEffect, effectiveSize, issuesAmong, pagesAmong, weighedSize } from './clusters.js';
import { countInterval } from './interval.js';

/** Facts that stand or fall for a whole issue. */
const SHARED: readonly SampleQuestion[] = ['right-date', 'right-issue'];
const ALPHA = { top: 1n, bottom: 20n };

/** What the drawn units tell of the facts that an issue shares, in pages and in issues. An issue fails where any of its drawn pages does. */
export function sharedFacts(draw: Draw, wrongOnes: readonly WrongUnit[]): SharedFacts {
  const failing = new Set(
    wrongOnes
      .filter(({ random, questions }) => random && questions.some((question) => SHARED.includes(question)))
      .map(({ issue }) => issue),
  );
  const seen = new Map(draw.drawn.map(({ issue, pages }) => [issue, pages] as const));
  const wrong = [...seen].flatMap(([issue, pages]) => (failing.has(issue) ? [pages] : []));
  const of = (sizes: readonly number[]): number => sizes.reduce((sum, size) => sum + size, 0);
  const all = {
    pages: draw.issues.reduce((sum, { pages, issues }) => sum + pages * issues, 0),
    issues: draw.issues.reduce((sum, { issues }) => sum + issues, 0),
  };
  const met = { wrong, unseen: without(draw.issues, [...seen.values()]) };
  const sample = draw.drawn.length;
  if (draw.unit === 'issue') {
    const interval = countInterval({ lot: all.issues, sample, wrong: wrong.length }, ALPHA);
    return {
      questions: SHARED,
      drawn: 'issue',
      pages: { lot: all.pages, seen: of([...seen.values()]), wrong: of(wrong), interval: pagesAmong(interval, met) },
      issues: { lot: all.issues, seen: seen.size, wrong: wrong.length, interval },
    };
  }
  const hit = draw.drawn.filter(({ issue }) => failing.has(issue)).length;
  const counted = countInterval({ lot: all.pages, sample, wrong: hit }, ALPHA);
  // every page of an issue that was seen is known by the one that was drawn
  const right = of([...seen.values()]) - of(wrong);
  const within = (count: number): number => Math.min(all.pages - right, Math.max(of(wrong), count));
  const interval: CountInterval = { low: within(counted.low), high: within(counted.high) };
  return {
    questions: SHARED,
    drawn: 'page',
    pages: { lot: all.pages, seen: sample, wrong: hit, interval },
    issues: { lot: all.issues, seen: seen.size, wrong: wrong.length, interval: issuesAmong(interval, met) },
  };
}

/** The issues of a lot that are not among those seen, by size. */
function without(sizes: readonly IssueSize[], seen: readonly number[]): readonly IssueSize[] {
  return sizes.map(({ pages, issues }) => ({ pages, issues: issues - seen.filter((size) => size === pages).length }));
}

/** The same in a sentence or two, with what the interval rests on. */
export function sharedInWords({ drawn, pages, issues }: SharedFacts, draw: Draw): readonly string[] {
  const { interval } = issues;
  if (drawn === 'issue')
    return [
      `For the facts that an issue shares (its date, and which issue it is) ${String(issues.wrong)} of ${String(issues.seen)} issues ${issues.wrong === 1 ? 'is' : 'are'} wrong: ${String(interval.low)} to ${String(interval.high)} of the ${String(issues.lot)} issues of the lot may be (95 %, exact for issues), and with them ${String(pages.interval.low)} to ${String(pages.interval.high)} of its ${String(pages.lot)} pages, by the sizes of the issues.`,
      ...worth(draw, pages.seen),
    ];
  return [
    `For the facts that an issue shares (its date, and which issue it is) a wrong page stands for its whole issue: ${String(pages.wrong)} of ${String(pages.seen)} pages, in ${String(issues.wrong)} of ${String(issues.seen)} issues seen. Of the ${String(pages.lot)} pages of the lot ${String(pages.interval.low)} to ${String(pages.interval.high)} may be wrong there (95 %, exact for pages drawn singly, however they hang together), and so ${String(interval.low)} to ${String(interval.high)} of its ${String(issues.lot)} issues: as many of the smallest as make up the upper end, of the largest as make up the lower.`,
  ];
}

/** Pages of whole issues are fewer looks than as many single pages: by the design effect, with issues of different sizes. */
function worth({ drawn }: Draw, seen: number): readonly string[] {
  const effect = designEffect(weighedSize(drawn.map(({ pages }) => pages)), 1);
  if (drawn.length === 0 || effect <= 1) return [];
  return [
    `Whole issues were drawn: for these facts their ${String(seen)} pages are worth about ${effectiveSize(seen, effect).toFixed(0)} pages drawn singly (design effect ${effect.toFixed(2)}).`,
  ];
}
