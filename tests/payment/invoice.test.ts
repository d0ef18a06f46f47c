import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import type { InvoiceResult } from '../../src/model/invoice.js';
import { takenIn } from '../../src/payment/account.js';
import { accountDelivery, resultMistake } from '../../src/payment/delivery.js';
import { invoiceResult } from '../../src/payment/invoice-result.js';
import { parseJson } from '../../src/read/json.js';
import { CLASSES, FILE, held, invoiceWith, linesOf, verified } from './example.js';

const GOLDEN = new URL('../../reports/findings.json', import.meta.url);
const kinds = (result: InvoiceResult): readonly string[] => result.differences.map((difference) => difference.kind);
const total = (amount: string) => ({ gross: { row: 9, text: 'Total', amount } });
const heldText = (texts: readonly string[], findings: Findings = verified()): InvoiceResult => held(findings, texts).result;

/** Cents of a decimal text with two decimals, by taking the point out. */
const cents = (text: string): bigint => BigInt(text.replace('.', ''));
const sumOfEffects = (result: InvoiceResult): bigint => result.differences.reduce((sum, entry) => sum + cents(entry.effect), 0n);

describe('an invoice with every kind of mistake', () => {
  // 223 pages: 210 that came, 4 that did not, 6 scanned again, 3 duplicates rightly held back. 223 x 0.325 = 72.475.
  const lines = [
    'page      | 223 | 0.325 | 72.47',
    'held back | 12  | 0.06  | 7.20',
    'reel      | 1   | 18.50 | 18.50',
    'reel      | 1   | 18.50 | 18.50',
    'freight   | 1   | 24.00 | 24.00',
  ];
  const { account, result } = held(verified(), lines, total('150.67'));

  it('counts what is ordered, came, is accepted and disputed in each class', () => {
    // 12 blanks, the page and the target that came although they were to be held back; the 4 duplicates are in no class.
    expect(account.classes.map((one) => [one.class, one.ordered, one.came, one.accepted, one.disputed, one.billed])).toEqual([
      ['page', 209, 210, 200, 10, 223],
      ['held back', 14, 12, 12, 0, 12],
      ['reel', 1, 1, 1, 0, 2],
    ]);
  });

  it('traces each difference to its findings, to the cent', () => {
    // By hand, pages at 0.325, halves up: 223 72.48, 222 72.15, 221 71.83, 219 71.18, 218 70.85, 213 69.23, 207 67.28, 203 65.98, 200 65.00.
    // Thirteen more are billed than came and none before, so nothing is billed already; the reel is.
    expect(
      result.differences.map(({ kind, lines: at, quantity, effect, findings }) => [kind, at.join(), quantity, effect, findings]),
    ).toEqual([
      ['rounding-differs', '1', null, '-0.01', []],
      ['disputed', '1', 1, '0.33', ['suppressed-frame-delivered']],
      ['disputed', '1', 1, '0.32', ['non-page-delivered']],
      ['disputed', '1', 2, '0.65', ['frame-scanned-twice']],
      ['disputed', '1', 1, '0.33', ['duplicate-delivered-as-page']],
      ['disputed', '1', 5, '1.62', ['exposure-not-split']],
      ['rescan-not-agreed', '1', 6, '1.95', ['same-image-twice']],
      ['not-returned', '1', 4, '1.30', ['page-not-delivered']],
      ['held-back-billed', '1', 3, '0.98', []],
      ['amount-differs', '2', null, '6.48', []],
      ['price-differs', '2', 12, '0.12', []],
      ['billed-already', '4', 1, '18.50', []],
      ['not-agreed', '5', null, '24.00', []],
      ['total-differs', '', null, '10.00', []],
    ]);
  });

  it('adds up: 65.00 and 0.60 and 18.50 would be due of 150.67', () => {
    expect([result.billed, result.due, result.difference, result.dueNow]).toEqual(['150.67', '84.10', '66.57', '0.00']);
    expect(sumOfEffects(result)).toBe(6657n);
    expect(result.lines.map((line) => [line.computed, line.dueQuantity, line.due])).toEqual([
      ['72.48', 200, '65.00'],
      ['0.72', 12, '0.60'],
      ['18.50', 1, '18.50'],
      ['18.50', 0, '0.00'],
      ['24.00', 0, '0.00'],
    ]);
  });

  it('says each in a sentence', () => {
    const said = result.differences.map((difference) => difference.says);
    expect(said[0]).toBe('Line 1 (row 2): 223 times 0.325 is 72.48 when halves are rounded up; 72.47 is billed.');
    expect(said[1]).toBe('1 unit billed is not accepted: A frame to be held back came.');
    expect(said[10]).toBe('Line 2 (row 3) bills "held back" at 0.06; 0.05 is agreed.');
    expect(said.at(-1)).toBe('The invoice asks for 150.67; its own lines and taxes make 140.67.');
    for (const sentence of said) expect(sentence).toMatch(/^\S.*\.$/);
  });
});

describe('an invoice without mistakes', () => {
  it('leaves nothing to say', () => {
    const result = heldText(['page|200|0.3250|65.00', 'held back|12|0.05|0.6', 'reel|1|18.5|18.50']);
    expect(result.differences).toEqual([]);
    expect([result.billed, result.due, result.difference]).toEqual(['84.10', '84.10', '0.00']);
  });

  it('may be spread over lines, each rounded by itself', () => {
    // 99 x 0.325 = 32.175 and 101 x 0.325 = 32.825: 32.18 + 32.83 is a cent more than 65.00.
    const result = heldText(['page|99|0.325|32.18', 'page|101|0.325|32.83']);
    expect([result.due, kinds(result)]).toEqual(['65.01', []]);
  });

  it('may hold two lines that say the same, as of two reels, while no more is billed than came', () => {
    const result = heldText(['page|100|0.325|32.50', 'page|100|0.325|32.50']);
    expect([result.due, kinds(result)]).toEqual(['65.00', []]);
  });

  it('says what is due and on no invoice yet', () => {
    const { account } = held(verified(), ['page|150|0.325|48.75']);
    expect(account.classes.map(({ notBilled, due }) => [due, notBilled])).toEqual([
      [0, 0],
      [0, 0],
      [0, 0],
    ]);
  });
});

describe('tax', () => {
  it('is reckoned for each rate on the sum of its lines, at the rate of the invoice', () => {
    // 65.00 at 19 % is 12.35; 19.10 at 7 % is 1.337.
    const lines = ['page|200|0.325|65.00|19', 'held back|12|0.05|0.60|7', 'reel|1|18.50|18.50|7'];
    const taxes = [
      { row: 6, text: 'MwSt. 19 %', amount: '12.35', rate: '19' },
      { row: 7, text: 'MwSt. 7 %', amount: '1.34', rate: '7' },
    ];
    const { result } = held(verified(), lines, { taxes, ...total('97.79') });
    expect([result.differences, result.due]).toEqual([[], '97.79']);
    // ten pages too many carry their tax with them: 71.825 is no amount, so 210 are 68.25, and 3.25 at 19 % is 0.6175
    const more = held(verified(), ['page|210|0.325|68.25|19'], {
      taxes: [{ row: 3, text: 'VAT 19 %', amount: '12.97', rate: '19' }],
    }).result;
    expect(more.taxes).toEqual([{ rate: '19', onBilled: '68.25', billed: '12.97', onDue: '65.00', due: '12.35' }]);
    expect(more.differences.at(-1)).toMatchObject({ kind: 'tax-not-due', effect: '0.62' });
    expect(sumOfEffects(more)).toBe(cents(more.difference));
  });

  it('that is in the price comes on top of nothing', () => {
    const classes = CLASSES.map((entry) => ({ ...entry, net: false }));
    const taxes = [{ row: 3, text: 'VAT 19 %', amount: '10.38', rate: '19' }];
    const { result } = held(verified(classes), ['page|200|0.325|65.00|19'], { taxes, ...total('65.00') });
    expect([result.due, result.differences]).toEqual(['65.00', []]);
  });

  it('and sums that are not what they say are named, and every cent is traced once', () => {
    const net = { row: 3, text: 'Net', amount: '66.00' };
    const taxes = [{ row: 4, text: 'VAT 20 %', amount: '13.30', rate: '20' }];
    const { result } = held(verified(), ['page|200|0.325|65.00|20'], { net, taxes, ...total('80.00') });
    expect(result.differences.map(({ kind, effect }) => [kind, effect])).toEqual([
      ['net-differs', '1.00'],
      ['tax-differs', '0.30'],
      ['total-differs', '0.70'],
    ]);
    expect(sumOfEffects(result)).toBe(cents(result.difference));
  });
});

describe('what may be billed is as agreed', () => {
  const corrected = (cause: 'film' | 'vendor-image'): Findings => {
    const classes = CLASSES.map((entry) => (entry.class === 'page' ? { ...entry, includes: 'rescans' as const } : entry));
    const base = verified(classes);
    return {
      ...base,
      corrected: base.corrected.map((one) => (one.rescan === 'yes' ? { ...one, cause } : one)),
    };
  };

  it('pays for rescans where the class says so and the film was the cause, not where it was the vendor', () => {
    expect(heldText(['page|206|0.325|66.95'], corrected('film'))).toMatchObject({ difference: '0.00' });
    const vendors = heldText(['page|216|0.325|70.20'], corrected('vendor-image'));
    expect(vendors.differences.find(({ kind }) => kind === 'rescan-not-agreed')).toMatchObject({
      quantity: 6,
      findings: ['same-image-twice'],
    });
  });

  it('counts duplicates that were held back only where the class says so', () => {
    const ordered = (includes: boolean): number | undefined => {
      const entry = { class: 'held back', kind: ['page' as const], deliver: false, unitPrice: '0.05' };
      const findings = verified([includes ? { ...entry, includes: 'duplicates' as const } : entry]);
      return held(findings, ['held back|1|0.05|0.05']).account.classes[0]?.ordered;
    };
    expect([ordered(false), ordered(true)]).toEqual([1, 5]);
  });

  it('takes back a dispute that was ruled accept-as-is or collation-wrong, and none that was left to the vendor', () => {
    const due = (decision: string): string => {
      const ruling = { decision, note: '', by: 'Ada Pell', on: '1926-01-10' };
      const findings = verified(CLASSES, (finding) => (finding.code === 'exposure-not-split' ? { ...finding, ruling } : finding));
      return heldText(['page|205|0.325|66.63'], findings).due;
    };
    expect(['accept-as-is', 'collation-wrong', 'vendor-corrects'].map(due)).toEqual(['66.63', '66.63', '65.00']);
  });

  it('owes frames held back by the record, whether or not the return lists them', () => {
    const shown = verified();
    const hidden: Findings = {
      ...shown,
      reels: shown.reels.map((reel) => ({
        ...reel,
        frames: reel.frames.map((frame) => (frame.returnedKind === 'unmatched' ? { ...frame, returnedKind: null } : frame)),
      })),
    };
    for (const findings of [shown, hidden]) expect(heldText(['held back|12|0.05|0.60'], findings).difference).toBe('0.00');
  });

  it('counts a frame that two findings dispute once, under the one that stands first in the result', () => {
    const base = verified();
    const [first, second] = [base.findings[0]!.id, base.findings[1]!.id];
    const reels = base.reels.map((reel) => ({
      ...reel,
      frames: reel.frames.map((frame) => (frame.findings.includes(second) ? { ...frame, findings: [first, second] } : frame)),
    }));
    const shares = heldText(['page|210|0.325|68.25'], { ...base, reels }).differences;
    expect(shares.slice(0, 2).map((entry) => [entry.findings, entry.quantity])).toEqual([
      [[first], 2],
      [['frame-scanned-twice'], 2],
    ]);
  });

  it('names all findings where fewer are billed than are disputed', () => {
    const { differences } = heldText(['page|203|0.325|65.98']);
    expect(differences[0]).toMatchObject({ kind: 'disputed', quantity: 3, effect: '0.98' });
    expect(differences[0]?.findings).toHaveLength(5);
  });

  it('lets a credit undo what another line bills too much', () => {
    expect(heldText(['page|210|0.325|68.25', 'page|-10|0.325|-3.25'])).toMatchObject({ due: '65.00', difference: '0.00' });
  });

  it('admits that it cannot explain a surplus, and asks for the count', () => {
    const { differences } = heldText(['page|1000|0.325|325.00']);
    // 1000 less 200 accepted, 10 disputed, 6 scanned again, 4 that did not come
    expect(differences.find((entry) => entry.kind === 'not-explained')).toMatchObject({ quantity: 780, findings: [] });
  });

  it('takes the billed price where none is agreed', () => {
    const result = heldText(['page|200|0.41|82.00'], verified([{ class: 'page', kind: ['page'], deliver: true }]));
    expect([result.due, kinds(result)]).toEqual(['82.00', []]);
  });

  it('says where less than the agreed price is asked, in favour of the library', () => {
    const { differences, difference } = heldText(['page|200|0.3|60.00']);
    expect(differences[0]).toMatchObject({ kind: 'price-differs', effect: '-5.00' });
    expect(difference).toBe('-5.00');
  });

  it('rounds to whole yen', () => {
    const findings = verified([{ class: 'page', kind: ['page'], deliver: true, unitPrice: '42.5' }]);
    const yen: Findings = { ...findings, agreement: { ...findings.agreement, terms: { ...findings.agreement.terms, currency: 'JPY' } } };
    const { result } = held(yen, ['page|199|42.5|8458'], { currency: 'JPY' });
    expect([result.due, result.difference]).toEqual(['8458', '0']);
  });
});

describe('any invoice', () => {
  const text = (units: number, scale: number): string => (units / 10 ** scale).toFixed(scale);
  const line = fc
    .tuple(
      fc.constantFrom('page', 'held back', 'reel', 'freight'),
      fc.integer({ min: -40, max: 320 }),
      fc.constantFrom('0.325', '0.05', '18.50', '0.315', '0.3333'),
      fc.integer({ min: -9999, max: 9999 }),
    )
    .map(([name, quantity, price, amount]) => `${name}|${String(quantity)}|${price}|${text(amount, 2)}`);
  const stated = fc.option(fc.integer({ min: -99999, max: 99999 }).map((units) => text(units, 2)));

  it('is explained to the cent, and never pays for more than was accepted', () => {
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 8 }), stated, (lines, sum) => {
        const { account, result } = held(verified(), lines, sum === null ? {} : total(sum));
        expect(sumOfEffects(result)).toBe(cents(result.billed) - cents(result.due));
        for (const { class: name, accepted } of account.classes) {
          const own = result.lines.filter((one) => one.class === name);
          const due = own.reduce((all, one) => all + one.dueQuantity, 0);
          expect(due).toBeLessThanOrEqual(accepted);
          const parts = result.differences.filter((one) => one.class === name && one.quantity !== null && one.kind !== 'price-differs');
          const billed = own.reduce((all, one) => all + Number(one.quantity), 0);
          expect(parts.reduce((all, part) => all + (part.quantity ?? 0), 0)).toBe(billed - due);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('the demonstration', () => {
  const saved = parseJson(readFileSync(GOLDEN, 'utf8'), 'findings.json', 'findings');

  it('is counted here as it was counted there', () => {
    expect(saved.counts.classes.length).toBeGreaterThan(0);
    expect(resultMistake(saved, 'findings.json')).toBeNull();
  });

  it('gives an invoice for all that came back to the findings of its result', () => {
    const returned = saved.counts.classes.find((entry) => entry.class === 'page')!;
    const amount = (returned.returned * 32).toString().replace(/(\d\d)$/, '.$1');
    const result = heldText([`page|${String(returned.returned)}|0.32|${amount}`], saved);
    const disputed = result.differences.filter((entry) => entry.kind === 'disputed');
    expect(disputed.reduce((sum, entry) => sum + (entry.quantity ?? 0), 0)).toBe(returned.disputed);
    const known = new Set(saved.findings.map((entry) => entry.id));
    for (const id of disputed.flatMap((entry) => entry.findings)) expect(known).toContain(id);
    expect(sumOfEffects(result)).toBe(BigInt(returned.disputed * 32));
  });
});

describe('what cannot be held against each other', () => {
  const mistakes = (texts: readonly string[], findings: Findings = verified(), facts = {}): readonly string[] =>
    takenIn(
      null,
      [{ delivery: accountDelivery(findings, FILE), agreement: findings.agreement }],
      [invoiceWith(linesOf(findings.agreement.terms.classes, ...texts), facts)],
    ).mistakes;

  it.each([
    ['page|1.5|0.325|0.49', 'q-17.csv, row 2: the quantity is 1.5; units of the class "page" are counted in whole numbers.'],
    [
      'page|1|0.325|0.325',
      `q-17.csv, row 2: the amount 0.325 of "page" is not a whole number of the currency's smallest unit (2 decimals).`,
    ],
  ])('%j is refused by its row', (text, sentence) => {
    expect(mistakes([text])).toEqual([sentence]);
  });

  it('is refused as a whole for another currency, no agreed classes, changed counts', () => {
    const good = ['page|1|0.325|0.33'];
    expect(mistakes(good, verified(), { currency: 'USD' })).toEqual([
      'q-17.csv: the invoice is in USD and the agreement in EUR; ask for an invoice in EUR.',
    ]);
    expect(mistakes(good, verified([]))[0]).toMatch(/has no price classes; put them into terms, classes/);
    const base = verified();
    const changed: Findings = {
      ...base,
      counts: { ...base.counts, classes: base.counts.classes.map((entry) => ({ ...entry, disputed: 9 })) },
    };
    expect(resultMistake(changed, 'findings.json')).toContain('it was changed by hand or made by another version. Verify again.');
  });
});

describe('lines that name their delivery', () => {
  // Of 210 pages that came first 200 are accepted and due, whatever was decided about the delivery; of the second all are.
  const terms = (findings: Findings): Findings => ({
    ...findings,
    agreement: { ...findings.agreement, terms: { ...findings.agreement.terms, payOn: 'accepted-pages' } },
  });
  const first = terms({ ...verified(), run: { ...verified().run, delivery: 1 } });
  const whole = verified(CLASSES, (one) => ({ ...one, severity: 'note', rescan: 'no', billable: [] }));
  const second = terms({ ...whole, run: { ...whole.run, delivery: 2 }, corrected: [] });
  const dueOf = (...named: readonly (number | undefined)[]): readonly (readonly [number, number])[] => {
    const texts = ['page | 20 | 0.325 | 6.50', 'page | 200 | 0.325 | 65.00'];
    const lines = linesOf(CLASSES, ...texts).map((line, at) => ({ ...line, ...(named[at] === undefined ? {} : { delivery: named[at] }) }));
    const arrivals = [first, second].map((findings) => ({
      delivery: accountDelivery(findings, { ...FILE, sha256: String(findings.run.delivery).repeat(64) }),
      agreement: findings.agreement,
    }));
    const { account } = takenIn(null, arrivals, []);
    const decided = {
      ...account!,
      deliveries: account!.deliveries.map((one) => ({
        ...one,
        decision: {
          is: one.delivery === 1 ? ('return-for-rework' as const) : ('accept' as const),
          by: 'Ada Pell',
          second: null,
          on: '2031-03-04',
        },
      })),
    };
    const { account: after, mistakes } = takenIn(decided, [], [invoiceWith(lines)]);
    expect(mistakes).toEqual([]);
    const { lines: settled, differences } = invoiceResult(after!, 'Q-17');
    expect(differences.filter(({ kind }) => kind === 'batch-not-known').map(({ says }) => says)).toEqual(
      named.includes(7) ? [expect.stringContaining('billed for delivery 7, of which the account has no result')] : [],
    );
    return settled.map(({ quantity, dueQuantity }) => [Number(quantity), dueQuantity]);
  };

  it('pay what became due with it, and leave the other lines theirs', () => {
    const all = dueOf(undefined, undefined);
    expect(all[0]).toEqual([20, 20]);
    const [of2, of1] = dueOf(2, 1);
    expect(of1).toEqual([200, 200]);
    expect(of2![1]).toBe(all[1]![1] + 20 - 200);
    expect(of2![1]).toBeLessThan(20);
  });

  it('pay nothing for a delivery that nobody has seen', () => {
    expect(dueOf(7, 1)).toEqual([
      [20, 0],
      [200, 200],
    ]);
  });
});
