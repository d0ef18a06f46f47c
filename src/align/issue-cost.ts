import { COST } from './cost.js';
import type { Features } from './features.js';

/** Prices of issues: a row for each issue of the record, a column for each document of the return. */
export interface IssueCosts {
  /** What they cost where they first meet, times `FIRST`, and what they cost on each further page. */
  readonly apart: Int32Array;
  readonly width: number;
  /** By the issue's number: the first issue whose prices are all the same. */
  readonly like: Int32Array;
}

/** The price of a first meeting stands this many times in a cell. */
export const FIRST = 256;

/** What each issue of the record and each document of the return say differently. */
export function issueCosts(a: Features, b: Features): IssueCosts {
  const mine = firstPlaces(a);
  const theirs = firstPlaces(b);
  const width = theirs.length;
  const said = (facts: Int32Array): Int32Array => theirs.map((j) => facts[j] ?? 0);
  const [dates, titles, editions] = [said(b.date), said(b.title), said(b.edition)];
  const apart = new Int32Array(mine.length * width);
  mine.forEach((i, r) => {
    if (i < 0) return;
    const [date, printed, title, edition] = [a.date[i] ?? 0, a.datePrinted[i] ?? 0, a.title[i] ?? 0, a.edition[i] ?? 0];
    for (let s = 0; s < width; s++) {
      let cost = 0;
      const theirDate = dates[s] ?? 0;
      if (differ(date, theirDate)) cost += FIRST * (printed === theirDate ? COST.datePrinted : COST.date) + COST.again;
      if (differ(title, titles[s] ?? 0)) cost += FIRST * COST.title + COST.again;
      if (differ(edition, editions[s] ?? 0)) cost += FIRST * COST.edition + COST.again;
      apart[r * width + s] = cost;
    }
  });
  return { apart, width, like: alike(apart, mine.length, width) };
}

/** For each row of a table the first row that holds the same numbers. */
function alike(table: Int32Array, rows: number, width: number): Int32Array {
  const seen = new Map<number, number[]>();
  const same = (row: number, other: number): boolean => {
    for (let at = 0; at < width; at++) if (table[row * width + at] !== table[other * width + at]) return false;
    return true;
  };
  return Int32Array.from({ length: rows }, (_, row) => {
    let digest = 0;
    for (let at = row * width; at < (row + 1) * width; at++) digest = (Math.imul(digest, 31) + (table[at] ?? 0)) | 0;
    const candidates = seen.get(digest) ?? [];
    const known = candidates.find((other) => same(row, other));
    if (known === undefined) seen.set(digest, [...candidates, row]);
    return known ?? row;
  });
}

/** True when two facts are known on both sides and are not the same. */
export function differ(mine: number, theirs: number): boolean {
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
