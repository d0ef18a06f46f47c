import { usualPages } from '../calendar/patterns.js';
import type { Facts, Run, RunIssue, Shot } from './facts.js';
import { counted, type Irregularity, named, ofIssue, ofShots } from './item.js';

/** Labels, as they are compared, of the pages that the record says are absent, by title, day and edition. */
type AbsentLabels = ReadonlyMap<string, readonly { readonly section: string; readonly number: number }[]>;

/** A count of pages that so few of the issues of a title have is unusual. */
const SELDOM = 0.05;
const LEAST_ISSUES = 8;
/** Wider holes are labels of another kind, and no pages that nobody wrote down. */
const WIDEST_HOLE = 40;

/** Pages of an issue that do not count on, or come twice, and issues with a number of pages that the title does not have. */
export function irregularPages(facts: Facts): readonly Irregularity[] {
  const absent = absentLabels(facts);
  return facts.runs.flatMap((run) => {
    const starts = startsAtOne(run);
    const counts = run.issues.map((issue) => pageCount(issue, absent));
    const often = new Map<number, number>();
    for (const count of counts) often.set(count, (often.get(count) ?? 0) + 1);
    return run.issues.flatMap((issue, at): readonly Irregularity[] => {
      if (contradicts(issue)) return [];
      const found = labelsOf(issue, absent, starts);
      if (found !== null) return [found];
      const unusual = unusualCount(run, issue, often, counts[at] ?? 0);
      return unusual === null ? [] : [unusual];
    });
  });
}

/** True for an issue that holds most of its pages twice: that is one thing, told elsewhere. */
export function contradicts(issue: RunIssue): boolean {
  const shown = shownPages(issue);
  const labels = new Set(shown.map(({ label }) => label));
  return labels.size >= 2 && shown.length - labels.size >= labels.size / 2;
}

/** The pages of an issue that are delivered as such, without second exposures. */
export function shownPages({ shots }: RunIssue): readonly Shot[] {
  return shots.filter(({ isPage, deliver, entry, label }) => isPage && deliver && label !== null && entry.duplicateOf === undefined);
}

function absentLabels({ side }: Facts): AbsentLabels {
  const found = new Map<string, { readonly section: string; readonly number: number }[]>();
  for (const { title, date, edition, section, page, order } of side.absences) {
    if (page === null && order === null) continue;
    const key = JSON.stringify([title, date?.day, edition ?? 1]);
    const number = Number(/(\d{1,5})(?!.*\d)/.exec(page ?? '')?.[1] ?? order ?? 0);
    found.set(key, [...(found.get(key) ?? []), { section: section ?? '', number }]);
  }
  return found;
}

function absentOf(issue: RunIssue, absent: AbsentLabels): readonly { readonly section: string; readonly number: number }[] {
  return absent.get(JSON.stringify([issue.title, issue.day, issue.edition])) ?? [];
}

interface Leaf {
  readonly section: string;
  readonly number: number;
  readonly shot: Shot;
}

function leavesOf(issue: RunIssue): readonly Leaf[] {
  return shownPages(issue).flatMap((shot): readonly Leaf[] => {
    const [section = '', label = ''] = (shot.label ?? '').split('|');
    const match = /^([A-Z]{0,3})[-. ]?(\d{1,5})$/.exec(label);
    return match === null
      ? []
      : [{ section: section === '' || section === 'S ' ? `${section}${match[1] ?? ''}` : section, number: Number(match[2]), shot }];
  });
}

/** Whether nearly all issues of a title begin with page 1: then one that does not lacks what is in front. */
function startsAtOne({ issues }: Run): boolean {
  const starts = issues.flatMap((issue) => {
    const numbers = leavesOf(issue)
      .filter(({ section }) => section === '')
      .map(({ number }) => number);
    return numbers.length === 0 ? [] : [Math.min(...numbers)];
  });
  return starts.length > 0 && starts.filter((start) => start === 1).length >= starts.length * 0.7;
}

function labelsOf(issue: RunIssue, absent: AbsentLabels, starts: boolean): Irregularity | null {
  const leaves = leavesOf(issue);
  const gone = absentOf(issue, absent);
  const holes: string[] = [];
  const twice: Leaf[] = [];
  for (const section of new Set(leaves.map((leaf) => leaf.section))) {
    const own = leaves.filter((leaf) => leaf.section === section);
    const known = new Set([
      ...own.map(({ number }) => number),
      ...gone.filter((one) => one.section === section).map(({ number }) => number),
    ]);
    const least = Math.min(...known);
    const from = section === '' && starts && least <= WIDEST_HOLE ? 1 : least;
    for (let number = from; number <= Math.max(...known); number += 1)
      if (!known.has(number) && holes.length < WIDEST_HOLE) holes.push(`${section}${String(number)}`);
    const seen = new Set<number>();
    for (const leaf of own) {
      if (seen.has(leaf.number)) twice.push(leaf);
      seen.add(leaf.number);
    }
  }
  // An unnumbered page holds the place of a number that no page has.
  const unnumbered =
    shownPages(issue).length -
    leaves.length +
    issue.shots.filter(({ isPage, deliver, label }) => isPage && deliver && label === null).length;
  const open = holes.slice(0, Math.max(0, holes.length - unnumbered));
  // A page that is held back and shown nowhere else keeps its place.
  const held = new Set(
    issue.shots.filter(({ isPage, deliver }) => isPage && !deliver).map(({ label }) => (label ?? '').replace(/^.*\|/, '')),
  );
  const missing = open.filter((hole) => !held.has(hole));
  if (missing.length > 0) {
    const repeated = twice.map(({ section, number }) => `${section}${String(number)}`);
    return ofShots(twice.length > 0 ? twice.map(({ shot }) => shot) : issue.shots, issue, {
      code: 'pages-unaccounted',
      says: `The issue of ${issue.day} has no ${named('page', missing)}, and the record does not say that ${missing.length === 1 ? 'it is' : 'they are'} absent.`,
      likely:
        repeated.length === missing.length
          ? `${named('page', repeated)} stands there twice; the second is probably ${named('page', missing)}.`
          : null,
      evidence: [`Its pages are ${leaves.map(({ section, number }) => `${section}${String(number)}`).join(', ')}.`],
    });
  }
  const [first] = twice;
  if (first === undefined) return null;
  return ofShots(
    twice.map(({ shot }) => shot),
    issue,
    {
      code: 'duplicate-unpaired',
      says: `The issue of ${issue.day} has ${named(
        'page',
        twice.map(({ section, number }) => `${section}${String(number)}`),
      )} twice, both to be delivered, and neither is said to be a duplicate.`,
      likely: 'Hold one back, or name the frame that it duplicates where both are to be kept.',
    },
  );
}

function pageCount(issue: RunIssue, absent: AbsentLabels): number {
  const shown = issue.shots.filter(
    ({ isPage, deliver, entry }) => isPage && deliver && entry.duplicateOf === undefined && entry.supplement !== true,
  );
  return shown.length + absentOf(issue, absent).length;
}

function unusualCount(run: Run, issue: RunIssue, often: ReadonlyMap<number, number>, count: number): Irregularity | null {
  if (issue.edition !== 1 || count === 0 || isHoliday(issue.day)) return null;
  const given = usualPages(run.patterns, issue.day);
  if (given.includes(count)) return null;
  const alike = often.get(count) ?? 0;
  if (run.issues.length < LEAST_ISSUES || alike > Math.max(1, run.issues.length * SELDOM)) return null;
  const common = [...often].flatMap(([other, times]) => (times > run.issues.length * SELDOM ? [other] : [])).toSorted((a, b) => a - b);
  const [least] = given.length > 0 ? given : common;
  // A thicker number is made of more sheets of the same kind; its pages count on, or it would be told of them (common practice, no source).
  if (least === undefined || (count > least && count % least === 0)) return null;
  return ofIssue(issue, {
    code: 'page-count-unusual',
    says: `The issue of ${issue.day} has ${counted(count, 'page')}.`,
    evidence: [
      given.length > 0 ? `Usual for the title are ${given.join(' or ')}.` : `Most issues of the title have ${common.join(' or ')}.`,
    ],
  });
}

/** The days around Christmas and the New Year, on which papers are thicker or thinner: common practice, no source. */
function isHoliday(day: string): boolean {
  const date = day.slice(5);
  return date >= '12-20' || date <= '01-03';
}
