import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CODES } from '../../src/catalogue/codes.js';
import type { FrameEntry } from '../../src/model/collation-record.js';
import { readRecord } from '../../src/read/record.js';
import { understoodRecord } from '../../src/reading/index.js';
import { FORMATS } from '../../src/report/formats.js';
import { newFolder, reeltally } from './command.js';

const README = readFileSync('README.md', 'utf8');

/** The record in the n-th CSV example of the README. */
async function example(at: number) {
  const path = join(newFolder(), 'example.csv');
  writeFileSync(path, [...README.matchAll(/```csv\n([\s\S]*?)```/g)][at]?.[1] ?? '');
  return understoodRecord(await readRecord([path]));
}

/** What a sheet of either form can say of a frame. */
const facts = ({ frame, kind, deliver, title, date, datePrinted, edition, page, pagePrinted, order, duplicateOf }: FrameEntry) => ({
  frame,
  kind: kind ?? 'page',
  deliver: deliver ?? (kind ?? 'page') === 'page',
  title: kind === undefined || kind === 'page' ? title : undefined,
  date,
  datePrinted,
  edition: date === undefined ? undefined : (edition ?? 1),
  page,
  pagePrinted,
  order,
  duplicateOf,
});

describe('the examples of the README', () => {
  it('are read without a complaint and describe the same film in both forms', async () => {
    const [frames, issues] = [await example(0), await example(1)];
    for (const { problems, warnings } of [frames, issues]) expect([problems, warnings]).toEqual([[], []]);
    expect(frames.record.reels).toHaveLength(1);
    expect(frames.record.reels[0]!.frames).toHaveLength(7);
    expect(issues.record.reels[0]!.frames.map(facts)).toEqual(frames.record.reels[0]!.frames.map(facts));
    const absent = (record: typeof frames) =>
      record.record.reels[0]!.absent?.map(({ title, date, page, published }) => ({ title, date, page, published }));
    expect(absent(issues)).toEqual(absent(frames));
    expect(absent(frames)).toHaveLength(2);
  });

  it('name only commands and options that there are', () => {
    // what stands behind `npm run` belongs to the scripts of the project
    const options = new Set([...README.replace(/`npm run [^`]*`/g, '').matchAll(/--[a-z][a-z-]+/g)].map((match) => match[0]));
    const commands = [
      ['verify'],
      ['render'],
      ['demo'],
      ['collation', 'new'],
      ['collation', 'read'],
      ['collation', 'check'],
      ['collation', 'convert'],
      ['sample', 'draw'],
      ['sample', 'judge'],
      ['ledger'],
      ['invoice'],
      ['decide'],
      [],
    ];
    const help = commands.map((command) => reeltally([...command, '--help']).stdout).join('\n');
    // The options of npm.
    for (const option of ['--global']) options.delete(option);
    for (const option of options) expect(help).toContain(option);
  });

  it('name every format with its file, and the help that has every code', () => {
    for (const { name, file } of FORMATS) expect(README).toContain(`| \`${name}\` | \`${file}\` |`);
    expect(README).toContain('`reeltally help codes`');
    const { stdout } = reeltally(['help', 'codes']);
    for (const { code, severity, title } of CODES) expect(stdout).toContain(`| \`${code}\` | ${severity} | ${title} |`);
  });
});
