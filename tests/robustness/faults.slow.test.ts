import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { getuid } from 'node:process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { MAIN, newFolder, reeltallyProcess } from '../cli/command.js';
import { measured, said } from './limits.js';

const DEMONSTRATION = fileURLToPath(new URL('../../fixtures/demonstration', import.meta.url));
const BATCH = 'batch_vzx_tolmouth';

/** The demonstration in a folder of its own, and the words that verify it. */
function order(): { readonly root: string; readonly batch: string; readonly words: readonly string[] } {
  const root = newFolder();
  cpSync(DEMONSTRATION, root, { recursive: true });
  const batch = join(root, 'return', BATCH);
  const words = [
    'verify',
    '--collation',
    join(root, 'record'),
    '--batch',
    batch,
    '--agreement',
    join(root, 'agreement.json'),
    '--at',
    '2031-03-04',
  ];
  return { root, batch, words };
}

const documentsIn = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\/\d{10}\.xml$/.test(name))
    .toSorted();

/** A small disk of its own; null where this machine lets nobody mount one. */
function smallDisk(kilobytes: number): { readonly path: string; readonly readOnly: () => void; readonly gone: () => void } | null {
  const path = newFolder();
  if (spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${String(kilobytes)}k`, 'tmpfs', path]).status !== 0) return null;
  return {
    path,
    readOnly: () => execFileSync('mount', ['-o', 'remount,ro', path]),
    gone: () => execFileSync('umount', [path]),
  };
}

describe('disks', () => {
  it('that are full leave the old result whole, and nothing beside it', ({ skip }) => {
    const disk = smallDisk(600);
    if (disk === null) {
      skip('nobody may mount a disk here');
      return;
    }
    try {
      const { words } = order();
      const out = join(disk.path, 'out');
      expect(reeltallyProcess([...words, '--out', out, '--format', 'json', '--quiet']).status).toBe(1);
      const before = readFileSync(join(out, 'findings.json'), 'utf8');
      const { status, stderr } = reeltallyProcess([...words, '--out', out, '--replace', '--received', '2031-03-01']);
      expect(status).toBe(3);
      expect(stderr).toContain('the disk is full. What was there before is unchanged.');
      expect(readdirSync(out)).toEqual(['findings.json']);
      expect(readFileSync(join(out, 'findings.json'), 'utf8')).toBe(before);
    } finally {
      disk.gone();
    }
  });

  it('that can only be read are called that, whether the folder is there or not', ({ skip }) => {
    const disk = smallDisk(4000);
    if (disk === null) {
      skip('nobody may mount a disk here');
      return;
    }
    try {
      mkdirSync(join(disk.path, 'there'));
      disk.readOnly();
      const { words } = order();
      for (const folder of ['there', 'new', 'new/below'])
        expect(reeltallyProcess([...words, '--out', join(disk.path, folder)]).stderr).toContain('the disk can only be read');
      expect(reeltallyProcess(['demo', join(disk.path, 'demo')]).stderr).toContain('the disk can only be read');
      expect(reeltallyProcess(['dossier', 'new', join(disk.path, 'order')]).stderr).toContain('the disk can only be read');
    } finally {
      disk.gone();
    }
  });
});

describe('a batch', () => {
  it('with documents and folders that may not be read is verified as far as it goes', ({ skip }) => {
    if (getuid?.() === 0 && spawnSync('su', ['nobody', '-s', '/bin/sh', '-c', 'true']).status !== 0) {
      skip('root reads everything');
      return;
    }
    const { root, batch, words } = order();
    const [first = '', second = ''] = documentsIn(batch);
    chmodSync(join(batch, first), 0);
    chmodSync(join(batch, second, '..'), 0);
    chmodSync(root, 0o755);
    const call = [process.execPath, MAIN, ...words, '--format', 'json'].map((word) => `'${word}'`).join(' ');
    const { status, stdout } =
      getuid?.() === 0
        ? spawnSync('su', ['nobody', '-s', '/bin/sh', '-c', call], { encoding: 'utf8', maxBuffer: 1 << 28 })
        : spawnSync('sh', ['-c', call], { encoding: 'utf8', maxBuffer: 1 << 28 });
    expect(status).toBe(1);
    expect(stdout).toContain('permission is denied');
    expect((stdout.match(/"code": "document-unreadable"/g) ?? []).length).toBeGreaterThanOrEqual(1);
  });

  it('of which files vanish and grow while it is read never ends the run otherwise than in a verdict', async () => {
    const { root, batch, words } = order();
    for (let round = 0; round < 6; round += 1) {
      rmSync(batch, { recursive: true, force: true });
      // Copied by another process, file by file, while the program reads.
      const copy = spawn('sh', [
        '-c',
        `cd "$1" && find . -type f | while read -r f; do mkdir -p "$2/$(dirname "$f")"; cp "$f" "$2/$f"; done`,
        'sh',
        join(DEMONSTRATION, 'return', BATCH),
        batch,
      ]);
      const copied = new Promise((done) => copy.on('close', done));
      await new Promise((done) => setTimeout(done, 20 + round * 25));
      const ending = await measured([...words, '--out', join(root, `out-${String(round)}`), '--if-changed', '--format', 'json']);
      expect([0, 1, 2, 3]).toContain(ending.status);
      expect(said(ending)).not.toContain('fault of the program');
      await copied;
    }
    const whole = await measured([...words, '--format', 'jsonl']);
    expect(JSON.parse(whole.stdout)).toMatchObject({ verdict: 'return-for-rework', severities: { critical: 4 } });
  });

  it('with folders that lead into each other without end is read to its end', async () => {
    const { batch, words } = order();
    const issues = join(batch, documentsIn(batch)[0] ?? '', '..');
    symlinkSync(batch, join(issues, 'again'));
    symlinkSync('loop', join(issues, 'loop'));
    const ending = await measured(words);
    expect(ending.status).toBe(1);
    expect(said(ending)).toContain('is a link');
  });
});

describe('the same files', () => {
  const { root, words } = order();

  it('give the same bytes in five time zones and two languages, whatever the order of the folder', async () => {
    const zones = ['UTC', 'America/New_York', 'Europe/Amsterdam', 'Asia/Manila', 'Pacific/Apia'];
    const results: string[][] = [];
    for (const [at, zone] of zones.entries())
      for (const locale of ['C', 'tr_TR.UTF-8']) {
        const out = join(root, `out-${String(at)}-${locale}`);
        const ending = await measured([...words, '--out', out, '--quiet'], { env: { TZ: zone, LC_ALL: locale, LANG: locale } });
        expect(ending.status).toBe(1);
        results.push(
          readdirSync(out)
            .toSorted()
            .map((name) => `${name}\n${readFileSync(join(out, name)).toString('base64')}`),
        );
      }
    for (const result of results) expect(result).toEqual(results[0]);
    expect(results[0]?.length).toBeGreaterThan(6);
    // Files made in the opposite order lie in another order in the folder, on most kinds of disk.
    const turned = join(newFolder(), BATCH);
    const names = readdirSync(join(root, 'return', BATCH), { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
    for (const entry of names.toReversed()) {
      const path = join(entry.parentPath, entry.name);
      const place = join(turned, path.slice(join(root, 'return', BATCH).length));
      mkdirSync(join(place, '..'), { recursive: true });
      cpSync(path, place);
    }
    const again = await measured(words.map((word) => (word === join(root, 'return', BATCH) ? turned : word)).concat('--format', 'json'));
    expect(`findings.json\n${Buffer.from(again.stdout).toString('base64')}`).toBe(
      results[0]?.find((text) => text.startsWith('findings.json')),
    );
  }, 240_000);
});
