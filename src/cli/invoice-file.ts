import type { InvoiceColumns, InvoiceFacts, InvoiceLine } from '../model/invoice.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { UserMistake } from '../read/mistake.js';
import { readRegularFile } from '../read/regular-file.js';
import { readCsv } from '../read/sheet-csv.js';

/** An invoice as it is written: its lines, and what it says as a whole. */
export interface WrittenInvoice {
  readonly lines: readonly InvoiceLine[];
  readonly facts: InvoiceFacts;
  readonly remarks: readonly string[];
}

const LARGEST = 16 * 1024 * 1024;
const NEEDED = ['class', 'quantity', 'unit price', 'amount'] as const;
const KNOWN = [...NEEDED, 'line', 'invoice number', 'currency'] as const;
type Column = (typeof KNOWN)[number];

/** Reads an invoice from CSV. `columns` renames the vendor's heads; a row whose class or line says `total` gives the sum asked for. Throws UserMistake. */
export async function readInvoice(path: string, columns: InvoiceColumns): Promise<WrittenInvoice> {
  if (/\.(xlsx|xlsm|xls|ods|pdf)$/i.test(path))
    throw new UserMistake(`${path}: an invoice is read from CSV; save its lines as "CSV UTF-8" and give that file.`);
  return invoiceOf(readCsv(await readRegularFile(path, LARGEST), path), path, columns);
}

function invoiceOf(
  { headers, rows, warnings }: WrittenSheet,
  path: string,
  { columns = {}, decimal = 'point' }: InvoiceColumns,
): WrittenInvoice {
  const places = placesOf(headers, path, new Map(Object.entries(columns).map(([theirs, ours]) => [key(theirs), key(ours)])));
  const lines: InvoiceLine[] = [];
  const numbers = new Map<string, number>();
  const currencies = new Map<string, number>();
  let total: string | null = null;
  for (const { row, cells } of rows) {
    const value = (column: Column): string => unguarded((cells[places.get(column) ?? -1] ?? '').trim());
    const figure = (column: Column): string => plainFigure(value(column), decimal, `${path}, row ${String(row)}, column ${column}`);
    for (const [seen, column] of [
      [numbers, 'invoice number'],
      [currencies, 'currency'],
    ] as const)
      if (value(column) !== '' && !seen.has(value(column))) seen.set(value(column), row);
    if (isTotal(value('class')) || (value('class') === '' && isTotal(value('line')))) {
      if (total !== null)
        throw new UserMistake(
          `${path}, row ${String(row)}: this is a second total; an invoice has one. Hold invoices against the result one by one.`,
        );
      total = figure('amount');
      continue;
    }
    lines.push({
      line: value('line') === '' ? String(lines.length + 1) : value('line'),
      class: value('class'),
      quantity: figure('quantity'),
      unitPrice: figure('unit price'),
      amount: figure('amount'),
      row,
    });
  }
  const ignored = headers.filter((head, at) => head.trim() !== '' && ![...places.values()].includes(at));
  return {
    lines,
    facts: { number: only(numbers, 'invoice number', path), currency: only(currencies, 'currency', path), total },
    remarks: [
      ...warnings,
      ...(ignored.length === 0 ? [] : [`${path}: not read: the columns ${ignored.map((head) => `"${head.trim()}"`).join(', ')}.`]),
    ],
  };
}

/** Where each of our columns stands. */
function placesOf(headers: readonly string[], path: string, renamed: ReadonlyMap<string, string>): ReadonlyMap<Column, number> {
  const ours = headers.map((head) => renamed.get(key(head)) ?? key(head));
  const strange = [...renamed.values()].find((name) => !KNOWN.some((column) => key(column) === name));
  if (strange !== undefined)
    throw new UserMistake(`The list of column heads names "${strange}", which no invoice has. There are ${KNOWN.join(', ')}.`);
  const places = new Map<Column, number>();
  for (const column of KNOWN) {
    const at = ours.flatMap((name, index) => (name === key(column) ? [index] : []));
    if (at.length > 1)
      throw new UserMistake(
        `${path}, row 1: ${at.map((index) => `"${(headers[index] ?? '').trim()}"`).join(' and ')} both mean ${column}; change the list of column heads.`,
      );
    if (at[0] !== undefined) places.set(column, at[0]);
  }
  const missing = NEEDED.filter((column) => !places.has(column));
  if (missing.length === 0) return places;
  throw new UserMistake(
    `${path}, row 1: there is no column ${missing.map((name) => `"${name}"`).join(', ')}; the columns are ${headers.map((head) => `"${head.trim()}"`).join(', ')}. Rename them, or say with --columns which of them is meant.`,
  );
}

function only(seen: ReadonlyMap<string, number>, what: string, path: string): string {
  const [first, second] = [...seen];
  if (second !== undefined && first !== undefined)
    throw new UserMistake(
      `${path}, row ${String(second[1])}, column ${what}: "${second[0]}" stands here and "${first[0]}" in row ${String(first[1])}. Hold invoices against the result one by one.`,
    );
  return first?.[0] ?? '';
}

/** A figure with a point and without grouping where it is written with care: groups of three, one mark for the decimals. Any other text stays as it is and is refused later. */
function plainFigure(text: string, decimal: 'point' | 'comma', where: string): string {
  if (decimal === 'point') return /^-?\d{1,3}(,\d{3})+\.\d+$/.test(text) ? text.replaceAll(',', '') : text;
  if (/^-?\d{1,3}(\.\d{3})+(,\d+)?$/.test(text) || /^-?\d+,\d+$/.test(text)) return text.replaceAll('.', '').replace(',', '.');
  // A point that groups nothing would be read as a decimal mark, a thousand times too small or too large.
  if (text.includes('.'))
    throw new UserMistake(`${where}: "${text}" has a point that groups no thousands, but the figures are said to be written with a comma.`);
  return text;
}

const isTotal = (text: string): boolean => /^(grand )?total$/i.test(text);
const key = (head: string): string => head.toLowerCase().replace(/[\s_-]/g, '');
const unguarded = (text: string): string => (text.startsWith("'") ? text.slice(1) : text);
