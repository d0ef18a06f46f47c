import { describe, expect, it } from 'vitest';
import type { AccountDelivery } from '../../src/model/account.js';
import type { InvoiceLine } from '../../src/model/invoice.js';
import type { Order, OwedUnit } from '../../src/payment/owed.js';
import { type Seat, seat } from '../../src/payment/seats.js';

const order = (name: string): Order => ({ names: [name], deliveries: [] });
const lantern = order('batch_lantern');
const tide = order('batch_tide');

function unit(frame: string, since: number, ...came: readonly number[]): OwedUnit {
  const history = came.map((delivery) => ({
    delivery: { delivery } as AccountDelivery,
    state: 'accepted' as const,
    findings: [],
  }));
  return { key: frame, reel: '', frame, order: 0, ordered: true, history, last: 'accepted', dueSince: since };
}

function line(quantity: number, of: Order | null, delivery?: number): Seat {
  const named = { batch: of?.names[0] ?? null, ...(delivery === undefined ? {} : { delivery }) };
  return { line: named as InvoiceLine, quantity, order: of, strange: false, units: [], lost: [] };
}

const framesOn = (...lines: readonly Seat[]): readonly (readonly string[])[] => lines.map(({ units }) => units.map(({ frame }) => frame));

describe('lines that may hold the same units', () => {
  const units = [
    { order: lantern, units: [unit('l1', 1, 1, 2), unit('l2', 1, 1, 2)] },
    { order: tide, units: [unit('t1', 1, 1), unit('t2', 2, 2)] },
  ];

  it('leave each other what the other alone may hold, whichever comes first', () => {
    // delivery 1 of any batch would take l1 and l2, and nothing would be left for the line of the first batch
    const [any, named] = [line(2, null, 1), line(1, lantern)];
    seat([any, named], units);
    expect(framesOn(any, named)).toEqual([['l1', 't1'], ['l2']]);
  });

  it('give up a unit over a third line', () => {
    const [first, second, third] = [line(1, null, 1), line(1, null, 2), line(1, lantern)];
    seat(
      [first, second, third],
      [
        { order: lantern, units: [unit('l1', 1, 1)] },
        { order: tide, units: [unit('t1', 2, 1, 2), unit('t2', 2, 2)] },
      ],
    );
    expect(framesOn(first, second, third)).toEqual([['t1'], ['t2'], ['l1']]);
  });

  it('hold what became due with their delivery before what only came in it', () => {
    const [second, first] = [line(3, null, 2), line(3, null, 1)];
    seat([second, first], units);
    expect(framesOn(second, first)).toEqual([['t2'], ['l1', 'l2', 't1']]);
  });

  it('never hold more than they bill, and a line of a batch that nobody knows holds nothing', () => {
    const strange = { ...line(5, null), strange: true };
    const [credit, short] = [line(-2, null), line(1, tide)];
    seat([strange, credit, short], units);
    expect(framesOn(strange, credit, short)).toEqual([[], [], ['t1']]);
  });
});
