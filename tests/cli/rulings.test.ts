import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { demoAgreement, demoRecord, demoReturn } from '../forge/demonstration.js';
import { newFolder, reeltally } from './command.js';

const place = newFolder();
const file = (name: string, content: string): string => {
  const path = join(newFolder(), name);
  writeFileSync(path, content);
  return path;
};
const record = file('record.json', JSON.stringify(demoRecord()));
const agreement = file('agreement.json', JSON.stringify(demoAgreement()));
const { files, plan } = demoReturn('faulty');
const batch = join(place, plan.batch);
for (const one of files) {
  mkdirSync(dirname(join(batch, one.path)), { recursive: true });
  writeFileSync(join(batch, one.path), one.text);
}
const verify = (...more: string[]) =>
  reeltally(['verify', '--collation', record, '--batch', batch, '--agreement', agreement, '--at', '2031-03-04T10:00:00Z', ...more]);
const result = (...more: string[]): Findings => JSON.parse(verify('--format', 'json', ...more).stdout) as Findings;
const plain = result();
const ids = plain.findings.map(({ id }) => id);
const csv = (...rows: string[]): string => file('rulings.csv', ['id;decision;note;by;on', ...rows].join('\n'));
const remarks = (one: Findings): string => one.run.remarks.join('\n');

describe('what the vendor sends back', { timeout: 300_000 }, () => {
  const rows = parse<Record<string, string>>(verify('--format', 'csv').stdout, { bom: true, columns: true });

  it('turns no refusal into an acceptance, whatever was typed into it', () => {
    for (const row of rows)
      Object.assign(row, { decision: 'accept-as-is', by: 'Ada Pell', on: '2031-03-05', 'vendor answer': 'as filmed' });
    const list = file('discrepancies.csv', stringify(rows, { header: true, bom: true }));
    const read = result('--answers', list);
    expect(read.verdict).toEqual(plain.verdict);
    expect(read.findings.map(({ ruling }) => ruling)).toEqual(ids.map(() => null));
    expect(read.findings.map(({ answer }) => answer?.text)).toEqual(ids.map(() => 'as filmed'));
    expect(remarks(read)).toContain(
      'the column "decision" is not read, because only the library\'s own file rules: row 2 ("accept-as-is")',
    );
    expect(verify('--rulings', list)).toMatchObject({ status: 3, stdout: '' });
  });

  it('is read after it was sorted, columns were taken out and lines put above, and rows that are gone are named', () => {
    const kept = rows
      .slice(2)
      .reverse()
      .map((row, at) => [row.finding ?? '', at === 0 ? 'mended' : '', at === 0 ? '2' : '', row['what is wrong'] ?? '']);
    const list = file(
      'answers.csv',
      stringify([
        ['Skerry Imaging', '', '', ''],
        ['', '', '', ''],
        ['Finding', 'VENDOR ANSWER', 'Fixed in delivery', 'what is wrong'],
        ...kept,
      ]),
    );
    const read = result('--answers', list);
    expect(read.findings.filter(({ answer }) => answer !== null).map(({ id, answer }) => [id, answer])).toEqual([
      [rows.at(-1)?.finding, { text: 'mended', fixedIn: '2', on: '' }],
    ]);
    expect(remarks(read)).toContain(
      `The list came back without the rows of ${rows
        .slice(0, 2)
        .map((row) => `${row.finding ?? ''} ("${row['what is wrong'] ?? ''}")`)
        .join(', ')}: they were looked for all the same.`,
    );
    expect(read.verdict).toEqual(plain.verdict);
  });

  it('has columns for answers alone', () => {
    const heads = Object.keys(rows[0] ?? {});
    expect(heads).toEqual(expect.arrayContaining(['vendor answer', 'answered on', 'fixed in delivery']));
    const fresh = verify('--format', 'csv').stdout.split('\r\n')[0] ?? '';
    for (const head of ['decision', 'note', 'by', 'on']) expect(fresh).not.toContain(`"${head}"`);
  });
});

describe('a ruling', { timeout: 300_000 }, () => {
  it('without a name or a day does not count, and that is said', () => {
    const read = result(
      '--rulings',
      csv(`${ids[0]!};accept-as-is;;;2031-03-05`, `${ids[1]!};accept-as-is;;Ada Pell;`, `${ids[2]!};;;Ada Pell;`),
    );
    expect(read.findings.slice(0, 3).map(({ ruling }) => ruling)).toEqual([null, null, null]);
    expect(remarks(read)).toContain(`row 2: the ruling accept-as-is on ${ids[0]!} does not count: it has no name.`);
    expect(remarks(read)).toContain(`row 3: the ruling accept-as-is on ${ids[1]!} does not count: it has no day.`);
    expect(remarks(read)).toContain(`row 4: ${ids[2]!} has no decision, so nothing is ruled here.`);
  });

  it('of several files counts where they agree, and where they disagree neither does', () => {
    const first = csv(`${ids[0]!};accept-as-is;;Ada Pell;2031-03-05`, `${ids[1]!};accept-as-is;seen;Ada Pell;2031-03-05`);
    const second = csv(
      `${ids[0]!};vendor-corrects;;Bo Ferrin;2031-03-06`,
      `${ids[1]!};accept-as-is;later;Bo Ferrin;2031-03-07`,
      'gone-1;accept-as-is;;Bo Ferrin;2031-03-06',
    );
    const read = result('--rulings', first, second);
    expect(read.findings[0]?.ruling).toBeNull();
    expect(read.findings[1]?.ruling).toEqual({ decision: 'accept-as-is', note: 'later', by: 'Bo Ferrin', on: '2031-03-07' });
    expect(remarks(read)).toMatch(
      /is ruled accept-as-is by Ada Pell on 2031-03-05 \(.+\) and vendor-corrects by Bo Ferrin on 2031-03-06 \(.+\)\. Neither counts/,
    );
    expect(remarks(read)).toContain('The ruling on gone-1 (accept-as-is, Bo Ferrin on 2031-03-06) meets no finding any more.');
    // nor does one that was made before the two disagreed
    const earlier = file('findings.json', JSON.stringify(read.findings.length > 0 ? result('--rulings', first) : read));
    const next = result('--earlier', earlier, '--rulings', first, second);
    expect(next.findings.find(({ id }) => id === ids[0])?.ruling).toBeNull();
  });

  it("that the vendor corrects makes the finding the vendor's, whichever side was likelier wrong", () => {
    const own = plain.findings.find(({ cause, severity }) => cause !== 'film' && severity === 'critical')!;
    const rest = ids.filter((id) => id !== own.id).map((id) => `${id};accept-as-is;;Ada Pell;2031-03-05`);
    expect(result('--rulings', csv(...rest, `${own.id};vendor-corrects;;Ada Pell;2031-03-05`)).verdict.decision).toBe('return-for-rework');
  });
});

describe('rulings.xlsx', { timeout: 300_000 }, () => {
  const out = join(place, 'results');

  it('stands beside the results, blank to fill', () => {
    verify('--out', out);
    const [sheet] = readXlsx(readFileSync(join(out, 'rulings.xlsx')), 'rulings.xlsx');
    expect(sheet?.headers).toEqual(['id', 'frames', 'says', 'decision', 'note', 'by', 'on']);
    expect(sheet?.rows.map(({ cells }) => cells[0])).toEqual(ids);
    expect(sheet?.rows.map(({ cells }) => (cells[3] ?? '') + (cells[5] ?? ''))).toEqual(ids.map(() => ''));
  });

  it('counts when it was filled, and keeps what was written when the results are written again', async () => {
    const [sheet] = readXlsx(readFileSync(join(out, 'rulings.xlsx')), 'rulings.xlsx');
    const path = join(out, 'rulings.xlsx');
    const cells = sheet!.rows.map((row, at) =>
      sheet!.headers.map(
        (_, column) => (at === 0 ? ['accept-as-is', '1-2', 'Ada Pell', '2031-03-05'][column - 3] : undefined) ?? row.cells[column] ?? '',
      ),
    );
    cells.push(['gone-1', 'reel 1', 'It was so.', 'accept-as-is', '', 'Ada Pell', '2031-03-05']);
    writeFileSync(path, await writeTables([{ name: 'rulings', heads: sheet!.headers, rows: cells }]));
    expect(result('--rulings', path).findings.find(({ id }) => id === ids[0])?.ruling).toEqual({
      decision: 'accept-as-is',
      note: '1-2',
      by: 'Ada Pell',
      on: '2031-03-05',
    });
    expect(verify('--out', out, '--replace').status).toBe(1);
    const [again] = readXlsx(readFileSync(path), 'rulings.xlsx');
    expect(again?.rows[0]?.cells.slice(3)).toEqual(['accept-as-is', '1-2', 'Ada Pell', '2031-03-05']);
    expect(again?.rows.at(-1)?.cells).toEqual(['gone-1', 'reel 1', 'It was so.', 'accept-as-is', '', 'Ada Pell', '2031-03-05']);
  });

  it('is not written over where it cannot be read', () => {
    writeFileSync(join(out, 'rulings.xlsx'), 'no workbook');
    const { status, stderr } = verify('--out', out, '--replace');
    expect(status).toBe(3);
    expect(stderr).toContain('The rulings in it would be lost by writing the results again.');
  });
});
