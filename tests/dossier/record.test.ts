import { cpSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDossier } from '../../src/acts/dossier/open.js';
import { newFolder, shell } from '../cli/command.js';
import { walkDesk } from './walk.js';

const desk = walkDesk();
const typed = (command: string, at: string) => shell(`"$NODE" "$MAIN" ${command} 2>&1`, at);
typed('dossier new order --collation record --agreement agreement.json', desk);
const root = join(desk, 'order');

describe('the record of a dossier', () => {
  it('is read and checked without a path, from any folder of it', () => {
    expect(typed('collation read', join(root, 'record')).stdout).toContain('The record: 1 reel, 120 frames: 107 to deliver');
    const check = typed('collation check', root);
    expect([check.status, check.stdout]).toEqual([1, expect.stringContaining('frames.csv, rows 99 to 102')]);
  });

  it('goes out with the film from there, each time beside what went out before', async () => {
    expect(typed('collation instructions', root).stdout).toContain(
      'Written to sent: instructions.html, instructions.xlsx, instructions.csv, sent-record.json.',
    );
    expect(readFileSync(join(root, 'sent/instructions.html'), 'utf8')).toContain('Skerry Imaging');
    expect(typed('collation instructions', root).stdout).toContain('Written to sent/sent-2:');
    const { layout, journal } = await openDossier(root);
    expect(layout.sent.at(-1)).toBe('sent/sent-2/sent-record.json');
    expect(journal.map(({ line }) => [line?.name, line?.did])).toContainEqual(['sent/sent-record.json', 'taken in']);
    expect(typed('audit', root).stdout).toContain('Every link holds');
    expect(typed('collation instructions --agreement x.json', root)).toMatchObject({
      status: 3,
      stdout: expect.stringContaining('--agreement: in a dossier this is known') as string,
    });
  });

  it('keeps how a workbook is read beside it, and in the journal', async () => {
    const other = newFolder();
    cpSync(join(desk, 'agreement.json'), join(other, 'agreement.json'));
    writeFileSync(join(other, 'reels.csv'), 'Reel,Exp.,LCCN,Date,Page\n14,1,sn90000001,18/1/1899,1\n');
    typed('dossier new order --collation reels.csv --agreement agreement.json', other);
    const place = join(other, 'order');
    // what is not answered yet is asked for by the command as it is typed there, and outside with its path
    expect(typed('collation read', place).status).toBe(3);
    expect(typed('collation check', place).stdout).toContain('Answer there, or run "reeltally collation read".');
    expect(typed('collation check order/record/reels.csv', other).stdout).toContain(
      'run "reeltally collation read order/record/reels.csv"',
    );
    expect(typed('collation read --yes', place).stdout).toContain('"Exp." is frame');
    expect(readdirSync(join(place, 'record'))).toEqual(['reels.csv', 'reels.reading.json']);
    const { journal } = await openDossier(place);
    expect(journal.at(-1)?.line?.name).toBe('record/reels.reading.json');
  });

  it('is asked for where there is no dossier', () => {
    const read = typed('collation read', newFolder());
    expect([read.status, read.stdout]).toEqual([
      3,
      expect.stringContaining('Say which files hold the collation record. Or go into the folder of an order'),
    ]);
    expect(existsSync(join(root, 'record/record.reading.json'))).toBe(false);
  });
});
