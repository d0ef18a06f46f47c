import { COST } from './cost.js';
import { type Features, KIND } from './features.js';
import { differ, FIRST, type IssueCosts } from './issue-cost.js';
import { type Fill, keptRows } from './kept-rows.js';

/** What it costs to begin a run that only this side has, by the place it begins with. */
export function openingCosts(features: Features): Int32Array {
  return features.kind.map((kind) =>
    kind === KIND.page || kind === KIND.target || kind === KIND.unmatched ? COST.gapOpen : COST.gapOpenSilent,
  );
}

/** What a place of the record costs with each place of the return: `base` and `extra` there added up, at most `cap`. */
export interface RowPrice {
  base: Int32Array;
  extra: Int32Array;
  cap: number;
}

/** Prices place `i` of the record with the places `from` to `to` (included) of the return. The row it answers is read before the next is asked for. */
export type PriceRow = (i: number, from: number, to: number) => Readonly<RowPrice>;

/**
 * Prices pairs of places, a row of the alignment's table at a time. What issues say of themselves is compared once per pair of issues; what
 * pages of an issue share (`base`) and what pages of the same shape share, whatever their issue (`extra`: label and place in the issue), is
 * worked out once and kept, as far along the return as rows asked for it.
 */
export function placeCosts(a: Features, b: Features, { apart: issuesApart, width, like }: IssueCosts): PriceRow {
  const given = new Set(b.label);
  // a label that the return gives nowhere is a stranger everywhere, whichever it is
  const label = a.label.map((one) => (one === 0 || given.has(one) ? one : STRANGER));
  const labelPrinted = a.labelPrinted.map((one) => (given.has(one) ? one : 0));
  const { kind: theirs, issue: theirIssue, label: theirLabel, half: theirHalf, section: theirSection, order: theirOrder } = b;
  const continued = continuations(b.issue);
  const numberSteps = steps(b.labelNumber);
  const orderSteps = steps(b.order);
  const nothing = new Int32Array(b.length);
  const bases = keptRows(b.length, 12);
  const extras = keptRows(b.length, 48);
  const row: RowPrice = { base: nothing, extra: nothing, cap: COST.mismatchCap };

  /** Kinds, and for pages what their issues, halves and sections say. */
  const fillBase: Fill = (i, from, to, out) => {
    const here = a.kind[i] ?? KIND.undescribed;
    const byKind = kindCosts(here, a.second[i] === 1);
    for (let j = from; j <= to; j++) out[j] = byKind[theirs[j] ?? 0] ?? 0;
    if (!showsPage(here)) return;
    const held = here === KIND.heldBackPage ? COST.heldBackDelivered : 0;
    const section = a.section[i] ?? 0;
    const half = a.half[i] ?? 0;
    const issues = (a.issue[i] ?? 0) * width;
    const mayContinue = continues(a, i);
    for (let j = from; j <= to; j++) {
      if (theirs[j] !== KIND.page) continue;
      const both = issuesApart[issues + (theirIssue[j] ?? 0)] ?? 0;
      const apart = (half === theirHalf[j] ? 0 : COST.half) + (section === theirSection[j] ? 0 : COST.section);
      // the same issue met the same document one page before: its facts were counted there
      out[j] = held + apart + (mayContinue && continued[j] === 1 ? both % FIRST : Math.floor(both / FIRST));
    }
  };

  /** What the labels of two pages and their places in the issue differ in. */
  const fillExtra: Fill = (i, from, to, out) => {
    const mayContinue = continues(a, i);
    const mine = label[i] ?? 0;
    const printed = labelPrinted[i] ?? 0;
    const missing = a.unprinted[i] === 0 ? COST.labelMissing : 0;
    const numberStep = step(a.labelNumber, i);
    const order = a.order[i] ?? 0;
    const orderStep = step(a.order, i);
    for (let j = from; j <= to; j++) {
      out[j] = 0;
      if (theirs[j] !== KIND.page) continue;
      const repeated = mayContinue && continued[j] === 1;
      let cost = 0;
      const otherLabel = theirLabel[j] ?? 0;
      if (mine !== otherLabel) {
        if (otherLabel === 0) cost += missing;
        else if (mine !== 0 && printed !== otherLabel)
          cost += repeated && numberStep !== NO_STEP && numberStep === numberSteps[j] ? COST.again : COST.label;
      }
      const otherOrder = theirOrder[j] ?? 0;
      if (order !== otherOrder && order !== 0 && otherOrder !== 0)
        cost += repeated && orderStep !== NO_STEP && orderStep === orderSteps[j] ? COST.again : COST.order;
      out[j] = cost;
    }
  };

  return (i, from, to) => {
    const here = a.kind[i] ?? KIND.undescribed;
    const continuing = Number(continues(a, i));
    const kinds = here * 4 + (a.second[i] ?? 0) * 2 + (a.half[i] ?? 0);
    if (!showsPage(here)) {
      row.base = bases(String(kinds), i, from, to, fillBase);
      row.extra = nothing;
      row.cap = MOST;
      return row;
    }
    row.base = bases(
      `${String(kinds)} ${String(continuing)} ${String(like[a.issue[i] ?? 0] ?? 0)} ${String(a.section[i] ?? 0)}`,
      i,
      from,
      to,
      fillBase,
    );
    const shape = [continuing, label[i], labelPrinted[i], a.unprinted[i], step(a.labelNumber, i), a.order[i], step(a.order, i)];
    row.extra = extras(shape.join(' '), i, from, to, fillExtra);
    row.cap = COST.mismatchCap + (here === KIND.heldBackPage ? COST.heldBackDelivered : 0);
    return row;
  };
}

/** Whether two pages say nothing that differs: exactly those that are to be delivered and for which `placeCosts` has no cost. */
export function sameFacts(a: Features, b: Features, i: number, j: number): boolean {
  const label = b.label[j] ?? 0;
  const labelled = label === 0 ? a.unprinted[i] === 1 : a.label[i] === 0 || a.labelPrinted[i] === label;
  return (
    (a.label[i] === label || labelled) &&
    a.half[i] === b.half[j] &&
    a.section[i] === b.section[j] &&
    !differ(a.order[i] ?? 0, b.order[j] ?? 0) &&
    !differ(a.date[i] ?? 0, b.date[j] ?? 0) &&
    !differ(a.title[i] ?? 0, b.title[j] ?? 0) &&
    !differ(a.edition[i] ?? 0, b.edition[j] ?? 0)
  );
}

/** A label that no page of the return has; no code of a text is negative. */
const STRANGER = -1;

/** No price of two places that do not both show a page is above this. */
const MOST = 1000;

/** True for a place whose facts are those of a page, delivered or held back. */
export function showsPage(kind: number): boolean {
  return kind === KIND.page || kind === KIND.heldBackPage;
}

/** True for a place of the same issue as the one before. */
export function continues(features: Features, at: number): boolean {
  return at > 0 && features.issue[at] === features.issue[at - 1];
}

const KINDS = Object.values(KIND);
const tables = new Map<number, Int32Array>();

/** What a place of the record costs by the kind of the return's; where both are pages, their facts are priced instead. */
export function kindCosts(here: number, second: boolean): Int32Array {
  const key = here * 2 + Number(second);
  let table = tables.get(key);
  if (table === undefined) {
    table = new Int32Array(KINDS.length);
    for (const there of KINDS) table[there] = kindCost(here, there, second);
    tables.set(key, table);
  }
  return table;
}

function kindCost(here: number, there: number, second: boolean): number {
  if (there === KIND.page) return here === KIND.undescribed ? COST.undescribedDelivered : COST.nonPageDelivered;
  if (there === KIND.empty) {
    if (second) return COST.halfForWhole;
    if (here === KIND.page) return COST.notDelivered;
    return here === KIND.target ? COST.targetUnlisted : 0;
  }
  // an empty second half exists only where the record has one: it must not take up a whole exposure
  if (there === KIND.emptyHalf) return second ? (here === KIND.page ? COST.notDelivered : 0) : COST.halfForWhole;
  if (there === KIND.unmatched) return here === KIND.page ? COST.pageUnmatched : 0;
  // a target that the return lists
  if (here === KIND.page) return COST.pageAsTarget;
  return here === there || here === KIND.undescribed ? 0 : COST.otherKind;
}

/** No step: one of the two numbers is not known. */
const NO_STEP = 0x7fffffff;

/** By how much a number differs from that of the place before. Two that step alike differ by one slip of the count, not by a new one. */
function step(numbers: Int32Array, at: number): number {
  const [here, before] = [numbers[at] ?? 0, numbers[at - 1] ?? 0];
  return here === 0 || before === 0 ? NO_STEP : here - before;
}

function steps(numbers: Int32Array): Int32Array {
  return numbers.map((_, at) => step(numbers, at));
}

/** 1 for a place of the same issue as the one before. */
function continuations(issue: Int32Array): Uint8Array {
  return Uint8Array.from(issue, (number, at) => (at > 0 && number !== 0 && number === issue[at - 1] ? 1 : 0));
}
