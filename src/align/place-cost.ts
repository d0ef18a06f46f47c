import { COST } from './cost.js';
import { type Features, KIND } from './features.js';

/** Cost of what two pages say differently, at most `COST.mismatchCap`. A fact that one side does not state costs nothing. */
export function mismatch(a: Features, i: number, b: Features, j: number): number {
  let cost = 0;
  // the same issue met the same document one page before: its facts were counted there
  const again = i > 0 && j > 0 && a.issue[i] === a.issue[i - 1] && b.issue[j] === b.issue[j - 1] && b.issue[j] !== 0;
  const date = a.date[i] ?? 0;
  const otherDate = b.date[j] ?? 0;
  if (date !== 0 && otherDate !== 0 && date !== otherDate)
    cost += again ? COST.again : a.datePrinted[i] === otherDate ? COST.datePrinted : COST.date;
  const title = a.title[i] ?? 0;
  const otherTitle = b.title[j] ?? 0;
  if (title !== 0 && otherTitle !== 0 && title !== otherTitle) cost += again ? COST.again : COST.title;
  const edition = a.edition[i] ?? 0;
  const otherEdition = b.edition[j] ?? 0;
  if (edition !== 0 && otherEdition !== 0 && edition !== otherEdition) cost += again ? COST.again : COST.edition;
  const label = a.label[i] ?? 0;
  const otherLabel = b.label[j] ?? 0;
  if (label !== 0 && otherLabel !== 0 && label !== otherLabel && a.labelPrinted[i] !== otherLabel) {
    cost += again && sameStep(a.labelNumber, i, b.labelNumber, j) ? COST.again : COST.label;
  }
  if (label !== 0 && otherLabel === 0 && a.unprinted[i] === 0) cost += COST.labelMissing;
  if (a.half[i] !== b.half[j]) cost += COST.half;
  const section = a.section[i] ?? 0;
  const otherSection = b.section[j] ?? 0;
  if (section !== otherSection) cost += COST.section;
  const order = a.order[i] ?? 0;
  const otherOrder = b.order[j] ?? 0;
  if (order !== 0 && otherOrder !== 0 && order !== otherOrder) cost += again && sameStep(a.order, i, b.order, j) ? COST.again : COST.order;
  return cost > COST.mismatchCap ? COST.mismatchCap : cost;
}

/** True when two numbers differ by as much as those of the places before them: one slip of the count, not a new one. */
function sameStep(a: Int32Array, i: number, b: Int32Array, j: number): boolean {
  const [here, there, before, beyond] = [a[i] ?? 0, b[j] ?? 0, a[i - 1] ?? 0, b[j - 1] ?? 0];
  return here !== 0 && there !== 0 && before !== 0 && beyond !== 0 && there - here === beyond - before;
}

/** Cost of taking place `i` of the record and place `j` of the return for the same frame. */
export function placeCost(a: Features, i: number, b: Features, j: number): number {
  const mine = a.kind[i] ?? 0;
  const theirs = b.kind[j] ?? 0;
  if (theirs === KIND.empty) return a.second[i] === 1 ? COST.halfForWhole : mine === KIND.page ? COST.notDelivered : 0;
  // an empty second half exists only where the record has one: it must not take up a whole exposure
  if (theirs === KIND.emptyHalf) return a.second[i] === 1 ? (mine === KIND.page ? COST.notDelivered : 0) : COST.halfForWhole;
  if (theirs === KIND.page) {
    if (mine === KIND.page) return mismatch(a, i, b, j);
    if (mine === KIND.heldBackPage) return COST.heldBackDelivered + mismatch(a, i, b, j);
    return mine === KIND.undescribed ? COST.undescribedDelivered : COST.nonPageDelivered;
  }
  if (theirs === KIND.unmatched) return mine === KIND.page ? COST.pageUnmatched : 0;
  // a target that the return lists
  if (mine === KIND.page) return COST.pageAsTarget;
  return mine === theirs || mine === KIND.undescribed ? 0 : COST.otherKind;
}
