import { COST } from './cost.js';
import { type Features, KIND } from './features.js';

/** What it costs to begin a run that only this side has, by the place it begins with. */
export function openingCosts(features: Features): Int32Array {
  return features.kind.map((kind) =>
    kind === KIND.page || kind === KIND.target || kind === KIND.unmatched ? COST.gapOpen : COST.gapOpenSilent,
  );
}

/** Prices place `i` of the record with the places `from` to `to` (included) of the return, into `prices` at the return's places. */
export type PriceRow = (i: number, from: number, to: number, prices: Int32Array) => void;

/**
 * Prices pairs of places, a row of the alignment's table at a time: what is the same for the whole row is looked up once. What issues say
 * of themselves is compared once per pair of issues, not once per pair of pages.
 */
export function placeCosts(a: Features, b: Features): PriceRow {
  const { first, again, width } = issueCosts(a, b);
  const { kind: theirs, issue: theirIssue, label: theirLabel, half: theirHalf, section: theirSection, order: theirOrder } = b;
  const continued = continuations(b.issue);
  const numberSteps = steps(b.labelNumber);
  const orderSteps = steps(b.order);

  // What the pages of one issue and section share, by place of the return: where an issue first meets a document, and on further pages.
  const bases = { first: new Int32Array(b.length), again: new Int32Array(b.length) };
  let based = { issue: -1, section: -1, half: -1, from: 0, to: -1 };
  const rebase = (issue: number, section: number, half: number, from: number, to: number): void => {
    const row = issue * width;
    for (let j = from; j <= to; j++) {
      const at = row + (theirIssue[j] ?? 0);
      const apart = (half === theirHalf[j] ? 0 : COST.half) + (section === theirSection[j] ? 0 : COST.section);
      bases.first[j] = (first[at] ?? 0) + apart;
      bases.again[j] = (again[at] ?? 0) + apart;
    }
    based = { issue, section, half, from, to };
  };

  /** What two pages differ in, added to `base`. */
  const pages = (i: number, base: number, from: number, to: number, out: Int32Array): void => {
    const issue = a.issue[i] ?? 0;
    const section = a.section[i] ?? 0;
    const half = a.half[i] ?? 0;
    if (based.issue !== issue || based.section !== section || based.half !== half || based.from > from || based.to < to)
      // A band moves on by one place a row: what its next rows need is priced along.
      rebase(issue, section, half, from, Math.min(b.length - 1, to + AHEAD));
    // the same issue met the same document one page before: its facts were counted there
    const mayContinue = i > 0 && issue === a.issue[i - 1];
    const label = a.label[i] ?? 0;
    const labelPrinted = a.labelPrinted[i] ?? 0;
    const missing = a.unprinted[i] === 0 ? COST.labelMissing : 0;
    const numberStep = step(a.labelNumber, i);
    const order = a.order[i] ?? 0;
    const orderStep = step(a.order, i);
    const { first: firstBase, again: againBase } = bases;
    for (let j = from; j <= to; j++) {
      if (theirs[j] !== KIND.page) continue;
      const repeated = mayContinue && continued[j] === 1;
      let cost = (repeated ? againBase[j] : firstBase[j]) ?? 0;
      const otherLabel = theirLabel[j] ?? 0;
      if (label !== otherLabel) {
        if (otherLabel === 0) cost += missing;
        else if (label !== 0 && labelPrinted !== otherLabel)
          cost += repeated && numberStep !== NO_STEP && numberStep === numberSteps[j] ? COST.again : COST.label;
      }
      const otherOrder = theirOrder[j] ?? 0;
      if (order !== otherOrder && order !== 0 && otherOrder !== 0)
        cost += repeated && orderStep !== NO_STEP && orderStep === orderSteps[j] ? COST.again : COST.order;
      out[j] = base + (cost > COST.mismatchCap ? COST.mismatchCap : cost);
    }
  };

  return (i, from, to, out) => {
    const here = a.kind[i] ?? KIND.undescribed;
    const byKind = kindCosts(here, a.second[i] === 1);
    for (let j = from; j <= to; j++) out[j] = byKind[theirs[j] ?? 0] ?? 0;
    if (here === KIND.page) pages(i, 0, from, to, out);
    else if (here === KIND.heldBackPage) pages(i, COST.heldBackDelivered, from, to, out);
  };
}

const KINDS = Object.values(KIND);
const tables = new Map<number, Int32Array>();

/** What a place of the record costs by the kind of the return's; where both are pages, their facts are priced instead. */
function kindCosts(here: number, second: boolean): Int32Array {
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

/** So many places beyond a band are priced along with it. */
const AHEAD = 16;

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
    const [date, printed, title, edition] = [a.date[i] ?? 0, a.datePrinted[i] ?? 0, a.title[i] ?? 0, a.edition[i] ?? 0];
    for (let s = 0; s < width; s++) {
      const j = theirs[s] ?? -1;
      if (j < 0) continue;
      const theirDate = b.date[j] ?? 0;
      let once = 0;
      let wrong = 0;
      if (differ(date, theirDate)) {
        once += printed === theirDate ? COST.datePrinted : COST.date;
        wrong++;
      }
      if (differ(title, b.title[j] ?? 0)) {
        once += COST.title;
        wrong++;
      }
      if (differ(edition, b.edition[j] ?? 0)) {
        once += COST.edition;
        wrong++;
      }
      first[r * width + s] = once;
      again[r * width + s] = wrong * COST.again;
    }
  }
  return { first, again, width };
}

/** True when two facts are known on both sides and are not the same. */
function differ(mine: number, theirs: number): boolean {
  return mine !== 0 && theirs !== 0 && mine !== theirs;
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
