import type { Facts, RunIssue } from './facts.js';
import { type Irregularity, ofShots } from './item.js';

/** A misprint that stands in so many issues, one after the other, is the habit of the printer. */
const LEAST = 4;

/** Pages that are misprinted in the same way from issue to issue, and do not print so in one issue between: the record may have passed over it there. */
export function irregularMisprints({ runs }: Facts): readonly Irregularity[] {
  return runs.flatMap(({ issues }) => {
    const printed = issues.map(misprintsOf);
    return issues.flatMap((issue, at): readonly Irregularity[] => {
      const [before, after] = [printed[at - 1], printed[at + 1]];
      if (before === undefined || after === undefined) return [];
      return [...before].flatMap(([label, text]): readonly Irregularity[] => {
        const shot = issue.shots.find((one) => one.label === label && one.deliver);
        if (after.get(label) !== text || shot === undefined || shot.entry.pagePrinted !== undefined) return [];
        if (habit(printed, at, label, text) < LEAST) return [];
        return [
          ofShots([shot], issue, {
            code: 'misprint-recurs',
            says: `In the issues around that of ${issue.day} page ${shot.entry.page ?? ''} prints ${text}; for this issue the record does not say so.`,
            likely: `It probably prints ${text} here too. Look at the film.`,
          }),
        ];
      });
    });
  });
}

/** What is misprinted in an issue: the label on the paper by the label of the page. A page on which nothing is printed is no misprint. */
function misprintsOf({ shots }: RunIssue): ReadonlyMap<string, string> {
  return new Map(
    shots.flatMap(({ label, deliver, entry }) =>
      label !== null && deliver && entry.pagePrinted !== undefined && entry.pagePrinted !== '-'
        ? [[label, entry.pagePrinted] as const]
        : [],
    ),
  );
}

/** In how many issues around one, without a break on either side, the page is misprinted in that way. */
function habit(printed: readonly ReadonlyMap<string, string>[], at: number, label: string, text: string): number {
  let count = 0;
  for (let before = at - 1; printed[before]?.get(label) === text; before -= 1) count += 1;
  for (let after = at + 1; printed[after]?.get(label) === text; after += 1) count += 1;
  return count;
}
