import { isMisnamed } from '../calendar/edition-names.js';
import { readDate } from '../calendar/edtf.js';
import { normaliseLccn, plainText } from '../normalise/labels.js';
import type { Facts, RunIssue, Shot } from './facts.js';
import { type Irregularity, named, ofIssue, ofShots, ofTitle } from './item.js';
import { contradicts, shownPages } from './leaves.js';

/** Facts that an issue has once. */
const ONCE = ['issueNumber', 'volume'] as const;
/** So many frames that another issue holds between those of one are a slip; more are an issue of their own. */
const LONGEST_STRAY = 3;

/** Issues that contradict themselves, lie in another one, have unclear editions, or come from two reels. */
export function irregularIssues(facts: Facts): readonly Irregularity[] {
  return [
    ...facts.runs.flatMap(({ issues }) => issues.flatMap(contradiction)),
    ...strays(facts),
    ...editions(facts),
    ...overlaps(facts),
    ...judgements(facts),
    ...identifiers(facts),
  ];
}

function contradiction(issue: RunIssue): readonly Irregularity[] {
  const twice = contradicts(issue) && new Set(issue.shots.map(({ reel }) => reel)).size === 1;
  const facts = ONCE.flatMap((field) => {
    const texts = [...new Set(issue.shots.flatMap(({ entry }) => plainText(entry[field] ?? '') ?? []))];
    return texts.length > 1 ? [{ field, texts }] : [];
  });
  const [first] = facts;
  if (!twice && first === undefined) return [];
  const evidence = facts.map(
    ({ field, texts }) => `It has the ${field === 'volume' ? 'volumes' : 'numbers'} ${texts.slice(0, 5).join(' and ')}.`,
  );
  // One frame that says another number than all others is that frame's slip.
  const odd = first === undefined || twice ? null : oddOnes(issue.shots, first.field);
  return [
    ofShots(odd ?? issue.shots, issue, {
      code: 'issue-contradicts-itself',
      says: `The issue of ${issue.day} ${twice ? 'has its pages twice' : `is given two ${first?.field === 'volume' ? 'volumes' : 'numbers'}`}.`,
      likely: twice ? 'These are probably two issues, one of which was copied down with the day of the other.' : null,
      evidence,
      ...(twice ? {} : { doubtful: facts.map(({ field }) => field) }),
    }),
  ];
}

function oddOnes(shots: readonly Shot[], field: (typeof ONCE)[number]): readonly Shot[] | null {
  const by = new Map<string, Shot[]>();
  for (const shot of shots) {
    const text = plainText(shot.entry[field] ?? '');
    if (text !== null) by.set(text, [...(by.get(text) ?? []), shot]);
  }
  const [least, most] = [...by.values()].toSorted((a, b) => a.length - b.length);
  return least !== undefined && most !== undefined && least.length < most.length ? least : null;
}

/** A few frames of one issue between the frames of another. */
function strays({ reels, runs }: Facts): readonly Irregularity[] {
  const byKey = new Map(runs.flatMap(({ issues }) => issues.map((issue) => [issue.key, issue] as const)));
  return reels.flatMap(({ shots }) => {
    const pages = shots.filter(
      ({ issue, deliver, entry }) => issue !== null && deliver && entry.retakeOf === undefined && entry.duplicateOf === undefined,
    );
    const found: Irregularity[] = [];
    for (let at = 1; at < pages.length; ) {
      const [before, first] = [pages[at - 1], pages[at]];
      if (before === undefined || first === undefined || first.issue === before.issue) {
        at += 1;
        continue;
      }
      let end = at;
      while (pages[end]?.issue === first.issue) end += 1;
      const run = pages.slice(at, end);
      const inside = pages[end]?.issue === before.issue && run.length <= LONGEST_STRAY;
      const around = byKey.get(before.issue ?? '');
      const own = byKey.get(first.issue ?? '');
      // A short issue between two sittings of a long one would be an issue with a first page of its own.
      if (inside && (around?.shots.length ?? 0) > run.length) {
        found.push(
          ofShots(run, own ?? null, {
            code: 'issue-contradicts-itself',
            says: `${named(
              'frame',
              run.map(({ key }) => key),
            )} ${run.length === 1 ? 'is' : 'are'} said to be of the issue of ${first.entry.date ?? 'no date'}${editionOf(own)}, and ${run.length === 1 ? 'lies' : 'lie'} between pages of the issue of ${before.entry.date ?? 'no date'}${editionOf(around)}.`,
            likely: `${run.length === 1 ? 'It is' : 'They are'} probably of the issue around.`,
          }),
        );
        at = end + 1;
      } else at = end;
    }
    return found;
  });
}

function editionOf(issue: RunIssue | undefined): string {
  return issue === undefined || issue.edition === 1 ? '' : `, edition ${String(issue.edition)}`;
}

/** The editions of a day are counted 1, 2, 3, and have the number that their names on the paper stand for. */
function editions({ runs, side }: Facts): readonly Irregularity[] {
  return runs.flatMap(({ id, issues }) => {
    const days = new Map<string, RunIssue[]>();
    for (const issue of issues) days.set(issue.day, [...(days.get(issue.day) ?? []), issue]);
    return [...days].flatMap(([day, own]): readonly Irregularity[] => {
      const absent = side.absences
        .filter(({ title, date, page }) => title === id && date?.day === day && page === null)
        .map(({ edition }) => edition ?? 1);
      const numbers = new Set([...own.map(({ edition }) => edition), ...absent]);
      const highest = Math.max(...numbers);
      const below = own.find(({ edition }) => edition < 1);
      if (below !== undefined)
        return [
          ofIssue(below, {
            code: 'editions-unordered',
            says: `The issue of ${day} is edition ${String(below.edition)}; editions are counted from 1.`,
          }),
        ];
      const misnamed = own.length > 1 ? own.find(({ edition, editionLabel }) => isMisnamed(edition, editionLabel)) : undefined;
      if (misnamed !== undefined)
        return [
          ofIssue(misnamed, {
            code: 'editions-unordered',
            says: `The issue of ${day} that the paper calls "${misnamed.editionLabel ?? ''}" is edition ${String(misnamed.edition)}, which its name is not.`,
          }),
        ];
      const lacking = Array.from({ length: highest }, (_, at) => at + 1).filter((number) => !numbers.has(number));
      const [last] = own.toReversed();
      if (lacking.length === 0 || last === undefined) return [];
      return [
        ofIssue(last, {
          code: 'editions-unordered',
          says: `The issue of ${day} is edition ${String(highest)}, and the record has no ${named('edition', lacking.map(String))} of that day.`,
        }),
      ];
    });
  });
}

/** Pages that are to be delivered from two reels. */
function overlaps({ runs }: Facts): readonly Irregularity[] {
  const pairs = new Map<string, { readonly issues: RunIssue[]; readonly shots: Shot[] }>();
  for (const { issues } of runs)
    for (const issue of issues) {
      const first = new Map<string, Shot>();
      for (const shot of shownPages(issue)) {
        const before = first.get(shot.label ?? '');
        if (before === undefined) first.set(shot.label ?? '', shot);
        else if (before.reel !== shot.reel) {
          const key = JSON.stringify([before.reel, shot.reel]);
          const pair = pairs.get(key) ?? { issues: [], shots: [] };
          pairs.set(key, pair);
          pair.shots.push(shot);
          if (!pair.issues.includes(issue)) pair.issues.push(issue);
        }
      }
    }
  return [...pairs].map(([key, { issues, shots }]) => {
    const [one = '', other = ''] = JSON.parse(key) as readonly string[];
    return ofShots(shots, issues[0] ?? null, {
      code: 'reels-overlap',
      says: `${issues.length === 1 ? 'The issue' : `${String(issues.length)} issues`} of ${named(
        'day',
        issues.map(({ day }) => day),
      ).replace(/^days? /, '')} ${issues.length === 1 ? 'is' : 'are'} to be delivered from reel ${one} and from reel ${other}.`,
      likely: 'Hold the pages back on one of the two reels.',
    });
  });
}

function judgements({ runs }: Facts): readonly Irregularity[] {
  return runs.flatMap(({ issues }) =>
    issues.flatMap((issue): readonly Irregularity[] => {
      const judged = issue.shots.find(({ entry }) => entry.datePrintedJudged !== undefined)?.entry.datePrintedJudged;
      const printed = issue.datePrinted === null ? null : (readDate(issue.datePrinted).day ?? issue.datePrinted);
      if (judged === 'right' && printed !== null && printed !== issue.day)
        return [
          ofIssue(issue, {
            code: 'printed-date-misjudged',
            says: `The printed date ${issue.datePrinted ?? ''} is judged right, and the issue is dated ${issue.day}.`,
          }),
        ];
      if (judged === 'wrong' && (printed === null || printed === issue.day))
        return [
          ofIssue(issue, {
            code: 'printed-date-misjudged',
            says: `The printed date of ${issue.day} is judged wrong, and the record gives no other one.`,
          }),
        ];
      return [];
    }),
  );
}

/** Identifiers that begin as an LCCN does and are none (structure of the LCCN, Library of Congress). */
function identifiers({ runs, record }: Facts): readonly Irregularity[] {
  return record.titles.flatMap(({ id }, at): readonly Irregularity[] => {
    const run = runs[at];
    if (run === undefined || !/^(sn|sf|sc|n|no|nr)\s?[-\d/ ]+$/i.test(id) || normaliseLccn(id) !== null) return [];
    return [ofTitle(run, [], { code: 'identifier-malformed', says: `"${id}" begins as an LCCN does, and has another number of digits.` })];
  });
}
