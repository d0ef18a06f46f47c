import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Findings } from '../../src/model/findings.js';

const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
export const BATCH = 'batch_vzx_tolmouth';

/** A folder with one right file of each kind, made by the program itself from the demonstration. */
export function template(): string {
  const root = mkdtempSync(join(tmpdir(), 'reeltally-fuzz-'));
  cpSync(fileURLToPath(new URL('../../fixtures/demonstration', import.meta.url)), root, { recursive: true });
  const run = (...args: readonly string[]): void => {
    const { status, stderr } = spawnSync(process.execPath, [MAIN, ...args], {
      cwd: root,
      encoding: 'utf8',
      env: { ...process.env, SOURCE_DATE_EPOCH: '1930000000' },
    });
    if (status === null || status > 2) throw new Error(`reeltally ${args.join(' ')} ended with ${String(status)}: ${stderr}`);
  };
  mkdirSync(join(root, 'work'));
  run('verify', '--collation', 'record', '--batch', `return/${BATCH}`, '--agreement', 'agreement.json', '--out', 'results', '--quiet');
  run('sample', 'draw', 'results/findings.json', '--seed', '354631155611216362461535', '--out', 'spot', '--quiet');
  run('collation', 'convert', 'record', '--to', 'json', '--out', 'json', '--quiet');
  run('collation', 'convert', 'record', '--to', 'frame-sheet', '--out', 'record.xlsx', '--quiet');
  writeFileSync(join(root, 'invoice.csv'), 'invoice,date,item,quantity,unit price,amount\n17,2031-02-01,page,107,0.32,34.24\n');
  const { findings } = JSON.parse(readFileSync(join(root, 'results', 'findings.json'), 'utf8')) as Findings;
  const rulings = findings.map(({ id }) => ({ finding: id, decision: 'accept-as-is', note: 'seen', by: 'Ada Pell', on: '2031-03-01' }));
  writeFileSync(join(root, 'rulings.json'), JSON.stringify({ format: 'reeltally/rulings/1', rulings }));
  writeFileSync(
    join(root, 'profile.json'),
    spawnSync(process.execPath, [MAIN, 'profile', 'show', 'issue-mets'], { encoding: 'utf8' }).stdout,
  );
  run('dossier', 'new', 'order');
  cpSync(join(root, 'record'), join(root, 'order', 'record'), { recursive: true });
  cpSync(join(root, 'agreement.json'), join(root, 'order', 'agreement.json'));
  const inDossier = spawnSync(process.execPath, [MAIN, 'verify', '--batch', join(root, 'return', BATCH), '--quiet'], {
    cwd: join(root, 'order'),
    encoding: 'utf8',
  });
  if (inDossier.status !== 1) throw new Error(inDossier.stderr);
  return root;
}
