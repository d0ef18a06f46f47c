import type { WrittenInvoice } from '../../model/invoice.js';
import type { InvoiceReading } from '../../model/reading.js';
import type { BookSheet } from '../../model/written-grid.js';
import { factsAround } from './around.js';
import { figureText } from './figures.js';
import { invoiceHeads } from './heads.js';
import { markOfRows, type ReadRow, readRows } from './rows.js';
import { linesAndSums, withRates } from './sums.js';
import { plainWord } from './words.js';

/** What the account knows that an invoice may name. */
export interface InvoiceContext {
  /** Name of the file without its folder, for sentences. */
  readonly file: string;
  /** Names of the price classes of the agreement. */
  readonly classes: readonly string[];
  /** Names of the batches. */
  readonly batches: readonly string[];
  /** Currency of the agreement; empty where it names none. */
  readonly currency: string;
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
  const facts = factsAround(sheet, heads.at, rows, reading, context.currency);
  const credit = reading.credit ?? (facts.credit && rows.every((row) => !(figureText(row.figure('amount')) ?? '').startsWith('-')));
  const built = linesAndSums(rows, words, context.batches, credit);
  const taxed = withRates(built, reading, file);
  mistakes.push(...taxed.mistakes, ...facts.mistakes.map((says) => `${file}: ${says}`));
  if (built.lines.length === 0) mistakes.push(`${file}: the invoice has no lines.`);
  const unknown = [...new Set(built.lines.filter((line) => line.class === null && line.quantity !== null).map(({ text }) => text))].filter(
    (text) => !words.has(plainWord(text)),
  );
  const remarks = [
    ...heads.remarks,
    ...(decimal === 'comma' && shown.length > 0 && reading.decimal === undefined
      ? [`${file}: figures are written with a comma before the decimals, such as ${shown[0] ?? ''}.`]
      : []),
    ...(credit && reading.credit === undefined ? [`${file}: it says that it is a credit note, so its amounts are taken off.`] : []),
    ...leftOut(rows, file),
    ...unknown.map(
      (text) =>
        `${file}: "${text}" is not a price class of the agreement (${context.classes.join(', ')}). If it means one of them, say so in the reading file beside the invoice, under invoice, classes.`,
    ),
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
        : `${where}, ${column}: ${held} is not a figure.`,
    ];
  });
  if (mistakes.length > 0) return mistakes;
  if (row.is === 'line' && row.figure('amount') === null) return [`${where}: "${row.words}" has a quantity or a price and no amount.`];
  if (row.is !== 'line' && row.lastFigure()?.text === null) return [`${where}: the figure beside "${row.words}" cannot be read.`];
  return [];
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
