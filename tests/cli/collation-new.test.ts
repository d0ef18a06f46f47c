import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { settledRecord } from '../../src/collation/settled.js';
import type { CollationRecord } from '../../src/model/collation-record.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { newFolder, reeltally, reeltallyProcess } from './command.js';

const SPAN = ['--title', 'sn99018200', '--from-day', '1879-12-20', '--to-day', '1880-01-10'];
const WORDS = [...SPAN, '--pattern', 'wed,sat', '--omit', '12-27', '--pages', '4,8'];
/** Wednesdays and Saturdays between the two days without 27 December; 20 December 1879 was a Saturday (any perpetual calendar). */
const DAYS = ['1879-12-20', '1879-12-24', '1879-12-31', '1880-01-03', '1880-01-07', '1880-01-10'];

/** The sheets of a workbook that was made, by name: heads and rows. */
function sheetsOf(path: string) {
  return new Map(
    readXlsx(readFileSync(path), path).map(({ sheet, headers, rows }) => [sheet, [headers, ...rows.map(({ cells }) => cells)]]),
  );
}

function made(args: readonly string[], name = 'record.xlsx'): string {
  const path = join(newFolder(), name);
  const { status, stdout } = reeltally(['collation', 'new', ...args, '--out', path]);
  expect([status, stdout]).toEqual([0, '']);
  return path;
}

function column(sheet: readonly (readonly string[])[] | undefined, head: string): readonly string[] {
  const at = sheet?.[0]?.indexOf(head) ?? -1;
  return (sheet ?? []).slice(1).map((cells) => cells[at] ?? '');
}

/** The parts of a workbook as text. */
function partsOf(path: string): Readonly<Record<string, string>> {
  const parts = unzipSync(readFileSync(path));
  return Object.fromEntries(Object.entries(parts).map(([name, bytes]) => [name, Buffer.from(bytes).toString('utf8')]));
}

describe('collation new', () => {
  it('says where the files are, also where the command was typed', () => {
    const { status, stderr } = reeltallyProcess(['collation', 'new', ...WORDS, '--out', 'record.xlsx'], {}, newFolder());
    expect([status, stderr]).toEqual([0, expect.stringContaining('\nWritten to this folder: record.xlsx')]);
  });

  it('makes a row for each expected issue, with its weekday', () => {
    const sheets = sheetsOf(made(WORDS));
    expect([...sheets.keys()]).toEqual(['issues', 'calendar', 'titles', 'reels', 'how to fill in']);
    const issues = sheets.get('issues');
    expect(column(issues, 'date')).toEqual(DAYS);
    expect(column(issues, 'weekday of date')).toEqual(['Saturday', 'Wednesday', 'Wednesday', 'Saturday', 'Wednesday', 'Saturday']);
    expect(new Set(column(issues, 'pages'))).toEqual(new Set(['']));
    expect(column(sheets.get('titles'), 'days')).toEqual(['wed sat']);
    expect(column(sheets.get('titles'), 'omitted')).toEqual(['12-27']);
    expect(column(sheets.get('titles'), 'usual pages')).toEqual(['4; 8']);
  });

  it('makes a row for each usual page of an expected issue', () => {
    const frames = sheetsOf(made([...WORDS, '--per', 'frame'])).get('frames');
    expect(column(frames, 'page').slice(0, 5)).toEqual(['1', '2', '3', '4', '1']);
    expect(column(frames, 'order').slice(0, 5)).toEqual(['1', '2', '3', '4', '1']);
    expect(column(frames, 'date')).toEqual(DAYS.flatMap((day) => [day, day, day, day]));
  });

  it('offers fixed words, and the usual pages as an offer only', () => {
    const parts = partsOf(made(WORDS));
    const sheet = parts['xl/worksheets/sheet1.xml'] ?? '';
    const lists = [...sheet.matchAll(/<dataValidation ([^>]*)><formula1>"([^"]*)"/g)].map(([, attributes = '', words = '']) => [
      words,
      attributes.includes('showErrorMessage'),
    ]);
    expect(lists).toEqual([
      ['1-4,1-8', false],
      ['yes,no,unknown', true],
      ['yes,no', true],
    ]);
    // Every cell is in the number format for text (ECMA-376 part 1, 18.8.30: 49).
    const styles = [...(parts['xl/styles.xml'] ?? '').matchAll(/<xf numFmtId="49"/g)];
    expect(styles.length).toBeGreaterThan(0);
  });

  it('makes a calendar that asks the sheet for what it shows', () => {
    const parts = partsOf(made(WORDS));
    const rules = [...(parts['xl/worksheets/sheet2.xml'] ?? '').matchAll(/<cfRule type="expression" dxfId="(\d)"[^>]*><formula>([^<]*)/g)];
    expect(rules.map(([, look]) => look)).toEqual(['0', '1', '2', '3']);
    expect(parts['xl/styles.xml']).toContain('<dxfs count="4">');
    for (const name of ['record_day', 'record_second_day', 'record_last_day', 'record_film', 'record_published']) {
      expect(rules.map(([, , formula]) => formula).join(' ')).toContain(name);
      expect(parts['xl/workbook.xml']).toMatch(new RegExp(`<definedName name="${name}">'issues'!\\$[A-Z]\\$2:\\$[A-Z]\\$507<`));
    }
  });

  it('writes CSV that opens again, with titles and reels beside', () => {
    const path = made(WORDS, 'record.csv');
    const [heads = '', first = ''] = readFileSync(path, 'utf8').split('\r\n');
    expect(heads.startsWith('\ufeffdate,weekday of date,reel,')).toBe(true);
    expect(first.startsWith("'1879-12-20,Saturday,")).toBe(true);
    writeFileSync(path, readFileSync(path, 'utf8').replace("'1879-12-20,Saturday,,,", "'1879-12-20,Saturday,00417,1,1-4"));
    const { status, stdout, stderr } = reeltally(['collation', 'convert', path, '--to', 'json', '--quiet']);
    expect([status, stderr]).toEqual([0, '']);
    const record = JSON.parse(stdout) as { titles: { id: string; patterns: unknown[] }[]; reels: { number: string; absent: unknown[] }[] };
    expect(record.titles).toMatchObject([{ id: 'sn99018200', patterns: [{ days: ['wed', 'sat'], omitted: ['12-27'] }] }]);
    expect(record.reels).toMatchObject([{ number: '00417' }]);
    expect(record.reels[0]?.absent).toHaveLength(5);
  });

  it('writes a calendar to print, with a frame for each expected issue', () => {
    const page = readFileSync(made(WORDS, 'calendar.html'), 'utf8');
    expect(page.match(/<td class="on open">/g)).toHaveLength(DAYS.length);
    expect(page).toContain('<caption>December 1879</caption>');
    expect(page).toContain('Wednesday and Saturday, not on 12-27');
    expect(page).not.toContain('<script');
  });

  it('takes an older sheet over, with a row for what it does not speak of', () => {
    const folder = newFolder();
    const old = join(folder, 'old.csv');
    writeFileSync(
      old,
      'reel,first frame,title,date,date printed,edition,pages,published,note\n00417,1,,,,,"t,_",,\n00417,,sn99018200,1879-12-20,1879-12-02,,"1-2,x2,3-4",,leaves stuck\n00417,,sn99018200,1879-12-31,,,1-4,,\n00417,,sn99018200,1879-12-24,,,,no,strike\n',
    );
    const path = join(folder, 'new', 'record.xlsx');
    const { status, stderr } = reeltally([
      'collation',
      'new',
      '--from',
      old,
      '--to-day',
      '1880-01-10',
      '--pattern',
      'wed,sat',
      '--pages',
      '4',
      '--out',
      path,
    ]);
    expect([status, stderr]).toEqual([0, expect.stringContaining('7 issues expected, 8 rows')]);
    const issues = sheetsOf(path).get('issues');
    expect(column(issues, 'date')).toEqual([
      '',
      '1879-12-20',
      '1879-12-24',
      '1879-12-27',
      '1879-12-31',
      '1880-01-03',
      '1880-01-07',
      '1880-01-10',
    ]);
    expect(column(issues, 'pages')).toEqual(['t,_', '1-2,x2,3-4', '', '', '1-4', '', '', '']);
    expect(column(issues, 'published').slice(0, 3)).toEqual(['', '', 'no']);
    expect(column(issues, 'date printed')[1]).toBe('1879-12-02');
    const json = (file: string) => {
      const { stdout } = reeltally(['collation', 'convert', file, '--to', 'json', '--quiet']);
      return settledRecord(JSON.parse(stdout) as CollationRecord);
    };
    // Settled: what an empty cell means is written out.
    expect(json(path).reels[0]?.frames).toEqual(json(old).reels[0]?.frames);
    expect(json(path).reels[0]?.absent?.[0]).toMatchObject({ date: '1879-12-24', published: 'no', note: 'strike' });
    // A weekday that was left beside a day that was changed is told.
    const csv = join(folder, 'csv', 'record.csv');
    reeltally(['collation', 'new', '--from', old, '--pattern', 'wed,sat', '--pages', '4', '--out', csv]);
    writeFileSync(csv, readFileSync(csv, 'utf8').replace("'1879-12-31,Wednesday", "'1879-12-30,Wednesday"));
    expect(reeltally(['collation', 'read', csv]).stderr).toContain('"Wednesday" beside 1879-12-30, a Tuesday, does not belong to that day');
  });

  it('lets a gap count on the days of the paper alone', () => {
    const folder = newFolder();
    const old = join(folder, 'old.csv');
    writeFileSync(
      old,
      'reel,first frame,title,date,date to,pages,published\n00417,1,sn99018200,1879-12-20,,1-4,\n,,sn99018200,1879-12-24,1880-01-03,,yes\n',
    );
    writeFileSync(join(folder, 'titles.csv'), 'id,days\nsn99018200,wed sat\n');
    const args = ['collation', 'new', '--from', old, '--to-day', '1880-01-10', '--pages', '4', '--quiet'];
    const page = reeltally([...args, '--format', 'html']).stdout;
    // 24, 27 and 31 December, 3 January; 7 and 10 January are still open.
    expect(page.match(/<td class="on wanting">/g)).toHaveLength(4);
    expect(page.match(/<td class="on open">/g)).toHaveLength(2);
    const path = join(folder, 'new', 'record.xlsx');
    expect(reeltally([...args, '--out', path]).status).toBe(0);
    expect(column(sheetsOf(path).get('issues'), 'date')).toEqual(['1879-12-20', '1879-12-24', '1880-01-07', '1880-01-10']);
    expect(partsOf(path)['xl/worksheets/sheet2.xml']).toContain('SEARCH(B$10,&quot;We Sa&quot;)');
  });

  it('names what a sheet cannot hold, and writes nothing', () => {
    const folder = newFolder();
    writeFileSync(join(folder, 'old.csv'), 'reel,frame,title,date,page,reduction\n00417,1,sn99018200,1879-12-20,1,15x\n');
    const args = ['collation', 'new', '--from', join(folder, 'old.csv'), '--to-day', '1880-01-10', '--pattern', 'sat', '--pages', '1'];
    const refused = reeltally([...args, '--out', join(folder, 'record.xlsx')]);
    expect([refused.status, refused.stderr]).toEqual([
      3,
      expect.stringContaining('reel 00417, frame 1: an issue sheet cannot hold the reduction of a page.'),
    ]);
    expect(reeltally([...args, '--per', 'frame', '--out', join(folder, 'new', 'record.xlsx')]).status).toBe(0);
  });

  it('never writes over a file unasked', () => {
    const path = made(WORDS);
    const before = readFileSync(path);
    const again = reeltally(['collation', 'new', ...WORDS, '--out', path]);
    expect([again.status, again.stderr]).toEqual([3, expect.stringContaining('record.xlsx')]);
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(reeltally(['collation', 'new', ...WORDS, '--out', path, '--replace']).status).toBe(0);
    // The same question gives the same bytes.
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it.each([
    [[...SPAN, '--pages', '4'], '--pattern says on which weekdays'],
    [[...SPAN, '--pages', '4', '--pattern', 'w'], 'which does not say on which days'],
    [[...SPAN, '--pages', '4', '--pattern', 'c sat'], 'names 1 weekdays'],
    [[...SPAN, '--pages', '4', '--pattern', 'wed,whitsun'], 'holds "whitsun", which is not a weekday'],
    [[...SPAN, '--pages', '4', '--pattern', 'wed', '--omit', '31-12'], '--omit "31-12" is not a day'],
    [[...SPAN, '--pattern', 'wed'], '--pages says how many pages'],
    [
      ['--title', 'a', '--from-day', '1879-02-30', '--to-day', '1880-01-01', '--pattern', 'wed', '--pages', '4'],
      '--from-day "1879-02-30" is not a day',
    ],
    [['--title', 'a', '--from-day', '1880-02-03', '--to-day', '1880-01-01', '--pattern', 'wed', '--pages', '4'], 'exchange the two'],
    [
      ['--title', 'a', '--from-day', '1600-02-03', '--to-day', '2100-01-01', '--pattern', 'mon-sun', '--pages', '4'],
      'was another year meant?',
    ],
  ])('says what is missing or wrong: %j', (args, says) => {
    const { status, stderr } = reeltally(['collation', 'new', ...args, '--out', join(newFolder(), 'record.xlsx')]);
    expect([status, stderr]).toEqual([3, expect.stringContaining(says)]);
  });
});

describe('mistakes in what was asked for', () => {
  const args = ['--from-day', '1.1.1879', '--to-day', '1880-12-31', '--pattern', 'sometimes', '--pages', 'four', '--per', 'week'];

  it('are told all at once', () => {
    const { status, stderr } = reeltally(['collation', 'new', ...args, '--out', join(newFolder(), 'record.xlsx')]);
    expect(status).toBe(3);
    for (const says of ['--title names the title', '--from-day "1.1.1879"', '--pages "four"', '--pattern "sometimes"', '--per is issue'])
      expect(stderr).toContain(says);
  });

  it('are told with those of the old record', () => {
    const old = join(newFolder(), 'old.csv');
    writeFileSync(old, 'reel,frame,title,date,page\n14,x,x1,1879-02-30,1\n');
    const { status, stderr } = reeltally(['collation', 'new', '--from', old, ...args, '--out', join(newFolder(), 'record.xlsx')]);
    expect(status).toBe(3);
    for (const says of [
      '"x" is not a frame number',
      '"1879-02-30" is a day that never was',
      '--from-day "1.1.1879"',
      '--pages "four"',
      '--per is issue',
    ])
      expect(stderr).toContain(says);
  });
});
