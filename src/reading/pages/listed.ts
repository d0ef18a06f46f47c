import type { Listed } from './facts.js';

/** A part of a list without some of its pages. */
export function without(
  { text, labels, frames }: Extract<Listed, { readonly is: 'shots' }>,
  out: ReadonlyMap<string, unknown>,
): readonly string[] {
  if (labels.length < frames || !labels.some((label) => out.has(label))) return [text];
  const left = labels.filter((label) => !out.has(label));
  return left.every((label) => /^\d+$/.test(label)) ? inRanges(left.map(Number)) : left;
}

/** The parts of a list as they are written; a count has none. */
export function textsOf(listed: readonly Listed[]): readonly string[] {
  return listed.flatMap((one) => (one.is === 'shots' ? [one.text] : []));
}

/** How many frames a list takes. */
export function framesOf(listed: readonly Listed[]): number {
  return listed.reduce((sum, one) => sum + (one.is === 'count' ? one.count : one.frames), 0);
}

/** So many labels, those of pages that are not on the film left out. */
export function labelsAround(filmed: number, gone: ReadonlyMap<string, unknown>): readonly number[] {
  const labels: number[] = [];
  for (let page = 1; labels.length < filmed; page += 1) if (!gone.has(String(page))) labels.push(page);
  return labels;
}

/** Numbers as the notation writes them, runs as ranges. */
export function inRanges(numbers: readonly number[]): readonly string[] {
  const ends = numbers.filter((number, at) => numbers[at + 1] !== number + 1);
  return numbers
    .filter((number, at) => numbers[at - 1] !== number - 1)
    .map((from, at) => (ends[at] === from ? String(from) : `${String(from)}-${String(ends[at])}`));
}
