import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import { newFolder, reeltally, shell } from './command.js';

const OWN = 'Exp.,Paper,Date,Page\n1,Beacon,18/1/1899,1\n2,Beacon,18/1/1899,2\n';
const OURS = 'frame,title,date,page\n1,tv1,1899-01-18,1\n';

function sheet(text: string | Buffer, name = 'reel-14.csv'): string {
  const path = join(newFolder(), name);
  writeFileSync(path, text);
  return path;
}

const readingOf = (path: string): ReadingFile => JSON.parse(readFileSync(path.replace(/\.csv$/, '.reading.json'), 'utf8')) as ReadingFile;

describe('collation read', () => {
  it('says of a sheet of our form what the record amounts to, and writes nothing', () => {
    const path = sheet(OURS);
    const { status, stdout } = reeltally(['collation', 'read', path]);
    expect([status, stdout]).toEqual([
      0,
      'The record: 1 reel, 1 frame: 1 to deliver, 0 held back. 1 issue of 1899-01-18. Not on the film: nothing is recorded.\n',
    ]);
    expect(existsSync(path.replace('.csv', '.reading.json'))).toBe(false);
  });

  it('prints what is open and ends in 3; no other command reads the sheet until it is answered', () => {
    const path = sheet(OWN);
    const { status, stdout, stderr } = reeltally(['collation', 'read', path]);
    expect(status).toBe(3);
    expect(stdout).toContain('4 questions are open about how the record is read:');
    expect(stdout).toContain('Which identifier, such as an LCCN, has the title "Beacon" (sheet "reel-14", row 2)?');
    expect(stderr).toContain('reel-14.reading.json');
    const convert = reeltally(['collation', 'convert', path, '--to', 'json']);
    expect([convert.status, convert.stdout]).toEqual([3, '']);
    expect(convert.stderr).toContain('reel-14.reading.json still holds 4 open questions about how the record is read.');
  });

  it('takes with --yes what is unmistakable, then the answer that somebody wrote, and refuses one that is none', () => {
    const path = sheet(OWN);
    const yes = reeltally(['collation', 'read', path, '--yes']);
    expect([yes.status, yes.stdout]).toEqual([3, expect.stringContaining('One question is open')]);
    const reading = readingOf(path);
    expect(reading).toMatchObject({ columns: { 'Exp.': { is: 'frame' } }, dates: { order: 'day month year' } });
    const answered = (answer: string): ReadingFile => ({
      ...reading,
      open: (reading.open ?? []).map((question) => ({ ...question, answer })),
    });
    writeFileSync(path.replace('.csv', '.reading.json'), JSON.stringify(answered('sn90000001')));
    const done = reeltally(['collation', 'read', path]);
    expect([done.status, done.stdout]).toEqual([0, expect.stringContaining('2 frames: 2 to deliver')]);
    expect(readingOf(path)).toMatchObject({ titles: { Beacon: 'sn90000001' } });
    expect(readingOf(path).open).toBeUndefined();
    const bad = {
      ...reading,
      open: [{ about: 'order', of: 'dates', asks: 'Which order?', choices: ['day month year'], proposed: null, answer: 'both' }],
    };
    writeFileSync(path.replace('.csv', '.reading.json'), JSON.stringify(bad));
    const refused = reeltally(['collation', 'read', path]);
    expect([refused.status, refused.stderr]).toEqual([
      3,
      expect.stringContaining('"both" does not answer this: Which order? Write day month year.'),
    ]);
  });

  it('asks at once what another likely answer would open, takes what follows, and says which answer was not needed', () => {
    const path = sheet('Exp.,Paper,Date,Page,Art,Was\n1,sn90000001,1899-01-04,1,Seite,gut\n2,sn90000001,1899-01-04,2,Seite,fein\n');
    const first = reeltally(['collation', 'read', path, '--yes']);
    expect(first.stdout).toContain('Only if the column "Was" is kind: What kind of frame is "gut" (sheet "reel-14", row 2)?');
    const reading = readingOf(path);
    const answers: Readonly<Record<string, string>> = { Art: 'kind', Was: 'note', gut: 'blank' };
    const open = (reading.open ?? []).map((question) => ({ ...question, answer: answers[question.of] ?? null }));
    writeFileSync(path.replace('.csv', '.reading.json'), JSON.stringify({ ...reading, open }));
    const second = reeltally(['collation', 'read', path]);
    expect([second.status, second.stdout]).toEqual([0, expect.stringContaining('2 frames: 2 to deliver')]);
    expect(second.stderr).toContain(
      'the answer "blank" is not needed, as what it answers does not arise: Only if the column "Was" is kind',
    );
    expect(readingOf(path)).toMatchObject({ columns: { Art: { is: 'kind' }, Was: { is: 'note' } }, words: { kind: { Seite: 'page' } } });
    expect(readingOf(path).words?.['kind']).not.toHaveProperty('gut');
  });

  it('tells all answers that cannot be taken at once, also where the file has lost what may be answered', () => {
    const path = sheet('Exp.,Paper,Date,Page\n1,sn90000001,4/1/99,1\n2,sn90000001,11/1/99,1\n');
    reeltally(['collation', 'read', path, '--yes']);
    const reading = readingOf(path);
    expect(reading.open?.map(({ about }) => about)).toEqual(['order', 'century']);
    const answers = ['year first', '21'];
    const open = reading.open?.map((question, at) => ({ ...question, choices: [], answer: answers[at] ?? null }));
    writeFileSync(path.replace('.csv', '.reading.json'), JSON.stringify({ ...reading, open }));
    const { status, stderr } = reeltally(['collation', 'read', path]);
    expect(status).toBe(3);
    expect(stderr).toContain('"year first" does not answer this: In which order');
    expect(stderr).toContain('"21" does not answer this: Of which century');
    expect(stderr).toContain('Write 16, 17, 18, 19 or 20.');
  });

  it('asks on a terminal, where Enter takes what is proposed, and keeps what was answered when the input ends', () => {
    const path = sheet(OWN);
    // script(1) of util-linux gives the command a terminal; --return hands on its status.
    const typed = (text: string) =>
      shell(
        `(sleep 1; printf '${text}'; sleep 2) | script --quiet --return --command '"$NODE" "$MAIN" collation read "${path}"' /dev/null`,
      );
    const part = typed('maybe\\n\\n\\004');
    expect(part.stdout).toContain('Columns: "Exp." is frame; "Paper" is title');
    expect(part.stdout).toContain('Answer yes or no [yes]:');
    expect(part.stdout).toContain('Which identifier, such as an LCCN, has the title "Beacon"');
    expect([part.status, readingOf(path).columns]).toEqual([3, { 'Exp.': { is: 'frame' }, Paper: { is: 'title' } }]);
    const all = typed('\\nsn90000001\\n');
    expect(all.stdout).toContain('An answer is needed here.');
    expect(all.stdout).toContain('2 frames: 2 to deliver');
    expect([all.status, readingOf(path).titles]).toEqual([0, { Beacon: 'sn90000001' }]);
  });

  it('asks on a terminal one by one what seemed unmistakable and is not so', () => {
    const path = sheet(OWN);
    const all = shell(
      `(sleep 1; printf 'no\\nwhat\\n\\n\\n\\nsn90000001\\n'; sleep 2) | script --quiet --return --command '"$NODE" "$MAIN" collation read "${path}"' /dev/null`,
    );
    expect(all.stdout).toContain('What is the column "Exp."?');
    expect(all.stdout).toContain('That is not one of the answers.');
    expect([all.status, readingOf(path).titles]).toEqual([0, { Beacon: 'sn90000001' }]);
  });

  it('reads UTF-16 and Windows-1252, and says so', () => {
    const wide = reeltally(['collation', 'read', sheet(Buffer.from(`\ufeff${OURS.replaceAll(',', '\t')}`, 'utf16le'))]);
    expect([wide.status, wide.stderr]).toEqual([0, expect.stringContaining('reel-14.csv: the text is read as UTF-16.')]);
    const western = reeltally([
      'collation',
      'read',
      sheet(Buffer.from(`frame,title,date,page,note\n1,tv1,1899-01-18,1,caf\xe9\n`, 'latin1')),
    ]);
    expect([western.status, western.stderr]).toEqual([0, expect.stringContaining('reel-14.csv: the text is read as Windows-1252.')]);
  });

  it('keeps one reading file for the sheets of a folder', () => {
    const folder = newFolder();
    for (const name of ['reel-14.csv', 'reel-15.csv']) writeFileSync(join(folder, name), OWN.replaceAll('Beacon', 'sn90000001'));
    const { status, stdout, stderr } = reeltally(['collation', 'read', folder, '--yes']);
    expect([status, stdout]).toEqual([0, expect.stringContaining('2 reels, 4 frames')]);
    expect(stderr).toContain('record.reading.json');
    expect(reeltally(['collation', 'convert', folder, '--to', 'json', '--quiet']).status).toBe(0);
  });
});
