import type { InvoiceColumns, InvoiceFacts, InvoiceLine } from '../../model/invoice.js';
import type { WrittenSheet } from '../../model/written-sheet.js';
import { UserMistake } from '../../read/mistake.js';
import { headKey } from '../../read/sheet-heads.js';
import { cellTexts, readSheetFile } from './sheet-file.js';

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

/** Reads an invoice from CSV or an .xlsx workbook. `columns` renames the vendor's heads; a row whose class or line says `total` gives the sum asked for. Throws UserMistake. */
export async function readInvoice(path: string, columns: InvoiceColumns): Promise<WrittenInvoice> {
  if (/\.(xls|ods|pdf)$/i.test(path))
    throw new UserMistake(`${path}: an invoice is read from CSV or an .xlsx workbook; save its lines as one of them and give that file.`);
  const renamed = renamedHeads(columns);
  const { sheet } = await readSheetFile(path, {
    what: 'an invoice',
    fits: (heads) => NEEDED.every((column) => heads.some((head) => (renamed.get(head) ?? head) === headKey(column))),
    needs: NEEDED.join(', '),
    largest: LARGEST,
  });
  return invoiceOf(sheet, path, renamed, columns.decimal ?? 'point');
}

const renamedHeads = ({ columns = {} }: InvoiceColumns): ReadonlyMap<string, string> =>
  new Map(Object.entries(columns).map(([theirs, ours]) => [headKey(theirs), headKey(ours)]));

function invoiceOf(sheet: WrittenSheet, path: string, renamed: ReadonlyMap<string, string>, decimal: 'point' | 'comma'): WrittenInvoice {
  const { headers, rows, warnings, typed } = sheet;
  const places = placesOf(headers, path, renamed);
  const text = cellTexts(sheet);
  // A number of a workbook has its point whatever the workbook shows.
  const numbered = new Set(
    (typed?.cells ?? []).filter(({ kind }) => kind === 'number').map((cell) => `${String(cell.row)}|${String(cell.column)}`),
  );
  const lines: InvoiceLine[] = [];
  const numbers = new Map<string, number>();
  const currencies = new Map<string, number>();
  let total: string | null = null;
  for (const { row } of rows) {
    const value = (column: Column): string => text(row, places.get(column) ?? -1);
    const figure = (column: Column): string =>
      numbered.has(`${String(row)}|${String(places.get(column))}`)
        ? value(column)
        : plainFigure(value(column), decimal, `${path}, row ${String(row)}, column ${column}`);
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
      ...formulaRemark(sheet, path),
      ...(ignored.length === 0 ? [] : [`${path}: not read: the columns ${ignored.map((head) => `"${head.trim()}"`).join(', ')}.`]),
    ],
  };
}

/** Where each of our columns stands. */
function placesOf(headers: readonly string[], path: string, renamed: ReadonlyMap<string, string>): ReadonlyMap<Column, number> {
  const ours = headers.map((head) => renamed.get(headKey(head)) ?? headKey(head));
  const strange = [...renamed.values()].find((name) => !KNOWN.some((column) => headKey(column) === name));
  if (strange !== undefined)
    throw new UserMistake(`The list of column heads names "${strange}", which no invoice has. There are ${KNOWN.join(', ')}.`);
  const places = new Map<Column, number>();
  for (const column of KNOWN) {
    const at = ours.flatMap((name, index) => (name === headKey(column) ? [index] : []));
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

/** Formulas are not reckoned again: what they last gave is taken, and said. */
function formulaRemark({ typed }: WrittenSheet, path: string): readonly string[] {
  const formulas = (typed?.cells ?? []).filter(({ formula }) => formula !== null);
  const [first] = formulas;
  return first === undefined
    ? []
    : [`${path}: ${String(formulas.length)} cells hold formulas, such as ${first.address}; the results stored with them were read.`];
}

const isTotal = (text: string): boolean => /^(grand )?total$/i.test(text);
