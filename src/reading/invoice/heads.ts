import type { InvoiceReading } from '../../model/reading.js';
import type { BookSheet } from '../../model/written-grid.js';
import { INVOICE_COLUMNS, type InvoiceColumn, isRepeat, plainWord, usualColumn } from './words.js';

/** Where each column of an invoice stands, counted from 0. */
export type InvoiceColumns = Readonly<Partial<Record<InvoiceColumn, number>>>;

/** The heads as they were found, or why they were not. */
export type FoundHeads =
  | { readonly at: number; readonly columns: InvoiceColumns; readonly remarks: readonly string[]; readonly matched: InvoiceReading }
  | { readonly mistake: string; readonly matched: InvoiceReading };

/** Letterheads seldom take more rows than that. */
const DEEPEST = 60;
const NEEDED = ['class', 'amount'] as const;

/** Finds the row of heads: the first of those in which most heads are known. Every column is named by its own word where it is not. */
export function invoiceHeads(sheet: BookSheet, reading: InvoiceReading, file: string): FoundHeads {
  const said = new Map(Object.entries(reading.columns ?? {}).map(([head, column]) => [plainWord(head), column]));
  const meaning = (head: string): InvoiceColumn | 'nothing' | null => {
    const own = said.get(plainWord(head)) ?? INVOICE_COLUMNS.find((column) => plainWord(column) === plainWord(head)) ?? usualColumn(head);
    return own ?? (isRepeat(head) ? 'nothing' : null);
  };
  const scored = sheet.rows.slice(0, DEEPEST).map(({ cells }, at) => {
    const known = cells.map(({ value }) => meaning(value)).filter((column) => column !== null && column !== 'nothing');
    return { at, score: new Set(known).size };
  });
  const best = scored.reduce((most, one) => (one.score > most.score ? one : most), { at: 0, score: 0 });
  const row = sheet.rows[best.at];
  if (row === undefined || best.score < 2)
    return {
      mistake: `${file}: no row has the heads of an invoice (a description or class, and an amount). Say in the reading file beside it, under invoice, columns, what each head means.`,
      matched: {},
    };
  const columns: Partial<Record<InvoiceColumn, number>> = {};
  const matched: Record<string, InvoiceColumn | 'nothing'> = {};
  const strange: string[] = [];
  for (const { column, value } of row.cells) {
    const is = meaning(value);
    const head = value.trim();
    if (is === null) strange.push(head);
    else if (is === 'nothing' || columns[is] !== undefined) matched[head] = 'nothing';
    else {
      columns[is] = column;
      matched[head] = is;
    }
  }
  const missing = NEEDED.filter((column) => columns[column] === undefined);
  const list = strange.map((head) => `"${head}"`).join(', ');
  if (missing.length > 0)
    return {
      mistake: `${file}, row ${String(row.row)}: no head means ${missing.map((name) => `"${name}"`).join(' or ')}${list === '' ? '' : `; not known are ${list}`}. Say in the reading file beside it, under invoice, columns, which is meant.`,
      matched: { columns: { ...matched, ...Object.fromEntries(strange.map((head) => [head, 'nothing' as const])) } },
    };
  const passed = [...strange, ...Object.entries(matched).flatMap(([head, is]) => (is === 'nothing' ? [head] : []))];
  const guessed = Object.entries(matched).filter(
    ([head, is]) => is !== 'nothing' && plainWord(head) !== plainWord(is) && !said.has(plainWord(head)),
  );
  return {
    at: best.at,
    columns,
    remarks: [
      ...(guessed.length === 0 ? [] : [`${file}: read as ${guessed.map(([head, is]) => `"${head}" ${is}`).join(', ')}.`]),
      ...(passed.length === 0 ? [] : [`${file}: not read: the columns ${passed.map((head) => `"${head}"`).join(', ')}.`]),
    ],
    matched: { columns: { ...matched, ...Object.fromEntries(strange.map((head) => [head, 'nothing' as const])) } },
  };
}
