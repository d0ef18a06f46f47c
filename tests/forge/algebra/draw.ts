import { randomFrom } from '../film/random.js';
import { type Case, caseOf, near, type Planted, plant } from './case.js';
import { PRODUCTS, type Product, spotsFor } from './products.js';
import { type Scenery, sceneryOf } from './scenery.js';
import { collides } from './sheet.js';

/** Films in stock for one seed of a series: many cases stand on one film, as they do in a library. */
const FILMS = 48;
/** Films that are tried for a product before it is said to have no place. */
const MOST_FILMS = 24;
/** Products that are tried as the next edit of a case before it stays without. */
const MOST_PRODUCTS = 30;

/** Scopes of edits that can lie beside another. */
const LIE_SOMEWHERE: readonly string[] = ['page', 'issue', 'run'];

/** A series of cases, the same on every machine. */
export interface Series {
  readonly seed: number;
  /** About how many pages a reel has. */
  readonly pages: number;
  /** The products that are drawn from; all of them where this is left out. */
  readonly only?: (product: Product) => boolean;
}

const stock = new Map<string, Scenery>();

/** The films of a series, by a number below 48. */
export function filmOf({ seed, pages }: Series, n: number): Scenery {
  const key = `${seed} ${pages} ${n}`;
  const known = stock.get(key) ?? sceneryOf(seed * 1000 + n, pages);
  stock.set(key, known);
  return known;
}

/** Which product is drawn at a place of the series: every one in turn. */
export function productAt(series: Series, at: number): Product | undefined {
  const products = PRODUCTS.filter(series.only ?? (() => true));
  return randomFrom(series.seed).shuffled(products)[at % Math.max(1, products.length)];
}

/** A single edit, by its place in the series; null where no film has a place for it. */
export function single(series: Series, at: number): Case | null {
  const product = productAt(series, at);
  const random = randomFrom(series.seed * 100_003 + at);
  if (product === undefined) return null;
  const seed = random.below(1_000_000);
  const first = random.below(FILMS);
  // a place that no film offers to this product is given up for another one
  for (const spot of random.shuffled(spotsFor(product.scope)))
    for (let i = 0; i < MOST_FILMS; i += 1) {
      const scenery = filmOf(series, (first + i) % FILMS);
      const planted = plant(scenery, { ...product, spot, seed });
      if (planted !== null) return caseOf(scenery, [planted]);
    }
  return null;
}

/** Several edits on one film that do not meddle with each other; every second pair beside each other. Null where the film is too small for so many. */
export function several(series: Series, at: number, count: number): Case | null {
  const random = randomFrom(series.seed * 100_003 + at * 17 + count);
  const adjacent = count === 2 && at % 2 === 1;
  const products = PRODUCTS.filter((product) => (series.only?.(product) ?? true) && (!adjacent || LIE_SOMEWHERE.includes(product.scope)));
  const scenery = filmOf(series, random.below(FILMS));
  const planted: Planted[] = [];
  for (let tries = 0; planted.length < count && tries < MOST_PRODUCTS * count; tries += 1) {
    if (products.length === 0) break;
    const product = random.pick(products);
    const edit = { ...product, spot: random.pick(spotsFor(product.scope)), seed: random.below(1_000_000) };
    const [first] = planted;
    const one = plant(scenery, edit, planted, adjacent && first !== undefined ? near(scenery, first) : undefined);
    // what is no mistake is tried by itself and would only make the count of several wrong
    if (one === null || one.traces.length === 0) continue;
    // two that are each possible may give two documents one name together
    if (planted.length > 0 && collides(caseOf(scenery, [...planted, one]).plan)) continue;
    planted.push(one);
  }
  return planted.length < count ? null : caseOf(scenery, planted);
}
