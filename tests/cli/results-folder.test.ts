import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { SET_NOTE, temporaryName } from '../../src/read/set-note.js';
import { renderJson } from '../../src/report/json.js';
import { EXAMPLE, finding } from '../report/example.js';
import { newFolder, reeltally, reeltallyProcess, savedResult, shell, started } from './command.js';

const ALL = ['discrepancies.csv', 'discrepancies.xlsx', 'discrepancies.xml', 'findings.json', 'rulings.xlsx', 'summary.txt'];
/** Every file but the one that the library writes into: what stands in that is read before anything is written. */
const OWN = ALL.filter((name) => name !== 'rulings.xlsx');
const WISH = ['--format', 'text,json,csv,xlsx,xml'];

/** A result large enough that writing it takes a while. */
function large(word: string): Findings {
  return {
    ...EXAMPLE,
    run: { ...EXAMPLE.run, batch: `batch_${word}` },
    findings: Array.from({ length: 1_500 }, (_, at) =>
      finding({ id: `${word}-${String(at)}`, code: 'volume-differs', severity: 'minor', says: `${word} `.repeat(60) }),
    ),
  };
}

describe('a folder of results', () => {
  const path = savedResult(EXAMPLE);

  it('is made with every file whole and nothing beside', () => {
    const folder = join(newFolder(), 'a', 'b');
    const { status, stdout, stderr } = reeltally(['render', path, ...WISH, '--out', folder]);
    expect([status, stdout]).toEqual([0, '']);
    expect(stderr).toContain('Verdict: return for rework.');
    expect(readdirSync(folder).toSorted()).toEqual(ALL);
    expect(readFileSync(join(folder, 'findings.json'), 'utf8')).toBe(renderJson(EXAMPLE));
  });

  it('is never written over without --replace', () => {
    const folder = newFolder();
    writeFileSync(join(folder, 'summary.txt'), 'old');
    const { status, stderr } = reeltally(['render', path, ...WISH, '--out', folder]);
    expect(status).toBe(3);
    expect(stderr).toContain('already holds results (summary.txt)');
    expect(readdirSync(folder)).toEqual(['summary.txt']);
    expect(readFileSync(join(folder, 'summary.txt'), 'utf8')).toBe('old');
  });

  it('holds one result only after --replace, and other files are left alone', () => {
    const folder = newFolder();
    for (const name of [...OWN, 'collation-corrections.csv', 'notes.txt']) writeFileSync(join(folder, name), 'old');
    expect(reeltally(['render', path, '--format', 'json', '--out', folder, '--replace']).status).toBe(0);
    expect(readdirSync(folder).toSorted()).toEqual(['findings.json', 'notes.txt']);
    expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe('old');
  });

  it('holds the corrections of the record where the library ruled that it was wrong', () => {
    const folder = newFolder();
    const ruling = { decision: 'collation-wrong', note: '', by: 'Ada Pell', on: '1926-01-13' };
    const ruled = savedResult({
      ...EXAMPLE,
      findings: EXAMPLE.findings.map((one) => (one.cause === 'collation' ? { ...one, ruling } : one)),
    });
    expect(reeltally(['render', ruled, '--format', 'csv', '--out', folder]).status).toBe(0);
    expect(readdirSync(folder).toSorted()).toEqual(['collation-corrections.csv', 'discrepancies.csv']);
    expect(readFileSync(join(folder, 'collation-corrections.csv'), 'utf8')).toContain('"insert-after","page","","5"');
  });

  it('that a stopped run left half in place is read as the new set, and put in place by the next run', () => {
    const folder = newFolder();
    // Process numbers of Linux end at 4,194,304 (proc(5), pid_max): this one cannot run.
    const dead = 4_194_999;
    const renamed = { ...EXAMPLE, run: { ...EXAMPLE.run, batch: 'batch_renamed' } };
    writeFileSync(join(folder, 'summary.txt'), 'new');
    writeFileSync(join(folder, 'findings.json'), renderJson(EXAMPLE));
    writeFileSync(join(folder, 'discrepancies.csv'), 'stale');
    writeFileSync(join(folder, temporaryName('findings.json', dead)), renderJson(renamed));
    writeFileSync(
      join(folder, SET_NOTE),
      JSON.stringify({ pid: dead, files: ['summary.txt', 'findings.json'], removed: ['discrepancies.csv'] }),
    );
    expect(reeltally(['render', join(folder, 'findings.json'), '--format', 'json']).stdout).toBe(renderJson(renamed));
    // Nothing of its own is written over: the folder is settled first, then the new name is added.
    expect(reeltally(['render', path, '--format', 'xml', '--out', folder, '--replace']).status).toBe(0);
    expect(readdirSync(folder)).toEqual(['discrepancies.xml']);
  });

  it('is not led astray by a note that names files elsewhere', () => {
    const folder = newFolder();
    writeFileSync(join(folder, SET_NOTE), JSON.stringify({ pid: 4_194_999, files: [], removed: ['../victim.txt'] }));
    const victim = join(folder, '..', 'victim.txt');
    writeFileSync(victim, 'x');
    expect(reeltally(['render', path, '--format', 'text', '--out', folder]).status).toBe(0);
    expect(readFileSync(victim, 'utf8')).toBe('x');
  });

  it('loses the temporary files of a run that was killed, not those of one that runs', () => {
    const folder = newFolder();
    // Process numbers of Linux end at 4,194,304 (proc(5), pid_max): this one cannot run.
    const dead = '.summary.txt.reeltally-4194999.tmp';
    const alive = `.summary.txt.reeltally-${String(process.pid)}.tmp`;
    for (const name of [dead, alive]) writeFileSync(join(folder, name), '');
    expect(reeltallyProcess(['render', path, '--format', 'text', '--out', folder]).status).toBe(0);
    expect(readdirSync(folder).toSorted()).toEqual([alive, 'summary.txt']);
  });

  it.each([
    ['a file', (folder: string) => join(folder, 'file'), /a folder|a file of that name|part of the path/],
    ['below a file', (folder: string) => join(folder, 'file', 'x'), /part of the path is a file/],
    // Where Linux lists its processes nothing can be made, and Node's own way to make folders never ends.
    [
      'where nothing can be made',
      (folder: string) => (existsSync('/proc/self') ? '/proc/reeltally/x' : join(folder, 'file', 'y')),
      /What was there before|part of the path/,
    ],
  ])('that is %s is refused with a sentence', (_, place, sentence) => {
    const folder = newFolder();
    writeFileSync(join(folder, 'file'), 'x');
    const { status, stderr } = reeltally(['render', path, ...WISH, '--out', place(folder)]);
    expect(status).toBe(3);
    expect(stderr).toMatch(sentence);
  });

  it('with a folder in the way of a file is left as it was', () => {
    const folder = newFolder();
    mkdirSync(join(folder, 'findings.json'));
    writeFileSync(join(folder, 'summary.txt'), 'old');
    const { status, stderr } = reeltally(['render', path, ...WISH, '--out', folder, '--replace']);
    expect(status).toBe(3);
    expect(stderr).toContain('is a folder; a file of that name is to be written');
    expect(readdirSync(folder).toSorted()).toEqual(['findings.json', 'summary.txt']);
    expect(readFileSync(join(folder, 'summary.txt'), 'utf8')).toBe('old');
  });
});

describe('faults while writing', () => {
  it('a disk that takes no more leaves the old files and no temporary ones', () => {
    const folder = newFolder();
    for (const name of OWN) writeFileSync(join(folder, name), 'old');
    const path = savedResult(large('new'));
    // The limit on the size of a file (POSIX ulimit -f, blocks of 512 or 1,024 bytes) stands for the full disk.
    const { status, stderr } = shell(
      `ulimit -f 64; "$NODE" "$MAIN" render "${path}" --format text,json,csv,xml --out "${folder}" --replace`,
    );
    expect(status).toBe(3);
    expect(stderr).toContain('What was there before is unchanged.');
    expect(readdirSync(folder).toSorted()).toEqual(OWN);
    for (const name of OWN) expect(readFileSync(join(folder, name), 'utf8')).toBe('old');
  });

  it('a kill at any moment leaves each file old or new, and the next run cleans up', async () => {
    const paths = { old: savedResult(large('old')), new: savedResult(large('new')) };
    const folder = newFolder();
    const three = ['discrepancies.csv', 'findings.json', 'summary.txt'];
    const wish = ['--format', 'text,json,csv'];
    const write = (which: 'old' | 'new'): string[] => ['render', paths[which], ...wish, '--out', folder, '--replace'];
    expect(reeltally(write('old')).status).toBe(0);
    const whole = (which: 'old' | 'new'): Map<string, string> => {
      const other = newFolder();
      expect(reeltally(['render', paths[which], ...wish, '--out', other]).status).toBe(0);
      return new Map(three.map((name) => [name, readFileSync(join(other, name), 'utf8')]));
    };
    const [before, after] = [whole('old'), whole('new')];
    let interrupted = 0;
    for (const pause of [0, 1, 3, 9]) {
      const child = started(write('new'));
      const ended = new Promise<NodeJS.Signals | null>((resolve) => child.on('exit', (_, signal) => resolve(signal)));
      while (child.exitCode === null && !readdirSync(folder).some((name) => name.endsWith('.tmp')))
        await new Promise((resolve) => setTimeout(resolve, 1));
      await new Promise((resolve) => setTimeout(resolve, pause));
      child.kill('SIGKILL');
      if ((await ended) === 'SIGKILL') interrupted += 1;
      for (const name of three) {
        const found = readFileSync(join(folder, name), 'utf8');
        expect(found === before.get(name) || found === after.get(name)).toBe(true);
      }
    }
    expect(interrupted).toBeGreaterThan(0);
    expect(reeltally(write('new')).status).toBe(0);
    expect(readdirSync(folder).toSorted()).toEqual(three);
    for (const name of three) expect(readFileSync(join(folder, name), 'utf8')).toBe(after.get(name));
  });

  it.each(['SIGINT', 'SIGTERM'] as const)('%s ends the run by that signal, so that a shell sees 130 or 143', async (signal) => {
    const folder = join(newFolder(), 'out');
    const child = started(['render', savedResult(large('new')), ...WISH, '--out', folder]);
    const ended = new Promise<NodeJS.Signals | null>((resolve) => child.on('exit', (_, by) => resolve(by)));
    child.on('spawn', () => child.kill(signal));
    expect(await ended).toBe(signal);
    expect(existsSync(folder)).toBe(false);
  });
});
