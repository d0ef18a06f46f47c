import type { Run, RunIssue, Shot } from './facts.js';
import { type Irregularity, named, ofIssue, ofShots, ofTitle } from './item.js';
import { type AbsentPage, type AbsentPages, absentOf, type Leaf, leafName, leavesOf, numbersOf, shownPages, spreadsOf } from './leaves.js';
import { irregularPlaces } from './places.js';

/** Wider holes are labels of another kind, and no pages that nobody wrote down. */
const WIDEST_HOLE = 40;
/** What so many of the issues of a title do is its habit. */
const HABIT = 0.7;
/** So many issues show a habit. */
const LEAST_ISSUES = 4;
/** So many of the pages of a title have a label where it labels its pages. */
const NEARLY_ALL = 0.9;

/** Page labels of an issue that do not count on, come twice or are not there; null where nothing is wrong with them. */
export function irregularLabels(run: Run, at: number, absent: AbsentPages, habit: Habit): Irregularity | null {
  const issue = run.issues[at];
  if (issue === undefined) return null;
  const gone = absentOf(issue, absent);
  return (
    labelsOf(issue, gone, habit) ??
    otherLetters(issue) ??
    unlabelled(issue, habit) ??
    irregularPlaces(issue, gone) ??
    oddSections(issue, gone) ??
    (habit.running ? notRunningOn(run, at, absent) : null)
  );
}

/** How the issues of a title label their pages. */
export interface Habit {
  /** Nearly all begin with page 1: one that does not lacks what is in front. */
  readonly fromOne: boolean;
  /** Each goes on where the one before ended. */
  readonly running: boolean;
  readonly labelled: boolean;
}

/** What the issues of a title show of its habit. */
export function habitOf({ issues }: Run): Habit {
  const ends = endsOf(issues);
  const often = (is: (one: (typeof ends)[number], at: number) => boolean): boolean =>
    ends.length > 0 && ends.filter(is).length >= ends.length * HABIT;
  const pages = issues.flatMap(({ shots }) => shots.filter(({ isPage, deliver }) => isPage && deliver));
  return {
    fromOne: often(({ from }) => from === 1),
    running: ends.length >= LEAST_ISSUES && often(({ from }, at) => from > 1 && (at === 0 || from === (ends[at - 1]?.to ?? 0) + 1)),
    labelled: pages.filter((shot) => !isUnlabelled(shot)).length >= pages.length * NEARLY_ALL,
  };
}

interface Ends {
  readonly issue: RunIssue;
  readonly from: number;
  readonly to: number;
}

/** The first and last number of the issues that count their pages outside sections; later editions have their own. */
function endsOf(issues: readonly RunIssue[]): readonly Ends[] {
  return issues.flatMap((issue): readonly Ends[] => {
    const own = issue.edition === 1 ? plainNumbers(issue) : [];
    const [from, to] = extremes(own);
    return own.length === 0 ? [] : [{ issue, from, to }];
  });
}

/** The least and the largest of numbers, however many there are: as arguments of a call too many would overflow the stack. */
function extremes(numbers: Iterable<number>): readonly [least: number, most: number] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const number of numbers) [least, most] = [Math.min(least, number), Math.max(most, number)];
  return [least, most];
}

/** The numbers of the pages of an issue that lie in no section. */
function plainNumbers(issue: RunIssue): readonly number[] {
  return leavesOf(issue).flatMap(({ section, number }) => (section === '' ? [number] : []));
}

/** A delivered page of which the record says neither a label nor that none is printed. */
function isUnlabelled({ isPage, deliver, entry }: Shot): boolean {
  return isPage && deliver && entry.page === undefined && entry.pagePrinted === undefined;
}

/** Reels on which nearly all issues of a title begin with the same page, and not with the first. */
export function irregularHabit(run: Run): readonly Irregularity[] {
  const byReel = new Map<string, Ends[]>();
  for (const one of endsOf(run.issues)) {
    const reel = one.issue.shots[0]?.reel ?? '';
    byReel.set(reel, [...(byReel.get(reel) ?? []), one]);
  }
  return [...byReel].flatMap(([reel, ends]): readonly Irregularity[] => {
    const from = ends[0]?.from ?? 1;
    const alike = ends.filter((one) => one.from === from && !one.issue.shots.some(isUnlabelled));
    if (from === 1 || ends.length < LEAST_ISSUES || alike.length < ends.length * HABIT) return [];
    return [
      ofTitle({ ...run, issues: alike.map(({ issue }) => issue) }, [], {
        code: 'pages-unaccounted',
        says: `On reel ${reel} the issues of ${run.name} begin with page ${String(from)}, and the record does not say where ${from === 2 ? 'page 1 is' : `pages 1 to ${String(from - 1)} are`}.`,
        likely: 'The labels were probably counted from another number than the paper does.',
        doubtful: ['page'],
      }),
    ];
  });
}

function labelsOf(issue: RunIssue, gone: readonly AbsentPage[], { fromOne }: Habit): Irregularity | null {
  const leaves = leavesOf(issue);
  const missing = missingLabels(issue, leaves, gone, fromOne);
  const names = new Set<string>();
  const twice = leaves.filter((leaf) => {
    const name = leafName(leaf);
    return names.has(name) || !names.add(name);
  });
  const [first] = twice;
  if (missing.length > 0)
    return ofShots(first === undefined ? issue.shots : twice.map(({ shot }) => shot), issue, {
      code: 'pages-unaccounted',
      says: `The issue of ${issue.day} has no ${named('page', missing)}, and the record does not say that ${missing.length === 1 ? 'it is' : 'they are'} absent.`,
      likely:
        twice.length === missing.length
          ? `${named('page', twice.map(leafName)).replace(/^p/, 'P')} ${twice.length === 1 ? 'stands' : 'stand'} there twice; the second is probably ${named('page', missing)}.`
          : null,
      evidence: [`Its pages are ${leaves.map(leafName).join(', ')}.`],
    });
  if (first === undefined) return null;
  return ofShots(
    twice.map(({ shot }) => shot),
    issue,
    {
      code: 'duplicate-unpaired',
      says: `The issue of ${issue.day} has ${repeated(twice.map(leafName))} is said to be a duplicate.`,
      likely: 'Hold one back, or name the frame that it duplicates where both are to be kept.',
    },
  );
}

/** `page 2 twice, both to be delivered, and neither`, by the names of the pages behind the first of each. */
function repeated(names: readonly string[]): string {
  const pages = [...new Set(names)];
  return `${named('page', pages)} ${pages.length === names.length ? 'twice, both to be delivered, and neither' : 'more than once, each time to be delivered, and none'}`;
}

/** The labels between those of an issue that no page has. */
function missingLabels(issue: RunIssue, leaves: readonly Leaf[], gone: readonly AbsentPage[], fromOne: boolean): readonly string[] {
  const holes: string[] = [];
  const spreads = spreadsOf(issue);
  for (const section of new Set(leaves.map((leaf) => leaf.section))) {
    const known = new Set([...leaves, ...gone].flatMap((one) => (one.section === section ? [one.number] : [])));
    for (const spread of spreads) if (spread.section === section) for (const number of numbersOf(spread)) known.add(number);
    const [least, most] = extremes(known);
    // A label that begins with its section counts within it.
    const within = leaves.some((leaf) => leaf.section === section && leaf.letters !== '');
    const from = (within || (section === '' && fromOne)) && least <= WIDEST_HOLE ? 1 : least;
    for (let number = from; number <= most && holes.length < WIDEST_HOLE; number += 1)
      if (!known.has(number)) holes.push(leafName({ section, number }));
  }
  // An unnumbered page holds the place of a number that no page has.
  const unnumbered =
    shownPages(issue).length -
    leaves.length -
    spreads.length +
    issue.shots.filter(({ isPage, deliver, label }) => isPage && deliver && label === null).length;
  const open = holes.slice(0, Math.max(0, holes.length - unnumbered));
  // A page that is held back and shown nowhere else keeps its place.
  const held = new Set(
    issue.shots.filter(({ isPage, deliver }) => isPage && !deliver).map(({ label }) => (label ?? '').replace(/^.*\|/, '')),
  );
  return open.filter((hole) => !held.has(hole));
}

/** A label with the letters of one section on a page of another. */
function otherLetters(issue: RunIssue): Irregularity | null {
  const wrong = leavesOf(issue).filter(
    ({ letters, shot }) => letters !== '' && shot.entry.section !== undefined && shot.entry.section.toUpperCase() !== letters,
  );
  const [first] = wrong;
  if (first === undefined) return null;
  return ofShots(
    wrong.map(({ shot }) => shot),
    issue,
    {
      code: 'pages-unaccounted',
      says: `In the issue of ${issue.day} page ${first.shot.entry.page ?? ''} is said to be of section ${first.shot.entry.section ?? ''}.`,
      likely: `It is probably of section ${first.letters}, as its label says.`,
      doubtful: ['page', 'section', 'order'],
    },
  );
}

/** Two sections with an odd number of pages each, together an even one: a leaf has two sides, so a page of one was given to the other (common practice, no source). */
function oddSections(issue: RunIssue, gone: readonly AbsentPage[]): Irregularity | null {
  const counts = new Map<string, number>();
  for (const { section } of [...leavesOf(issue), ...gone]) counts.set(section, (counts.get(section) ?? 0) + 1);
  const odd = [...counts].filter(([, count]) => count % 2 === 1).toSorted(([, a], [, b]) => a - b);
  const [[least, pages] = ['', 0], other] = odd;
  if (odd.length !== 2 || other === undefined || pages !== 1) return null;
  const alone = leavesOf(issue).filter(({ section }) => section === least);
  const inWords = (section: string): string => (section === '' ? 'without a section' : `of section ${section.replace(/^S /, '')}`);
  return ofShots(
    alone.map(({ shot }) => shot),
    issue,
    {
      code: 'pages-unaccounted',
      says: `In the issue of ${issue.day} one page is ${inWords(least)} alone, and ${String(other[1])} are ${inWords(other[0])}.`,
      likely: 'A leaf has two sides: the page probably belongs to the others.',
      doubtful: ['page', 'section', 'order'],
    },
  );
}

function unlabelled(issue: RunIssue, { labelled }: Habit): Irregularity | null {
  const without = issue.shots.filter(isUnlabelled);
  if (!labelled || without.length === 0) return null;
  return ofShots(without, issue, {
    code: 'pages-unaccounted',
    says: `In the issue of ${issue.day} ${named(
      'frame',
      without.map(({ key }) => key),
    )} ${without.length === 1 ? 'is a page' : 'are pages'} without a label.`,
    likely: 'Give the label, write "-" under "page printed" where nothing is printed, or hold the frame back where it shows no page.',
    doubtful: ['page', 'order', 'delivered'],
  });
}

/** An issue that does not go on where the one before ended, in a paper that counts its pages through. */
function notRunningOn(run: Run, at: number, absent: AbsentPages): Irregularity | null {
  const issue = run.issues[at];
  const before = run.issues.slice(0, at).findLast(({ edition }) => edition === 1);
  if (before === undefined || issue === undefined || issue.edition !== 1) return null;
  const goneFrom = (one: RunIssue): readonly number[] =>
    absentOf(one, absent).flatMap(({ section, number }) => (section === '' ? [number] : []));
  const [, last] = extremes([...plainNumbers(before), ...goneFrom(before)]);
  const own = [...plainNumbers(issue), ...goneFrom(issue)];
  const [first] = extremes(own);
  if (own.length === 0 || !Number.isFinite(last) || first === 1 || first === last + 1) return null;
  const missing = run.missing.some(({ real, published }) => published !== 'no' && real > before.real && real < issue.real);
  if (missing && first > last) return null;
  return ofIssue(issue, {
    code: 'pages-unaccounted',
    says: `The issue of ${issue.day} begins with page ${String(first)}; the issue before it, of ${before.day}, ends with page ${String(last)}.`,
    likely: 'The pages of this paper are counted on from issue to issue: labels were miscounted in one of the two, or pages are missing.',
    doubtful: ['page'],
  });
}
