import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditOf } from '../../src/acts/dossier/audit/index.js';
import { decideInDossier } from '../../src/acts/dossier/decide.js';
import { dossierAbove, openDossier } from '../../src/acts/dossier/open.js';
import { drawnInDossier } from '../../src/acts/dossier/sample-draw.js';
import { judgedInDossier } from '../../src/acts/dossier/sample-judge.js';
import { fixedInDossier } from '../../src/acts/dossier/sample-plan.js';
import { statusOfDossier } from '../../src/acts/dossier/status.js';
import { verifyInDossier } from '../../src/acts/dossier/verify.js';
import { layoutOf } from '../../src/dossier/places.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { answered, begun, type Desk, ilse, laidOut } from './order.js';

let desk: Desk;
let root: string;
const next = async (today: string) => (await statusOfDossier(root, ilse(today))).next;

beforeAll(async () => {
  desk = laidOut();
  root = await begun(desk);
});
afterAll(() => {
  rmSync(desk.desk, { recursive: true });
});

describe('the way of an order', () => {
  it('waits for the vendor first', async () => {
    expect(await next('2031-03-02')).toMatchObject({ move: 'vendor', by: null, overdue: 0, command: 'reeltally verify --batch DIR' });
  });

  it("is the library's move until the last review day, and overdue after it", async () => {
    await verifyInDossier(root, { batch: [desk.drives[0]], received: '2031-03-03' }, ilse('2031-03-04'));
    // 21 calendar days of the demonstration's agreement, the day after receipt being the first.
    expect(await next('2031-03-24')).toMatchObject({ move: 'library', by: '2031-03-24', overdue: 0 });
    expect(await next('2031-03-27')).toMatchObject({ move: 'library', by: '2031-03-24', overdue: 3 });
  });

  it('writes nothing where nothing has changed, and beside the first result where a ruling has come', async () => {
    const again = await verifyInDossier(root, {}, ilse('2031-03-05'));
    expect(again.written).toEqual([]);
    const [finding] = again.result.findings;
    const ruling = { finding: finding?.id, decision: 'accept-as-is', note: 'readable', by: 'Ilse Marrow', on: '2031-03-05' };
    writeFileSync(join(root, 'delivery-1/rulings.json'), JSON.stringify({ format: 'reeltally/rulings/1', rulings: [ruling] }));
    expect(await next('2031-03-05')).toMatchObject({
      command: 'reeltally verify',
      first: expect.stringContaining('delivery-1/rulings.json') as string,
    });
    const ruled = await verifyInDossier(root, {}, ilse('2031-03-05'));
    expect(ruled.folder).toBe('delivery-1/run-2');
    expect(ruled.result.findings[0]?.ruling).toMatchObject({ decision: 'accept-as-is' });
    // the sheet of the later result lists what has no ruling yet, and what is written there is found
    const [sheet] = readXlsx(readFileSync(join(root, 'delivery-1/run-2/rulings.xlsx')), 'rulings.xlsx');
    const rest = ruled.result.findings.slice(1).map(({ id }) => id);
    expect(sheet?.rows.map(({ cells }) => cells[0]).toSorted()).toEqual(rest.toSorted());
    const filled = {
      name: 'rulings',
      heads: ['id', 'decision', 'note', 'by', 'on'],
      rows: [[rest[0] ?? '', 'vendor-corrects', '', 'Ilse Marrow', '2031-03-05']],
    };
    writeFileSync(join(root, 'delivery-1/run-2/rulings.xlsx'), await writeTables([filled]));
    const more = await verifyInDossier(root, {}, ilse('2031-03-05'));
    expect([more.folder, more.result.findings.map(({ ruling }) => ruling?.decision ?? null).slice(0, 2)]).toEqual([
      'delivery-1/run-3',
      ['accept-as-is', 'vendor-corrects'],
    ]);
    expect((await auditOf(root, { batch: 'none', file: null }, ilse('2031-03-05'))).broken).toEqual([]);
    const { journal } = await openDossier(root);
    expect(journal.flatMap(({ line }) => (line?.did === 'taken in' ? [line.name] : []))).toContain('delivery-1/rulings.json');
  });

  it('takes another drive for no delivery before the first is decided, and the same drive for no second one', async () => {
    await expect(verifyInDossier(root, { batch: [desk.drives[1]] }, ilse('2031-03-05'))).rejects.toThrow(/not decided yet/);
    await decideInDossier(
      root,
      { delivery: 'return-for-rework', release: null, also: [], reason: '', by: 'Ilse Marrow', second: null, on: '2031-03-06' },
      ilse('2031-03-06'),
    );
    expect(await next('2031-03-06')).toMatchObject({ move: 'vendor', command: 'reeltally verify --batch DIR' });
    await expect(verifyInDossier(root, { batch: [desk.drives[0]] }, ilse('2031-04-01'))).rejects.toThrow(/same documents as delivery 1/);
  });

  it('asks for a spot check of what is to be accepted, and draws it once', async () => {
    const { folder, result } = await verifyInDossier(root, { batch: [desk.drives[1]], received: '2031-04-01' }, ilse('2031-04-01'));
    expect([folder, result.run.delivery, result.corrected.length > 0]).toEqual(['delivery-2', 2, true]);
    expect(await next('2031-04-01')).toMatchObject({ command: 'reeltally sample draw --fix' });
    const draw = async (seed: string) => drawnInDossier(root, seed, ilse('2031-04-01'));
    await expect(draw('111111222222333333444556')).rejects.toThrow(/No list waits for a seed/);
    const wish = { by: 'reel', extras: [], plan: {} } as const;
    const fixed = await fixedInDossier(root, wish, '', ilse('2031-04-01'));
    expect(await next('2031-04-01')).toMatchObject({ command: 'reeltally sample draw --seed DIGITS' });
    // fixed once more, just so, it stays as it was
    expect(await fixedInDossier(root, wish, '', ilse('2031-04-02'))).toEqual({ folder: fixed.folder, written: [] });
    await draw('111111222222333333444556');
    await expect(draw('111111222222333333444565')).rejects.toThrow(/No list waits for a seed/);
    expect(await next('2031-04-01')).toMatchObject({ command: 'reeltally sample judge --by NAME' });
  });

  it('goes back to the vendor with a list of what was seen in the images', async () => {
    const sheet = join(root, 'delivery-2/spot/draw-1/worksheet.csv');
    answered(sheet);
    const [heads = [], ...rows]: string[][] = parse(readFileSync(sheet, 'utf8'), { bom: true });
    const blurred = rows.map((row, at) => (at === 3 ? row.with(heads.indexOf('legible'), 'no') : row));
    writeFileSync(sheet, stringify([heads, ...blurred]));
    const [judged] = await judgedInDossier(root, { by: 'Teo Anselm' }, ilse('2031-04-02'));
    expect(judged).toMatchObject({ sample: { outcome: 'rejected' }, files: ['sample.json', 'sample.txt', 'images-to-correct.xlsx'] });
    const lists = readXlsx(readFileSync(join(root, judged!.folder, 'images-to-correct.xlsx')), 'images-to-correct.xlsx');
    const list = lists.find(({ sheet: name }) => name === 'discrepancies')!;
    const about = new Map(lists.find(({ sheet: name }) => name === 'about this list')!.rows.map(({ cells }) => [cells[0], cells[1]]));
    expect([about.get('Verdict'), about.get('Why')]).toEqual([
      'Return for rework',
      'The spot check of the images was rejected. What is to be corrected in the documents stands in the list of discrepancies, if anything is.',
    ]);
    const at = (head: string): string => list.rows[0]!.cells[list.headers.indexOf(head)] ?? '';
    expect([list.rows.length, at('your file'), at('rescan'), at('finding')]).toEqual([
      1,
      rows[3]![heads.indexOf('files')]!.split(';')[0],
      'yes',
      expect.stringMatching(/^image-illegible-/),
    ]);
    expect(await next('2031-04-02')).toMatchObject({ command: expect.stringContaining('return-for-rework') as string });
    // the list follows from the answers, like everything else
    const { broken, held } = await auditOf(root, { batch: 'none', file: null }, ilse('2031-04-02'));
    expect([broken, held]).toEqual([[], expect.arrayContaining([`${judged!.folder}/images-to-correct.xlsx`])]);
  });
});

describe('the folder', () => {
  it('is found from any folder in it', async () => {
    mkdirSync(join(root, 'sent/letters'), { recursive: true });
    expect(await dossierAbove(join(root, 'sent/letters'))).toBe(root);
    expect(await dossierAbove(desk.desk)).toBeNull();
  });

  it('is told from the names of its files, ten behind nine', () => {
    const runs = [
      'delivery-10/findings.json',
      'delivery-9/findings.json',
      'delivery-9/run-10/findings.json',
      'delivery-9/run-2/findings.json',
    ];
    const { deliveries } = layoutOf([
      ...runs,
      'delivery-9/~$rulings.xlsx',
      'decisions/delivery-9-2/decision.json',
      'decisions/delivery-9/decision.json',
    ]);
    expect(deliveries.map(({ delivery }) => delivery)).toEqual([9, 10]);
    expect(deliveries[0]).toMatchObject({
      runs: [{ run: 1 }, { run: 2 }, { run: 10 }],
      rulings: [],
      decisions: ['decisions/delivery-9', 'decisions/delivery-9-2'],
    });
  });
});
