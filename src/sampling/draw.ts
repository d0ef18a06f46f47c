import { createHash } from 'node:crypto';
import type { Draw, DrawnUnit, ExtraUnit, IssueSize, ListedUnit, Refused, SamplePlan, SampleUnit } from '../model/sample.js';

/** A number drawn from 1 to the size of the lot, and the counter that drew it. */
export interface Pick {
  readonly number: number;
  readonly counter: number;
}

/** The number that a seed and a counter give: SHA-256 of `seed,counter` in UTF-8, as a whole number, reduced to 1 … total (R. L. Rivest, 2011). */
export function numberAt(seed: string, counter: number, total: number): number {
  const digest = createHash('sha256').update(`${seed},${counter}`, 'utf8').digest('hex');
  return Number(BigInt(`0x${digest}`) % BigInt(total)) + 1;
}

/** Draws `size` different numbers from 1 to `total`: repeats are passed over, the counter goes on. A larger draw begins with the smaller one. */
export function drawNumbers(seed: string, total: number, size: number): readonly Pick[] {
  if (size > total) throw new RangeError(`cannot draw ${size} of ${total}`);
  const seen = new Set<number>();
  const picks: Pick[] = [];
  for (let counter = 1; picks.length < size; counter++) {
    const number = numberAt(seed, counter, total);
    if (seen.has(number)) continue;
    seen.add(number);
    picks.push({ number, counter });
  }
  return picks;
}

/** SHA-256 of a list of ids, each followed by a line feed, in lower case: what fixes the list before the seed is known. */
export function listHash(ids: readonly string[]): string {
  return createHash('sha256')
    .update(ids.map((id) => `${id}\n`).join(''), 'utf8')
    .digest('hex');
}

/** What a draw is made from; `extras` name units to look at beside the random ones, with the reason. */
export interface DrawWish {
  readonly unit: SampleUnit;
  readonly plan: SamplePlan;
  readonly seed: string;
  readonly list: readonly ListedUnit[];
  readonly extras: readonly { readonly id: string; readonly reason: string }[];
}

/** Draws the units of a plan from a list in its fixed order. Where the plan takes the whole lot, all are taken in the list's order. */
export function drawSample({ unit, plan, seed, list, extras }: DrawWish): Draw | Refused {
  const numbers = new Map<string, number>();
  const refused: string[] = [];
  if (seed.trim() === '')
    refused.push('The seed is empty. Throw dice for at least 24 digits after the delivery has arrived, and write them down.');
  if (list.length !== plan.lot)
    refused.push(`The plan is for a lot of ${plan.lot}, but the list has ${list.length} units. Make the plan again from this list.`);
  list.forEach(({ id }, index) => {
    const earlier = numbers.get(id);
    if (id === '' || /[\r\n]/.test(id))
      refused.push(`Unit ${index + 1} of the list has a name that is empty or runs over a line. Give it one line.`);
    else if (earlier !== undefined)
      refused.push(`Units ${earlier} and ${index + 1} of the list are both called "${id}". Each unit needs a name of its own.`);
    else numbers.set(id, index + 1);
  });
  const strangers = new Set(extras.filter(({ id }) => !numbers.has(id)).map(({ id }) => id));
  for (const id of strangers) refused.push(`The extra unit "${id}" is not in the list of this lot.`);
  if (refused.length > 0) return { refused };

  const all = plan.size >= list.length;
  const picks = all ? list.map((_, index) => ({ number: index + 1, counter: null })) : drawNumbers(seed, list.length, plan.size);
  const drawn: DrawnUnit[] = picks.flatMap(({ number, counter }) => {
    const listed = list[number - 1];
    return listed === undefined ? [] : [{ ...listed, number, counter }];
  });
  return {
    unit,
    plan,
    seed,
    listSha256: listHash(list.map(({ id }) => id)),
    issues: issueSizes(list),
    drawn,
    lastCounter: drawn.at(-1)?.counter ?? 0,
    extras: besides(list, extras, new Set(drawn.map(({ id }) => id))),
  };
}

/** How large the issues of a list are, by rising size. */
function issueSizes(list: readonly ListedUnit[]): readonly IssueSize[] {
  const sizes = new Map(list.map(({ issue, pages }) => [issue, pages] as const));
  const counts = new Map<number, number>();
  for (const pages of sizes.values()) counts.set(pages, (counts.get(pages) ?? 0) + 1);
  return [...counts].map(([pages, issues]) => ({ pages, issues })).toSorted((a, b) => a.pages - b.pages);
}

/** The extras in the list's order, reasons gathered; one that was drawn at random anyway stays among the random ones alone. */
function besides(list: readonly ListedUnit[], extras: DrawWish['extras'], drawn: ReadonlySet<string>): readonly ExtraUnit[] {
  const reasons = new Map<string, Set<string>>();
  for (const { id, reason } of extras) reasons.set(id, (reasons.get(id) ?? new Set()).add(reason));
  return list.flatMap((listed, index) => {
    const why = reasons.get(listed.id);
    return why === undefined || drawn.has(listed.id) ? [] : [{ ...listed, number: index + 1, reasons: [...why] }];
  });
}

/** A sentence where a seed is too short to be beyond guessing, or null: 24 digits, or as much chance in other signs. */
export function seedRemark(seed: string): string | null {
  const different = new Set(seed).size;
  const signs = seed.length;
  if (/^\d+$/.test(seed) ? signs >= 24 && different >= 5 : signs >= 16 && different >= 8) return null;
  return `The seed "${seed}" could be guessed or chosen to suit. Throw dice for at least 24 digits after the delivery has arrived.`;
}
