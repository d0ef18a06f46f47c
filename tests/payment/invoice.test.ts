import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import type { InvoiceResult } from '../../src/model/invoice.js';
import { invoiceMistakes } from '../../src/payment/invoice-lines.js';
import { reconcileInvoice } from '../../src/payment/reconcile.js';
import { parseJson } from '../../src/read/json.js';
import { CLASSES, linesOf, verified } from './example.js';

const GOLDEN = new URL('../../reports/findings.json', import.meta.url);
const facts = { number: 'Q-17', currency: 'EUR', total: null };
const kinds = (result: InvoiceResult): readonly string[] => result.differences.map((difference) => difference.kind);

/** Cents of a decimal text with two decimals, by taking the point out. */
const cents = (text: string): bigint => BigInt(text.replace('.', ''));
const sumOfEffects = (result: InvoiceResult): bigint => result.differences.reduce((sum, entry) => sum + cents(entry.effect), 0n);

describe('an invoice with every kind of mistake', () => {
  // 223 pages: 210 that came, 4 that did not, 6 scanned again, 3 duplicates rightly held back. 223 x 0.325 = 72.475.
  const lines = linesOf(
    'page      | 223 | 0.325 | 72.47',
    'held back | 12  | 0.06  | 7.20',
    'reel      | 1   | 18.50 | 18.50',
    'reel      | 1   | 18.50 | 18.50',
    'freight   | 1   | 24.00 | 24.00',
  );
  const result = reconcileInvoice(lines, verified(), { ...facts, total: '150.67' });

  it('counts what is billed, came, is accepted and disputed in each class', () => {
    expect(result.classes).toEqual([
      {
        class: 'page',
        unitPrice: '0.325',
        billed: 223,
        record: 209,
        returned: 210,
        accepted: 200,
        disputed: 10,
        rescans: 0,
        due: 200,
        amountBilled: '72.47',
        amountDue: '65.00',
      },
      {
        class: 'held back',
        unitPrice: '0.05',
        billed: 12,
        // 12 blanks, the page and the target that came although they were to be held back; the 4 duplicates are in no class.
        record: 14,
        returned: 12,
        accepted: 12,
        disputed: 0,
        rescans: 0,
        due: 12,
        amountBilled: '7.20',
        amountDue: '0.60',
      },
      {
        class: 'reel',
        unitPrice: '18.50',
        billed: 2,
        record: 1,
        returned: 1,
        accepted: 1,
        disputed: 0,
        rescans: 0,
        due: 1,
        amountBilled: '37.00',
        amountDue: '18.50',
      },
    ]);
  });

  it('traces each difference to its findings, to the cent', () => {
    // By hand, pages at 0.325, halves up: 223 72.48, 222 72.15, 221 71.83, 219 71.18, 218 70.85, 213 69.23, 207 67.28, 203 65.98, 200 65.00.
    expect(
      result.differences.map(({ kind, lines: at, quantity, effect, findings }) => [kind, at.join(), quantity, effect, findings]),
    ).toEqual([
      ['rounding-differs', '1', null, '-0.01', []],
      ['amount-differs', '2', null, '6.48', []],
      ['price-differs', '2', 12, '0.12', []],
      ['class-not-agreed', '5', 1, '24.00', []],
      ['disputed', '1', 1, '0.33', ['suppressed-frame-delivered']],
      ['disputed', '1', 1, '0.32', ['non-page-delivered']],
      ['disputed', '1', 2, '0.65', ['frame-scanned-twice']],
      ['disputed', '1', 1, '0.33', ['duplicate-delivered-as-page']],
      ['disputed', '1', 5, '1.62', ['exposure-not-split']],
      ['rescan-not-agreed', '1', 6, '1.95', ['same-image-twice']],
      ['not-returned', '1', 4, '1.30', ['page-not-delivered']],
      ['held-back-billed', '1', 3, '0.98', []],
      ['line-repeated', '4', 1, '18.50', []],
      ['total-differs', '', null, '10.00', []],
    ]);
  });

  it('adds up: 65.00 and 0.60 and 18.50 are due of 150.67', () => {
    expect([result.billed, result.due, result.difference]).toEqual(['150.67', '84.10', '66.57']);
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
    expect(said[2]).toBe('Line 2 (row 3) bills "held back" at 0.06; 0.05 is agreed.');
    expect(said[4]).toBe('1 unit billed is not accepted: A frame to be held back came.');
    expect(said.at(-1)).toBe('The lines add up to 140.67; the invoice asks for 150.67.');
    for (const sentence of said) expect(sentence).toMatch(/^\S.*\.$/);
  });
});

describe('an invoice without mistakes', () => {
  it('leaves nothing to say', () => {
    const result = reconcileInvoice(linesOf('page|200|0.3250|65.00', 'Held  Back|12|0.05|0.6', 'reel|1|18.5|18.50'), verified(), facts);
    expect(result.differences).toEqual([]);
    expect([result.billed, result.due, result.difference]).toEqual(['84.10', '84.10', '0.00']);
  });

  it('may be spread over lines, each rounded by itself', () => {
    // 99 x 0.325 = 32.175 and 101 x 0.325 = 32.825: 32.18 + 32.83 is a cent more than 65.00.
    const result = reconcileInvoice(linesOf('page|99|0.325|32.18', 'page|101|0.325|32.83'), verified(), facts);
    expect(result.due).toBe('65.01');
    expect(kinds(result)).toEqual(['billed-too-few', 'billed-too-few']);
  });

  it('may hold two lines that say the same, as of two reels, while no more is billed than came', () => {
    const result = reconcileInvoice(linesOf('page|100|0.325|32.50', 'page|100|0.325|32.50'), verified(), facts);
    expect(kinds(result)).not.toContain('line-repeated');
    expect(result.due).toBe('65.00');
  });
});

describe('what may be billed is as agreed', () => {
  it('pays for rescans where the class says so', () => {
    const classes = CLASSES.map((entry) => (entry.class === 'page' ? { ...entry, includes: 'rescans' as const } : entry));
    const result = reconcileInvoice(linesOf('page|206|0.325|66.95'), verified(classes), facts);
    expect(result.classes[0]).toMatchObject({ accepted: 200, rescans: 6, due: 206 });
    expect(result.difference).toBe('0.00');
  });

  it('counts duplicates that were held back only where the class says so', () => {
    const result = (includes: boolean): InvoiceResult => {
      const held = { class: 'held back', kind: ['page' as const], deliver: false, unitPrice: '0.05' };
      return reconcileInvoice(linesOf('held back|1|0.05|0.05'), verified([includes ? { ...held, includes: 'duplicates' } : held]), facts);
    };
    expect([result(false).classes[0]?.record, result(true).classes[0]?.record]).toEqual([1, 5]);
  });

  it('takes back a dispute that was ruled accept-as-is', () => {
    const ruling = { decision: 'accept-as-is', note: '', by: 'Ada Pell', on: '1926-01-10' };
    const findings = verified(CLASSES, (finding) => (finding.code === 'exposure-not-split' ? { ...finding, ruling } : finding));
    expect(reconcileInvoice(linesOf('page|205|0.325|66.63'), findings, facts).classes[0]).toMatchObject({
      accepted: 205,
      due: 205,
      disputed: 5,
    });
  });

  it('pays for no rescan twice', () => {
    const classes = CLASSES.map((entry) => (entry.class === 'page' ? { ...entry, includes: 'rescans' as const } : entry));
    // 210 came and 6 came again; of the other 5, four are pages that did not come.
    const { differences } = reconcileInvoice(linesOf('page|221|0.325|71.83'), verified(classes), facts);
    const pages = differences.filter((entry) => entry.class === 'page' && entry.kind !== 'disputed');
    expect(pages.map((entry) => [entry.kind, entry.quantity])).toEqual([
      ['not-returned', 4],
      ['not-explained', 1],
    ]);
  });

  it('counts a frame that two findings dispute once, under the one that stands first in the result', () => {
    const base = verified();
    const [first, second] = [base.findings[0]!.id, base.findings[1]!.id];
    const reels = base.reels.map((reel) => ({
      ...reel,
      frames: reel.frames.map((frame) => (frame.findings.includes(second) ? { ...frame, findings: [first, second] } : frame)),
    }));
    const shares = reconcileInvoice(linesOf('page|210|0.325|68.25'), { ...base, reels }, facts).differences;
    expect(shares.slice(0, 2).map((entry) => [entry.findings, entry.quantity])).toEqual([
      [[first], 2],
      [['frame-scanned-twice'], 2],
    ]);
  });

  it('names all findings where fewer are billed than are disputed', () => {
    const { differences } = reconcileInvoice(linesOf('page|203|0.325|65.98'), verified(), facts);
    expect(differences[0]).toMatchObject({ kind: 'disputed', quantity: 3, effect: '0.98' });
    expect(differences[0]?.findings).toHaveLength(5);
  });

  it('lets a credit make room for what another line bills too much', () => {
    const result = reconcileInvoice(linesOf('page|210|0.325|68.25', 'page|-10|0.325|-3.25'), verified(), facts);
    expect([result.classes[0]?.billed, result.classes[0]?.due, result.difference]).toEqual([200, 200, '0.00']);
  });

  it('admits that it cannot explain a surplus, and asks for the count', () => {
    const { differences } = reconcileInvoice(linesOf('page|1000|0.325|325.00'), verified(), facts);
    expect(differences.find((entry) => entry.kind === 'not-explained')).toMatchObject({ quantity: 780, findings: [] });
  });

  it('takes the billed price where none is agreed', () => {
    const result = reconcileInvoice(linesOf('page|200|0.41|82.00'), verified([{ class: 'page', kind: ['page'], deliver: true }]), facts);
    expect([result.due, kinds(result)]).toEqual(['82.00', []]);
  });

  it('says where less than the agreed price is asked, in favour of the library', () => {
    const { differences, difference } = reconcileInvoice(linesOf('page|200|0.3|60.00'), verified(), facts);
    expect(differences[0]).toMatchObject({ kind: 'price-differs', effect: '-5.00' });
    expect(difference).toBe('-5.00');
  });

  it('rounds to whole yen', () => {
    const findings = verified([{ class: 'page', kind: ['page'], deliver: true, unitPrice: '42.5' }]);
    const yen: Findings = { ...findings, agreement: { ...findings.agreement, terms: { ...findings.agreement.terms, currency: 'JPY' } } };
    const result = reconcileInvoice(linesOf('page|199|42.5|8458'), yen, { number: '', currency: 'JPY', total: null });
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
  const total = fc.option(fc.integer({ min: -99999, max: 99999 }).map((units) => text(units, 2)));

  it('is explained to the cent, and never pays for more than was accepted', () => {
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 8 }), total, (lines, stated) => {
        const result = reconcileInvoice(linesOf(...lines), verified(), { ...facts, total: stated });
        expect(sumOfEffects(result)).toBe(cents(result.billed) - cents(result.due));
        for (const entry of result.classes) expect(entry.due).toBeLessThanOrEqual(Math.max(entry.accepted, 0));
        for (const entry of result.classes) {
          const parts = result.differences.filter((difference) => difference.class === entry.class && difference.quantity !== null);
          const counted = parts.filter((part) => part.kind !== 'price-differs' && part.kind !== 'billed-too-few');
          expect(counted.reduce((sum, part) => sum + (part.quantity ?? 0), 0)).toBe(entry.billed - entry.due);
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
    expect(invoiceMistakes(linesOf('page|1|0.32|0.32'), saved, facts)).toEqual([]);
  });

  it('gives an invoice for all that came back to the findings of its result', () => {
    const returned = saved.counts.classes.find((entry) => entry.class === 'page')!;
    const amount = (returned.returned * 32).toString().replace(/(\d\d)$/, '.$1');
    const result = reconcileInvoice(linesOf(`page|${String(returned.returned)}|0.32|${amount}`), saved, facts);
    const disputed = result.differences.filter((entry) => entry.kind === 'disputed');
    expect(disputed.reduce((sum, entry) => sum + (entry.quantity ?? 0), 0)).toBe(returned.disputed);
    const known = new Set(saved.findings.filter((entry) => entry.billable.length > 0).map((entry) => entry.id));
    for (const id of disputed.flatMap((entry) => entry.findings)) expect(known).toContain(id);
    expect(sumOfEffects(result)).toBe(BigInt(returned.disputed * 32));
  });
});

describe('an invoice that cannot be read', () => {
  it.each([
    ['page|12,5|0.325|4.06', 'Row 2, quantity: "12,5"; a number is needed, written like 1234.50, with a point and without grouping.'],
    ['page|1.5|0.325|0.49', 'Row 2, quantity: "1.5"; frames and reels are counted in whole numbers.'],
    ['page|1|0.325|', 'Row 2, amount: the cell is empty; a number is needed, written like 1234.50, with a point and without grouping.'],
    [
      'page|1|0.325|0.325',
      `Row 2, amount: "0.325" is not a whole number of the currency's smallest unit (2 decimals); write it as it is to be paid.`,
    ],
    ['|1|0.325|0.33', 'Row 2, class: the cell is empty; write the price class as the agreement names it.'],
    [
      'page|\u001b[31m1|0.325|0.33',
      'Row 2, quantity: "?[31m1"; a number is needed, written like 1234.50, with a point and without grouping.',
    ],
  ])('%j is refused by its row and cell', (text, sentence) => {
    expect(invoiceMistakes(linesOf(text), verified(), facts)).toEqual([sentence]);
    expect(() => reconcileInvoice(linesOf(text), verified(), facts)).toThrow(sentence);
  });

  it('is refused as a whole for another currency, no lines, a total that is none, no agreed classes, changed counts', () => {
    const good = linesOf('page|1|0.325|0.33');
    expect(invoiceMistakes(good, verified(), { ...facts, currency: 'USD' })).toEqual([
      'The invoice is in "USD" and the agreement in EUR; ask for an invoice in EUR.',
    ]);
    expect(invoiceMistakes([], verified(), facts)).toEqual(['The invoice has no lines.']);
    expect(invoiceMistakes(good, verified(), { ...facts, total: '1 000' })[0]).toMatch(/^The total "1 000" is not a number/);
    expect(invoiceMistakes(good, verified([]), facts)[0]).toMatch(/has no price classes; put them into terms, classes/);
    const base = verified();
    const changed: Findings = {
      ...base,
      counts: { ...base.counts, classes: base.counts.classes.map((entry) => ({ ...entry, disputed: 9 })) },
    };
    expect(invoiceMistakes(good, changed, facts)[0]).toMatch(/counts 9 disputed in the class "page", but its frames show 10/);
  });
});
