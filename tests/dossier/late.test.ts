import { cpSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditOf } from '../../src/acts/dossier/audit/index.js';
import { decideInDossier } from '../../src/acts/dossier/decide.js';
import { statusOfDossier } from '../../src/acts/dossier/status.js';
import { verifyInDossier } from '../../src/acts/dossier/verify.js';
import { begun, type Desk, ilse, laidOut } from './order.js';

let desk: Desk;
let root: string;
const state = async (today: string) => statusOfDossier(root, ilse(today));
const returned = {
  delivery: 'return-for-rework',
  release: null,
  also: [],
  reason: '',
  by: 'Ilse Marrow',
  second: null,
  on: '2031-03-06',
} as const;

/** The vendor's list as it came back, with this answer to every finding. */
function cameBack(to: string, answer: string): void {
  const [heads = [], ...rows]: string[][] = parse(readFileSync(join(root, 'delivery-1/discrepancies.csv'), 'utf8'), { bom: true });
  writeFileSync(join(root, to), stringify([heads, ...rows.map((row) => row.with(heads.indexOf('vendor answer'), answer))]));
}

beforeAll(async () => {
  desk = laidOut();
  root = await begun(desk);
  await verifyInDossier(root, { batch: [desk.drives[0]], received: '2031-03-03' }, ilse('2031-03-04'));
  await decideInDossier(root, returned, ilse('2031-03-06'));
  // the first drive went back, and the second is the same but for one issue
  const mended = join(desk.desk, 'drive-3/batch_vzx_tolmouth');
  cpSync(desk.drives[0], mended, { recursive: true });
  const issue = 'sn99018200/55901/1879110101/1879110101.xml';
  cpSync(join(desk.drives[1], issue), join(mended, issue));
  renameSync(desk.drives[0], `${desk.drives[0]}-sent-back`);
});
afterAll(() => {
  rmSync(desk.desk, { recursive: true });
});

describe('what is put into a dossier after the decision', () => {
  it('is announced, and read with the next delivery, though the first drive is gone', async () => {
    cameBack('delivery-1/discrepancies (back).csv', 'Will be mended');
    expect((await auditOf(root, { batch: 'none', file: null }, ilse('2031-03-20'))).broken).toEqual([]);
    const first = (await state('2031-03-20')).next.first;
    expect(first).toContain('delivery 2 must come. delivery-1/discrepancies (back).csv will be read with it.');
    const { result } = await verifyInDossier(
      root,
      { batch: [join(desk.desk, 'drive-3/batch_vzx_tolmouth')], received: '2031-04-01' },
      ilse('2031-04-01'),
    );
    const open = result.findings.filter(({ status }) => status === 'open');
    expect(open.length).toBeGreaterThan(5);
    expect(new Set(open.map(({ answer }) => answer?.text))).toEqual(new Set(['Will be mended']));
    expect(result.run.remarks.join('\n')).not.toContain('which is not a finding');
    expect((await verifyInDossier(root, {}, ilse('2031-04-01'))).written).toEqual([]);
  });

  it('is taken in with the delivery that is worked on, a ruling too, and is nothing against the result before it', async () => {
    const { result } = await verifyInDossier(root, {}, ilse('2031-04-02'));
    const finding = result.findings.find(({ code, status }) => code === 'date-differs' && status === 'open')?.id ?? '';
    const ruling = { finding, decision: 'accept-as-is', note: '', by: 'Ilse Marrow', on: '2031-04-02' };
    const stray = { ...ruling, finding: 'date-differs-000000000000' };
    writeFileSync(join(root, 'delivery-1/rulings.json'), JSON.stringify({ format: 'reeltally/rulings/1', rulings: [ruling, stray] }));
    expect((await auditOf(root, { batch: null, file: null }, ilse('2031-04-02'))).broken).toEqual([]);
    expect((await state('2031-04-02')).next).toMatchObject({
      first: 'Take in what is new or changed: delivery-1/rulings.json.',
      command: 'reeltally verify',
    });
    const said: string[] = [];
    await decideInDossier(
      root,
      { ...returned, delivery: 'put-off', reason: 'Not all is read', on: '2031-04-02' },
      ilse('2031-04-02', said),
    );
    expect(said.join('\n')).toContain('this decision does not rest on delivery-1/rulings.json: no verification has read it yet.');
    const ruled = await verifyInDossier(root, {}, ilse('2031-04-02'));
    expect(ruled.folder).toBe('delivery-2/run-2');
    expect(ruled.result.findings.find(({ id }) => id === finding)?.ruling).toMatchObject({ decision: 'accept-as-is', by: 'Ilse Marrow' });
    expect(ruled.result.run.remarks.join('\n')).toContain(
      'date-differs-000000000000 (accept-as-is, Ilse Marrow on 2031-04-02) meets no finding of delivery 1',
    );
    expect((await state('2031-04-02')).state.deliveries.at(-1)?.unread).toEqual([]);
    expect((await auditOf(root, { batch: null, file: null }, ilse('2031-04-02'))).broken).toEqual([]);
  });

  it('tells of a clock that goes back, and takes no day from it that cannot be', async () => {
    const said: string[] = [];
    const third = { batch: [desk.drives[1]], delivery: '3' };
    await expect(verifyInDossier(root, third, ilse('2029-01-01', said))).rejects.toThrow(
      'Delivery 3 cannot have come in on 2029-01-01, which is the day by the clock of this machine: delivery 2 came in on 2031-04-01.',
    );
    expect(said.join('\n')).toMatch(/it is 2029-01-01 by the clock of this machine, and \S+ was written on 2031-04-02 by ilse/);
    await verifyInDossier(root, { ...third, received: '2031-05-01' }, ilse('2029-01-01'));
    const { broken, remarks } = await auditOf(root, { batch: 'none', file: null }, ilse('2031-05-01'));
    expect(broken).toEqual([]);
    expect(remarks.map(({ says }) => says).join('\n')).toMatch(
      /journal\.jsonl, line \d+ \(\S+\): written after line \d+, which is of 2031-04-02, and dated 2029-01-01/,
    );
  });
});
