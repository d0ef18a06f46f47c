import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditOf } from '../../src/acts/dossier/audit/index.js';
import { decideInDossier } from '../../src/acts/dossier/decide.js';
import { invoiceInDossier } from '../../src/acts/dossier/invoice.js';
import { newDossier } from '../../src/acts/dossier/new.js';
import { judgedInDossier } from '../../src/acts/dossier/sample-judge.js';
import { statusOfDossier } from '../../src/acts/dossier/status.js';
import { verifyInDossier } from '../../src/acts/dossier/verify.js';
import { statusText } from '../../src/report/status.js';
import { demoAgreement } from '../forge/demonstration.js';
import { answered, type Desk, drawnHere, ilse, laidOut } from './order.js';

// What a person stumbles over who walks an order through for the first time.

const DOCUMENT = 'sn99018200/55901/1879110101/1879110101.xml';
const decided = { release: null, also: [], reason: '', by: 'Ilse Marrow', second: null } as const;

let desk: Desk;
let root: string;
const next = async (today: string) => (await statusOfDossier(root, ilse(today))).next;
const said: string[] = [];

/** The first drive has one page number wrong; the second holds the document that was wrong and nothing else. */
beforeAll(() => {
  desk = laidOut();
  const whole = desk.drives[1];
  const [first, second] = [join(desk.desk, 'came', 'batch_vzx_tolmouth'), join(desk.desk, 'came-again', 'batch_vzx_tolmouth')];
  cpSync(whole, first, { recursive: true });
  const right = readFileSync(join(whole, DOCUMENT), 'utf8');
  expect(right).toContain('<mods:number>14<');
  writeFileSync(join(first, DOCUMENT), right.replace('<mods:number>14<', '<mods:number>4<'));
  mkdirSync(dirname(join(second, DOCUMENT)), { recursive: true });
  writeFileSync(join(second, DOCUMENT), right);
  desk = { ...desk, drives: [first, second] };
  root = join(desk.desk, 'order');
});
afterAll(() => {
  rmSync(desk.desk, { recursive: true });
});

describe('an order walked through', () => {
  it('asks for the record to be understood before it waits for the vendor, and says what is done while the film is here', async () => {
    const sheet = join(desk.desk, 'film.csv');
    writeFileSync(sheet, 'Rolle;Bild;Blatt\n1;1;Titelkarte\n');
    const other = join(desk.desk, 'other');
    await newDossier({ folder: other, collation: [sheet] }, ilse('2031-03-01'));
    const { next: first } = await statusOfDossier(other, ilse('2031-03-01'));
    expect(first).toMatchObject({ move: 'library', command: 'reeltally collation read' });
    const agreement = join(desk.desk, 'named.json');
    writeFileSync(agreement, JSON.stringify({ ...demoAgreement(), policies: { redelivery: 'named-items' } }));
    await newDossier({ folder: root, collation: [desk.record], agreement }, ilse('2031-03-01'));
    expect((await next('2031-03-01')).first).toContain('reeltally collation instructions');
    mkdirSync(join(root, 'sent'), { recursive: true });
    writeFileSync(join(root, 'sent', 'letter.txt'), 'went with the film');
    expect((await next('2031-03-01')).first).toBe('When the drive has come, connect it and name its folder.');
  });

  it('takes no agreement that would pay a page twice', async () => {
    const { terms } = demoAgreement();
    const [page] = terms?.classes ?? [];
    const agreement = join(desk.desk, 'twice.json');
    writeFileSync(
      agreement,
      JSON.stringify({ ...demoAgreement(), terms: { ...terms, classes: [page, { ...page, class: 'front page' }] } }),
    );
    const folder = join(desk.desk, 'twice');
    await expect(newDossier({ folder, collation: [desk.record], agreement }, ilse('2031-03-01'))).rejects.toThrow(/would be paid twice/);
    expect(existsSync(folder)).toBe(false);
  });

  it('judges nothing while the readers disagree, and tells the vendor of the images too', async () => {
    const { result } = await verifyInDossier(root, { batch: [desk.drives[0]], received: '2031-03-03' }, ilse('2031-03-03'));
    expect(result.findings.map(({ code }) => code)).toContain('page-number-differs');
    await expect(drawnHere(root, '4631', { by: 'reel', extras: [], plan: {} }, '2031-03-04')).rejects.toThrow(
      'The seed "4631" could be guessed or chosen to suit. Throw dice for at least 24 digits after the delivery has arrived. Nothing was drawn; the list still waits.',
    );
    const spot = await drawnHere(root, '463152513642516344215362', { by: 'reel', extras: [], plan: {} }, '2031-03-04');
    answered(join(spot, 'worksheet.csv'));
    const sheet = readFileSync(join(spot, 'worksheet.csv'), 'utf8');
    const [heads = '', one = ''] = sheet.split('\n');
    const ada = join(spot, 'worksheet-ada.csv');
    writeFileSync(ada, `${heads}\n${one.replace(/yes,,(?=[^,]*$)/, 'no,dark,Ada Pell')}\n`);
    expect(readFileSync(ada, 'utf8')).toContain('no,dark,Ada Pell');
    const judge = async (more: { readonly asTheyStand?: true } = {}) =>
      judgedInDossier(root, { by: 'Teo Anselm', ...more }, ilse('2031-03-05'));
    await expect(judge()).rejects.toThrow(/disagree.*\n.*legible: yes by Teo Anselm; no by Ada Pell/);
    expect((await next('2031-03-05')).command).toBe('reeltally sample judge --by NAME');
    const [judged] = await judge({ asTheyStand: true });
    expect(judged?.sample.outcome).toBe('rejected');
    const { state, next: step } = await statusOfDossier(root, ilse('2031-03-05'));
    expect(statusText(state, step, 200)).toContain('return for rework: 1 lot rejected; the comparison alone: ');
  });

  it('takes an invoice again that is to be read otherwise, and not otherwise', async () => {
    const invoice = join(desk.desk, 'Rechnung.csv');
    writeFileSync(invoice, 'Leistung;Menge;Einzelpreis;Betrag\nZeitungsseiten;107;0,32;34,24\n');
    const take = async () => invoiceInDossier(root, invoice, ilse('2031-03-06'));
    const first = await take();
    expect(first.held.results[0]?.lines[0]?.class).toBeNull();
    await expect(take()).rejects.toThrow(/Each is held once; to have it read otherwise, say how in .*Rechnung\.reading\.json first/);
    const reading = join(desk.desk, 'Rechnung.reading.json');
    writeFileSync(reading, readFileSync(reading, 'utf8').replace('"not agreed"', '"page"'));
    const { held, folder } = await take();
    expect([folder, held.results[0]?.lines[0]?.class, held.account.invoices.length]).toEqual(['invoices/Rechnung-2', 'page', 1]);
    await expect(take()).rejects.toThrow(/Each is held once/);
  });

  it('names payment beside what is to be sent, and both lists', async () => {
    const against = { ...decided, reason: 'Legible on the reader', second: 'Teo Anselm' };
    await decideInDossier(
      root,
      { ...against, delivery: 'accept-with-corrections', release: '10.00', on: '2031-03-07' },
      ilse('2031-03-07'),
    );
    const step = await next('2031-03-07');
    expect(step).toMatchObject({
      move: 'library',
      command: expect.stringContaining('--delivery-decision accept-with-corrections --release ') as string,
    });
    expect(step.first).toMatch(
      /^Send the vendor discrepancies\.xlsx from delivery-1, and images-to-correct\.xlsx from the rejected lot.s folder in delivery-1\/spot; delivery 2 must come\. Pay /,
    );
  });

  it('lays a drive of single items over the one before, with one path typed', async () => {
    const { result } = await verifyInDossier(root, { batch: [desk.drives[1]], received: '2031-04-01' }, ilse('2031-04-01', said));
    expect(said.join('\n')).toContain('replaces documents and files of the same name in ');
    expect([result.run.delivery, result.counts.pagesReturned]).toEqual([2, 107]);
    expect(result.corrected.map(({ code }) => code)).toEqual(['page-number-differs']);
    expect(result.findings.filter(({ code }) => code === 'page-number-differs')).toEqual([]);
    const again = await verifyInDossier(root, {}, ilse('2031-04-02'));
    expect(again.written).toEqual([]);
    expect((await auditOf(root, { batch: null, file: null }, ilse('2031-04-02'))).broken).toEqual([]);
  });

  it('takes an invoice that is called as a file of ours is', async () => {
    const invoice = join(desk.desk, 'invoice.csv');
    writeFileSync(invoice, 'class,quantity,unit price,amount\npage,1,0.32,0.32\n');
    const { folder, written } = await invoiceInDossier(root, invoice, ilse('2031-03-06'));
    expect(folder).toBe('invoices/invoice');
    expect(written).toContain('invoices/invoice/vendor-invoice.csv');
    expect(readFileSync(join(root, folder, 'vendor-invoice.csv'), 'utf8')).toBe(readFileSync(invoice, 'utf8'));
    await expect(invoiceInDossier(root, invoice, ilse('2031-03-06'))).rejects.toThrow(/Each is held once/);
  });
});
