import type { InvoiceLine, StatedSum, WrittenInvoice } from '../../model/invoice.js';
import type { InvoiceReading } from '../../model/reading.js';
import type { BookSheet } from '../../model/written-grid.js';
import type { Figure } from './figures.js';
import { invoiceHeads } from './heads.js';
import { markOfRows, type ReadRow, readRows } from './rows.js';
import { currenciesIn, NUMBER_WORDS, plainWord, rateIn, saysCredit } from './words.js';

/** What the account knows that an invoice may name. */
export interface InvoiceContext {
  /** Name of the file without its folder, for sentences. */
  readonly file: string;
  /** Names of the price classes of the agreement. */
  readonly classes: readonly string[];
  /** Names of the batches. */
  readonly batches: readonly string[];
}

/** An invoice as it was read, or why it was not; what a person should know; and what was matched, to be kept in a reading file. */
export interface ReadInvoice {
  readonly invoice: WrittenInvoice | null;
  readonly mistakes: readonly string[];
  readonly remarks: readonly string[];
  readonly matched: InvoiceReading;
}

/** Reads the sheet of an invoice by its heads, wherever they stand, and by what a reading file says. What is guessed is said, and what cannot be read is named by its own word. */
export function readInvoiceSheet(sheet: BookSheet, reading: InvoiceReading, context: InvoiceContext): ReadInvoice {
  const { file } = context;
  const heads = invoiceHeads(sheet, reading, file);
  if ('mistake' in heads) return { invoice: null, mistakes: [heads.mistake], remarks: [], matched: { ...reading, ...heads.matched } };
  const below = sheet.rows.slice(heads.at + 1);
  const { mark, shown } = markOfRows(below, heads.columns);
  const decimal = reading.decimal ?? (mark === 'both' ? null : mark);
  const words = classWords(reading, context.classes);
  const rows = readRows(below, heads.columns, reading, decimal, (text) => words.get(plainWord(text)) !== undefined);
  const mistakes = [
    ...(mark === 'both' && reading.decimal === undefined
      ? [
          `${file}: the figures are written in two ways (${shown.map((one) => `"${one}"`).join(' and ')}); write them in one, or say in the reading file, under invoice, decimal, which holds.`,
        ]
      : []),
    ...rows.flatMap((row) => rowMistakes(row, file)),
  ];
  const facts = factsAround(sheet, heads.at, rows, reading);
  const credit = reading.credit ?? (facts.credit && rows.every((row) => !(figureText(row.figure('amount')) ?? '').startsWith('-')));
  const built = linesAndSums(rows, words, context, credit);
  const taxed = withRates(built, reading, file);
  mistakes.push(...taxed.mistakes, ...facts.mistakes.map((says) => `${file}: ${says}`));
  if (built.lines.length === 0) mistakes.push(`${file}: the invoice has no lines.`);
  const unknown = [...new Set(built.lines.filter((line) => line.class === null && line.quantity !== null).map(({ text }) => text))].filter(
    (text) => !words.has(plainWord(text)),
  );
  const remarks = [
    ...heads.remarks,
    ...(decimal === null || shown.length === 0 || reading.decimal !== undefined
      ? []
      : decimal === 'comma'
        ? [`${file}: figures are written with a comma before the decimals, such as ${shown[0] ?? ''}.`]
        : []),
    ...(credit && reading.credit === undefined ? [`${file}: it says that it is a credit note, so its amounts are taken off.`] : []),
    ...leftOut(rows, file),
    ...unknown.map(
      (text) =>
        `${file}: "${text}" is no price class of the agreement (${context.classes.join(', ')}). If it means one of them, say so in the reading file beside the invoice, under invoice, classes.`,
    ),
    ...taxed.remarks,
  ];
  const kept: InvoiceReading = {
    ...reading,
    columns: { ...heads.matched.columns, ...reading.columns },
    ...(unknown.length === 0
      ? {}
      : { classes: { ...Object.fromEntries(unknown.map((text) => [text, 'not agreed'])), ...reading.classes } }),
    ...(decimal === null ? {} : { decimal }),
  };
  if (mistakes.length > 0) return { invoice: null, mistakes, remarks, matched: kept };
  const number = reading.number ?? facts.number ?? file.replace(/\.[^.]*$/, '');
  return {
    invoice: { number, currency: reading.currency ?? facts.currency ?? '', ...taxed.sums, lines: taxed.lines, subtotals: built.subtotals },
    mistakes,
    remarks:
      facts.number === null && reading.number === undefined
        ? [...remarks, `${file}: the invoice gives no number; it is called ${number} here.`]
        : remarks,
    matched: kept,
  };
}

const figureText = (figure: Figure | null): string | null => figure?.text ?? null;

/** Words of lines by the class that they mean, null for what is said to be not agreed. */
function classWords(reading: InvoiceReading, classes: readonly string[]): ReadonlyMap<string, string | null> {
  const own = Object.entries(reading.classes ?? {}).map(
    ([words, name]) => [plainWord(words), classes.includes(name) ? name : null] as const,
  );
  return new Map([...classes.map((name) => [plainWord(name), name] as const), ...own]);
}

function rowMistakes(row: ReadRow, file: string): readonly string[] {
  if (row.is === 'words' || row.is === 'leave out') return [];
  const where = `${file}, row ${String(row.row)}`;
  const columns = row.is === 'line' ? (['quantity', 'unit price', 'amount'] as const) : [];
  const mistakes = columns.flatMap((column) => {
    const figure = row.figure(column);
    if (figure === null || figure.text !== null) return [];
    const held = `"${row.text(column)}"`;
    return [
      figure.why === 'unclear'
        ? `${where}, ${column}: ${held} could be thousands or decimals; say in the reading file, under invoice, decimal, point or comma.`
        : `${where}, ${column}: ${held} is no figure.`,
    ];
  });
  if (mistakes.length > 0) return mistakes;
  if (row.is === 'line' && row.figure('amount') === null) return [`${where}: "${row.words}" has a quantity or a price and no amount.`];
  if (row.is !== 'line' && row.lastFigure()?.text === null) return [`${where}: the figure beside "${row.words}" cannot be read.`];
  return [];
}

interface Built {
  readonly lines: readonly InvoiceLine[];
  readonly subtotals: WrittenInvoice['subtotals'];
  readonly nets: readonly StatedSum[];
  readonly taxes: readonly (StatedSum & { readonly rate: string | null })[];
  readonly totals: readonly (StatedSum & { readonly beforeTax: boolean })[];
}

function linesAndSums(
  rows: readonly ReadRow[],
  words: ReadonlyMap<string, string | null>,
  context: InvoiceContext,
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
      batch = context.batches.find((name) => row.cells.some(({ value }) => value.split(/[\s,;:()]+/u).includes(name))) ?? batch;
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
        batch: row.text('batch') === '' ? batch : row.text('batch'),
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

interface Rated {
  readonly lines: readonly InvoiceLine[];
  readonly sums: Pick<WrittenInvoice, 'net' | 'taxes' | 'gross'>;
  readonly mistakes: readonly string[];
  readonly remarks: readonly string[];
}

/** Sums in their places, and the rate of every line: its own, else the only one that the invoice states. */
function withRates({ lines, nets, taxes, totals }: Built, reading: InvoiceReading, file: string): Rated {
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
    remarks: [],
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

interface Around {
  readonly number: string | null;
  readonly currency: string | null;
  readonly credit: boolean;
  readonly mistakes: readonly string[];
}

/** What stands around the lines: number, currency, and whether it is a credit note. */
function factsAround(sheet: BookSheet, at: number, rows: readonly ReadRow[], reading: InvoiceReading): Around {
  const texts = sheet.rows.flatMap(({ cells }) => cells.map(({ value }) => value));
  const distinct = (column: 'invoice number' | 'currency'): readonly string[] =>
    [...new Set(rows.filter(({ is }) => is === 'line').map((row) => row.text(column)))].filter((text) => text !== '');
  const [numbers, named] = [distinct('invoice number'), distinct('currency')];
  const seen =
    named.length > 0 ? [...new Set(named.map((text) => currenciesIn(text)[0] ?? text))] : [...new Set(texts.flatMap(currenciesIn))];
  const head = sheet.rows.slice(0, at).flatMap(({ cells }) =>
    cells.flatMap(({ value }, place) => {
      const found = NUMBER_WORDS.exec(value.trim());
      if (found === null) return [];
      const own = (found[1] ?? found[2] ?? '').trim();
      return own === '' ? [cells[place + 1]?.value.trim() ?? ''] : [own];
    }),
  );
  return {
    number: numbers[0] ?? head.find((text) => text !== '') ?? null,
    currency: seen.length === 1 ? (seen[0] ?? null) : null,
    credit: sheet.rows.slice(0, at + 1).some(({ cells }) => cells.some(({ value }) => saysCredit(value))),
    mistakes: [
      ...(numbers.length > 1 ? [`several invoice numbers stand in it (${numbers.join(', ')}); give each invoice a file of its own.`] : []),
      ...(seen.length > 1 && reading.currency === undefined
        ? [`several currencies are named in it (${seen.join(', ')}); say in the reading file, under invoice, currency, which holds.`]
        : []),
    ],
  };
}

function leftOut(rows: readonly ReadRow[], file: string): readonly string[] {
  const words = rows.filter(({ is, words: text }) => is === 'words' && text !== '');
  const [first] = words;
  if (first === undefined) return [];
  const example = first.words.length > 40 ? `${first.words.slice(0, 40)}…` : first.words;
  return [
    `${file}: ${words.length === 1 ? 'one row without figures was' : `${String(words.length)} rows without figures were`} passed over, such as row ${String(first.row)} ("${example}").`,
  ];
}
