import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, reeltally } from './command.js';

const DEMO = new URL('../../fixtures/demonstration/', import.meta.url).pathname;
const RECORD = join(DEMO, 'record');
const expected = (...args: string[]) => reeltally(['collation', 'expected', RECORD, '--agreement', join(DEMO, 'agreement.json'), ...args]);

describe('collation expected', () => {
  it('says in numbers what is to come, what it costs, and what must, may and must not be said', { timeout: 240_000 }, () => {
    const out = join(newFolder(), 'expected');
    const { status, stdout } = expected('--out', out, '--quiet');
    expect(status).toBe(0);
    expect(stdout).toContain('Reel 55901: 120 frames, 107 to deliver, 13 held back\n');
    // 107 pages at 0.32 and 10 frames at 0.05, reckoned by hand
    expect(stdout).toMatch(/page +107 x 0\.32 = 34\.24 EUR\n +held back +10 x 0\.05 = 0\.50 EUR\n +Sum +34\.74 EUR\n/);
    expect(stdout).toMatch(/page number +106 +0 +1 +pageNumber printed\n/);
    // without a profile nobody knows how documents are named
    expect(readdirSync(out).sort()).toEqual(['expected.csv', 'expected.txt', 'expected.xlsx']);
    expect(readFileSync(join(out, 'expected.csv'), 'utf8').split('\r\n')[1]).toBe(
      `"","","issue","55901","","sn99089156","'1879-08-23","1","","",""`,
    );
    expect(readFileSync(join(out, 'expected.txt'), 'utf8')).toBe(stdout);
  });

  it('writes a return that verify accepts without a finding', { timeout: 240_000 }, () => {
    const out = join(newFolder(), 'a');
    expect(expected('--profile', 'page-mods', '--out', out, '--format', 'text')).toMatchObject({
      status: 0,
      stderr: expect.stringMatching(/expected-return: \d+ XML documents, no images\.\n$/) as string,
    });
    const result = reeltally(['verify', '--collation', RECORD, '--batch', join(out, 'expected-return'), '--format', 'json']);
    expect(result.status).toBe(0);
    expect((JSON.parse(result.stdout) as { findings: unknown[] }).findings).toEqual([]);
  });

  it('writes over its own documents alone, and only with --replace', { timeout: 240_000 }, () => {
    const out = newFolder();
    mkdirSync(join(out, 'expected-return'));
    writeFileSync(join(out, 'expected-return', '0001.tif'), 'a picture');
    expect(expected('--profile', 'page-mods', '--out', out).status).toBe(3);
    expect(expected('--profile', 'page-mods', '--out', out, '--replace')).toMatchObject({
      status: 3,
      stderr: `reeltally: ${join(out, 'expected-return')} holds 0001.tif, which no list of expected documents has. Move it away; nothing was deleted.\n`,
    });
    expect(readFileSync(join(out, 'expected-return', '0001.tif'), 'utf8')).toBe('a picture');
  });
});
