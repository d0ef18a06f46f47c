import type { Policies } from '../../../src/model/agreement.js';
import type { Film } from '../film/film.js';
import { makeFilm } from '../film/make-film.js';
import { drawnOrder } from '../ordered.js';
import { type PlanOptions, planOf, type ReturnPlan } from '../plan.js';
import { drawnStyle, type WriteOptions, type WriteProfile } from '../write/index.js';

/** A film, what was ordered, the way in which its return is written, and the return as it should be. */
export interface Scenery {
  readonly seed: number;
  readonly film: Film;
  readonly layout: WriteProfile;
  readonly style: WriteOptions;
  readonly policies: Partial<Policies>;
  readonly options: PlanOptions;
  readonly plan: ReturnPlan;
}

/** What is ordered where nothing else is said, with and without documents of issues that are not on the film. */
const usualOrder = (seed: number): Pick<Scenery, 'policies' | 'options'> => ({
  policies: {},
  options: { absentIssuesStated: seed % 2 === 0 },
});

/** Policies that leave something open: with them a fact left out may be no mistake, and one way is taken to be the one that was ordered. */
function strict({ policies, options }: ReturnType<typeof drawnOrder>): Pick<Scenery, 'policies' | 'options'> {
  return {
    options,
    policies: {
      ...policies,
      pageNumber: options.labels ?? 'printed',
      unnumberedPage: options.unnumbered ?? 'omit',
      printedDate: options.printedDatesGiven === false ? 'never' : 'required',
      absentPages: options.absentPagesStated === false ? 'omitted' : 'stated',
      absentIssues: options.absentIssuesStated === false ? 'omitted' : 'stated',
      targets: options.targetsListed === false ? 'not-listed' : 'listed',
    },
  };
}

/** Film, order, layout and style of a seed: with all oddities, one or two reels and titles, files in every fourth, the usual order in every second. */
export function sceneryOf(seed: number, pages: number): Scenery {
  const layout: WriteProfile = seed % 3 === 2 ? 'page-mods' : 'issue-mets';
  const film = makeFilm({
    seed,
    pages,
    oddPerMille: 450,
    titleIds: layout === 'page-mods' && seed % 2 === 0 ? 'key' : 'number',
    reelNumbers: seed % 5 < 2 ? 'box' : 'short',
    ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}),
    ...(seed % 6 === 3 ? { spliced: true, titles: 2 } : {}),
  });
  const { policies, options } = seed % 8 < 4 ? usualOrder(seed) : strict(drawnOrder(seed));
  // page files are many: only some returns have them, and those of all uses
  const plain: WriteOptions = seed % 4 === 2 ? {} : { documents: 'plain' };
  const style: WriteOptions = { ...drawnStyle(seed), ...plain, files: seed % 4 === 0 ? ['master', 'service', 'derivative', 'ocr'] : [] };
  return { seed, film, layout, style, policies, options, plan: planOf(film, options) };
}
