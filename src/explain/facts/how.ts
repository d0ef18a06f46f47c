import { counted } from '../draft.js';
import type { Change } from './changes.js';
import { FACT_NAMES } from './names.js';

/** How a change looks in a sentence, and the act that undoes it. */
export interface How {
  readonly says: string;
  readonly mend: (what: string) => string;
}

/** `-1` as `1 too low`, with the unit where there is one. */
function off(by: string, unit: string | null, low: string, high: string): string {
  const amount = Math.abs(Number(by));
  return `are ${unit === null ? String(amount) : counted(amount, unit)} too ${Number(by) < 0 ? low : high}`;
}

function back(by: string, unit: string | null): (what: string) => string {
  const amount = Math.abs(Number(by));
  if (unit === null)
    return (what) => (Number(by) > 0 ? `subtract ${String(amount)} from each of ${what}` : `add ${String(amount)} to each of ${what}`);
  return (what) => `move each of ${what} ${counted(amount, unit)} ${Number(by) > 0 ? 'back' : 'on'}`;
}

/** What a change looks like, and how it is undone. */
export const HOW: Readonly<Record<Change['kind'], (change: Change, given: readonly string[]) => How>> = {
  missing: () => ({ says: 'are not given', mend: (what) => `give ${what}` }),
  surplus: () => ({ says: 'are given', mend: (what) => `leave out ${what}` }),
  printed: () => ({
    says: 'are those printed on the paper instead of the real ones',
    mend: (what) => `put the real dates in place of ${what}, and give the printed ones as such`,
  }),
  'day-month': () => ({ says: 'have day and month exchanged', mend: (what) => `exchange day and month in ${what}` }),
  before: () => ({ says: 'are each that of the one before', mend: (what) => `move each of ${what} back to the one before` }),
  after: () => ({ says: 'are each that of the one behind', mend: (what) => `move each of ${what} on to the one behind` }),
  fact: ({ by }) => {
    const name = FACT_NAMES[by as keyof typeof FACT_NAMES].many;
    return { says: `are the ${name}`, mend: (what) => `put the right readings in place of ${what}, which are the ${name}` };
  },
  'beginning-lost': ({ by }) => ({ says: `lack the "${by}" in front`, mend: (what) => `put "${by}" in front of ${what}` }),
  'beginning-added': ({ by }) => ({ says: `have "${by}" in front`, mend: (what) => `take "${by}" off the front of ${what}` }),
  'end-lost': ({ by }) => ({ says: `lack the "${by}" at the end`, mend: (what) => `put "${by}" at the end of ${what}` }),
  'end-added': ({ by }) => ({ says: `have "${by}" at the end`, mend: (what) => `take "${by}" off the end of ${what}` }),
  years: ({ by }) => ({ says: off(by, 'year', 'early', 'late'), mend: back(by, 'year') }),
  months: ({ by }) => ({ says: off(by, 'month', 'early', 'late'), mend: back(by, 'month') }),
  days: ({ by }) => ({ says: off(by, 'day', 'early', 'late'), mend: back(by, 'day') }),
  plus: ({ by }) => ({ says: off(by, null, 'low', 'high'), mend: back(by, null) }),
  anew: () => ({ says: 'are counted in another order', mend: (what) => `count ${what} anew` }),
  permuted: () => ({ says: 'stand in the place of one another', mend: (what) => `exchange ${what} back` }),
  others: () => ({ says: 'differ, each in its own way,', mend: (what) => `compare each of ${what} with the paper, and put it right` }),
  stuck: ({ by }) => ({ says: `are all ${by} in the record`, mend: (what) => `give ${by} as each of ${what}` }),
  copied: () => ({ says: 'stand in the record one place further on than', mend: (what) => `give each of ${what} as the record has it` }),
  'own-fact': ({ by }) => {
    const name = FACT_NAMES[by as keyof typeof FACT_NAMES].many;
    return { says: `are the ${name} in the record and others`, mend: (what) => `give each of ${what} as the record has it` };
  },
  all: (_, given) => ({ says: `are ${given[0] ?? '?'}`, mend: (what) => `put the right reading in place of each of ${what}` }),
};
