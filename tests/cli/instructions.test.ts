import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, reeltally } from './command.js';

// Columns as a library keeps them; people and paper are invented.
const SHEET = `reel,frame,title,date,page,page printed,order,note,Operator hint,Owner letter
14,1,tv1,1899-01-05,1,,1,,,"asked twice, 900 crowns"
14,2,tv1,1899-01-05,2,7,2,Ilse unsure,gutter is tight,
14,3,tv1,1899-01-05,3,,3,,gutter is tight,<script>alert(1)</script>
`;

/** The sheet with its reading file in a new folder. */
function library(leaves: readonly string[]): string {
  const folder = newFolder();
  writeFileSync(join(folder, 'reel-14.csv'), SHEET);
  const columns = { 'Operator hint': { is: 'note' }, 'Owner letter': { is: 'nothing' } };
  writeFileSync(join(folder, 'reel-14.reading.json'), JSON.stringify({ format: 'reeltally/reading/1', columns, leaves }));
  return join(folder, 'reel-14.csv');
}

const instructions = (...args: string[]) => reeltally(['collation', 'instructions', ...args]);

describe('collation instructions', { timeout: 240_000 }, () => {
  it('writes the sheet to print, the lists, and the record as it is sent', () => {
    const out = join(newFolder(), 'sent');
    const outcome = instructions(library([]), '--out', out);
    expect(outcome).toMatchObject({ status: 0, stdout: '' });
    expect(outcome.stderr).toContain(`Written to ${out}: instructions.html, instructions.xlsx, instructions.csv, sent-record.json.\n`);
    expect(readdirSync(out).sort()).toEqual(['instructions.csv', 'instructions.html', 'instructions.xlsx', 'sent-record.json']);
    const sent = readFileSync(join(out, 'sent-record.json'));
    expect(readFileSync(join(out, 'instructions.html'), 'utf8')).toContain(createHash('sha256').update(sent).digest('hex'));
    expect(readFileSync(join(out, 'instructions.csv'), 'utf8')).toContain('"Frame 2: printed 7, is page 2: give 7, as printed."');
    // What was sent is a record like any other.
    expect(reeltally(['collation', 'convert', join(out, 'sent-record.json'), '--to', 'json']).stdout).toBe(String(sent));
  });

  it("lets no column of the library's own out but those that the reading file names", () => {
    const [shut, open] = [join(newFolder(), 'a'), join(newFolder(), 'b')];
    instructions(library([]), '--out', shut, '--format', 'html,csv');
    instructions(library(['operator hint']), '--out', open, '--format', 'csv');
    const all = readdirSync(shut).map((name) => readFileSync(join(shut, name), 'utf8'));
    for (const secret of ['Ilse', 'gutter', 'crowns', 'script>alert']) for (const text of all) expect(text).not.toContain(secret);
    const list = readFileSync(join(open, 'instructions.csv'), 'utf8');
    expect(list).toContain('"Frames 2 and 3: Operator hint: gutter is tight."');
    for (const secret of ['Ilse', 'crowns']) expect(list).not.toContain(secret);
  });

  it('makes nothing but text of what a cell holds', () => {
    const out = join(newFolder(), 'sent');
    instructions(library(['Owner letter']), '--out', out, '--format', 'html');
    expect(readFileSync(join(out, 'instructions.html'), 'utf8')).toContain('Owner letter: &lt;script&gt;alert(1)&lt;/script&gt;.');
  });

  it('never writes over a record that was sent, but with --replace', () => {
    const out = newFolder();
    writeFileSync(join(out, 'sent-record.json'), 'kept');
    expect(instructions(library([]), '--out', out)).toMatchObject({
      status: 3,
      stderr: `reeltally: ${out} already holds results (sent-record.json). Give another folder with --out, or --replace to write over them.\n`,
    });
    expect(readFileSync(join(out, 'sent-record.json'), 'utf8')).toBe('kept');
    expect(existsSync(join(out, 'instructions.html'))).toBe(false);
    expect(instructions(library([]), '--out', out, '--replace', '--quiet')).toMatchObject({ status: 0, stderr: '' });
  });

  it('refuses a format that there is not', () => {
    expect(instructions(library([]), '--out', newFolder(), '--format', 'pdf')).toMatchObject({
      status: 3,
      stderr: 'reeltally: --format: instructions are written as html, xlsx, csv, and not as pdf.\n',
    });
  });
});
