import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { CollationRecord } from '../../src/model/collation-record.js';
import type { Findings } from '../../src/model/findings.js';
import { DEMO_MISTAKES, demoAgreement, demoRecord, demoReturn } from '../forge/demonstration.js';
import { newFolder, reeltally } from './command.js';

/** Writes a file in a new folder and gives its path. */
function file(name: string, content: unknown): string {
  const path = join(newFolder(), name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

/** A return of the demonstration as a folder. */
function batch(corrected: readonly string[]): string {
  const { files, plan } = demoReturn('faulty', corrected);
  const folder = join(newFolder(), plan.batch);
  for (const { path, text } of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}

const record = file('record.json', demoRecord());
const agreement = file('agreement.json', demoAgreement());
const line = (folder: string, ...more: string[]): string[] => [
  'verify',
  '--collation',
  record,
  '--agreement',
  agreement,
  '--at',
  '2031-03-04',
  '--batch',
  folder,
  ...more,
];
const resultOf = (stdout: string): Findings => JSON.parse(stdout) as Findings;

const half = DEMO_MISTAKES.filter((_, at) => at % 2 === 0);
const once = reeltally(line(batch([]), '--format', 'json')).stdout;
const first = file('findings.json', once);

describe('the second delivery of a batch', () => {
  const again = batch(half);

  it('is told apart from the first, in every report', () => {
    const second = resultOf(reeltally(line(again, '--earlier', first, '--format', 'json')).stdout);
    expect(second.run.delivery).toBe(2);
    expect(second.corrected).toHaveLength(half.length);
    expect(second.findings).toHaveLength(DEMO_MISTAKES.length - half.length);
    const text = reeltally(line(again, '--earlier', first)).stdout;
    expect(text).toContain(`${String(half.length)} corrected, ${String(DEMO_MISTAKES.length - half.length)} still open, 0 new.`);
    const rows = parse<Record<string, string>>(reeltally(line(again, '--earlier', first, '--format', 'csv')).stdout, {
      bom: true,
      columns: true,
    });
    expect(rows.filter((row) => row['fixed in delivery'] === '2').map((row) => row['finding'])).toEqual(
      expect.arrayContaining(second.corrected.map(({ id }) => id)),
    );
    const xml = reeltally(line(again, '--earlier', first, '--format', 'xml')).stdout;
    expect(xml.match(/<corrected /g)).toHaveLength(half.length);
    expect(xml.match(/status="open"/g)).toHaveLength(DEMO_MISTAKES.length - half.length);
  });
});

describe('an earlier result that is none', () => {
  it('is refused where it is of another reel', () => {
    const other = { ...demoRecord() } as CollationRecord;
    const elsewhere = file('record.json', { ...other, reels: other.reels.map((reel) => ({ ...reel, number: '99001' })) });
    const { status, stderr } = reeltally(['verify', '--collation', elsewhere, '--batch', batch([]), '--earlier', first]);
    expect(status).toBe(3);
    expect(stderr).toContain('this is the result of batch_vzx_tolmouth');
    expect(stderr).toContain('the collation record has reel 99001. It is not an earlier delivery of this batch.');
  });

  it('is refused where it is of this delivery or a later one', () => {
    const { status, stderr } = reeltally(line(batch([]), '--earlier', first, '--delivery', '1'));
    expect(status).toBe(3);
    expect(stderr).toContain('this is the result of delivery 1, and the one to be verified is delivery 1.');
  });

  it('is refused where it is another kind of file', () => {
    const { status, stderr } = reeltally(line(batch([]), '--earlier', agreement));
    expect(status).toBe(3);
    expect(stderr).toContain('this file says that it is "reeltally/agreement/2"; a saved result is needed here');
  });
});

describe('a result named with --other', () => {
  it('is refused where it is of the batch itself', () => {
    const { status, stdout, stderr } = reeltally(line(batch([]), '--other', first));
    expect([status, stdout]).toEqual([3, '']);
    expect(stderr).toContain('this is a result of batch_vzx_tolmouth, the batch that is verified.');
    expect(stderr).toContain('named with --earlier');
  });
});
