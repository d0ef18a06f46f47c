import { describe, expect, it } from 'vitest';
import type { Account, AccountDelivery, AccountInvoice, AccountRelease, AccountUnits } from '../../src/model/account.js';
import type { PriceClass, ResolvedAgreement } from '../../src/model/agreement.js';
import type { InvoiceLine } from '../../src/model/invoice.js';
import { asIfAccepted, takenIn, writtenAccount } from '../../src/payment/account.js';
import { invoiceResult } from '../../src/payment/invoice-result.js';
import { atAgreedPrice, taxOn } from '../../src/payment/money.js';
import { ordersOf } from '../../src/payment/owed.js';
import { releaseOf } from '../../src/payment/release.js';
import { settle } from '../../src/payment/settle.js';
import { invoiceWith, linesOf } from './example.js';

const PAGES: readonly PriceClass[] = [{ class: 'page', kind: ['page'], deliver: true, unitPrice: '0.50' }];
const accept = { is: 'accept', by: 'Ilse Marrow', second: null, on: '2031-03-09' } as const;
const rework = { ...accept, is: 'return-for-rework' } as const;

type Group = readonly [state: AccountUnits['state'], frames: string, findings?: readonly string[]];

/** One delivery of reel 00417: groups of frames as `1 2 3`. */
function delivery(number: number, groups: readonly Group[], facts: Partial<AccountDelivery> = {}): AccountDelivery {
  return {
    batch: 'batch_pilot',
    delivery: number,
    received: null,
    reviewDay: null,
    verifiedAt: '2031-03-04T09:00:00Z',
    result: { name: `findings-${String(number)}.json`, sha256: String(number).repeat(64) },
    verdict: 'accept',
    decision: null,
    reels: ['00417'],
    units: groups.map(([state, frames, findings = []]) => ({
      class: 'page',
      reel: '00417',
      state,
      ordered: !frames.startsWith('+'),
      findings,
      frames: frames.split(' '),
    })),
    rescans: [],
    heldBack: [],
    findings: [],
    ...facts,
  };
}

const invoice = (number: string, ...lines: readonly string[]): AccountInvoice => invoiceWith(linesOf(PAGES, ...lines), { number });

/** The same with a batch and a delivery named in the lines. */
const naming = (of: AccountInvoice, named: Pick<InvoiceLine, 'batch' | 'delivery'>): AccountInvoice => ({
  ...of,
  lines: of.lines.map((line) => ({ ...line, ...named })),
});

function account(deliveries: readonly AccountDelivery[], invoices: readonly AccountInvoice[], facts: Partial<Account> = {}): Account {
  return writtenAccount({
    library: 'Verrin Coast Record Library',
    vendor: 'Skerry Imaging',
    currency: 'EUR',
    minorDigits: 2,
    payOn: 'accepted',
    prices: PAGES,
    deliveries,
    invoices,
    releases: [],
    ...facts,
  });
}

const who = { on: '2031-03-10', by: 'Ilse Marrow', second: null, reason: '', batch: 'batch_pilot', delivery: 1 };

/** The account after an amount of minor units was released. */
function released(before: Account, amount: bigint): { readonly after: Account; readonly release: AccountRelease } {
  const release = releaseOf(before, amount, [], who);
  return { release, after: writtenAccount({ ...before, releases: [...before.releases, release] }) };
}

const differences = (of: Account, number = 'A'): readonly string[] =>
  invoiceResult(of, number).differences.map(({ kind, quantity, effect }) => `${kind} ${String(quantity)} ${effect}`);
const says = (of: Account, number = 'A'): readonly string[] => invoiceResult(of, number).differences.map((one) => one.says);

describe('what an account shows of each frame', () => {
  const first = delivery(
    1,
    [
      ['accepted', '1 2'],
      ['disputed', '3', ['page-differs-1']],
      ['wanting', '4', ['page-not-delivered-1']],
    ],
    { decision: rework },
  );
  const second = delivery(
    2,
    [
      ['accepted', '1 2 3'],
      ['wanting', '4', ['page-not-delivered-1']],
    ],
    { decision: accept },
  );
  const both = account([first, second], [invoice('A', 'page|2|0.50|1.00'), invoice('B', 'page|1|0.50|0.50')]);

  it('is when it came, was accepted and disputed, since when it is due, and where it is billed', () => {
    const [page] = both.classes;
    expect(page).toMatchObject({
      ordered: 4,
      came: 3,
      accepted: 3,
      disputed: 0,
      billed: 3,
      due: 3,
      notBilled: 0,
      released: 0,
      creditClaimed: 0,
    });
    const good = { reel: '00417', ordered: true, came: [1, 2], accepted: [1, 2], disputed: [], dueSince: 2, released: [] };
    expect(page?.units).toEqual([
      { ...good, frames: ['1', '2'], billed: [{ invoice: 'A', line: '1' }] },
      {
        ...good,
        frames: ['3'],
        accepted: [2],
        disputed: [{ delivery: 1, findings: ['page-differs-1'] }],
        billed: [{ invoice: 'B', line: '1' }],
      },
      { reel: '00417', frames: ['4'], ordered: true, came: [], accepted: [], disputed: [], dueSince: null, billed: [], released: [] },
    ]);
  });

  it('is due since the first delivery where accepted pages of a returned one are paid', () => {
    const paid = account([first, second], [], { payOn: 'accepted-pages' });
    expect(paid.classes[0]?.units.map(({ frames, dueSince }) => [frames.join(' '), dueSince])).toEqual([
      ['1 2', 1],
      ['3', 2],
      ['4', null],
    ]);
    expect(paid.classes[0]).toMatchObject({ due: 3, notBilled: 3 });
  });

  it('is the line on which it was released, and stays there', () => {
    const { after, release } = released(both, 100n);
    expect(release).toMatchObject({ amount: '1.00', parts: [{ invoice: 'A', amount: '1.00' }], takenBack: [] });
    expect(release.frames).toEqual([{ invoice: 'A', line: '1', class: 'page', reel: '00417', frames: ['1', '2'] }]);
    expect(after.classes[0]?.units[0]).toMatchObject({ frames: ['1', '2'], released: [{ invoice: 'A', line: '1' }] });
    expect(after.classes[0]?.released).toBe(2);
    expect(after.sums).toEqual({ billed: '1.50', due: '1.50', released: '1.00', open: '0.50', notAgreed: '0.00' });
  });

  it('is as if accepted only where nobody has decided', () => {
    const undecided = { ...second, decision: null };
    expect(asIfAccepted({ ...both, deliveries: [first, undecided] }).deliveries.map(({ decision }) => decision?.is)).toEqual([
      'return-for-rework',
      'accept',
    ]);
    expect(asIfAccepted(both).deliveries).toEqual(both.deliveries);
  });
});

describe('money', () => {
  const whole = account(
    [delivery(1, [['accepted', '1 2 3 4']], { decision: accept })],
    [invoice('A', 'page|2|0.50|1.00'), invoice('B', 'page|2|0.50|1.00')],
  );

  it('pays the invoices in their order, marks frames where one is paid in full, and keeps apart what goes beyond', () => {
    const part = released(whole, 130n);
    expect(part.release.parts).toEqual([
      { invoice: 'A', amount: '1.00' },
      { invoice: 'B', amount: '0.30' },
    ]);
    expect(part.release.frames.map(({ invoice: on, frames }) => [on, frames])).toEqual([['A', ['1', '2']]]);
    const rest = released(part.after, 70n);
    expect(rest.release.frames.map(({ invoice: on, frames }) => [on, frames])).toEqual([['B', ['3', '4']]]);
    expect(rest.release.parts).toEqual([{ invoice: 'B', amount: '0.70' }]);
    // units that may stand on the same lines are put there in film order, whatever sorts of them there are
    const mixed = [
      delivery(
        1,
        [
          ['accepted', '1 3'],
          ['wanting', '2 4'],
        ],
        { decision: accept },
      ),
      delivery(2, [['accepted', '1 2 3 4']], { decision: accept }),
    ];
    const units = mixed.map((one) => ({ ...one, units: one.units.map((group) => ({ ...group, ordered: true })) }));
    expect(settle(account(units, [invoice('A', 'page|4|0.50|2.00')])).classes[0]?.lines[0]?.units.map(({ frame }) => frame)).toEqual([
      '1',
      '3',
      '2',
      '4',
    ]);
    const beyond = released(rest.after, 25n);
    expect(beyond.release).toMatchObject({ parts: [{ invoice: null, amount: '0.25' }], frames: [] });
    expect(beyond.after.sums).toMatchObject({ released: '2.25', open: '-0.25' });
    // what was released beyond all that is due is set against the next invoice first
    const next = writtenAccount({
      ...beyond.after,
      deliveries: [delivery(1, [['accepted', '1 2 3 4 5']], { decision: accept })],
      invoices: [...beyond.after.invoices, invoice('C', 'page|1|0.50|0.50')],
    });
    expect(released(next, 25n).release.parts).toEqual([
      { invoice: null, amount: '-0.25' },
      { invoice: 'C', amount: '0.50' },
    ]);
    expect(released(next, 0n).release.parts).toEqual([
      { invoice: null, amount: '-0.25' },
      { invoice: 'C', amount: '0.25' },
    ]);
    expect(released(whole, 0n).release).toMatchObject({ parts: [], frames: [], amount: '0.00' });
  });

  it('is claimed back for what is accepted no longer, until a credit undoes it', () => {
    const { after } = released(whole, 200n);
    const worse = delivery(
      2,
      [
        ['accepted', '1 2 3'],
        ['disputed', '4', ['page-differs-1']],
      ],
      { decision: rework },
    );
    const claimed = writtenAccount({ ...after, deliveries: [...after.deliveries, worse] });
    expect(claimed.classes[0]).toMatchObject({ due: 3, creditClaimed: 1, released: 4, notBilled: 0 });
    expect(claimed.sums.open).toBe('-0.50');
    const credited = writtenAccount({ ...claimed, invoices: [...claimed.invoices, invoice('C', 'page|-1|0.50|-0.50')] });
    expect(credited.classes[0]).toMatchObject({ billed: 3, creditClaimed: 0 });
    expect(credited.sums).toMatchObject({ billed: '1.50', due: '1.50', open: '-0.50' });
    // the money is set against the next release, and the frame is taken back with it
    const { release, after: settled } = released(credited, -50n);
    expect(release.takenBack).toEqual([{ invoice: 'B', line: '1', class: 'page', reel: '00417', frames: ['4'] }]);
    expect(settled.sums.open).toBe('0.00');
  });

  it('of a credit that meets nothing lowers what is due', () => {
    const credited = account(
      [delivery(1, [['accepted', '1 2 3']], { decision: accept })],
      [invoice('A', 'page|2|0.50|1.00'), invoice('C', 'page|-1|0.50|-0.50')],
    );
    expect(credited.classes[0]).toMatchObject({ billed: 1, due: 3, notBilled: 2, creditClaimed: 0 });
    expect(credited.sums).toMatchObject({ billed: '0.50', due: '0.50', open: '0.50' });
  });

  it('of a credit undoes first what was released and lost, then what was billed too much', () => {
    const { after } = released(whole, 200n);
    const worse = delivery(
      2,
      [
        ['accepted', '1 2 3'],
        ['disputed', '4', ['page-differs-1']],
      ],
      { decision: rework },
    );
    const lines = settle({
      ...after,
      deliveries: [...after.deliveries, worse],
      invoices: [...after.invoices, invoice('C', 'page|3|0.50|1.50'), invoice('D', 'page|-2|0.50|-1.00')],
    }).classes[0]!.lines;
    expect(lines.map(({ quantity, units, lost, credited, due }) => [quantity, units.length, lost.length, credited, due])).toEqual([
      [2, 2, 0, 0, 2],
      [2, 1, 1, 1, 2],
      [3, 0, 0, 1, 1],
      [-2, 0, 0, 0, -2],
    ]);
  });

  it('without a price is the share of what was billed, halves away from zero', () => {
    const line = linesOf(PAGES, 'page|3||1.00')[0]!;
    const free: PriceClass = { class: 'page', kind: ['page'], deliver: true };
    expect([1, 2, 3, 0].map((count) => atAgreedPrice(free, line, 3, count, 2))).toEqual([33n, 67n, 100n, 0n]);
    const credit = linesOf(PAGES, 'page|-2||-0.05')[0]!;
    expect([-1, -2].map((count) => atAgreedPrice(free, credit, -2, count, 2))).toEqual([-3n, -5n]);
    expect(atAgreedPrice(free, { ...line, quantity: '0' }, 0, 1, 2)).toBe(0n);
    expect(atAgreedPrice(free, { ...line, unitPrice: '0.125' }, 3, 1, 2)).toBe(13n);
    expect([taxOn(1050n, '19'), taxOn(-50n, '5'), taxOn(100n, 'none')]).toEqual([200n, -3n, 0n]);
  });

  it('of lines that the agreement does not know is due only by name, on its own invoice', () => {
    const odd = account(
      [delivery(1, [['accepted', '1']], { decision: accept })],
      [invoice('A', 'courier|1||7.00'), invoice('B', 'courier|1||9.00', 'discount|1||-2.00')],
    );
    expect(odd.sums).toMatchObject({ billed: '14.00', due: '0.00', notAgreed: '14.00' });
    const named = settle(odd, [{ invoice: 'B', line: '1' }]);
    expect(named.invoices.map(({ lines }) => lines.map(({ due, named: is }) => [due, is]))).toEqual([
      [[0n, false]],
      [
        [900n, true],
        [0n, false],
      ],
    ]);
    expect(says(odd)).toEqual([
      expect.stringMatching(/^Line 1 \(row 2\) bills 7\.00 for "courier", which the agreement does not know; it is released only/),
    ]);
    expect(says(odd, 'B')[1]).toMatch(
      /^Line 2 \(row 3\) takes off 2\.00 for "discount", which the agreement does not know; it is taken off only/,
    );
    expect(differences(account([], [invoice('A', 'greeting|1||0.00')]))).toEqual([]);
  });

  it('of one invoice is not that of another whose lines have the same numbers', () => {
    const results = ['A', 'B'].map((number) => invoiceResult(whole, number));
    expect(results.map(({ due }) => due)).toEqual(['1.00', '1.00']);
    const only = account(
      [delivery(1, [['accepted', '1']], { decision: accept })],
      [invoice('A', 'page|1|0.50|0.50'), invoice('B', 'page|1|0.50|0.50')],
    );
    expect(['A', 'B'].map((number) => invoiceResult(only, number).due)).toEqual(['0.50', '0.00']);
  });
});

describe('why units are not due', () => {
  const told = {
    findings: [
      { id: 'x-1', says: 'Two pages are blurred.' },
      { id: 'y-1', says: 'A page did not come.' },
    ],
  };
  const good = (facts: Partial<AccountDelivery> = {}) =>
    delivery(
      1,
      [
        ['accepted', '1 2 3'],
        ['disputed', '4 5', ['x-1']],
        ['wanting', '6', ['y-1']],
      ],
      { decision: accept, ...told, ...facts },
    );

  it('is a finding that disputes them, then that they did not come, then nothing that is known', () => {
    const bill = (count: number): Account => account([good()], [invoice('A', `page|${String(count)}|0.50|${(count / 2).toFixed(2)}`)]);
    expect(differences(bill(3))).toEqual([]);
    expect(differences(bill(4))).toEqual(['disputed 1 0.50']);
    expect(says(bill(4))).toEqual(['1 unit billed is not accepted: Two pages are blurred.']);
    expect(says(bill(5))).toEqual(['2 units billed are not accepted: Two pages are blurred.']);
    expect(differences(bill(6))).toEqual(['disputed 2 1.00', 'not-returned 1 0.50']);
    expect(says(bill(6))[1]).toBe('1 unit of the class "page" is billed and did not come as such: A page did not come.');
    expect(differences(bill(8))).toEqual(['disputed 2 1.00', 'not-returned 1 0.50', 'not-explained 2 1.00']);
    expect(says(bill(7))[2]).toMatch(/^1 unit more is billed in the class "page" than came/);
    expect(says(bill(8))[2]).toMatch(/^2 units more are billed/);
  });

  it('nobody can tell where fewer are billed than are disputed for several reasons', () => {
    const two = delivery(
      1,
      [
        ['accepted', '1'],
        ['disputed', '2', ['x-1']],
        ['disputed', '3 4', ['y-1']],
      ],
      { decision: accept, ...told },
    );
    const one = account([two], [invoice('A', 'page|2|0.50|1.00')]);
    expect(invoiceResult(one, 'A').differences).toMatchObject([
      { kind: 'disputed', quantity: 1, findings: ['x-1', 'y-1'], says: '1 unit of the 3 disputed in the class "page" is billed.' },
    ]);
    const all = account([two], [invoice('A', 'page|4|0.50|2.00')]);
    expect(invoiceResult(all, 'A').differences.map(({ quantity, findings }) => [quantity, findings])).toEqual([
      [1, ['x-1']],
      [2, ['y-1']],
    ]);
    expect(says(account([two], [invoice('A', 'page|3|0.50|1.50')]))).toEqual(['2 units of the 3 disputed in the class "page" are billed.']);
  });

  it('is that their delivery goes back for rework, after what is disputed', () => {
    const bill = invoice('A', 'page|3|0.50|1.50');
    expect(differences(account([good({ decision: rework })], [bill]))).toEqual(['disputed 2 1.00', 'not-decided 1 0.50']);
    expect(says(account([delivery(1, [['accepted', '1 2 3']], { decision: rework })], [bill]))).toEqual([
      '3 units of the class "page" came with delivery 1 of batch_pilot, which goes back for rework.',
    ]);
  });

  it('is that they are billed already, by all lines before', () => {
    const lines = ['A', 'B', 'C', 'D', 'E'].map((number) => invoice(number, 'page|1|0.50|0.50'));
    const three = account(
      [
        delivery(
          1,
          [
            ['accepted', '1 2 3'],
            ['wanting', '9', ['y-1']],
          ],
          { decision: accept },
        ),
      ],
      lines,
    );
    expect(differences(three, 'C')).toEqual([]);
    expect(says(three, 'D')).toEqual([
      '1 unit of the class "page" is billed already: invoice A, line 1 (1 unit); invoice B, line 1 (1 unit); invoice C, line 1 (1 unit). A frame is paid once for a charge.',
    ]);
    const six = account(
      [delivery(1, [['accepted', '1 2 3 4']], { decision: accept })],
      [...lines.slice(0, 4), invoice('E', 'page|2|0.50|1.00'), invoice('F', 'page|3|0.50|1.50')],
    );
    expect(says(six, 'E')[0]).toContain('invoice C, line 1 (1 unit); invoice D, line 1 (1 unit). A frame');
    expect(says(six, 'F')[0]).toContain(
      '3 units of the class "page" are billed already: invoice A, line 1 (1 unit); invoice B, line 1 (1 unit); invoice C, line 1 (1 unit) and 2 more lines.',
    );
  });

  it('is a whole line once more only where an earlier one says the same of the same batch and delivery', () => {
    const came = delivery(
      1,
      [
        ['accepted', '1 2'],
        ['disputed', '3', ['x-1']],
      ],
      { decision: accept, ...told },
    );
    const again = account([came], [invoice('A', 'page|2|0.50|1.00'), invoice('B', 'page|2|0.50|1.00')]);
    expect(differences(again, 'B')).toEqual(['billed-already 2 1.00']);
    const other = account([came], [invoice('A', 'page|3|0.50|1.50'), invoice('B', 'page|2|0.50|1.00')]);
    expect(differences(other, 'B')).toEqual(['billed-already 2 1.00']);
    const elsewhere = account(
      [came],
      [naming(invoice('A', 'page|2|0.50|1.00'), { batch: 'batch_pilot', delivery: 1 }), invoice('B', 'page|2|0.50|1.00')],
    );
    expect(differences(elsewhere, 'B')).toEqual(['billed-already 1 0.50', 'disputed 1 0.50']);
  });

  it('is that the line names a batch or a delivery of which the account has no result', () => {
    const bill = (named: Pick<InvoiceLine, 'batch' | 'delivery'>): readonly string[] =>
      says(account([good()], [naming(invoice('A', 'page|2|0.50|1.00'), named)]));
    expect(bill({ batch: 'batch_pilot', delivery: 1 })).toEqual([]);
    expect(bill({ batch: 'batch_other' })).toEqual([
      '2 units of the class "page" are billed for the batch batch_other, of which the account has no result.',
    ]);
    expect(bill({ batch: 'batch_pilot', delivery: 3 })[0]).toContain('are billed for delivery 3 of the batch batch_pilot, of which');
    expect(bill({ batch: null, delivery: 3 })[0]).toContain('are billed for delivery 3, of which');
    expect(says(account([good()], [naming(invoice('A', 'page|1|0.50|0.50'), { batch: 'b' })]))[0]).toMatch(
      /^1 unit of the class "page" is billed/,
    );
  });

  it('may be that as many are held back on the film, or were scanned again', () => {
    const held = {
      heldBack: [
        { words: 'blanks', count: 2 },
        { words: 'targets', count: 3 },
      ],
    };
    const clean = (facts: Partial<AccountDelivery>) => delivery(1, [['accepted', '1 2']], { decision: accept, ...facts });
    expect(differences(account([clean(held)], [invoice('A', 'page|4|0.50|2.00')]))).toEqual(['held-back-billed 2 1.00']);
    expect(says(account([clean(held)], [invoice('A', 'page|5|0.50|2.50')]))[0]).toContain(
      '3 units too many in the class "page": as many as the film has targets; ask',
    );
    expect(differences(account([clean(held)], [invoice('A', 'page|6|0.50|3.00')]))).toEqual(['not-explained 4 2.00']);
    const reel: readonly PriceClass[] = [{ class: 'page', kind: ['page'], deliver: true, per: 'reel', unitPrice: '0.50' }];
    expect(differences(account([clean(held)], [invoice('A', 'page|4|0.50|2.00')], { prices: reel }))).toEqual(['not-explained 2 1.00']);
    const again = { rescans: [{ finding: 'z-1', says: 'A page was blurred.', reel: '00417', frames: ['1'], cost: 'vendor' as const }] };
    expect(says(account([clean(again)], [invoice('A', 'page|3|0.50|1.50')]))).toEqual([
      "1 unit more than came, as many as were scanned again: that was the vendor's to mend. A page was blurred.",
    ]);
    const ours = { rescans: [{ ...again.rescans[0]!, cost: 'library' as const }] };
    expect(says(account([clean(ours)], [invoice('A', 'page|3|0.50|1.50')]))[0]).toContain('the class "page" does not pay for rescans.');
    const paying: readonly PriceClass[] = [{ ...PAGES[0]!, includes: 'rescans' }];
    expect(differences(account([clean(ours)], [invoice('A', 'page|3|0.50|1.50')], { prices: paying }))).toEqual([]);
    expect(differences(account([clean(again)], [invoice('A', 'page|3|0.50|1.50')], { prices: reel }))).toEqual(['not-explained 1 0.50']);
  });
});

describe('deliveries of one order', () => {
  const of = (batch: string, number: number, reels: readonly string[], facts: Partial<AccountDelivery> = {}): AccountDelivery =>
    delivery(number, [], { batch, reels, ...facts });
  const orders = (...deliveries: readonly AccountDelivery[]): readonly string[] =>
    ordersOf(deliveries).map(({ names, deliveries: own }) => `${names.join('+')}: ${own.map((one) => String(one.delivery)).join(' ')}`);

  it('are those of one batch, or that have a reel in common, in the order of their numbers', () => {
    expect(orders(of('b', 10, ['2']), of('b', 9, ['1']), of('a', 1, ['3']))).toEqual(['a: 1', 'b: 9 10']);
    expect(orders(of('b', 1, ['1']), of('c', 2, ['1']), of('a', 1, ['2']))).toEqual(['a: 1', 'b+c: 1 2']);
    // a later delivery may hold the reels of two batches: then all three are one order
    expect(orders(of('b', 1, ['1']), of('a', 2, ['2']), of('c', 3, ['1', '2']))).toEqual(['b+a+c: 1 2 3']);
    // a batch that is paid as a whole has no reel
    const whole = { units: [{ class: 'setup', reel: '', state: 'accepted', ordered: true, findings: [], frames: ['batch'] }] as const };
    expect(orders(of('b', 1, [''], whole), of('a', 1, [''], whole))).toEqual(['a: 1', 'b: 1']);
  });

  it('tell whether a frame was ordered by the newest record', () => {
    const first = delivery(1, [['accepted', '+1']], { decision: accept });
    const second = delivery(2, [['accepted', '+1']], { decision: accept });
    const ordered = { ...second, units: second.units.map((group) => ({ ...group, ordered: true })) };
    expect(account([first, second], []).classes[0]?.ordered).toBe(0);
    expect(account([first, ordered], []).classes[0]?.ordered).toBe(1);
  });

  it('keep what was scanned again, where the class pays for it and the library for the fault', () => {
    const rescans = [
      { finding: 'z-1', says: '', reel: '00417', frames: ['1', '2'], cost: 'library' as const },
      { finding: 'z-2', says: '', reel: '00417', frames: ['3'], cost: 'vendor' as const },
    ];
    const later = [
      delivery(1, [['accepted', '1']], { decision: accept }),
      delivery(2, [['accepted', '1']], { decision: accept, rescans }),
      delivery(3, [['accepted', '1']], { decision: accept }),
    ];
    const paying = account(later, [], { prices: [{ ...PAGES[0]!, includes: 'rescans' }] });
    expect(paying.classes[0]?.units.map(({ frames, dueSince, ordered }) => [frames.join(' '), dueSince, ordered])).toEqual([
      ['1', 1, true],
      ['again:2:1 again:2:2', 2, false],
    ]);
    expect(account(later, []).classes[0]?.units).toHaveLength(1);
  });
});

describe('taking into an account', () => {
  const agreement = (classes: readonly PriceClass[] = PAGES, currency = 'EUR'): ResolvedAgreement =>
    ({ library: 'Library', vendor: 'Vendor', terms: { classes, payOn: 'accepted', currency } }) as unknown as ResolvedAgreement;
  const arrival = (one: AccountDelivery, of = agreement()) => ({ delivery: one, agreement: of });
  const first = delivery(1, [['accepted', '1 2']]);
  const begun = takenIn(null, [arrival(first)], [invoice('A', 'page|2|0.50|1.00')]).account!;

  it('begins with a result, its parties, terms and currency', () => {
    expect(takenIn(null, [], []).mistakes).toEqual(['An account begins with a saved result; name one.']);
    expect(begun).toMatchObject({
      library: 'Library',
      vendor: 'Vendor',
      currency: 'EUR',
      minorDigits: 2,
      payOn: 'accepted',
      prices: PAGES,
    });
    expect(takenIn(null, [arrival(first, agreement([]))], []).mistakes[0]).toContain('has no price classes');
    const yen = takenIn(
      null,
      [arrival(first, agreement(PAGES, ''))],
      [
        { ...invoice('A', 'page|2|0.50|1'), currency: '' },
        { ...invoice('B', 'page|2|0.50|1'), currency: 'JPY' },
      ],
    );
    expect(yen.account).toMatchObject({ currency: 'JPY', minorDigits: 0 });
    expect(takenIn(null, [arrival(first, agreement(PAGES, ''))], []).account).toMatchObject({ currency: '', minorDigits: 2 });
  });

  it('takes the same invoice once, another of its number in its place, and none once money was released on it', () => {
    const again = takenIn(begun, [], [{ ...invoice('A', 'page|2|0.50|1.00'), file: { name: 'copy.csv', sha256: '' } }]);
    expect(again.remarks).toEqual(['Invoice A is in the account already; it counts once.']);
    expect(again.account?.invoices).toEqual(begun.invoices);
    const other = takenIn(begun, [], [invoice('A', 'page|1|0.50|0.50')]);
    expect(other.remarks).toEqual(['Invoice A was in the account with other lines; this one takes its place.']);
    expect(other.account?.sums.billed).toBe('0.50');
    const beside = takenIn(takenIn(begun, [], [invoice('B', 'page|1|0.50|0.50')]).account, [], [invoice('A', 'page|1|0.50|0.50')]);
    expect(beside.account?.invoices.map(({ number, lines }) => `${number} ${lines[0]?.quantity ?? ''}`)).toEqual(['A 1', 'B 1']);
    const { after } = released({ ...begun, deliveries: [{ ...first, decision: accept }] }, 100n);
    const late = takenIn(after, [], [invoice('A', 'page|1|0.50|0.50')]);
    expect([late.account, late.mistakes]).toEqual([
      null,
      [expect.stringMatching(/^q-17\.csv: an invoice A with other lines is in the account, and money was released on it/)],
    ]);
    expect(takenIn(after, [], [invoice('B', 'page|1|0.50|0.50')]).account?.invoices.map(({ number }) => number)).toEqual(['A', 'B']);
  });

  it('takes a newer result of a delivery, but leaves one that was decided', () => {
    const newer = { ...delivery(1, [['accepted', '1']]), result: { name: 'newer.json', sha256: 'n' } };
    expect(takenIn(begun, [arrival(newer)], []).account?.deliveries).toEqual([newer]);
    const decided = { ...begun, deliveries: [{ ...first, decision: accept }] };
    const kept = takenIn(decided, [arrival(newer)], []);
    expect(kept.account?.deliveries).toEqual(decided.deliveries);
    expect(kept.remarks).toEqual([
      'delivery 1 of batch_pilot was decided by Ilse Marrow on 2031-03-09 by another result than newer.json. That decision holds until "decide" is run with the new result.',
    ]);
    expect(takenIn(decided, [arrival(first)], [])).toMatchObject({ remarks: [], account: { deliveries: decided.deliveries } });
    const both = takenIn(
      begun,
      [arrival(delivery(10, [])), arrival(delivery(2, [])), arrival({ ...delivery(1, []), batch: 'batch_a', reels: ['1'] })],
      [],
    ).account;
    expect(both?.deliveries.map((one) => `${one.batch} ${String(one.delivery)}`)).toEqual([
      'batch_a 1',
      'batch_pilot 1',
      'batch_pilot 2',
      'batch_pilot 10',
    ]);
  });

  it('refuses other terms, another currency, and one delivery twice', () => {
    const dearer = agreement([{ ...PAGES[0]!, unitPrice: '0.60' }]);
    expect(takenIn(begun, [arrival(delivery(2, []), dearer)], []).mistakes).toEqual([
      expect.stringMatching(/^findings-2\.json: delivery 2 of batch_pilot was verified under other prices or terms of payment/),
    ]);
    expect(takenIn(begun, [], [{ ...invoice('B', 'page|1|0.50|0.50'), currency: 'GBP' }]).mistakes).toEqual([
      'q-17.csv: the invoice is in GBP and the agreement in EUR; ask for an invoice in EUR.',
    ]);
    expect(takenIn(begun, [], [{ ...invoice('B', 'page|1|0.50|0.50'), currency: '' }]).mistakes).toEqual([]);
    const twin = { ...delivery(1, []), batch: 'batch_renamed', result: { name: 'twin.json', sha256: 't' } };
    expect(takenIn(begun, [arrival(twin)], []).mistakes).toEqual([
      expect.stringMatching(
        /^findings-1\.json and twin\.json are both delivery 1, and have reels in common \(batch_pilot, batch_renamed\)/,
      ),
    ]);
    expect(takenIn(begun, [arrival({ ...twin, delivery: 2 })], []).mistakes).toEqual([]);
    expect(takenIn(begun, [arrival({ ...twin, reels: ['00418'], units: [] })], []).mistakes).toEqual([]);
  });

  it('rounds nothing in silence: neither an amount nor a quantity', () => {
    const sum = (amount: string, row: number, text: string) => ({ amount, row, text });
    const odd: AccountInvoice = {
      ...invoice('B', 'page|1.5|0.50|0.755', 'courier|1.5||3.00'),
      subtotals: [{ ...sum('0.001', 4, 'Subtotal'), lines: ['1'] }],
      net: sum('0.002', 5, 'Net'),
      taxes: [{ ...sum('0.003', 6, 'Tax'), rate: '7' }],
      gross: sum('0.004', 7, 'Total'),
    };
    expect(takenIn(begun, [], [odd]).mistakes).toEqual([
      ...[
        [2, '0.755', 'page'],
        [4, '0.001', 'Subtotal'],
        [5, '0.002', 'Net'],
        [6, '0.003', 'Tax'],
        [7, '0.004', 'Total'],
      ].map(
        ([row, amount, text]) =>
          `q-17.csv, row ${String(row)}: the amount ${String(amount)} of "${String(text)}" is not a whole number of the currency's smallest unit (2 decimals).`,
      ),
      'q-17.csv, row 2: the quantity is 1.5; units of the class "page" are counted in whole numbers.',
    ]);
    const yen = { ...begun, currency: 'JPY' };
    expect(takenIn(yen, [], [{ ...invoice('B', 'page|1|1|1.5'), currency: 'JPY' }]).mistakes[0]).toContain('(no decimals)');
  });
});
