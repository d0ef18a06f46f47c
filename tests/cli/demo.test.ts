import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FORMATS } from '../../src/report/formats.js';
import { RULINGS_FILE } from '../../src/report/rulings-sheet.js';
import { newFolder, reeltally, reeltallyProcess } from './command.js';

/** What the demonstration writes: a file for each format, and the rulings to fill in. */
const FILES = [...FORMATS.map((format) => format.file), RULINGS_FILE];
const EPOCH = { SOURCE_DATE_EPOCH: '1930000000' };

describe('demo', () => {
  const folder = join(newFolder(), 'demo');
  const first = reeltally(['demo', folder], EPOCH);

  it('writes the record, the return and the results, and prints the summary', () => {
    expect(first.status).toBe(0);
    expect(first.stdout).toMatch(/^RETURN FOR REWORK\n/);
    expect(readdirSync(folder).toSorted()).toEqual(['agreement.json', 'record', 'results', 'return']);
    expect(readdirSync(join(folder, 'record')).toSorted()).toEqual(['frames.csv', 'reels.csv', 'titles.csv']);
    expect(readdirSync(join(folder, 'results')).toSorted()).toEqual(FILES.toSorted());
    expect(readFileSync(join(folder, 'results', 'summary.txt'), 'utf8')).toBe(first.stdout);
  });

  it('names the command that does the same, and that command does', () => {
    const line = /^ {2}reeltally (.*)$/m.exec(first.stderr)?.[1] ?? '';
    const { status, stdout } = reeltally(line.split(' '), EPOCH);
    expect(status).toBe(1);
    expect(stdout).toBe(first.stdout);
  });

  it('never writes over anything without --replace, and removes only what it made', () => {
    const again = reeltally(['demo', folder]);
    expect([again.status, again.stdout]).toEqual([3, '']);
    expect(again.stderr).toContain('already holds a demonstration');
    writeFileSync(join(folder, 'my-notes.txt'), 'mine');
    const strange = reeltally(['demo', folder, '--replace']);
    expect(strange.status).toBe(3);
    expect(strange.stderr).toContain('holds other things (my-notes.txt)');
    expect(readFileSync(join(folder, 'my-notes.txt'), 'utf8')).toBe('mine');
    expect(existsSync(join(folder, 'results', 'findings.json'))).toBe(true);
  });

  it('makes the same again with --replace', () => {
    const other = join(newFolder(), 'demo');
    expect(reeltally(['demo', other, '--quiet'], EPOCH).stdout).toBe(first.stdout);
    const again = reeltally(['demo', other, '--replace', '--quiet'], EPOCH);
    expect([again.status, again.stdout, again.stderr]).toEqual([0, first.stdout, '']);
  });

  it('writes into a folder named demo where none is named', () => {
    const here = newFolder();
    expect(reeltallyProcess(['demo', '--quiet'], EPOCH, here).status).toBe(0);
    expect(readdirSync(here)).toEqual(['demo']);
  });
});

// The golden reports, one for each format, are the demonstration's: read them to see what the program writes. `npm run generate` makes them anew.
describe('the golden reports', () => {
  const folder = join(newFolder(), 'demo');
  reeltally(['demo', folder, '--quiet'], EPOCH);

  it('are one for each format, and the rulings', () => {
    const names = readdirSync('reports').filter((name) => !name.endsWith('.png'));
    expect(names.toSorted()).toEqual(FILES.toSorted());
  });

  it.each(FILES)('%s is as the program writes it', (file) => {
    // Bytes as letters, each for itself, where the file is no text.
    const encoding = file.endsWith('.xlsx') ? 'latin1' : 'utf8';
    expect(readFileSync(join(folder, 'results', file), encoding)).toBe(readFileSync(join('reports', file), encoding));
  });
});
