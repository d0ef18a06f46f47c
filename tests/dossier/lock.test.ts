import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { alone } from '../../src/acts/dossier/lock.js';
import { verifyInDossier } from '../../src/acts/dossier/verify.js';
import { begun, type Desk, ilse, laidOut } from './order.js';

let desk: Desk;
let root: string;
const lock = (): string => join(root, 'lock.json');
const left = (host: string, pid: number, since: string): void =>
  writeFileSync(lock(), `${JSON.stringify({ format: 'reeltally/lock/1', who: 'teo', host, pid, since })}\n`);

/** No process has this number: it is above what Linux, macOS and Windows give out. */
const NOBODY = 2 ** 31 - 2;

beforeAll(async () => {
  desk = laidOut();
  root = await begun(desk);
});
afterAll(() => {
  rmSync(desk.desk, { recursive: true });
});

describe('two people in one dossier', () => {
  it('write one at a time, and the second is told who the first is', async () => {
    await alone(root, ilse('2031-03-04'), async () => {
      expect(JSON.parse(readFileSync(lock(), 'utf8'))).toMatchObject({ who: 'ilse', host: 'desk-3', pid: process.pid });
      const second = verifyInDossier(root, { batch: [desk.drives[0]] }, { ...ilse('2031-03-04'), who: 'teo', host: 'desk-5' });
      await expect(second).rejects.toThrow(/^ilse on the machine desk-3 has been writing in .* since 2031-03-04T09:00:00Z/);
    });
    expect(() => readFileSync(lock())).toThrow();
  });

  it('leave the lock of another machine alone while it is young, and not when it is old', async () => {
    left('desk-5', NOBODY, '2031-03-03T22:00:00Z');
    await expect(alone(root, ilse('2031-03-04'), () => Promise.resolve(1))).rejects.toThrow(/teo on the machine desk-5/);
    left('desk-5', NOBODY, '2031-03-03T20:00:00Z');
    const said: string[] = [];
    expect(await alone(root, ilse('2031-03-04', said), () => Promise.resolve(1))).toBe(1);
    expect(said).toEqual([
      'the lock of teo on desk-5 since 2031-03-03T20:00:00Z was left behind: no run takes so long. It was taken away.',
    ]);
  });

  it('see at once that a run on the same machine has ended', async () => {
    left('desk-3', NOBODY, '2031-03-04T08:59:00Z');
    const said: string[] = [];
    expect(await alone(root, ilse('2031-03-04', said), () => Promise.resolve(2))).toBe(2);
    expect(said).toEqual(['the lock of teo on desk-3 since 2031-03-04T08:59:00Z was left behind: that run has ended. It was taken away.']);
    left('desk-3', process.pid, '2031-03-04T08:59:00Z');
    await expect(alone(root, ilse('2031-03-04'), () => Promise.resolve(3))).rejects.toThrow(/teo on the machine desk-3/);
    rmSync(lock());
  });

  it('are told of a lock that cannot be read', async () => {
    writeFileSync(lock(), '{');
    await expect(alone(root, ilse('2031-03-04'), () => Promise.resolve(1))).rejects.toThrow(/remove lock\.json/);
    rmSync(lock());
  });
});
