import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { DecisionRecord } from '../../src/model/decision.js';
import type { Findings } from '../../src/model/findings.js';
import type { SavedSample } from '../../src/model/sample.js';
import { verified } from '../payment/example.js';
import { newFolder, reeltally, savedResult } from './command.js';

/** A return that the comparison alone accepts. */
const accepted: Findings = { ...verified(), verdict: { decision: 'accept', reasons: ['Nothing was found that counts.'] } };
const FINDINGS = savedResult(accepted);
const HOSTILE = '<script>alert(1)</script>';

const decide = (...args: readonly string[]) =>
  reeltally(['decide', '--findings', FINDINGS, '--delivery-decision', 'accept', '--by', 'Ada Pell', '--on', '1926-01-20', ...args]);
const BOTH = ['--reason', 'The film leaves tomorrow.', '--second', 'Bo Ferrin'];
const sha256 = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');

/** A judged spot check of the result, with so many pages that cannot be read, by the plan of the agreement. */
function sample(wrong: number, findings = FINDINGS): string {
  const out = newFolder();
  const draw = ['sample', 'draw', findings, '--seed', '314159265358979323846264', '--extras', 'none', '--out', out, '--quiet'];
  expect(reeltally(draw).status).toBe(0);
  const rows: string[][] = parse(readFileSync(join(out, 'worksheet.csv')), { bom: true });
  const [first, note] = [rows[0]!.indexOf('right date'), rows[0]!.indexOf('note')];
  const filled = rows.map((row, at) =>
    at === 0 ? row : row.map((cell, column) => (column < first || column >= note ? cell : at <= wrong ? 'no' : 'yes')),
  );
  writeFileSync(join(out, 'answers.csv'), filled.map((row) => row.map((cell) => `"${cell}"`).join(',')).join('\n'));
  reeltally(['sample', 'judge', join(out, 'draw.json'), '--worksheet', join(out, 'answers.csv'), '--out', out, '--quiet']);
  return join(out, 'sample.json');
}

function keptAccount(): string {
  const out = newFolder();
  writeFileSync(join(out, 'lines.csv'), 'class,quantity,unit price,amount,invoice number\npage,210,0.325,68.25,Q-17\n');
  const account = join(out, 'account.json');
  expect(reeltally(['invoice', join(out, 'lines.csv'), '--findings', FINDINGS, '--account', account, '--quiet']).status).toBe(1);
  return account;
}

// each case starts the command several times
describe('a decision', { timeout: 300_000 }, () => {
  const [good, bad] = [sample(0), sample(2)];

  it('needs the agreed sample, or a reason and a second name', () => {
    const { status, stdout, stderr } = decide();
    expect([status, stdout]).toEqual([3, '']);
    expect(stderr).toContain(
      'Nobody looked at the agreed sample of the lot 00417.\nThis needs a reason (--reason TEXT) and a second name (--second NAME).',
    );
    const with2 = decide(...BOTH);
    expect([with2.status, with2.stderr]).toEqual([0, '']);
    expect(with2.stdout.replace(/\s+/g, ' ')).toContain('was decided on 1926-01-20 by Ada Pell and Bo Ferrin');
  });

  it("is a person's: with the sample passed it stands alone, against a failed one it needs two", () => {
    expect(decide('--sample', good)).toMatchObject({ status: 0, stdout: expect.stringMatching(/^ACCEPT\n/) as string });
    expect(decide('--sample', bad)).toMatchObject({ status: 3, stdout: '' });
    expect(decide('--sample', bad, '--delivery-decision', 'return-for-rework')).toMatchObject({ status: 1 });
    expect(decide('--delivery-decision', 'put-off')).toMatchObject({ status: 2, stdout: expect.stringMatching(/^PUT OFF\n/) as string });
  });

  it('takes no spot check that was edited', () => {
    const edit = (change: (saved: SavedSample) => object): string => {
      const path = sample(2);
      writeFileSync(path, JSON.stringify(change(JSON.parse(readFileSync(path, 'utf8')) as SavedSample)));
      return path;
    };
    const accepted = edit((saved) => ({ ...saved, outcome: 'accepted' }));
    expect(decide('--sample', accepted)).toMatchObject({ status: 3, stderr: expect.stringContaining('contradicts itself') as string });
    const smooth = edit((saved) => ({ ...saved, wrong: 0, outcome: 'accepted', wrongOnes: [], wrongUnits: [] }));
    expect(decide('--sample', smooth)).toMatchObject({ status: 3, stderr: expect.stringContaining('comes out otherwise') as string });
    rmSync(join(smooth, '..', 'draw.json'));
    expect(decide('--sample', smooth)).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('Nobody looked at the agreed sample') as string,
    });
  });

  it('names every file that it rests on with its hash, and is the same bytes when written again', () => {
    const account = keptAccount();
    const before = readFileSync(account);
    const [first, second] = [join(newFolder(), 'a'), join(newFolder(), 'b')];
    const hash = sha256(account);
    for (const out of [first, second]) {
      writeFileSync(account, before);
      expect(decide('--sample', good, '--account', account, '--release', '65.00', '--out', out)).toMatchObject({
        status: 0,
        stderr: `Written to ${out}: decision.json, decision.html, decision.txt.\n`,
      });
    }
    for (const name of readdirSync(first)) expect(readFileSync(join(second, name))).toEqual(readFileSync(join(first, name)));
    const record = JSON.parse(readFileSync(join(first, 'decision.json'), 'utf8')) as DecisionRecord;
    expect(record.inputs.slice(-3)).toEqual([
      { role: 'findings', name: 'findings.json', sha256: sha256(FINDINGS) },
      { role: 'sample', name: 'sample.json', sha256: sha256(good) },
      { role: 'account', name: 'account.json', sha256: hash },
    ]);
    // 10 of the 210 pages are disputed: 200 x 0.325
    expect(record.invoices).toMatchObject([{ billed: '68.25', due: '65.00', released: '65.00', difference: '3.25' }]);
    expect(decide('--sample', good, '--out', first).stderr).toContain('already holds results');
  });

  it('can be printed as a page in which nothing runs, whatever was written into it', () => {
    const { stdout } = decide(...BOTH, '--by', HOSTILE, '--format', 'html');
    expect(stdout).toContain("default-src 'none'; style-src 'sha256-");
    expect(stdout).not.toContain(HOSTILE);
    expect(stdout).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    const style = /<style>([\s\S]*)<\/style>/.exec(stdout)?.[1] ?? '';
    expect(stdout).toContain(`style-src 'sha256-${createHash('sha256').update(style).digest('base64')}'`);
  });

  it.each([
    [['--by', ' '], 'Say who decides'],
    [['--on', '1926-02-30'], 'The day of the decision is "1926-02-30"'],
    [['--on', '1926-01-01'], 'one of the two days is wrong'],
    [['--sample', FINDINGS], 'a judged spot check is needed here'],
    [['--format', 'pdf'], 'There are text, json, html'],
    [['--delivery-decision', 'maybe'], '"maybe" is not a decision'],
    [['--release', '1.00'], 'Money is released against an account'],
  ])('with %j is refused with status 3', (args, sentence) => {
    const { status, stdout, stderr } = decide(...args);
    expect([status, stdout, stderr]).toEqual([3, '', expect.stringContaining(sentence)]);
  });

  it('takes no spot check of another list, and none twice', () => {
    const shorter = { ...accepted, reels: accepted.reels.map((reel) => ({ ...reel, frames: reel.frames.slice(1) })) };
    const { status, stderr } = decide('--sample', sample(0, savedResult(shorter)));
    expect([status, stderr]).toEqual([3, expect.stringContaining('was drawn from another list of reel 00417')]);
    expect(decide('--sample', good, good).stderr).toContain('was given already');
  });
});
