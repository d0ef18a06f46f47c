import { PHRASES } from '../phrase-list.js';
import { applyReading } from '../sheet.js';
import type { Ways } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { type Laid, where } from './laid.js';
import type { AskedPhrase } from './notes.js';

/** Columns and phrases by which a frame repeats or replaces another. */
const COLUMNS = ['duplicate of', 'retake of'];
const SAID = ['duplicate', 'retake', 'dup. of', 'retake of'];

/** What is to be asked of frames that repeat or replace another, where nothing says which of the two is delivered. `phrases` are those that are asked about. */
export function askedOfCopies(film: readonly Laid[], ways: Ways, phrases: readonly AskedPhrase[]): readonly Asked[] {
  if (ways.duplicates !== null && ways.retakes !== null) return [];
  const said = phrases.some(({ key }) => SAID.includes(key)) || [...ways.phrases.values()].includes('fact');
  const has = ({ layout }: Laid): boolean => layout.plans.some(({ fields }) => fields.some((field) => COLUMNS.includes(field)));
  // What follows from a likely answer is asked at the same time: whether other phrases of the rows are facts or not.
  const doubts = [true, false].flatMap((all) => {
    const facts = PHRASES.flatMap(({ key }) => (all || SAID.includes(key) ? [[key, 'fact'] as const] : []));
    const supposed: Ways = { ...ways, phrases: new Map([...facts, ...ways.phrases]) };
    return film
      .filter(({ layout }) => layout.use === 'frames')
      .filter((laid) => said || has(laid))
      .flatMap((laid) => applyReading(laid.grid, supposed).doubts.map((doubt) => ({ ...doubt, laid })));
  });
  const [duplicate] = doubts.filter(({ about }) => about === 'duplicates');
  const [retake] = doubts.filter(({ about }) => about === 'retakes');
  return [
    ...(duplicate === undefined
      ? []
      : [
          asked(
            'duplicates',
            'frames',
            `In ${where(duplicate.laid, duplicate.row)} a frame repeats frame ${duplicate.text}, and nothing says whether it is delivered. Are such frames held back, or delivered beside the others?`,
            { choices: ['held back', 'delivered'], proposed: 'held back' },
          ),
        ]),
    ...(retake === undefined
      ? []
      : [
          asked(
            'retakes',
            'frames',
            `In ${where(retake.laid, retake.row)} a frame was filmed to replace frame ${retake.text}, and nothing says which of the two is delivered. Is it the retake, the other held back, or are both?`,
            { choices: ['the retake', 'both'], proposed: 'the retake' },
          ),
        ]),
  ];
}
