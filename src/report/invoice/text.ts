import type { InvoiceResult } from '../../model/invoice.js';
import { table, wrap } from '../text/wrap.js';
import { short } from '../visible.js';
import { counted } from '../words.js';
import { KIND_WORDS } from './kinds.js';

/** An invoice held against what is due, for reading: the sums, the lines, the tax, and each difference with the findings that it goes back to. */
export function invoiceText(result: InvoiceResult, width: number): string {
  const { number, currency, lines, taxes, differences, billed, due, difference, dueNow, released, asIfAccepted } = result;
  const money = currency === '' ? '' : ` ${currency}`;
  const agrees = differences.length === 0;
  const assumed = asIfAccepted.length > 0;
  const say = (text: string): readonly string[] => wrap(short(text, 600), width);
  const out = [
    agrees ? 'NOTHING DIFFERS' : 'THE INVOICE DIFFERS',
    '',
    ...say(`Invoice ${number}. Each line is rounded to the smallest coin, halves away from zero.`),
    ...(assumed
      ? [
          '',
          ...say(
            `Nobody has decided about ${asIfAccepted.map(({ batch, delivery }) => `delivery ${String(delivery)} of ${batch}`).join(', ')} yet. So this says what would be due if accepted; nothing of it is released.`,
          ),
        ]
      : []),
    '',
    ...table(
      [
        ['Billed', `${billed}${money}`],
        [assumed ? 'Would be due if accepted' : 'Due', `${due}${money}`],
        ['Billed less due', `${difference}${money}`],
        ...(assumed ? [['Due by what was decided', `${dueNow}${money}`]] : []),
        ['Released so far', `${released}${money}`],
      ].map((row) => row.map((text) => short(text, 60))),
      new Set([1]),
    ),
    '',
    ...table(
      [
        ['Line', 'class', 'quantity', 'unit price', 'amount', assumed ? 'would be due' : 'due', 'for'],
        ...lines.map((line) => [
          short(line.line, 16),
          short(line.class ?? `${line.text} (not agreed)`, 36),
          line.quantity ?? '',
          line.unitPrice ?? '',
          line.amount,
          line.due,
          line.class === null ? '' : String(line.dueQuantity),
        ]),
      ],
      new Set([2, 3, 4, 5, 6]),
    ),
    ...(taxes.length === 0
      ? []
      : [
          '',
          ...table(
            [
              ['Tax', 'on what is billed', 'billed', 'on what is due', 'due'],
              ...taxes.map((tax) => [`${tax.rate} %`, tax.onBilled, tax.billed, tax.onDue, tax.due]),
            ],
            new Set([1, 2, 3, 4]),
          ),
          '',
          ...say("The rate is the invoice's own; whether it is the right one is not judged here."),
        ]),
    '',
    ...(agrees
      ? say('Every line is as agreed, and what it bills is accepted.')
      : [counted(differences.length, 'difference'), '', ...differences.flatMap((one, at) => differenceLines(one, at + 1, money, width))]),
  ];
  return `${out.join('\n')}\n`;
}

function differenceLines(one: InvoiceResult['differences'][number], at: number, money: string, width: number): readonly string[] {
  const sign = one.effect.startsWith('-') ? '' : '+';
  const head = `${String(at)}. ${sign}${one.effect}${money} (${KIND_WORDS[one.kind]}): ${one.says}`;
  const findings = one.findings.length === 0 ? [] : wrap(short(`Goes back to: ${one.findings.join(', ')}`, 700), width, '     ');
  return [...wrap(short(head, 900), width, '  ', '     '), ...findings];
}
