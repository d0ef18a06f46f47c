import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, reeltally } from './command.js';

// An issue sheet as a coordinator types it; the paper is invented.
const ISSUES = `reel;first frame;title;date;date printed;edition;issue number;pages;published;note
14;;;;;;;t,t,_;;
14;4;tv1;1900-01-04;1899-01-04;1;12;"1-2,x2,[3],4(6)";;old year printed
14;;tv1;1900-01-11;;1;13;1-4;;
14;;tv1;1900-01-18;;1;;;no;holiday
`;

/** A folder with the sheet, and the path of the sheet. */
function sheet(text = ISSUES): string {
  const path = join(newFolder(), 'reel-14.csv');
  writeFileSync(path, text);
  return path;
}

const convert = (...args: string[]) => reeltally(['collation', 'convert', ...args]);

describe('collation convert', () => {
  it('goes through every form and comes back to the same record', () => {
    const folder = newFolder();
    const [frames, issues] = [join(folder, 'frames'), join(folder, 'issues')];
    const first = convert(sheet(), '--to', 'json');
    expect(first).toMatchObject({ status: 0, stderr: expect.stringMatching(/^The record: 1 reel, \d+ frames: /) as string });
    const json = join(folder, 'record.json');
    writeFileSync(json, first.stdout);
    expect(convert(json, '--to', 'frame-sheet', '--out', frames)).toMatchObject({
      status: 0,
      stdout: '',
      stderr: expect.stringContaining(`Written to ${frames}: frames.csv, titles.csv, reels.csv.\n`) as string,
    });
    expect(convert(frames, '--to', 'issue-sheet', '--out', issues)).toMatchObject({ status: 0 });
    expect(readdirSync(issues).toSorted()).toEqual(['issues.csv', 'reels.csv', 'titles.csv']);
    expect(convert(issues, '--to', 'json').stdout).toBe(first.stdout);
  });

  it('prints JSON that carries its format', () => {
    const { stdout } = convert(sheet(), '--to', 'json');
    expect(JSON.parse(stdout)).toMatchObject({
      format: 'reeltally/collation-record/2',
      titles: [{ id: 'tv1' }],
      reels: [{ number: '14' }],
    });
  });

  it('reads the column heads of the library by the reading file beside and says what it keeps as a note', () => {
    const own = sheet('Rolle,Bild,title,date,page,Farbe\n14,1,tv1,1900-01-04,1,sepia\n');
    writeFileSync(
      own.replace('.csv', '.reading.json'),
      JSON.stringify({ format: 'reeltally/reading/1', columns: { Rolle: { is: 'reel' }, Bild: { is: 'frame' } } }),
    );
    const { status, stdout, stderr } = convert(own, '--to', 'json');
    expect(status).toBe(0);
    expect(stderr).toBe(
      [
        'reeltally: reel-14.csv: the column "Farbe" means nothing here and is kept as a note.',
        'The record: 1 reel, 1 frame: 1 to deliver, 0 held back. 1 issue of 1900-01-04. Not on the film: nothing is recorded.\n',
      ].join('\n'),
    );
    expect(stdout).toContain('"note": "Farbe: sepia"');
    expect(convert(own, '--to', 'json', '--quiet').stderr).toBe('');
  });

  it('names every mistake of the record with its place and writes nothing', () => {
    const out = join(newFolder(), 'out');
    const { status, stdout, stderr } = convert(
      sheet(ISSUES.replace('1-4;;', '4-Jan;;').replace('1900-01-18', '18.1.1900')),
      '--to',
      'frame-sheet',
      '--out',
      out,
    );
    expect(status).toBe(3);
    expect(stdout).toBe('');
    expect(stderr).toContain(
      'reel-14.csv, row 4, column pages: "4-Jan" (1-4 or 4-1?) is probably a label that a spreadsheet program turned into a date.',
    );
    expect(stderr).toContain('reel-14.csv, row 5, column date: "18.1.1900" looks like a date as a spreadsheet program shows it');
    expect(() => readdirSync(out)).toThrow('ENOENT');
  });

  it('refuses by name what an issue sheet cannot hold', () => {
    const out = join(newFolder(), 'out');
    const reduced = sheet('reel,frame,title,date,page,reduction\n14,1,tv1,1900-01-04,1,15x\n');
    const { status, stderr } = convert(reduced, '--to', 'issue-sheet', '--out', out);
    expect(status).toBe(3);
    expect(stderr).toContain(
      'An issue sheet cannot hold this record as it is; nothing was written:\n  reel 14, frame 1: an issue sheet cannot hold the reduction of a page.\n',
    );
    expect(() => readdirSync(out)).toThrow('ENOENT');
  });

  it('neither writes over files unasked nor mixes two forms in one folder', () => {
    const out = newFolder();
    writeFileSync(join(out, 'titles.csv'), 'mine');
    const again = convert(sheet(), '--to', 'frame-sheet', '--out', out);
    expect(again.status).toBe(3);
    expect(again.stderr).toContain('already holds results (titles.csv)');
    expect(readFileSync(join(out, 'titles.csv'), 'utf8')).toBe('mine');
    expect(convert(sheet(), '--to', 'frame-sheet', '--out', out, '--replace').status).toBe(0);
    const mixed = convert(out, '--to', 'json', '--out', out, '--replace');
    expect(mixed.status).toBe(3);
    expect(mixed.stderr).toContain('holds the record in another form (frames.csv, reels.csv, titles.csv)');
  });

  it.each([
    [[], 'required option'],
    [['--to', 'xml'], '"xml" is none of them'],
    [['--to', 'frame-sheet'], 'name a folder for them with --out'],
  ])('cannot run with %j', (options, says) => {
    const { status, stderr } = convert(sheet(), ...options);
    expect(status).toBe(3);
    expect(stderr).toContain(says);
  });

  it('cannot run on a folder without a record', () => {
    const empty = join(newFolder(), 'empty');
    mkdirSync(empty);
    expect(convert(empty, '--to', 'json')).toMatchObject({ status: 3, stdout: '' });
  });
});
