import type { InvoiceResult } from '../../model/invoice.js';
import { table, wrap } from '../text/wrap.js';
import { short } from '../visible.js';
import { counted } from '../words.js';
import { KIND_WORDS } from './kinds.js';

/** An invoice held against a result, for reading: the sums, the classes, and each difference with the findings that it goes back to. */
export function invoiceText(result: InvoiceResult, width: number): string {
  const { batch, delivery, verifiedAt, number, currency, classes, differences, billed, due, difference } = result;
  const invoice = number === '' ? 'The invoice' : `Invoice ${number}`;
  const money = currency === '' ? '' : ` ${currency}`;
  const agrees = differences.length === 0;
  const lines = [
    agrees ? 'THE INVOICE AGREES' : 'THE INVOICE DIFFERS',
    '',
    ...wrap(
      short(
        `${invoice}, held against delivery ${String(delivery)} of ${batch} as compared at ${verifiedAt}. Each line is rounded half up.`,
        400,
      ),
      width,
    ),
    '',
    ...table(
      [
        ['Billed', `${billed}${money}`],
        ['Due', `${due}${money}`],
        ['Billed less due', `${difference}${money}`],
      ].map((row) => row.map((text) => short(text, 60))),
      new Set([1]),
    ),
    '',
    ...table(
      [
        ['Class', 'in the record', 'returned', 'accepted', 'disputed', 'billed', 'due'],
        ...classes.map((one) => [
          short(one.class, 24),
          ...[one.record, one.returned, one.accepted, one.disputed, one.billed, one.due].map(String),
        ]),
      ],
      new Set([1, 2, 3, 4, 5, 6]),
    ),
    '',
    ...table(
      [
        ['Class', 'agreed price', 'amount billed', 'amount due'],
        ...classes.map((one) => [short(one.class, 24), one.unitPrice ?? 'none', one.amountBilled, one.amountDue]),
      ],
      new Set([1, 2, 3]),
    ),
    ...(agrees
      ? []
      : [
          '',
          counted(differences.length, 'difference'),
          '',
          ...differences.flatMap((one, at) => differenceLines(one, at + 1, money, width)),
        ]),
  ];
  return `${lines.join('\n')}\n`;
}

function differenceLines(one: InvoiceResult['differences'][number], at: number, money: string, width: number): readonly string[] {
  const sign = one.effect.startsWith('-') ? '' : '+';
  const head = `${String(at)}. ${sign}${one.effect}${money} (${KIND_WORDS[one.kind]}): ${one.says}`;
  const findings = one.findings.length === 0 ? [] : wrap(short(`Goes back to: ${one.findings.join(', ')}`, 700), width, '     ');
  return [...wrap(short(head, 900), width, '  ', '     '), ...findings];
}
