import type { InvoiceLine, StatedSum, WrittenInvoice } from '../../model/invoice.js';
import type { InvoiceReading } from '../../model/reading.js';
import { figureText } from './figures.js';
import type { ReadRow } from './rows.js';
import { plainWord, rateIn } from './words.js';

/** Lines and sums as they stand in the rows. */
export interface Built {
  readonly lines: readonly InvoiceLine[];
  readonly subtotals: WrittenInvoice['subtotals'];
  readonly nets: readonly StatedSum[];
  readonly taxes: readonly (StatedSum & { readonly rate: string | null })[];
  readonly totals: readonly (StatedSum & { readonly beforeTax: boolean })[];
}

/** Puts the rows together; in a credit every amount is taken off. */
export function linesAndSums(
  rows: readonly ReadRow[],
  words: ReadonlyMap<string, string | null>,
  batches: readonly string[],
  credit: boolean,
): Built {
  const lines: InvoiceLine[] = [];
  const subtotals: WrittenInvoice['subtotals'][number][] = [];
  const nets: StatedSum[] = [];
  const taxes: Built['taxes'][number][] = [];
  const totals: Built['totals'][number][] = [];
  const turned = (text: string | null): string | null => (text === null || !credit ? text : negated(text));
  const names = new Set<string>();
  let open: string[] = [];
  let batch: string | null = null;
  for (const row of rows) {
    const sum: StatedSum = { row: row.row, text: row.words, amount: turned(figureText(row.lastFigure())) ?? '0' };
    if (row.is === 'words')
      batch = batches.find((name) => row.cells.some(({ value }) => value.split(/[\s,;:()]+/u).includes(name))) ?? batch;
    else if (row.is === 'line') {
      const own = row.text('line') === '' ? String(lines.length + 1) : row.text('line');
      const line = names.has(own) ? `${own} (row ${String(row.row)})` : own;
      names.add(line);
      open.push(line);
      const rate = figureText(row.figure('tax rate')) ?? rateIn(row.text('tax rate'));
      lines.push({
        line,
        text: row.words === '' ? `row ${String(row.row)}` : row.words,
        class: words.get(plainWord(row.words)) ?? null,
        quantity: turnedQuantity(figureText(row.figure('quantity')), figureText(row.figure('amount')), credit),
        unitPrice: absolute(figureText(row.figure('unit price'))),
        amount: turned(figureText(row.figure('amount'))) ?? '0',
        taxRate: rate,
        ...sentAs(row, batch),
        row: row.row,
      });
    } else if (row.is === 'subtotal') {
      subtotals.push({ ...sum, lines: open });
      open = [];
    } else if (row.is === 'net') nets.push(sum);
    else if (row.is === 'tax') taxes.push({ ...sum, rate: rateIn(row.cells.map(({ value }) => value).join(' ')) });
    else if (row.is === 'total') totals.push({ ...sum, beforeTax: taxes.length === 0 });
  }
  return { lines, subtotals, nets, taxes, totals };
}

/** The batch and the delivery that a line names. A column of deliveries that holds no numbers names batches. */
function sentAs(row: ReadRow, above: string | null): Pick<InvoiceLine, 'batch' | 'delivery'> {
  const [own, text] = [row.text('batch'), row.text('delivery')];
  const number = /^(?:\p{L}+\.?\s*|#)?([1-9]\d{0,3})$/u.exec(text)?.[1];
  const batch = own !== '' ? own : text !== '' && number === undefined ? text : above;
  return { batch, ...(number === undefined ? {} : { delivery: Number(number) }) };
}

function negated(text: string): string {
  return text.startsWith('-') ? text.slice(1) : /^[0.]+$/.test(text) ? text : `-${text}`;
}

function absolute(text: string | null): string | null {
  return text?.replace(/^-/, '') ?? null;
}

/** A credit may carry its minus on the quantity, the price or the amount alone; here it stands on the quantity. */
function turnedQuantity(quantity: string | null, amount: string | null, credit: boolean): string | null {
  if (quantity === null) return null;
  const negative = credit || (amount?.startsWith('-') ?? false);
  return negative && !quantity.startsWith('-') ? negated(quantity) : quantity;
}

/** Lines with their rates, and what is wrong with the taxes, in sentences. */
export interface Rated {
  readonly lines: readonly InvoiceLine[];
  readonly sums: Pick<WrittenInvoice, 'net' | 'taxes' | 'gross'>;
  readonly mistakes: readonly string[];
}

/** Sums in their places, and the rate of every line: its own, else the only one that the invoice states. */
export function withRates({ lines, nets, taxes, totals }: Built, reading: InvoiceReading, file: string): Rated {
  const mistakes: string[] = [];
  const stated = taxes.map((tax) => ({ ...tax, rate: tax.rate ?? reading.taxRate ?? onlyRate(lines) }));
  for (const tax of stated)
    if (tax.rate === null)
      mistakes.push(
        `${file}, row ${String(tax.row)}: "${tax.text}" states a tax and no rate; say it in the reading file, under invoice, taxRate, such as "19".`,
      );
  const rates = [
    ...new Set([
      ...stated.flatMap(({ rate }) => (rate === null ? [] : [plainRate(rate)])),
      ...lines.flatMap(({ taxRate }) => (taxRate === null ? [] : [plainRate(taxRate)])),
    ]),
  ];
  const bare = lines.filter(({ taxRate }) => taxRate === null);
  if (bare.length > 0 && rates.length > 1)
    mistakes.push(
      `${file}, row ${String(bare[0]?.row ?? 0)}: "${bare[0]?.text ?? ''}" has no tax rate and the invoice states several (${rates.join(', ')} %).`,
    );
  const [only] = rates;
  const [first, second] = stated.length > 0 ? [] : [...new Map(totals.map((sum) => [sum.amount, sum])).values()];
  if (first !== undefined && second !== undefined)
    mistakes.push(
      `${file}, row ${String(second.row)}: "${second.text}" is ${second.amount}, and row ${String(first.row)} already gives a total of ${first.amount}; say in the reading file, under invoice, rows, what each is.`,
    );
  const before = totals.filter(({ beforeTax }) => beforeTax);
  const after = totals.filter(({ beforeTax }) => !beforeTax);
  const gross = stated.length === 0 ? (totals.at(-1) ?? null) : (after.at(-1) ?? null);
  const net = nets.at(-1) ?? (stated.length === 0 ? null : (before.at(-1) ?? null));
  const plain = (sum: StatedSum | null): StatedSum | null => (sum === null ? null : { row: sum.row, text: sum.text, amount: sum.amount });
  return {
    lines: lines.map((line) => ({ ...line, taxRate: line.taxRate === null ? (only ?? null) : plainRate(line.taxRate) })),
    sums: {
      net: plain(net),
      taxes: stated.flatMap(({ row, text, amount, rate }) => (rate === null ? [] : [{ row, text, amount, rate: plainRate(rate) }])),
      gross: plain(gross),
    },
    mistakes,
  };
}

function onlyRate(lines: readonly InvoiceLine[]): string | null {
  const rates = [...new Set(lines.flatMap(({ taxRate }) => (taxRate === null ? [] : [plainRate(taxRate)])))];
  return rates.length === 1 ? (rates[0] ?? null) : null;
}

/** `19`, `19.0` and `19.00` are one rate. */
function plainRate(rate: string): string {
  return rate.includes('.') ? rate.replace(/\.?0+$/, '') : rate;
}
