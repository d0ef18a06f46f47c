import type { Agreement } from '../../src/model/agreement.js';
import type { CollationRecord } from '../../src/model/collation-record.js';
import { type Expected, faultOf, type Spoilt, spoilAll } from './faults/index.js';
import type { Film } from './film/film.js';
import { makeFilm } from './film/make-film.js';
import { LIBRARY } from './film/names.js';
import { randomFrom } from './film/random.js';
import { planOf, type ReturnPlan } from './plan.js';
import { recordOf } from './record/record-of.js';
import { type WrittenFile, writeReturn } from './write/index.js';

/**
 * A reel of two papers with a good many irregularities of its own; seed and measure chosen so that it has room for the faults below. One of them its
 * record leaves in doubt, so that a report shows what becomes of that.
 */
const FILM = {
  seed: 1488,
  pages: 104,
  reels: 1,
  titles: 2,
  twoUp: false,
  oddPerMille: 760,
  blankPerMille: 180,
  spliced: false,
  oddDaysNoted: false,
} as const;

/** As vendors differ, so do their mistakes: a dozen of different kinds on one reel. */
const MISTAKES = [
  'blank-skipped',
  'page-not-delivered',
  'duplicate-delivered-too',
  'target-as-page',
  'year-misread',
  'printed-date-lost',
  'editions-merged',
  'mispagination-repaired',
  'sections-flattened',
  'supplement-counted-in',
  'absent-page-not-stated',
  'retake-left-at-end',
  'off-day-corrected',
] as const;

/** The vendor of the demonstration, invented. */
const VENDOR = 'Skerry Imaging, Port Hallam';

/** The film of the demonstration, as it is. */
export function demoFilm(): Film {
  return makeFilm(FILM);
}

/** What the library of the demonstration wrote down before the film went out. */
export function demoRecord(): CollationRecord {
  const record = recordOf(demoFilm());
  const notes = 'Collated from the service copy by Ilse Marrow and Teo Anselm, Tolmouth.';
  return { ...record, reels: record.reels.map((reel) => ({ ...reel, notes })) };
}

/** The library's terms with its vendor. */
export function demoAgreement(): Agreement {
  return {
    format: 'reeltally/agreement/2',
    library: LIBRARY.name,
    vendor: VENDOR,
    terms: {
      reviewDays: 21,
      reviewDayKind: 'calendar',
      currency: 'EUR',
      classes: [
        { class: 'page', kind: ['page'], deliver: true, unitPrice: '0.32' },
        { class: 'held back', kind: ['page', 'blank', 'target', 'void', 'other'], deliver: false, unitPrice: '0.05' },
      ],
    },
  };
}

/** The kinds of mistakes in the faulty return. */
export const DEMO_MISTAKES: readonly string[] = MISTAKES;

/** What the vendor sent, and what is wrong with it; the mistakes that were `corrected` since are no longer there, all others as they were. */
export function demoReturn(
  which: 'agreeing' | 'faulty',
  corrected: readonly string[] = [],
): {
  readonly files: readonly WrittenFile[];
  readonly plan: ReturnPlan;
  readonly expected: readonly Expected[];
} {
  const { plan, expected } = which === 'agreeing' ? { plan: planOf(demoFilm(), OPTIONS), expected: [] } : spoiltDemo(corrected);
  plan.batch = BATCH;
  return { files: [...writeReturn(plan, 'issue-mets')], plan, expected };
}

const OPTIONS = { targetsListed: true, absentIssuesStated: true } as const;

/** Name of the batch in both returns. */
const BATCH = 'batch_vzx_tolmouth';

function spoiltDemo(corrected: readonly string[]): Pick<Spoilt, 'plan' | 'expected'> {
  const film = demoFilm();
  for (let seed = 1; seed <= 200; seed += 1) {
    const spoilt = spoilAll(film, MISTAKES.map(faultOf), randomFrom(seed), OPTIONS, new Set(corrected));
    if (spoilt !== null) return spoilt;
  }
  throw new RangeError('The film of the demonstration has no room for its faults.');
}
