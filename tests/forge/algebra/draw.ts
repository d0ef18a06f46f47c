import { randomFrom } from '../film/random.js';
import { type Case, caseOf, near, type Planted, plant, type Scenery, sceneryOf } from './case.js';
import { PRODUCTS, type Product, spotsFor } from './products.js';

/** Films in stock for one seed of a series: many cases stand on one film, as they do in a library. */
const FILMS = 48;
/** Films that are tried for a product before it is said to have no place. */
const MOST_FILMS = 24;
/** Products that are tried as the next edit of a case before it stays without. */
const MOST_PRODUCTS = 30;

/** Scopes of edits that can lie beside another. */
const LIE_SOMEWHERE: readonly string[] = ['page', 'issue', 'run'];

const stock = new Map<number, Scenery>();

function filmAt(seed: number): Scenery {
  const known = stock.get(seed) ?? sceneryOf(seed);
  stock.set(seed, known);
  return known;
}

/** Single edits, every product in turn: case `at` of a series is the same on every machine. Null where no film has a place for it. */
export function single(series: number, at: number, only: (product: Product) => boolean = () => true): Case | null {
  const products = PRODUCTS.filter(only);
  const turn = randomFrom(series).shuffled(products);
  const product = turn[at % Math.max(1, turn.length)];
  const random = randomFrom(series * 100_003 + at);
  if (product === undefined) return null;
  const seed = random.below(1_000_000);
  const first = random.below(FILMS);
  // a place that no film offers to this product is given up for another one
  for (const spot of random.shuffled(spotsFor(product.scope)))
    for (let i = 0; i < MOST_FILMS; i += 1) {
      const scenery = filmAt(series * 1000 + ((first + i) % FILMS));
      const planted = plant(scenery, { ...product, spot, seed });
      if (planted !== null) return caseOf(scenery, [planted]);
    }
  return null;
}

/** Several edits on one film that do not meddle with each other; every second pair beside each other. Null where the film is too small for so many. */
export function several(series: number, at: number, count: number, only: (product: Product) => boolean = () => true): Case | null {
  const random = randomFrom(series * 100_003 + at * 17 + count);
  const adjacent = count === 2 && at % 2 === 1;
  const products = PRODUCTS.filter((product) => only(product) && (!adjacent || LIE_SOMEWHERE.includes(product.scope)));
  const scenery = filmAt(series * 1000 + random.below(FILMS));
  const planted: Planted[] = [];
  for (let tries = 0; planted.length < count && tries < MOST_PRODUCTS * count; tries += 1) {
    if (products.length === 0) break;
    const product = random.pick(products);
    const edit = { ...product, spot: random.pick(spotsFor(product.scope)), seed: random.below(1_000_000) };
    const [first] = planted;
    const one = plant(scenery, edit, planted, adjacent && first !== undefined ? near(scenery, first) : undefined);
    // what is no mistake is tried by itself and would only make the count of several wrong
    if (one !== null && one.traces.length > 0) planted.push(one);
  }
  return planted.length < count ? null : caseOf(scenery, planted);
}
