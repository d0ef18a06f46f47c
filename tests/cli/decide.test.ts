import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { DecisionRecord } from '../../src/model/decision.js';
import type { Findings } from '../../src/model/findings.js';
import { verified } from '../payment/example.js';
import { newFolder, reeltally, savedResult } from './command.js';

/** A return that the comparison alone accepts. */
const accepted: Findings = { ...verified(), verdict: { decision: 'accept', reasons: ['Nothing was found that counts.'] } };
const FINDINGS = savedResult(accepted);
const HOSTILE = '<script>alert(1)</script>';

const decide = (...args: readonly string[]) =>
  reeltally(['decide', '--findings', FINDINGS, '--by', 'Ada Pell', '--on', '1926-01-20', ...args]);
const sha256 = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');

/** A judged spot check of the result, with so many pages that cannot be read. */
function sample(wrong: number, findings = FINDINGS): string {
  const out = newFolder();
  expect(
    reeltally([
      'sample',
      'draw',
      findings,
      '--plan',
      'share',
      '--seed',
      '314159265358979323846264',
      '--extras',
      'none',
      '--out',
      out,
      '--quiet',
    ]).status,
  ).toBe(0);
  const rows: string[][] = parse(readFileSync(join(out, 'worksheet.csv')), { bom: true });
  const [first, note] = [rows[0]!.indexOf('right date'), rows[0]!.indexOf('note')];
  const filled = rows.map((row, at) =>
    at === 0 ? row : row.map((cell, column) => (column < first || column >= note ? cell : at <= wrong ? 'no' : 'yes')),
  );
  writeFileSync(join(out, 'answers.csv'), filled.map((row) => row.map((cell) => `"${cell}"`).join(',')).join('\n'));
  reeltally(['sample', 'judge', join(out, 'draw.json'), '--worksheet', join(out, 'answers.csv'), '--out', out, '--quiet']);
  return join(out, 'sample.json');
}

function invoiceResult(): string {
  const out = newFolder();
  writeFileSync(join(out, 'lines.csv'), 'class,quantity,unit price,amount\npage,210,0.325,68.25\n');
  expect(reeltally(['invoice', join(out, 'lines.csv'), '--findings', FINDINGS, '--out', out, '--quiet']).status).toBe(1);
  return join(out, 'invoice.json');
}

describe('a decision', () => {
  const [good, bad, invoice] = [sample(0), sample(2), invoiceResult()];

  it('is the verdict of the comparison, with its exit status, and says that nobody looked', () => {
    const { status, stdout, stderr } = decide();
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^ACCEPT\n/);
    expect(stdout).toContain('No spot check was made');
    expect(stdout.replace(/\s+/g, ' ')).toContain('was decided on 1926-01-20 by Ada Pell');
  });

  it('sends the delivery back where a spot check failed', () => {
    expect(decide('--sample', good).status).toBe(0);
    const { status, stdout } = decide('--sample', bad);
    expect([status, stdout]).toEqual([1, expect.stringMatching(/^RETURN FOR REWORK\n/)]);
    expect(stdout).toContain('By itself the comparison advises: accept.');
  });

  it('names every file that it rests on with its hash, and is the same bytes when written again', () => {
    const [first, second] = [join(newFolder(), 'a'), join(newFolder(), 'b')];
    for (const out of [first, second])
      expect(decide('--sample', good, '--invoice', invoice, '--out', out)).toMatchObject({
        status: 0,
        stderr: `Written to ${out}: decision.json, decision.html, decision.txt.\n`,
      });
    for (const name of readdirSync(first)) expect(readFileSync(join(second, name))).toEqual(readFileSync(join(first, name)));
    const record = JSON.parse(readFileSync(join(first, 'decision.json'), 'utf8')) as DecisionRecord;
    expect(record.inputs.slice(-3)).toEqual([
      { role: 'findings', name: 'findings.json', sha256: sha256(FINDINGS) },
      { role: 'sample', name: 'sample.json', sha256: sha256(good) },
      { role: 'invoice', name: 'invoice.json', sha256: sha256(invoice) },
    ]);
    // 10 of the 210 pages are disputed: 200 x 0.325
    expect(record.invoice).toMatchObject({ billed: '68.25', due: '65.00', difference: '3.25' });
    expect(decide('--out', first).stderr).toContain('already holds results');
  });

  it('can be printed as a page in which nothing runs, whatever was written into it', () => {
    const { stdout } = decide('--by', HOSTILE, '--format', 'html');
    expect(stdout).toContain("default-src 'none'; style-src 'sha256-");
    expect(stdout).not.toContain(HOSTILE);
    expect(stdout).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    const style = /<style>([\s\S]*)<\/style>/.exec(stdout)?.[1] ?? '';
    expect(stdout).toContain(`style-src 'sha256-${createHash('sha256').update(style).digest('base64')}'`);
  });

  it.each([
    [['--by', ' '], 'Say who decides.'],
    [['--on', '1926-02-30'], 'The day of the decision is "1926-02-30"'],
    [['--on', '1926-01-01'], 'one of the two days is wrong'],
    [['--sample', FINDINGS], 'a judged spot check is needed here'],
    [['--format', 'pdf'], 'There are text, json, html'],
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

  it('takes no invoice that was held against another comparison', () => {
    const later = savedResult({ ...accepted, run: { ...accepted.run, at: '1926-01-09T10:00:00Z' } });
    const { status, stderr } = reeltally(['decide', '--findings', later, '--invoice', invoice, '--by', 'Ada Pell', '--on', '1926-01-20']);
    expect([status, stderr]).toEqual([3, expect.stringContaining('hold the invoice against them again')]);
  });
});
