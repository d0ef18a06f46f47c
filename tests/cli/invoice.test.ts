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
/** What stands in a reading file beside such an invoice. */
const withReading = (text: string, reading: object, ...args: readonly string[]) => {
  const path = file(text);
  writeFileSync(path.replace('.csv', '.reading.json'), JSON.stringify({ format: 'reeltally/reading/1', invoice: reading }));
  return reeltally(['invoice', path, '--findings', FINDINGS, ...args]);
};
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

const RIGHT = `class;quantity;unit price;amount;invoice number
page;200;0.325;65.00;Q-18
held back;12;0.05;0.60;Q-18
reel;1;18.50;18.50;Q-18
`;

describe('an invoice with seven kinds of mistake', () => {
  const json = invoice(WRONG, '--format', 'json');
  const result = JSON.parse(json.stdout) as InvoiceResult;

  it('differs, status 1, and is reconciled to the cent', () => {
    expect([json.status, json.stderr]).toEqual([
      1,
      expect.stringContaining('"freight" is not a price class of the agreement (page, held back, reel).'),
    ]);
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
    expect(stdout).toContain('Billed                    150.67 EUR');
    expect(stdout).toContain('Would be due if accepted   84.10 EUR');
    expect(stdout).toContain('Due by what was decided     0.00 EUR');
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
      stderr: expect.stringContaining(`Written to ${out}: invoice.json, invoice.csv, invoice.txt, account.json, account.txt.\n`) as string,
    });
    expect(readdirSync(out).toSorted()).toEqual(['account.json', 'account.txt', 'invoice.csv', 'invoice.json', 'invoice.txt']);
    expect(readFileSync(join(out, 'invoice.json'), 'utf8')).toBe(json.stdout);
    expect(invoice(WRONG, '--out', out).stderr).toContain('already holds results');
  });
});

describe('an invoice in which nothing differs', () => {
  it('says so and ends with status 0', () => {
    expect(invoice(RIGHT)).toMatchObject({ status: 0, stderr: '', stdout: expect.stringMatching(/^NOTHING DIFFERS\n/) as string });
  });
});

describe('an invoice as vendors write it', () => {
  // 65.00 and 0.60 and 18.50 are 84.10; 19 % of it is 15.979
  const german = [
    'Lichtbild Ostmole GmbH;;;;;',
    'Rechnung Nr.: R-2031/7;;;;;',
    'Pos.;Leistung;Menge;Einzelpreis;Betrag;MwSt. %',
    '1;Zeitungsseiten;200;0,325 €;65,00 €;19',
    '2;zurückgehalten;12;0,05 €;0,60 €;19',
    ';Zwischensumme;;;65,60 €;',
    '3;Filmrolle;1;18,50 €;18,50 €;19',
    ';Nettobetrag;;;84,10 €;',
    ';zzgl. 19 % MwSt.;;;15,98 €;',
    ';Gesamtbetrag;;;100,08 €;',
    'Vielen Dank!;;;;;',
  ].join('\n');
  const classes = { Zeitungsseiten: 'page', zurückgehalten: 'held back', Filmrolle: 'reel' };

  it('in German is read by its heads and words, which are asked for once and kept', () => {
    const path = file(german);
    const first = reeltally(['invoice', path, '--findings', FINDINGS]);
    expect(first.status).toBe(1);
    expect(first.stderr).toContain('"Zeitungsseiten" is not a price class of the agreement');
    const kept = JSON.parse(readFileSync(path.replace('.csv', '.reading.json'), 'utf8')) as { readonly invoice: object };
    expect(kept.invoice).toMatchObject({
      columns: { Leistung: 'class', Menge: 'quantity', Einzelpreis: 'unit price', Betrag: 'amount', 'MwSt. %': 'tax rate' },
      classes: { Zeitungsseiten: 'not agreed', zurückgehalten: 'not agreed', Filmrolle: 'not agreed' },
      decimal: 'comma',
    });
    writeFileSync(path.replace('.csv', '.reading.json'), JSON.stringify({ ...kept, invoice: { ...kept.invoice, classes } }));
    const { status, stdout } = reeltally(['invoice', path, '--findings', FINDINGS, '--format', 'json']);
    const result = JSON.parse(stdout) as InvoiceResult;
    expect([status, result.number, result.billed, result.due]).toEqual([0, 'R-2031/7', '100.08', '100.08']);
    expect(result.taxes).toEqual([{ rate: '19', onBilled: '84.10', billed: '15.98', onDue: '84.10', due: '15.98' }]);
  });

  it('in French, with blanks in its figures and a credit', () => {
    const french = [
      'Facture n° F-12;;;;',
      'Désignation;Quantité;Prix unitaire HT;Montant HT;TVA',
      'page;210;0,325;68,25;20 %',
      'page;-10;0,325;(3,25);20 %',
      'frais de port;1;1 024,00;1 024,00;20 %',
      'Total HT;;;1 089,00;',
      'TVA 20 %;;;217,80;',
      'Total TTC;;;1 306,80;',
    ].join('\n');
    const { stdout } = invoice(french, '--format', 'json');
    const result = JSON.parse(stdout) as InvoiceResult;
    expect([result.number, result.billed, result.due]).toEqual(['F-12', '1306.80', '78.00']);
    expect(result.differences.map(({ kind, effect }) => [kind, effect])).toEqual([
      ['not-agreed', '1024.00'],
      ['tax-not-due', '204.80'],
    ]);
  });

  it('that says it is a credit note is taken off', () => {
    const { stdout, stderr } = invoice('Credit note;;;\nclass;quantity;unit price;amount\npage;10;0.325;3.25\n', '--format', 'json');
    expect(stderr).toContain('it says that it is a credit note, so its amounts are taken off');
    expect((JSON.parse(stdout) as InvoiceResult).lines[0]).toMatchObject({ quantity: '-10', amount: '-3.25', due: '-3.25' });
  });

  it.each([
    ['class;quantity;unit price;amount\npage;200;0.325;viel\n', 'row 2, amount: "viel" is not a figure.'],
    ['class;quantity;unit price;amount\npage;200;1;1,234\n', 'row 2, amount: "1,234" could be thousands or decimals'],
    ['class;quantity;unit price;amount\npage;1;1,5;1.5\n', 'the figures are written in two ways ("1,5" and "1.5")'],
    ['Zeug;Sachen\npage;1\n', 'no row has the heads of an invoice'],
    ['class;quantity;unit price;sum of all\npage;1;1.00;1.00\n', 'no head means "amount"; not known are "sum of all"'],
    ['class;quantity;unit price;amount\npage;1;0.325;0.33\nVAT;;;0.06\n', '"VAT" states a tax and no rate'],
    ['class;quantity;unit price;amount\ntotal;;;84.10\n', 'the invoice has no lines'],
    [
      'class,quantity,unit price,amount,currency\npage,1,0.325,0.33,EUR\npage,1,0.325,0.33,USD\n',
      'several currencies are named in it (EUR, USD)',
    ],
    ['class,quantity,unit price,amount,currency\npage,1,0.325,0.33,USD\n', 'the invoice is in USD and the agreement in EUR'],
    ['class;quantity;unit price;amount\npage;1;$0.325;$ 0.33\n', 'amounts in it bear "$", which is no sign of EUR'],
    ['class;quantity;unit price;amount\npage;1;0,325 €;0,33 kr\n', 'amounts in it bear "kr", which is no sign of EUR'],
    ['class;quantity;unit price;amount\npage;1;0.325;¥0.33\n', 'amounts in it bear "¥", which is no sign of EUR'],
    ['class;quantity;unit price;amount\npage;1;0.325;0.33\ntotal;;;0.33\ntotal;;;0.40\n', 'already gives a total of 0.33'],
  ])('%j is refused with status 3, by its own word', (text, sentence) => {
    const { status, stdout, stderr } = invoice(text);
    expect([status, stdout, stderr]).toEqual([3, '', expect.stringContaining(sentence)]);
  });

  it('may bear any sign where its reading file says the currency', () => {
    const { stdout } = withReading('class;quantity;unit price;amount\npage;200;$0.325;$65.00\n', { currency: 'EUR' }, '--format', 'json');
    expect(JSON.parse(stdout) as InvoiceResult).toMatchObject({ billed: '65.00', due: '65.00' });
  });

  it('that credits more than was ever billed is told so, and makes no more due than came', () => {
    const { stdout } = invoice('class;quantity;unit price;amount\npage;-900;0.325;-292.50\n');
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain('900 more of the class "page" are credited than were ever billed; ask the vendor');
    expect(stdout).not.toContain('on no invoice yet');
  });

  it('is refused where its reading file says what there is not', () => {
    expect(withReading(RIGHT, { decimal: 'dot' }).stderr).toContain('expected one of "point", "comma"');
    expect(withReading(RIGHT, { columns: { class: 'nothing' } })).toMatchObject({ status: 3 });
  });

  it('in another kind of workbook, or with a format that there is not, is refused', () => {
    expect(reeltally(['invoice', file('', 'invoice.xls'), '--findings', FINDINGS]).stderr).toContain('save its lines as one of them');
    expect(invoice(RIGHT, '--format', 'pdf')).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('There are text, csv, json') as string,
    });
  });
});

describe('the account', { timeout: 300_000 }, () => {
  const on = ['--by', 'Ada Pell', '--second', 'Bo Ferrin', '--reason', 'For the test.', '--on', '1926-01-20'];

  it('pays the same pages once, on whatever invoice and in whatever delivery they come', () => {
    const place = newFolder();
    const account = join(place, 'account.json');
    const [one, two] = ['Q-1', 'Q-2'].map((number) =>
      file(`class;quantity;unit price;amount;invoice number\npage;200;0.325;65.00;${number}\n`),
    );
    expect(reeltally(['invoice', one!, '--findings', FINDINGS, '--account', account]).status).toBe(0);
    const decided = reeltally([
      'decide',
      '--findings',
      FINDINGS,
      '--account',
      account,
      '--delivery-decision',
      'accept',
      '--release',
      '65.00',
      ...on,
    ]);
    expect([decided.status, decided.stderr]).toEqual([0, '']);
    const again = reeltally(['invoice', two!, '--account', account]);
    expect(again.status).toBe(1);
    expect(again.stdout.replace(/\s+/g, ' ')).toContain(
      '200 units of the class "page" are billed already: invoice Q-1, line 1 (200 units).',
    );
    const third = savedResult({ ...verified(), run: { ...verified().run, delivery: 3, at: '1926-02-01T10:00:00Z' } });
    reeltally(['invoice', '--findings', third, '--account', account]);
    const twice = reeltally([
      'decide',
      '--findings',
      third,
      '--account',
      account,
      '--delivery-decision',
      'accept',
      '--release',
      '65.00',
      '--by',
      'Ada Pell',
      '--on',
      '1926-02-20',
    ]);
    expect([twice.status, twice.stderr]).toEqual([3, expect.stringContaining('65.00 EUR are released and 0.00 are due.')]);
  });

  it('owes nothing on a delivery that goes back for rework', () => {
    const account = join(newFolder(), 'account.json');
    const path = file(RIGHT);
    reeltally(['invoice', path, '--findings', FINDINGS, '--account', account]);
    reeltally(['decide', '--findings', FINDINGS, '--account', account, '--delivery-decision', 'return-for-rework', ...on]);
    const { status, stdout } = reeltally(['invoice', path, '--account', account]);
    expect(status).toBe(1);
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      '190 units of the class "page" came with delivery 2 of batch_vzx_pilot, which goes back for rework.',
    );
    expect(stdout).toMatch(/^ *Due +0\.00 EUR$/m);
  });
});
