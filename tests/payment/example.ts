import { countsOf } from '../../src/judge/counts.js';
import type { Account, AccountInvoice } from '../../src/model/account.js';
import type { PriceClass } from '../../src/model/agreement.js';
import type { Finding, Findings, ResultFrame } from '../../src/model/findings.js';
import type { InvoiceLine, InvoiceResult } from '../../src/model/invoice.js';
import { takenIn } from '../../src/payment/account.js';
import { accountDelivery } from '../../src/payment/delivery.js';
import { invoiceResult } from '../../src/payment/invoice-result.js';
import { priceCounts } from '../../src/payment/units.js';
import { EXAMPLE, finding, frame } from '../report/example.js';

/** The price list of an invented agreement: pages, frames that are held back, and a charge for each reel. */
export const CLASSES: readonly PriceClass[] = [
  { class: 'page', kind: ['page'], deliver: true, unitPrice: '0.325' },
  { class: 'held back', kind: ['page', 'blank', 'target'], deliver: false, unitPrice: '0.05' },
  { class: 'reel', kind: ['page'], deliver: true, charge: 'reel', per: 'reel', unitPrice: '18.50' },
];

const said = (id: string, says: string, facts: Partial<Finding> = {}): Finding =>
  finding({ id, code: id, severity: 'major', says, ...facts });

/** What a vendor does to a bill: each finding names the frames of the group beside it. */
const GROUPS: readonly (readonly [number, Partial<ResultFrame>, Finding | null])[] = [
  [200, {}, null],
  [12, { kind: 'blank', deliver: false, returnedKind: 'unmatched' }, null],
  [3, { deliver: false, duplicateOf: '7', returnedKind: null }, null],
  [
    1,
    { deliver: false, state: 'differs' },
    said('suppressed-frame-delivered', 'A frame to be held back came.', { billable: [{ class: 'page', change: -1 }] }),
  ],
  [
    1,
    { kind: 'target', deliver: false, state: 'differs' },
    said('non-page-delivered', 'A target came as a page.', { billable: [{ class: 'page', change: -1 }] }),
  ],
  [2, { state: 'return-only' }, said('frame-scanned-twice', 'A frame came three times.', { billable: [{ class: 'page', change: -2 }] })],
  [
    1,
    { deliver: false, duplicateOf: '9', state: 'differs' },
    said('duplicate-delivered-as-page', 'A duplicate came as a page.', { billable: [{ class: 'page', change: -1 }] }),
  ],
  [5, { state: 'differs' }, said('exposure-not-split', 'Five exposures were not split.', { rescan: 'yes' })],
  [
    4,
    { state: 'record-only', returnedKind: null },
    said('page-not-delivered', 'Four pages did not come.', { billable: [{ class: 'page', change: 4 }] }),
  ],
];

/** A verified second delivery of one reel, its counts made by the room that makes them for every result. */
export function verified(classes: readonly PriceClass[] = CLASSES, change: (finding: Finding) => Finding = (same) => same): Findings {
  let number = 0;
  const frames = GROUPS.flatMap(([count, facts, named]) =>
    Array.from({ length: count }, (): ResultFrame => {
      const text = String(++number);
      return frame(text, { files: [], findings: named === null ? [] : [named.id], ...facts });
    }),
  );
  const findings = GROUPS.flatMap(([, , named]) => (named === null ? [] : [change(named)]));
  const agreement = { ...EXAMPLE.agreement, terms: { ...EXAMPLE.agreement.terms, currency: 'EUR', classes } };
  const reels = [{ number: '00417', absent: [], frames }];
  return {
    ...EXAMPLE,
    agreement,
    reels,
    findings,
    corrected: [
      said('same-image-twice', 'Six pages showed one image.', { rescan: 'yes', count: 6, reel: '00417', frames: { from: '1', to: '6' } }),
      said('title-differs', 'Another title.'),
    ],
    counts: countsOf(reels, findings, findings.length, priceCounts(classes, { reels, findings }), EXAMPLE.counts.received),
  };
}

/** Lines of an invoice from `class | quantity | unit price | amount | tax rate`, numbered from 1 below a head of one row. */
export function linesOf(classes: readonly PriceClass[], ...texts: readonly string[]): readonly InvoiceLine[] {
  return texts.map((text, at) => {
    const [name = '', quantity = '', unitPrice = '', amount = '', rate = ''] = text.split('|').map((cell) => cell.trim());
    return {
      line: String(at + 1),
      text: name,
      class: classes.find((entry) => entry.class === name)?.class ?? null,
      quantity: quantity === '' ? null : quantity,
      unitPrice: unitPrice === '' ? null : unitPrice,
      amount,
      taxRate: rate === '' ? null : rate,
      batch: null,
      row: at + 2,
    };
  });
}

/** An invoice of such lines. */
export function invoiceWith(lines: readonly InvoiceLine[], facts: Partial<AccountInvoice> = {}): AccountInvoice {
  return {
    number: 'Q-17',
    currency: 'EUR',
    lines,
    subtotals: [],
    net: null,
    taxes: [],
    gross: null,
    file: { name: 'q-17.csv', sha256: 'd'.repeat(64) },
    ...facts,
  };
}

/** Lines held against a result about which nobody has decided yet. */
export function held(
  findings: Findings,
  texts: readonly string[],
  facts: Partial<AccountInvoice> = {},
): { readonly account: Account; readonly result: InvoiceResult } {
  const invoice = invoiceWith(linesOf(findings.agreement.terms.classes, ...texts), facts);
  const { account, mistakes } = takenIn(null, [{ delivery: accountDelivery(findings, FILE), agreement: findings.agreement }], [invoice]);
  if (account === null) throw new RangeError(mistakes.join(' '));
  return { account, result: invoiceResult(account, invoice.number) };
}

/** The file of such a result. */
export const FILE = { name: 'findings.json', sha256: 'b'.repeat(64) };
