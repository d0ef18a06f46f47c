import {
  appendFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { beforeEach, describe, expect, it } from 'vitest';
import { newFolder, reeltally, reeltallyProcess } from './command.js';

const DEMONSTRATION = fileURLToPath(new URL('../../fixtures/demonstration', import.meta.url));
const BATCH = 'batch_vzx_tolmouth';
const AT = ['--at', '2031-03-01'];

interface Line {
  readonly batch: string;
  readonly verdict: string | null;
  readonly out: string;
  readonly status: number;
  readonly says?: string;
  readonly unchanged?: true;
}

const linesOf = (text: string): readonly Line[] => {
  expect(text.endsWith('\n')).toBe(true);
  return text
    .slice(0, -1)
    .split('\n')
    .map((line) => JSON.parse(line) as Line);
};

describe('verify --batches', () => {
  let root = '';
  const list = (...lines: readonly (object | string)[]): string => {
    const path = join(root, 'batches.jsonl');
    writeFileSync(path, lines.map((line) => (typeof line === 'string' ? line : JSON.stringify(line))).join('\n'));
    return path;
  };
  const fine = (out: string) => ({ collation: 'record', batch: `return/${BATCH}`, agreement: 'agreement.json', out });
  beforeEach(() => {
    root = newFolder();
    cpSync(DEMONSTRATION, root, { recursive: true });
  });

  it('gives each batch its result and one line, in the order of the list, and the highest status', () => {
    const path = list(
      '# two of them cannot run',
      fine('a'),
      '',
      { ...fine('b'), collation: 'none.csv' },
      { ...fine('c'), batch: 'record' },
      fine('d'),
    );
    const { status, stdout } = reeltally(['verify', '--batches', path, '--format', 'json,jsonl', ...AT]);
    expect(status).toBe(3);
    expect(linesOf(stdout).map(({ out, status: own, verdict }) => [out, own, verdict])).toEqual([
      ['a', 1, 'return-for-rework'],
      ['b', 3, null],
      ['c', 3, null],
      ['d', 1, 'return-for-rework'],
    ]);
    expect(linesOf(stdout)[1]?.says).toContain('none.csv: cannot be read: there is no such file.');
    expect(readdirSync(join(root, 'a')).toSorted()).toEqual(['findings.json', 'summary.jsonl']);
    // The same result as by itself.
    const alone = reeltally([
      'verify',
      ...['--collation', join(root, 'record'), '--batch', join(root, 'return', BATCH), '--agreement', join(root, 'agreement.json')],
      ...['--format', 'json', ...AT],
    ]);
    expect(readFileSync(join(root, 'd', 'findings.json'), 'utf8')).toBe(alone.stdout);
    expect(existsSync(join(root, 'b'))).toBe(false);
  });

  it('with --exit ran ends with 0 when every verification ran, and not otherwise', () => {
    const ran = ['--format', 'json', '--exit', 'ran', '--quiet'];
    expect(reeltally(['verify', '--batches', list(fine('a')), ...ran])).toMatchObject({ status: 0, stderr: '' });
    expect(reeltally(['verify', '--batches', list(fine('b'), { ...fine('c'), batch: 'none' }), ...ran]).status).toBe(3);
    expect(reeltally(['verify', '--batches', list(fine('d')), '--exit', 'maybe'])).toMatchObject({ status: 3, stdout: '' });
  });

  it('takes the folders of a folder where no list lies in it', () => {
    cpSync(join(root, 'return', BATCH), join(root, 'return', 'another'), { recursive: true });
    const out = join(root, 'results');
    const { stdout, status } = reeltally(
      ['verify', '--batches', join(root, 'return'), '--collation', join(root, 'record'), '--out', out, '--format', 'json', '--quiet'],
      {},
    );
    expect(status).toBe(1);
    expect(linesOf(stdout).map((line) => line.out)).toEqual([join(out, 'another'), join(out, BATCH)]);
    expect(readdirSync(out).toSorted()).toEqual(['another', BATCH]);
  });

  it('goes on with the others where the work on one breaks off', () => {
    const breaks = join(newFolder(), 'breaks.mjs');
    // In a thread, process.exit ends the thread alone, as a lack of memory does.
    writeFileSync(
      breaks,
      `import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
const real = fs.readdirSync;
fs.readdirSync = (path, ...more) => (String(path).includes('breaks') ? process.exit(9) : real(path, ...more));
syncBuiltinESMExports();
`,
    );
    cpSync(join(root, 'return', BATCH), join(root, 'return', 'breaks'), { recursive: true });
    const path = list({ ...fine('a'), batch: 'return/breaks' }, fine('b'), { ...fine('c'), batch: 'return/breaks' }, fine('d'));
    const { status, stdout } = reeltallyProcess(['verify', '--batches', path, '--format', 'json', '--if-changed', '--quiet'], {
      NODE_OPTIONS: `--import ${pathToFileURL(breaks).href}`,
    });
    expect(linesOf(stdout).map((line) => [line.out, line.status])).toEqual([
      ['a', 4],
      ['b', 1],
      ['c', 4],
      ['d', 1],
    ]);
    expect(linesOf(stdout)[0]?.says).toContain('The work on this batch broke off');
    expect(status).toBe(4);
  });

  it.each<[string, () => string, string]>([
    ['a line that is no JSON', () => list('batch_12'), 'line 1: this is not JSON'],
    ['a line that is a list', () => list([]), 'line 1: a line must be a group of fields in braces'],
    [
      'an unknown field',
      () => list({ ...fine('a'), colation: 'x' }),
      'line 1: there is no field "colation"; the fields are collation, batch',
    ],
    ['a field of another kind', () => list({ ...fine('a'), batch: 12 }), 'line 1: "batch" must be text in double quotes'],
    ['no batch', () => list({ collation: 'record', out: 'a' }), 'line 1: "batch" is wanting'],
    ['no record', () => list({ batch: 'return', out: 'a' }), 'line 1: "collation" is wanting'],
    ['no place for the results', () => list({ batch: 'return', collation: 'record' }), 'line 1: "out" is wanting'],
    ['one place for two', () => list(fine('a'), { ...fine('./a') }), 'two batches have the folder ./a for their results'],
    ['nothing', () => list('# nothing'), 'no batch is named there'],
    ['no file', () => join(root, 'none.jsonl'), 'there is no such file'],
  ])('refuses a list with %s in one sentence, and begins nothing', (_, made, says) => {
    const { status, stdout, stderr } = reeltally(['verify', '--batches', made()]);
    expect([status, stdout]).toEqual([3, '']);
    expect(stderr).toContain(says);
    expect(existsSync(join(root, 'a'))).toBe(false);
  });
});

describe('verify --if-changed', () => {
  const root = newFolder();
  cpSync(DEMONSTRATION, root, { recursive: true });
  const out = join(root, 'out');
  const batch = join(root, 'return', BATCH);
  const verified = (...more: readonly string[]) =>
    reeltally([
      'verify',
      ...['--collation', join(root, 'record'), '--batch', batch, '--out', out, '--format', 'json,text'],
      ...['--if-changed', '--replace', ...more],
    ]);
  const written = (): number => statSync(join(out, 'findings.json')).ino;

  it('does nothing where nothing changed, and says and ends as the saved verdict', () => {
    const first = verified('--quiet');
    expect(first).toMatchObject({ status: 1, stdout: '', stderr: '' });
    const before = written();
    const again = verified();
    expect(again.status).toBe(1);
    expect(again.stderr).toContain(`Nothing has changed: the result in ${out} still stands.`);
    expect(again.stderr).toContain('Verdict: return for rework.');
    expect(written()).toBe(before);
    // Without --replace too, because nothing is to be written.
    expect(
      reeltally(['verify', '--collation', join(root, 'record'), '--batch', batch, '--out', out, '--format', 'json,text', '--if-changed'])
        .status,
    ).toBe(1);
    expect(verified('--exit', 'ran').status).toBe(0);
  });

  const [document] = readdirSync(batch, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\/\d+\.xml$/.test(name))
    .toSorted();
  const path = join(batch, document ?? '');
  it.each<[string, () => void, readonly string[]]>([
    ['the time of a file', () => utimesSync(join(root, 'record', 'frames.csv'), 1000, 1000), []],
    [
      'a document, though size and time stay',
      () => {
        const { atime, mtime } = statSync(path);
        const text = readFileSync(path, 'utf8');
        writeFileSync(
          path,
          text.replace(/<!--.*?-->|\s(?=<)/, (found) => found.replace(/[ \n]/, '\t')),
        );
        expect(readFileSync(path, 'utf8')).not.toBe(text);
        utimesSync(path, atime, mtime);
      },
      [],
    ],
    ['a new file', () => writeFileSync(join(batch, 'new.txt'), 'x'), []],
    ['a file less', () => rmSync(join(batch, 'new.txt')), []],
    [
      'an empty folder with a file in it',
      () => {
        mkdirSync(join(batch, 'folder'));
        writeFileSync(join(batch, 'folder', 'x.txt'), '');
      },
      [],
    ],
    ['an option', () => undefined, ['--received', '2031-01-01']],
    ['the options again', () => undefined, []],
    ['the saved result', () => appendFileSync(join(out, 'findings.json'), ' '), []],
    ['what was noted of it', () => writeFileSync(join(out, 'seen.json'), '{}'), []],
  ])('works again where something changed: %s', (_, change, options) => {
    const before = written();
    change();
    expect(verified('--quiet', ...options).status).toBe(1);
    expect(written()).not.toBe(before);
  });

  it('needs a folder, and the saved result in it', () => {
    const plain = ['verify', '--collation', join(root, 'record'), '--batch', batch, '--if-changed'];
    expect(reeltally(plain).stderr).toContain('--if-changed looks at the result in a folder: name the folder with --out.');
    expect(reeltally([...plain, '--out', join(root, 'o'), '--format', 'text']).stderr).toContain('leave json among the formats');
  });
});
