import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import writeExcelFile from 'write-excel-file/node';
import type { InvoiceResult } from '../../src/model/invoice.js';
import { verified } from '../payment/example.js';
import { newFolder, reeltally, savedResult } from './command.js';

const FINDINGS = savedResult(verified());

function file(text: string, name = 'invoice.csv'): string {
  const path = join(newFolder(), name);
  writeFileSync(path, text);
  return path;
}

const invoice = (text: string, ...args: readonly string[]) => reeltally(['invoice', file(text), '--findings', FINDINGS, ...args]);
const cents = (text: string): number => Number(text.replace('.', ''));

/**
 * An invoice of an invented vendor with seven kinds of mistake: rounded down (223 x 0.325 = 72.475), multiplied wrongly, a price that was not agreed,
 * pages that are disputed, did not come or were held back, rescans, a line billed twice, a class nobody agreed, and a total that does not add up.
 */
const WRONG = `line,class,quantity,unit price,amount,invoice number,currency
1,page,223,0.325,72.47,Q-17,EUR
2,held back,12,0.06,7.20,Q-17,EUR
3,reel,1,18.50,18.50,Q-17,EUR
4,reel,1,18.50,18.50,Q-17,EUR
5,freight,1,24.00,24.00,Q-17,EUR
,total,,,150.67,Q-17,EUR
`;

const RIGHT = `class;quantity;unit price;amount
page;200;0.325;65.00
held back;12;0.05;0.60
reel;1;18.50;18.50
`;

describe('an invoice with seven kinds of mistake', () => {
  const json = invoice(WRONG, '--format', 'json');
  const result = JSON.parse(json.stdout) as InvoiceResult;

  it('differs, status 1, and is reconciled to the cent', () => {
    expect([json.status, json.stderr]).toEqual([1, '']);
    // worked out by hand in tests/payment/invoice.test.ts
    expect([result.billed, result.due, result.difference]).toEqual(['150.67', '84.10', '66.57']);
    expect(result.differences.reduce((sum, { effect }) => sum + cents(effect), 0)).toBe(6657);
    expect(new Set(result.differences.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(7);
  });

  it('is the same as a workbook of another writer, its figures stored as binary numbers', async () => {
    const rows: string[][] = parse(WRONG);
    const path = join(newFolder(), 'invoice.xlsx');
    const cells = rows.map((row) => row.map((text) => (/^\d+(\.\d+)?$/.test(text) ? Number(text) : text)));
    await writeExcelFile(cells).toFile(path);
    const { status, stdout } = reeltally(['invoice', path, '--findings', FINDINGS, '--format', 'json']);
    expect([status, (JSON.parse(stdout) as InvoiceResult).differences]).toEqual([1, result.differences]);
  });

  it('traces what is disputed to findings of the result', () => {
    const ids = new Set(verified().findings.map(({ id }) => id));
    const disputed = result.differences.filter(({ kind }) => kind === 'disputed');
    expect(disputed.length).toBeGreaterThan(0);
    for (const { findings } of disputed) for (const id of findings) expect(ids).toContain(id);
  });

  it('says in text what is billed, due and why', () => {
    const { status, stdout } = invoice(WRONG);
    expect(status).toBe(1);
    expect(stdout).toMatch(/^THE INVOICE DIFFERS\n/);
    expect(stdout).toContain('Billed           150.67 EUR');
    expect(stdout).toContain('Due               84.10 EUR');
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      '-0.01 EUR (rounded otherwise): Line 1 (row 2): 223 times 0.325 is 72.48 when halves are rounded up; 72.47 is billed.',
    );
    expect(stdout).toContain('Goes back to: page-not-delivered');
  });

  it('gives the differences as CSV, which add up', () => {
    const rows: string[][] = parse(invoice(WRONG, '--format', 'csv').stdout, { bom: true });
    const effect = rows[0]!.indexOf('effect');
    const amounts = rows.slice(1).map((row) => cents(row[effect]!.replace("'", '')));
    expect(amounts.slice(0, -3).reduce((sum, one) => sum + one, 0)).toBe(6657);
    expect(amounts.slice(-3)).toEqual([15067, 8410, 6657]);
  });

  it('writes all of it into a folder, once', () => {
    const out = join(newFolder(), 'money');
    expect(invoice(WRONG, '--out', out)).toMatchObject({
      status: 1,
      stdout: '',
      stderr: `Written to ${out}: invoice.json, invoice.csv, invoice.txt.\n`,
    });
    expect(readdirSync(out).toSorted()).toEqual(['invoice.csv', 'invoice.json', 'invoice.txt']);
    expect(readFileSync(join(out, 'invoice.json'), 'utf8')).toBe(json.stdout);
    expect(invoice(WRONG, '--out', out).stderr).toContain('already holds results');
  });
});

describe('an invoice that agrees', () => {
  it('ends with status 0', () => {
    expect(invoice(RIGHT)).toMatchObject({ status: 0, stderr: '', stdout: expect.stringMatching(/^THE INVOICE AGREES\n/) as string });
  });

  it('may have heads and figures of the vendor’s own, which a list explains', () => {
    const own =
      'Pos;Leistung;Menge;Preis;Betrag;Rabatt\n1;page;200;0,325;65,00;\n2;held back;12;0,05;0,60;\n3;reel;1;18,50;18,50;\n;Total;;;84,10;\n';
    const columns = file(
      JSON.stringify({
        format: 'reeltally/columns/1',
        decimal: 'comma',
        columns: { pos: 'line', leistung: 'class', Menge: 'quantity', Preis: 'unit price', Betrag: 'amount' },
      }),
      'columns.json',
    );
    const { status, stderr } = invoice(own, '--columns', columns);
    expect([status, stderr]).toEqual([0, expect.stringContaining('not read: the columns "Rabatt".')]);
    expect(invoice(own, '--columns', columns, '--quiet').stderr).toBe('');
  });

  it('may group thousands where the mark of the decimals is beyond doubt', () => {
    expect(invoice(`${RIGHT}freight;1;1,024.00;1,024.00\n`, '--format', 'json').stdout).toContain('"effect": "1024.00"');
  });
});

describe('an invoice that cannot be read', () => {
  it.each([
    ['a,b\n1,2\n', 'there is no column "class", "quantity", "unit price", "amount"; the columns are "a", "b"'],
    [RIGHT.replace('65.00', '65,00'), 'Row 2, amount: "65,00"'],
    [RIGHT.replace('200', ''), 'Row 2, quantity: the cell is empty'],
    [`${RIGHT}total;;;84.10\ntotal;;;84.10\n`, 'row 6: this is a second total'],
    [
      'class,quantity,unit price,amount,currency\npage,1,0.325,0.33,EUR\npage,1,0.325,0.33,USD\n',
      'row 3, column currency: "USD" stands here and "EUR" in row 2',
    ],
    ['class,quantity,unit price,amount,currency\npage,1,0.325,0.33,USD\n', 'The invoice is in "USD" and the agreement in EUR'],
    ['class,quantity,unit price,amount\n', 'The invoice has no lines'],
  ])('%j is refused with status 3', (text, sentence) => {
    const { status, stdout, stderr } = invoice(text);
    expect([status, stdout, stderr]).toEqual([3, '', expect.stringContaining(sentence)]);
  });

  it.each([
    [{ format: 'reeltally/columns/1', columns: { Menge: 'count' } }, 'names "count", which no invoice has'],
    [{ format: 'reeltally/columns/1', columns: { quantity: 'amount' } }, '"quantity" and "amount" both mean amount'],
    [{ format: 'reeltally/columns/1', decimal: 'comma' }, 'has a point that groups no thousands'],
    [{ format: 'reeltally/columns/1', decimal: 'dot' }, 'expected one of "point", "comma"'],
    [{ columns: {} }, 'a list of column heads is needed here'],
  ])('%j is no list of heads for it', (columns, sentence) => {
    const { status, stderr } = invoice(RIGHT, '--columns', file(JSON.stringify(columns), 'columns.json'));
    expect([status, stderr]).toEqual([3, expect.stringContaining(sentence)]);
  });

  it('in another kind of workbook, or with a format that there is not, is refused', () => {
    expect(reeltally(['invoice', file('', 'invoice.xls'), '--findings', FINDINGS]).stderr).toContain('save its lines as one of them');
    expect(invoice(RIGHT, '--format', 'pdf')).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('There are text, csv, json') as string,
    });
  });
});
