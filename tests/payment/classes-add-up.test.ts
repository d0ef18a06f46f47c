import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { PriceClass } from '../../src/model/agreement.js';
import type { Findings } from '../../src/model/findings.js';
import { priceCounts } from '../../src/payment/units.js';
import { classesInWords } from '../../src/report/words.js';

const DEMO = JSON.parse(readFileSync('reports/findings.json', 'utf8')) as Findings;
type Prices = Pick<Findings['counts'], 'classes' | 'unpriced'>;
const [page, held] = DEMO.agreement.terms.classes as [PriceClass, PriceClass];
const inRecord = DEMO.reels.flatMap(({ frames }) => frames).filter(({ state }) => state !== 'return-only').length;
const countsWith = (classes: readonly PriceClass[]): Prices => priceCounts(classes, DEMO);
const all = ({ classes, unpriced: free }: Prices): number =>
  classes.reduce((sum, { record }) => sum + record, 0) + (free?.duplicates ?? 0) + (free?.others ?? 0);

// What a class leaves out is a sentence, so that a reader who adds up the tables comes to the frames of the record. No source: arithmetic.
it.each([
  [
    'the demonstration',
    [page, held],
    '2 frames of the class "held back" came as pages and are counted as such. 3 frames held back as duplicates are in no price class.',
  ],
  [
    'duplicates paid for',
    [page, { ...held, includes: 'duplicates' }],
    '3 frames of the class "held back" came as pages and are counted as such.',
  ],
  ['pages alone', [page], '3 frames held back as duplicates are in no price class. 10 frames besides are in no price class.'],
  [
    'pages and targets',
    [page, { ...held, class: 'targets', kind: ['target'] }],
    '1 frame of the class "targets" came as a page and is counted as such. 3 frames held back as duplicates are in no price class. 5 frames besides are in no price class.',
  ],
] as const)('price classes and what is in none are the frames of the record: %s', (_, classes, says) => {
  const counts = countsWith(classes as readonly PriceClass[]);
  expect(all(counts)).toBe(inRecord);
  expect(classesInWords(counts)).toBe(says);
});

it('a class by the reel pays for no frame of its own', () => {
  expect(priceCounts([{ ...page, per: 'reel' }], DEMO).unpriced).toBeUndefined();
});
