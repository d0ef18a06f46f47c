import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import type { FixedPlan, SavedDraw, SavedSample } from '../../src/model/sample.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { verified } from '../payment/example.js';
import { newFolder, reeltally, savedResult } from './command.js';

const SEED = '314159265358979323846264';
const DAY = '2031-04-02';
const FINDINGS = savedResult(verified());

const draw = (...args: readonly string[]) => reeltally(['sample', 'draw', FINDINGS, ...args]);
const readJson = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));

/** Draws into a new folder and gives it. */
function drawn(findings: string, ...args: readonly string[]): string {
  const out = join(newFolder(), 'spot');
  const fixed = reeltally(['sample', 'draw', findings, '--fix', '--out', out, '--quiet', '--at', DAY, '--reason', 'a trial', ...args]);
  expect([fixed.status, fixed.stderr]).toEqual([0, '']);
  const { status, stderr } = reeltally(['sample', 'draw', findings, '--seed', SEED, '--out', out, '--quiet', '--at', DAY]);
  expect([status, stderr]).toEqual([0, '']);
  return out;
}

type Rows = string[][];

/** The worksheet of a draw filled in with yes, changed by hand, and saved as a spreadsheet program saves it: plain cells, semicolons. */
function answered(folder: string, change: (rows: Rows, column: (name: string) => number) => Rows = (rows) => rows): string {
  const rows: Rows = parse(readFileSync(join(folder, 'worksheet.csv')), { bom: true });
  const column = (name: string): number => rows[0]!.indexOf(name);
  for (const row of rows.slice(1)) for (let at = column('right date'); at < column('note'); at++) row[at] = 'yes';
  const path = join(newFolder(), 'answers.csv');
  writeFileSync(
    path,
    change(rows, column)
      .map((row) => row.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(';'))
      .join('\n'),
  );
  return path;
}

const judge = (folder: string, worksheet: string, ...args: readonly string[]) =>
  reeltally(['sample', 'judge', join(folder, 'draw.json'), '--worksheet', worksheet, ...args]);
const judged = (folder: string, worksheet: string): SavedSample =>
  JSON.parse(judge(folder, worksheet, '--format', 'json').stdout) as SavedSample;

describe('before a draw', () => {
  it('says what the plan protects against and fixes the list; nothing is drawn without a seed', () => {
    const { status, stdout, stderr } = draw('--plan', 'share', '--at-least', '80', '--percent', '1', '--stated', '2');
    expect([status, stderr]).toEqual([0, expect.stringContaining('Nothing is drawn yet. Fix list and plan with --fix')]);
    expect(stdout).toContain('Reel 00417, delivery 2 of batch_vzx_pilot: a lot of 210 pages');
    expect(stdout).toContain('draw 80 of 210 pages');
    // 2 % of 210 are 5 pages: C(205, 80) / C(210, 80), by the product of the five fractions (130/210) ... (126/206)
    const passes = [0, 1, 2, 3, 4].reduce((product, at) => (product * (130 - at)) / (210 - at), 1);
    expect(stdout).toContain(`passes with a chance of ${(passes * 100).toFixed(2)} %`);
    expect(stdout).toMatch(/List of the lot, SHA-256:\s+[0-9a-f]{64}/);
  });

  it.each([
    [['--plan', 'lottery'], 'there is no plan lottery'],
    [['--plan', 'table', '--limit', '2'], '--limit does not belong to the plan table'],
    [['--plan', 'table', '--level', 'IV'], 'there is no inspection level IV'],
    [['--plan', 'table', '--aql', '3'], 'The acceptance quality limit is "3". The tables have these'],
    [['--plan', 'table', '--severity', 'strict'], 'there is no strict inspection'],
    [['--plan', 'table', '--reduced-agreed'], 'the lots so far are needed with --ledger'],
    [['--limit', '0'], 'The limiting quality is "0"'],
    [['--accept', 'few'], '--accept: few is not a count'],
    [['--unit', 'word'], 'word is none of page, issue'],
    [['--lot', 'box'], 'box is none of reel, batch'],
    [['--reel', '99'], 'no page of a reel 99 came back. There are 00417'],
    [['--extras', 'odd'], 'there is no group odd'],
    [['--seed', SEED], 'name a new folder for the draw'],
    [['--seed', SEED, '--out', join(newFolder(), 'x'), '--batch', '/nowhere'], '/nowhere is not a folder'],
  ])('%j is refused with status 3 and a sentence', (options, sentence) => {
    const { status, stderr } = draw(...options);
    expect([status, stderr]).toEqual([3, expect.stringContaining(sentence)]);
  });

  it('warns of a seed that could be guessed', () => {
    expect(draw('--seed', '1', '--out', join(newFolder(), 'x')).stderr).toContain('The seed "1" could be guessed');
  });
});

describe('a draw', () => {
  const folder = drawn(FINDINGS, '--plan', 'share', '--at-least', '80', '--percent', '1', '--extras', 'ends', 'findings');
  const saved = readJson(join(folder, 'draw.json')) as SavedDraw;

  it('can be made again by anyone from the list and the seed', () => {
    const list = readFileSync(join(folder, 'list.txt'), 'utf8');
    expect(createHash('sha256').update(list).digest('hex')).toBe(saved.listSha256);
    const ids = list.trimEnd().split('\n');
    // the scheme written out once more: SHA-256 of `seed,counter`, modulo the size of the list (R. L. Rivest, 2011)
    const seen = new Set<string>();
    for (let counter = 1; seen.size < 80; counter++) {
      const digest = createHash('sha256')
        .update(`${SEED},${String(counter)}`)
        .digest('hex');
      seen.add(ids[Number(BigInt(`0x${digest}`) % BigInt(ids.length))]!);
    }
    expect(saved.drawn.map(({ id }) => id)).toEqual([...seen]);
  });

  it('keeps what was looked at for a reason apart, with the reason', () => {
    const random = new Set(saved.drawn.map(({ id }) => id));
    expect(saved.extras.length).toBeGreaterThan(0);
    for (const { id, reasons } of saved.extras) expect([random.has(id), reasons.length > 0]).toEqual([false, true]);
    expect(saved.extras.flatMap(({ reasons }) => reasons)).toContain('named by a finding');
  });

  it('gives the same bytes again, and never writes over what is there', () => {
    const again = drawn(FINDINGS, '--plan', 'share', '--at-least', '80', '--percent', '1', '--extras', 'ends', 'findings');
    for (const name of readdirSync(folder)) expect(readFileSync(join(again, name))).toEqual(readFileSync(join(folder, name)));
    const { status, stderr } = draw('--seed', SEED, '--out', folder);
    expect([status, stderr]).toEqual([
      3,
      expect.stringContaining('already holds results (draw.json, worksheet.csv, worksheet.html, worksheet.xlsx)'),
    ]);
  });

  it('takes each reel by itself into a folder of its own, with a draw of its own', () => {
    const result = verified();
    const other = { ...result.reels[0]!, number: '0/418' };
    const out = drawn(savedResult({ ...result, reels: [...result.reels, other] }), '--plan', 'share');
    // what is fixed and drawn for each, and one worksheet for both
    expect(readdirSync(out).toSorted()).toEqual(['reel-00417', 'reel-0_418', 'worksheet.csv', 'worksheet.html', 'worksheet.xlsx']);
    const codes = new Set(
      parse(readFileSync(join(out, 'worksheet.csv')), { bom: true, columns: true }).map((row) => (row as { readonly draw: string }).draw),
    );
    expect(codes.size).toBe(2);
    const [first, second] = ['reel-00417', 'reel-0_418'].map((name) => readJson(join(out, name, 'draw.json')) as SavedDraw);
    expect([first!.seed, second!.seed]).toEqual([`${SEED},00417`, `${SEED},0/418`]);
    expect(first!.drawn.map(({ number }) => number)).not.toEqual(second!.drawn.map(({ number }) => number));
  });
});

describe('list and plan', () => {
  const share = ['--plan', 'share', '--at-least', '80', '--percent', '1'];
  const fix = (out: string, ...args: readonly string[]) => draw('--fix', '--out', out, '--at', '2031-04-02T09:00:00Z', ...args);

  it('are fixed before the seed, with time and name, and both are kept with the draw', () => {
    const out = join(newFolder(), 'spot');
    expect(fix(out, '--plan', 'limiting-quality').stderr).toContain('Now throw dice for at least 24 digits');
    const plan = readJson(join(out, 'plan.json')) as FixedPlan;
    expect([plan.agreed, plan.reason, plan.fixed.at]).toEqual([true, '', '2031-04-02T09:00:00Z']);
    expect(draw('--seed', SEED, '--out', out, '--at', '2031-04-02T10:00:00Z').status).toBe(0);
    const { fixed, thrown, seed, listSha256 } = readJson(join(out, 'draw.json')) as SavedDraw;
    expect({ fixed, thrown, seed, listSha256 }).toEqual({
      fixed: plan.fixed,
      thrown: { at: '2031-04-02T10:00:00Z', by: plan.fixed.by },
      seed: SEED,
      listSha256: plan.listSha256,
    });
  });

  it('of another kind than agreed, or weaker, need a reason, which is kept', () => {
    const out = join(newFolder(), 'spot');
    const refused = fix(out, ...share);
    expect([refused.status, refused.stderr]).toEqual([3, expect.stringContaining('Say why with --reason TEXT')]);
    expect(fix(out, '--limit', '40').status).toBe(3);
    expect(fix(out, ...share, '--reason', 'A first look').status).toBe(0);
    expect(readJson(join(out, 'plan.json'))).toMatchObject({ agreed: false, reason: 'A first look' });
  });

  it('are not changed any more when the seed is given, and another result is not drawn from', () => {
    const out = join(newFolder(), 'spot');
    fix(out);
    expect(draw('--seed', SEED, '--out', out, '--limit', '1').stderr).toContain('--limit: list and plan are fixed in');
    const other = savedResult({ ...verified(), titles: [] });
    expect(reeltally(['sample', 'draw', other, '--seed', SEED, '--out', out]).stderr).toContain(
      'is not the result from which list and plan were fixed',
    );
    expect(draw('--fix', '--seed', SEED, '--out', out).stderr).toContain('--fix and --seed are two steps');
  });

  it('that nobody fixed are drawn from all the same outside a dossier, and that is said', () => {
    const out = join(newFolder(), 'spot');
    expect(draw('--seed', SEED, '--out', out).stderr).toContain('nothing shows that list and plan were fixed before this seed was thrown');
    expect(readdirSync(out)).toContain('list.txt');
    expect(judge(out, answered(out)).stdout.replace(/\s+/g, ' ')).toContain(
      'Nothing shows that list and plan were fixed before the seed was thrown.',
    );
  });

  it('are told beside what can be learned in the time there is', () => {
    const said = draw(...share, '--minutes', '20').stdout.replace(/\s+/g, ' ');
    expect(said).toContain('At 30 seconds for a page there is time for 40 pages in 20 minutes: all of them in this lot.');
    // C(210 - D, 40) / C(210, 40) > 0.05 up to D = 13: computed with whole numbers
    expect(said).toContain('If all of these are right, at most 13 pages of the lot (6.19 %) are wrong, with 95 % certainty.');
    expect(said).toMatch(/The plan takes \d+ minutes of it for this lot: 80 pages/);
    expect(draw('--minutes', '20', '--seconds-per-unit', '60').stdout.replace(/\s+/g, ' ')).toContain('time for 20 pages in 20 minutes');
    expect(draw('--minutes', 'long').stderr).toContain('--minutes: long is no whole number');
    expect(draw('--seconds-per-unit', '60').stderr).toContain('say with --minutes how much time there is');
  });

  it('that cannot reject are told so', () => {
    expect(draw(...share, '--accept', '80').stdout.replace(/\s+/g, ' ')).toContain(
      'This plan cannot reject the lot: it looks at 80 pages and fails only with 81 or more wrong.',
    );
  });
});

describe('an answered worksheet', () => {
  const folder = drawn(FINDINGS, '--plan', 'share', '--at-least', '80', '--percent', '1', '--accept', '1', '--extras', 'ends');
  const wrongIn = (row: number, name: string) => (rows: Rows, column: (name: string) => number) => {
    rows[row]![column(name)] = 'NO';
    rows[row]![column('note')] = "'=blurred";
    return rows;
  };

  it('accepts the lot with no more wrong ones than the plan puts up with, status 0', () => {
    const { status, stdout, stderr } = judge(folder, answered(folder, wrongIn(3, 'legible')), '--by', 'Ada Pell');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^LOT ACCEPTED\n/);
    expect(stdout).toContain('looked at by Ada Pell');
    expect(stdout).toContain('1 of 80 pages looked at is wrong (1.25 %); the lot is accepted.');
    expect(stdout).toContain('both ends are counts that the');
  });

  it('is read from a workbook as from CSV', async () => {
    const [sheet] = readXlsx(readFileSync(join(folder, 'worksheet.xlsx')), 'worksheet.xlsx');
    const at = (name: string): number => sheet!.headers.indexOf(name);
    const rows = sheet!.rows.map(({ cells }, row) =>
      cells.map((text, column) =>
        column < at('right date') || column >= at('note') ? text : row === 2 && column === at('legible') ? 'No' : 'yes',
      ),
    );
    const filled = join(newFolder(), 'answers.xlsx');
    writeFileSync(filled, await writeTables([{ name: 'answers', heads: sheet!.headers, rows }]));
    const fromBook = judged(folder, filled);
    const fromCsv = judged(folder, answered(folder, wrongIn(3, 'legible')));
    expect({ ...fromBook, inputs: [], wrongOnes: [] }).toEqual({ ...fromCsv, inputs: [], wrongOnes: [] });
    expect(fromBook.wrongOnes.map(({ id }) => id)).toEqual(fromCsv.wrongOnes.map(({ id }) => id));
  });

  it('rejects it with more, status 1, says which, and what to widen to', () => {
    const sheet = answered(folder, (rows, column) => wrongIn(9, 'right date')(wrongIn(3, 'legible')(rows, column), column));
    const out = join(newFolder(), 'judged');
    const { status, stderr } = judge(folder, sheet, '--out', out);
    expect([status, stderr]).toEqual([1, expect.stringContaining('2 of 80 pages looked at are wrong')]);
    expect(readdirSync(out).toSorted()).toEqual(['sample.json', 'sample.txt']);
    const sample = readJson(join(out, 'sample.json')) as SavedSample;
    expect(sample.wrongOnes.map(({ questions, note }) => [questions, note])).toEqual([
      [['legible'], '=blurred'],
      [['right-date'], '=blurred'],
    ]);
    // every page of the example stands in one issue: one wrong date is that of all 210
    expect(sample.shared).toMatchObject({
      drawn: 'page',
      pages: { lot: 210, seen: 80, wrong: 80, interval: { low: 210, high: 210 } },
      issues: { lot: 1, seen: 1, wrong: 1, interval: { low: 1, high: 1 } },
    });
    expect(sample.wrongOnes.map(({ codes }) => codes)).toEqual([['image-illegible'], ['image-wrong-page']]);
    expect(sample.widenTo).toEqual(['vz90000001 1899-01-05 edition 1']);
    // what was seen goes to the vendor in his list
    const list = (...more: string[]) => reeltally(['render', FINDINGS, '--format', 'csv', '--sample', join(out, 'sample.json'), ...more]);
    const shown = list();
    expect(shown.status).toBe(0);
    const rows: Rows = parse(shown.stdout, { bom: true });
    const [heads = []] = rows;
    const seen = rows.filter((row) => (row.at(-1) ?? '').startsWith('image-'));
    expect(seen.map((row) => [row[heads.indexOf('severity')], row[heads.indexOf('what is wrong')], row[heads.indexOf('rescan')]])).toEqual([
      ['critical', expect.stringMatching(/^Reel .+, frame \d+: the image cannot be read\.$/), 'yes'],
      ['critical', expect.stringMatching(/^Reel .+, frame \d+: the image is not of the day that the documents say\.$/), 'yes'],
    ]);
    expect(seen.every((row) => row[heads.indexOf('your frame')] !== '')).toBe(true);
    const refused = reeltally(['render', FINDINGS, '--format', 'html', '--sample', join(out, 'sample.json')]);
    expect([refused.status, refused.stderr]).toEqual([3, expect.stringContaining('--format csv, xlsx or xml, and not html')]);
    const other = join(newFolder(), 'findings.json');
    writeFileSync(other, readFileSync(FINDINGS, 'utf8').replace(/"delivery": \d+/, '"delivery": 7'));
    expect(reeltally(['render', other, '--format', 'csv', '--sample', join(out, 'sample.json')])).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('and the result is of delivery 7') as string,
    });
    expect(sample.inputs.map(({ role, name }) => [role, name])).toEqual([
      ['draw', 'draw.json'],
      ['worksheet', 'answers.csv'],
    ]);
    expect(judge(folder, sheet, '--out', out).stderr).toContain('already holds results');
  });

  it('of a second reader is judged with the first, and where they disagree both are named', () => {
    const second = answered(folder, wrongIn(3, 'legible'));
    const named = (path: string, by: string): string => {
      const rows: Rows = parse(readFileSync(path), { delimiter: ';' });
      const out = join(newFolder(), `${by}.csv`);
      writeFileSync(
        out,
        rows
          .map((row, at) => (at === 0 ? row : row.with(row.length - 1, by)).map((one) => `"${one.replaceAll('"', '""')}"`).join(';'))
          .join('\n'),
      );
      return out;
    };
    const { status, stdout } = judge(folder, named(answered(folder), 'Ada Pell'), named(second, 'Bo Rusk'));
    expect(status).toBe(0);
    const said = stdout.replace(/\s+/g, ' ');
    expect(said).toMatch(/Looked at by Ada Pell \(\d+\), Bo Rusk \(\d+\); \d+ by more than one of them\./);
    expect(said).toContain(
      'a question that one of them answers no counts as no until they agree. If all such questions were answered yes, 0 would be wrong and the lot accepted.',
    );
    expect(said).toMatch(/Readers disagree - \S+, legible: yes by Ada Pell; no by Bo Rusk\./);
  });

  it('leaves what was looked at for a reason out of the figures', () => {
    const sample = judged(
      folder,
      answered(folder, (rows, column) => wrongIn(rows.length - 1, 'complete')(rows, column)),
    );
    expect(sample).toMatchObject({ wrong: 0, extras: { wrong: 1 }, outcome: 'accepted', wrongOnes: [{ random: false }] });
  });

  it.each<[string, (rows: Rows, column: (name: string) => number) => Rows, string]>([
    ['an open answer', (rows, at) => ((rows[2]![at('complete')] = ''), rows), 'has no answer to complete. Answer yes or no.'],
    ['another word', (rows, at) => ((rows[2]![at('complete')] = 'maybe'), rows), 'row 3, column complete: "maybe" is not an answer'],
    ['another name', (rows, at) => ((rows[2]![at('unit')] = '00417:999'), rows), 'is called "00417:999", but'],
    ['a row less', (rows) => rows.toSpliced(2, 1), 'was drawn but has no row. Put it back and answer it.'],
    ['a row twice', (rows) => [...rows, rows[2]!], 'stands there twice. Keep one row.'],
    ['another number', (rows, at) => ((rows[2]![at('number')] = '9999'), rows), 'unit 9999'],
    ['no number', (rows, at) => ((rows[2]![at('number')] = 'x'), rows), 'column number: "x" is not a number of a unit'],
    ['another draw', (rows, at) => ((rows[2]![at('draw')] = '0123456789abcdef'), rows), 'it belongs to another draw'],
    ['a column less', (rows, at) => rows.map((row) => row.toSpliced(at('legible'), 1)), 'there is no column "legible"'],
  ])('with %s is refused by name, status 3', (_, change, sentence) => {
    const { status, stdout, stderr } = judge(folder, answered(folder, change));
    expect([status, stdout, stderr]).toEqual([3, '', expect.stringContaining(sentence)]);
  });

  it('of another draw is refused, and so is a draw that was changed afterwards', () => {
    const other = drawn(FINDINGS, '--plan', 'share', '--at-least', '70', '--percent', '1', '--extras', 'none');
    expect(judge(other, answered(folder)).status).toBe(3);
    const saved = readJson(join(folder, 'draw.json')) as SavedDraw;
    const path = join(newFolder(), 'draw.json');
    writeFileSync(path, JSON.stringify({ ...saved, drawn: saved.drawn.toSpliced(0, 1, saved.drawn[1]!) }));
    const { status, stderr } = reeltally(['sample', 'judge', path, '--worksheet', answered(folder)]);
    expect([status, stderr]).toEqual([3, expect.stringContaining('the file of the draw was changed')]);
  });
});

describe('a series of lots', () => {
  const ledger = (lots: readonly object[]): string => {
    const path = join(newFolder(), 'ledger.json');
    writeFileSync(path, JSON.stringify({ format: 'reeltally/ledger/2', lots }));
    return path;
  };
  const good = { accepted: true };
  const bad = { accepted: false };
  const table = (lots: readonly object[], ...args: readonly string[]) =>
    draw('--plan', 'table', '--aql', '1.0', '--level', 'II', '--ledger', ledger(lots), ...args);

  // MIL-STD-105E, 4.7: the rules themselves are tested in tests/sampling/switching.test.ts
  it.each([
    [[], 'normal'],
    [[good, bad, good, bad], 'tightened'],
    [[bad, bad, good, good, good, good, good], 'normal'],
  ])('after %j is inspected on %s', (lots, severity) => {
    expect(table(lots).stdout).toContain(`MIL-STD-105E, level II, ${severity}, AQL 1.0`);
  });

  it('goes to reduced only where that was agreed', () => {
    const ten = Array.from({ length: 10 }, () => good);
    expect(table(ten).stdout).toContain('level II, normal');
    expect(table(ten, '--reduced-agreed').stdout).toContain('level II, reduced');
  });

  it('is stopped after five lots refused on tightened inspection, until it is taken up again', () => {
    const stopped = [bad, bad, bad, bad, bad, bad, bad];
    const { status, stderr } = table(stopped);
    expect([status, stderr]).toEqual([3, expect.stringContaining('inspection is discontinued')]);
    expect(table(stopped, '--resumed').stdout).toContain('level II, tightened');
  });

  it('tells after judging how the next lot is inspected', () => {
    const args = ['--plan', 'table', '--aql', '1.0', '--level', 'II', '--extras', 'none'];
    const folder = drawn(FINDINGS, ...args, '--ledger', ledger([bad]));
    const worst = (rows: Rows, column: (name: string) => number) =>
      rows.map((row, at) => (at === 0 ? row : row.with(column('complete'), 'no')));
    expect(judged(folder, answered(folder)).next).toMatchObject({ severity: 'normal' });
    expect(judged(folder, answered(folder, worst)).next).toMatchObject({ severity: 'tightened' });
    expect(judge(folder, answered(folder, worst)).stdout).toContain('The next lot is on tightened inspection.');
    const alone = drawn(FINDINGS, ...args);
    expect(judged(alone, answered(alone)).next).toBeNull();
  });

  it.each([
    ['{}', 'there is no list "lots" in this file'],
    ['{"lots":[{"accepted":"yes"}]}', 'lot 1: "accepted" must be true or false'],
    ['{"lots":[{"accepted":true},{"accepted":true,"resumed":1}]}', 'lot 2: "resumed" must be true or false'],
    ['{"lots":', 'this is not JSON'],
  ])('that is written %s is refused', (text, sentence) => {
    const path = join(newFolder(), 'ledger.json');
    writeFileSync(path, text);
    const { status, stderr } = draw('--plan', 'table', '--ledger', path);
    expect([status, stderr]).toEqual([3, expect.stringContaining(sentence)]);
  });
});

describe('issues as units', () => {
  it('are asked what their pages share, and are judged by issue', () => {
    const result: Findings = verified();
    const reels = result.reels.map((reel) => ({
      ...reel,
      frames: reel.frames.map((frame, at) => ({ ...frame, date: `1899-${String(Math.floor(at / 40) + 1).padStart(2, '0')}-05` })),
    }));
    const folder = drawn(savedResult({ ...result, reels }), '--unit', 'issue', '--limit', '50', '--extras', 'none');
    const head = readFileSync(join(folder, 'worksheet.csv'), 'utf8').split('\n')[0]!;
    expect([head.includes('right date'), head.includes('right page')]).toEqual([true, false]);
    expect(existsSync(join(folder, 'worksheet.html'))).toBe(true);
    const sample = judged(folder, answered(folder));
    expect(sample).toMatchObject({ outcome: 'accepted', draw: { unit: 'issue' }, shared: { drawn: 'issue' } });
    // C(6 - 3, 3) / C(6, 3) = 1/20 > 1/40: 3 of the other 3 issues may be wrong, with all the pages that nobody saw
    const { issues, pages } = sample.shared;
    expect([issues.lot, issues.seen, issues.interval]).toEqual([6, 3, { low: 0, high: 3 }]);
    expect([pages.lot, pages.interval]).toEqual([210, { low: 0, high: 210 - pages.seen }]);
  });
});
