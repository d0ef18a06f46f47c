import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { openDossier } from '../../src/acts/dossier/open.js';
import { verifyInDossier } from '../../src/acts/dossier/verify.js';
import { demoRecord } from '../forge/demonstration.js';
import { begun, ilse, laidOut } from './order.js';

const desk = laidOut();
afterAll(() => {
  rmSync(desk.desk, { recursive: true, force: true });
});

it('the record as it was sent with the film is found by itself, taken in, and named among the sources', async () => {
  const root = await begun(desk);
  const plain = await verifyInDossier(root, { batch: [desk.drives[0]], received: '2031-03-03' }, ilse('2031-03-04'));
  expect(plain.result.run.inputs.map(({ role }) => role)).not.toContain('sent');
  // the vendor had another label of a page in hand than the record has now
  const record = demoRecord();
  const [reel] = record.reels;
  const at = reel!.frames.findIndex(({ kind, page }) => kind !== 'blank' && page !== undefined);
  const frames = reel!.frames.map((frame, index) => (index === at ? { ...frame, page: '77' } : frame));
  mkdirSync(join(root, 'sent'), { recursive: true });
  writeFileSync(
    join(root, 'sent/sent-record.json'),
    JSON.stringify({ ...record, reels: [{ ...reel!, frames }, ...record.reels.slice(1)] }),
  );
  const { result, folder } = await verifyInDossier(root, {}, ilse('2031-03-05'));
  expect(folder).toBe('delivery-1/run-2');
  expect(result.run.inputs.map(({ role, name }) => [role, name])).toContainEqual(['sent', 'sent-record.json']);
  const { journal } = await openDossier(root);
  const line = journal.findLast((one) => one.line?.name === 'sent/sent-record.json')?.line;
  expect(line?.did).toBe('taken in');
  const made = journal.findLast((one) => one.line?.name === 'delivery-1/run-2/findings.json')?.line;
  expect(made?.from).toContainEqual({ name: 'sent/sent-record.json', sha256: line?.sha256 });
});
