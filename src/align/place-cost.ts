import { COST } from './cost.js';
import { type Features, KIND } from './features.js';

/** Cost of taking place `i` of the record and place `j` of the return for the same frame. */
export type PlaceCost = (i: number, j: number) => number;

/**
 * Prices pairs of places. What issues say of themselves is compared once per pair of issues, not once per pair of pages: each cell of the
 * alignment's table asks this function.
 */
export function placeCosts(a: Features, b: Features): PlaceCost {
  const { kind: mine, issue, second, label, labelPrinted, labelNumber, unprinted, half, section, order } = a;
  const theirs = b.kind;
  const [otherIssue, otherLabel, otherNumber, otherHalf, otherSection, otherOrder] = [
    b.issue,
    b.label,
    b.labelNumber,
    b.half,
    b.section,
    b.order,
  ];
  const { first, again, width } = issueCosts(a, b);

  const pages = (i: number, j: number): number => {
    const at = (issue[i] ?? 0) * width + (otherIssue[j] ?? 0);
    // the same issue met the same document one page before: its facts were counted there
    const repeated = i > 0 && j > 0 && issue[i] === issue[i - 1] && otherIssue[j] === otherIssue[j - 1] && otherIssue[j] !== 0;
    let cost = (repeated ? again[at] : first[at]) ?? 0;
    if (label[i] !== otherLabel[j]) {
      if (otherLabel[j] === 0) {
        if (unprinted[i] === 0) cost += COST.labelMissing;
      } else if (label[i] !== 0 && labelPrinted[i] !== otherLabel[j]) {
        cost += repeated && sameStep(labelNumber, i, otherNumber, j) ? COST.again : COST.label;
      }
    }
    if (half[i] !== otherHalf[j]) cost += COST.half;
    if (section[i] !== otherSection[j]) cost += COST.section;
    if (order[i] !== otherOrder[j] && order[i] !== 0 && otherOrder[j] !== 0) {
      cost += repeated && sameStep(order, i, otherOrder, j) ? COST.again : COST.order;
    }
    return cost > COST.mismatchCap ? COST.mismatchCap : cost;
  };

  return (i, j) => {
    const here = mine[i];
    const there = theirs[j];
    if (there === KIND.page) {
      if (here === KIND.page) return pages(i, j);
      if (here === KIND.heldBackPage) return COST.heldBackDelivered + pages(i, j);
      return here === KIND.undescribed ? COST.undescribedDelivered : COST.nonPageDelivered;
    }
    if (there === KIND.empty) {
      if (second[i] === 1) return COST.halfForWhole;
      if (here === KIND.page) return COST.notDelivered;
      return here === KIND.target ? COST.targetUnlisted : 0;
    }
    // an empty second half exists only where the record has one: it must not take up a whole exposure
    if (there === KIND.emptyHalf) return second[i] === 1 ? (here === KIND.page ? COST.notDelivered : 0) : COST.halfForWhole;
    if (there === KIND.unmatched) return here === KIND.page ? COST.pageUnmatched : 0;
    // a target that the return lists
    if (here === KIND.page) return COST.pageAsTarget;
    return here === there || here === KIND.undescribed ? 0 : COST.otherKind;
  };
}

/** True when two numbers differ by as much as those of the places before them: one slip of the count, not a new one. */
function sameStep(a: Int32Array, i: number, b: Int32Array, j: number): boolean {
  const [here, there, before, beyond] = [a[i] ?? 0, b[j] ?? 0, a[i - 1] ?? 0, b[j - 1] ?? 0];
  return here !== 0 && there !== 0 && before !== 0 && beyond !== 0 && there - here === beyond - before;
}

/** What each issue of the record and each document of the return say differently, where they first meet and on their further pages. */
function issueCosts(a: Features, b: Features): { readonly first: Int16Array; readonly again: Int16Array; readonly width: number } {
  const mine = firstPlaces(a);
  const theirs = firstPlaces(b);
  const width = theirs.length;
  const first = new Int16Array(mine.length * width);
  const again = new Int16Array(mine.length * width);
  for (let r = 0; r < mine.length; r++) {
    const i = mine[r] ?? -1;
    if (i < 0) continue;
    for (let s = 0; s < width; s++) {
      const j = theirs[s] ?? -1;
      if (j < 0) continue;
      const differ = (x: Int32Array, y: Int32Array): boolean => x[i] !== 0 && y[j] !== 0 && x[i] !== y[j];
      const date = differ(a.date, b.date);
      const title = differ(a.title, b.title);
      const edition = differ(a.edition, b.edition);
      const printed = a.datePrinted[i] === b.date[j];
      first[r * width + s] =
        (date ? (printed ? COST.datePrinted : COST.date) : 0) + (title ? COST.title : 0) + (edition ? COST.edition : 0);
      again[r * width + s] = (Number(date) + Number(title) + Number(edition)) * COST.again;
    }
  }
  return { first, again, width };
}

/** The first place of each issue, by the issue's number; -1 for numbers without a place. Places of no issue share number 0. */
function firstPlaces(features: Features): Int32Array {
  let most = 0;
  for (const issue of features.issue) if (issue > most) most = issue;
  const places = new Int32Array(most + 1).fill(-1);
  features.issue.forEach((issue, at) => {
    if (places[issue] === -1) places[issue] = at;
  });
  return places;
}
