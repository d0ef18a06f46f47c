import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { stringify } from 'csv-stringify/sync';
import { strToU8 } from 'fflate';
import { describe, expect, it } from 'vitest';
import { type AnswerFiles, answersInWords, readAnswerFiles, withAnswers } from '../../src/acts/inputs/answer-files.js';
import { readRulingFiles } from '../../src/acts/inputs/ruling-files.js';
import type { Finding, Findings } from '../../src/model/findings.js';
import { renderCsv } from '../../src/report/csv.js';
import { renderHtml } from '../../src/report/html/index.js';
import { renderText } from '../../src/report/text/index.js';
import { renderXlsx } from '../../src/report/xlsx/index.js';
import { bookOf, packed, rows, text } from '../read/workbook/book-of.js';
import { EXAMPLE } from '../report/example.js';
import { newFolder } from './command.js';

const HEADS = ['finding', 'vendor answer', 'fixed in delivery', 'answered on'];
const [FIRST, SECOND, THIRD] = EXAMPLE.findings.map(({ id }) => id) as [string, string, string];
const flat = (report: string): string => report.replace(/\s+/g, ' ');

async function read(name: string, content: string | Uint8Array): Promise<AnswerFiles> {
  const path = join(newFolder(), name);
  writeFileSync(path, content);
  return readAnswerFiles([path]);
}
const csv = (...lines: readonly (readonly string[])[]) => read('list.csv', stringify([HEADS, ...lines].map((line) => [...line])));
const heads = HEADS.map((head, at) => text(`${'ABCD'[at] ?? ''}1`, head)).join('');
/** A workbook of such cells below the heads; style 1 is the format 14 for days, 2 the format 22 for days with a time (ECMA-376 part 1, 18.8.30). */
const xlsx = (lines: readonly string[], more = '') =>
  read(
    'list.xlsx',
    bookOf({
      sheets: { list: `${rows(heads, ...lines)}${more}` },
      styles: '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="22"/></cellXfs>',
    }),
  );
/** An OpenDocument spreadsheet with one row of such cells behind the finding (OpenDocument 1.3, part 3). */
const ods = (cells: string) => {
  const names = ['office', 'table', 'text'].map((name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name}:1.0"`).join(' ');
  const cell = (says: string): string => `<table:table-cell office:value-type="string"><text:p>${says}</text:p></table:table-cell>`;
  const row = (inner: string): string => `<table:table-row>${inner}</table:table-row>`;
  const content = `<office:document-content ${names}><office:body><office:spreadsheet><table:table table:name="list">${row(HEADS.map(cell).join(''))}${row(cell(FIRST) + cells)}${row(cell(SECOND) + cell('mended'))}</table:table></office:spreadsheet></office:body></office:document-content>`;
  return read('list.ods', packed({ mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': strToU8(content) }));
};
const answered = (answer: Finding['answer']): Findings => ({
  ...EXAMPLE,
  findings: EXAMPLE.findings.map((finding, at) => ({ ...finding, answer: at === 0 ? answer : null })),
});

describe('an answer in a report', () => {
  it('names the delivery in which it is said to be mended, with or without a text', () => {
    for (const render of [renderText, renderHtml]) {
      const says = (answer: Finding['answer']): string => flat(render(answered(answer))).replace(/<\/?b>/g, '');
      expect(says({ text: '', fixedIn: '3', on: '2030-12-30' })).toContain("Vendor's answer of 2030-12-30: fixed in delivery 3");
      expect(says({ text: 'Mended', fixedIn: '3', on: '' })).toContain("Vendor's answer: Mended; fixed in delivery 3");
      expect(says({ text: '', on: '2030-12-30' })).toContain("Vendor's answer of 2030-12-30: nothing but the day");
    }
  });

  it('keeps its line breaks on the way to the vendor and back', async () => {
    const result = answered({ text: 'One page\nwas torn', on: '2030-12-30' });
    for (const report of [renderText(result), renderHtml(result)]) expect(flat(report)).toContain('One page / was torn');
    const lists: readonly [string, string | Uint8Array][] = [
      ['list.csv', renderCsv(result)],
      ['list.xlsx', await renderXlsx(result)],
    ];
    for (const [name, content] of lists) {
      const { answers, remarks } = await read(name, content);
      expect(answers.get(FIRST)).toEqual({ text: 'One page\nwas torn', on: '2030-12-30' });
      expect(remarks).toEqual([]);
    }
    // as a spreadsheet program for Windows writes it (ST_Xstring, ECMA-376 part 1, section 22.9.2.19)
    const { answers } = await xlsx([text('A2', FIRST) + text('B2', 'One page_x000D_\nwas torn')]);
    expect(answers.get(FIRST)?.text).toBe('One page\nwas torn');
  });
});

describe('the day and the delivery of an answer', () => {
  it('are read of a day with a time', async () => {
    // 47847 days from 1899-12-30 on: 2030-12-30, by `date -d '1899-12-30 +47847 days'` of GNU coreutils.
    const book = await xlsx([`${text('A2', FIRST)}${text('B2', 'mended')}<c r="D2" s="2"><v>47847.58680555555</v></c>`]);
    const lists = [book, await csv([FIRST, 'mended', '', '2030-12-30 14:05:00'], [SECOND, 'so', '', '2030-12-30T14:05'])];
    for (const { answers, remarks } of lists) {
      for (const { on } of answers.values()) expect(on).toBe('2030-12-30');
      expect(remarks).toEqual([]);
    }
  });

  it('that cannot be are kept as they are written and told in one remark for each', async () => {
    const ids = EXAMPLE.findings.map(({ id }) => id);
    const days = ['2030-02-30', '12/13/2030', '45000', '-5', '0.5'];
    const deliveries = ['two', 'TRUE', '2.5', '1e+21', '2'];
    const list = await csv(...ids.slice(0, 5).map((id, at) => [id, '', deliveries[at] ?? '', days[at] ?? '']));
    expect([...list.answers.values()].map(({ on, fixedIn }) => [on, fixedIn])).toEqual(days.map((day, at) => [day, deliveries[at]]));
    expect(list.remarks).toHaveLength(2);
    expect(list.remarks.join('\n')).toMatch(
      /to hold the number of a delivery, such as 2; what is not one was kept as it stands: row 2 \("two"\), row 3 \("TRUE"\), row 4 \("2\.5"\), row 5 \("1e\+21"\)\.$/m,
    );
    expect(list.remarks.join('\n')).toMatch(
      /to hold a day such as 2026-01-31; what is not written so was kept as it stands: row 2 \("2030-02-30"\), row 3 \("12\/13\/2030"\), row 4 \("45000"\), row 5 \("-5"\), row 6 \("0\.5"\)\.$/m,
    );
    const book = await xlsx([
      `${text('A2', FIRST)}<c r="C2" t="b"><v>1</v></c><c r="D2" s="1"><v>-5</v></c>`,
      `${text('A3', SECOND)}<c r="C3"><v>1E+21</v></c><c r="D3"><v>45000</v></c>`,
    ]);
    expect(book.remarks.join('\n')).toContain('row 2 ("TRUE"), row 3 ("1E+21").');
    expect(book.remarks.join('\n')).toContain('row 2 ("-5"), row 3 ("45000").');
  });
});

describe('a cell for an answer', () => {
  it('that holds a formula or an error is named and not read, in a list of any kind', async () => {
    const formula =
      '<table:table-cell table:formula="of:=1+1" office:value-type="float" office:value="2"><text:p>2</text:p></table:table-cell>';
    const broken = '<table:table-cell table:formula="of:=cmd|" office:value-type="string"><text:p>Err:509</text:p></table:table-cell>';
    const lists: readonly (readonly [AnswerFiles, string])[] = [
      [
        await xlsx([
          `${text('A2', FIRST)}<c r="B2"><f>cmd|/c calc</f></c><c r="C2"><f>1+1</f></c>`,
          text('A3', SECOND) + text('B3', 'mended'),
        ]),
        'B2 (=cmd|/c calc), C2 (=1+1).',
      ],
      [await xlsx([`${text('A2', FIRST)}<c r="B2" t="e"><v>#REF!</v></c>`, text('A3', SECOND) + text('B3', 'mended')]), 'B2 (#REF!).'],
      [await ods(broken + formula), 'B2 (=cmd|), C2 (=1+1).'],
      [await csv([FIRST, 'Err:509', '#REF!', ''], [SECOND, 'mended', '', '']), 'B2 (Err:509), C2 (#REF!).'],
    ];
    for (const [{ answers, remarks, rows: known }, named] of lists) {
      expect([...answers]).toEqual([[SECOND, { text: 'mended', on: '' }]]);
      expect([...known]).toEqual([FIRST, SECOND]);
      expect(remarks).toHaveLength(1);
      expect(remarks[0]).toMatch(/not read were those that hold a formula or an error: /);
      expect(remarks[0]?.endsWith(named)).toBe(true);
    }
  });

  it('that is merged over several rows answers each of them, and that is said', async () => {
    const line = (row: number, id: string, answer = ''): string => `${text(`A${String(row)}`, id)}${answer}${text(`C${String(row)}`, '3')}`;
    const { answers, remarks } = await xlsx(
      [line(2, FIRST, text('B2', 'done')), line(3, SECOND), line(4, THIRD)],
      '<mergeCells count="1"><mergeCell ref="B2:B3"/></mergeCells>',
    );
    expect([...answers].map(([id, { text: says }]) => [id, says])).toEqual([
      [FIRST, 'done'],
      [SECOND, 'done'],
      [THIRD, ''],
    ]);
    expect(remarks).toEqual([
      expect.stringMatching(/sheet list: cells for answers are merged over several rows; .* each of these rows: B2:B3\.$/),
    ]);
  });
});

describe('a list that came back', () => {
  it('is said on the screen to be answered or not', () => {
    const came = (ids: readonly string[], answered: readonly string[]): string =>
      answersInWords({
        answers: new Map(answered.map((id) => [id, { text: 'done', on: '' }])),
        rows: new Set(ids),
        remarks: [],
        inputs: [],
      });
    expect(came(['a', 'b'], [])).toBe('The list came back with 2 rows, and no answer in it.');
    expect(came(['a'], ['a'])).toBe(
      'The list came back with 1 row, one of them answered. The answer stands beside its finding in every report.',
    );
    expect(came(['a', 'b', 'c'], ['a', 'c'])).toBe(
      'The list came back with 3 rows, 2 of them answered. The answers stand beside their findings in every report.',
    );
  });

  it('without any row is said to be so', async () => {
    const remarks = withAnswers(EXAMPLE, await csv()).run.remarks.join('\n');
    expect(remarks).toContain('The list came back without any row: its one finding was looked for all the same.');
    const first: Findings = { ...EXAMPLE, findings: EXAMPLE.findings.filter(({ status }) => status === undefined) };
    expect(withAnswers(first, await csv()).run.remarks.join('\n')).toContain(
      `without any row: all its ${String(first.findings.length)} findings were looked for all the same.`,
    );
    expect(withAnswers(EXAMPLE, await readAnswerFiles([]))).toEqual(EXAMPLE);
  });

  it('garbled by a program that took its UTF-8 for Windows-1252 is read by its findings, and what happened is said', async () => {
    const garbled = (said: string): string =>
      Buffer.from(said, 'utf8').toString('latin1').replaceAll('\u0080', '€').replaceAll('\u0093', '“');
    const says = garbled('mended – in Ärmel');
    expect(says).toBe('mended â€“ in Ã\u0084rmel');
    for (const { answers, remarks } of [
      await csv([FIRST, says, '', ''], [SECOND, 'größer und später', '', '']),
      await xlsx([text('A2', FIRST) + text('B2', says), text('A3', SECOND) + text('B3', 'größer und später')]),
    ]) {
      expect([answers.get(FIRST)?.text, answers.get(SECOND)?.text]).toEqual([says, 'größer und später']);
      expect(remarks).toEqual([
        expect.stringContaining(
          ': the text of 1 cell is garbled: row 2 has "â€“" for "–". The list is UTF-8, and somebody opened it as Windows-1252 and saved it so.',
        ),
      ]);
    }
  });

  it('whose byte order mark was garbled before its first head is read', async () => {
    const quoted = [HEADS, [FIRST, 'mended', '', '']].map((cells) => cells.map((cell) => `"${cell}"`).join(',')).join('\r\n');
    const asText = await read('list.csv', `ï»¿${quoted}`);
    expect([...asText.answers]).toEqual([[FIRST, { text: 'mended', on: '' }]]);
    expect(asText.remarks).toEqual([expect.stringContaining('list.csv: the file begins with "ï»¿", which is left out: ')]);
    for (const first of ['ï»¿finding', 'ï»¿&quot;finding&quot;', '\ufefffinding']) {
      const cells = [first, ...HEADS.slice(1)].map((head, at) => text(`${'ABCD'[at] ?? ''}1`, head)).join('');
      const book = bookOf({ sheets: { list: rows(cells, text('A2', FIRST) + text('B2', 'mended')) } });
      expect([...(await read('list.xlsx', book)).answers]).toEqual([[FIRST, { text: 'mended', on: '' }]]);
    }
    const again = await read('list.csv', `"ï»¿""finding""",vendor answer,fixed in delivery,answered on\n${FIRST},mended,,\n`);
    expect([...again.answers]).toEqual([[FIRST, { text: 'mended', on: '' }]]);
  });

  it('in CSV that is not UTF-8 is read as Windows-1252, and that is said', async () => {
    const line = Buffer.from(`${HEADS.join(',')}\n${FIRST},gr\u00f6\u00dfer,,\n`, 'latin1');
    const { answers, remarks } = await read('list.csv', line);
    expect(answers.get(FIRST)?.text).toBe('größer');
    expect(remarks).toEqual([expect.stringContaining('the text is read as Windows-1252.')]);
  });

  it('is read where a title stands above its heads, however short', async () => {
    const below = (row: number, cells: readonly string[]): string =>
      cells.map((says, at) => text(`${'ABCD'[at] ?? ''}${String(row)}`, says)).join('');
    const book = bookOf({ sheets: { list: rows(text('A1', 'Skerry Imaging'), below(2, HEADS), below(3, [FIRST, 'mended'])) } });
    for (const { answers } of [
      await read('list.xlsx', book),
      await read('list.csv', `Skerry Imaging\n${HEADS.join(',')}\n${FIRST},mended,,\n`),
    ])
      expect([...answers]).toEqual([[FIRST, { text: 'mended', on: '' }]]);
  });

  it('is refused for what it lacks where a title stands above heads that are others', async () => {
    const book = bookOf({ sheets: { list: rows(text('A1', 'Skerry Imaging'), text('A2', 'finding') + text('B2', 'reply')) } });
    await expect(read('list.xlsx', book)).rejects.toThrow(
      'none of the first rows has the columns of the list of discrepancies; it needs finding, vendor answer, fixed in delivery and answered on. Their names stand best in the first row.',
    );
  });
});

describe('rulings of several files', () => {
  const file = (name: string, ...lines: readonly string[]): string => {
    const path = join(newFolder(), name);
    writeFileSync(path, ['id,decision,note,by,on', ...lines].join('\n'));
    return path;
  };

  it('that decide the same and say other things are told, and the later is kept', async () => {
    const paths = [
      file('a.csv', `${FIRST},accept-as-is,seen on film,Ada Pell,2031-03-05`, `${SECOND},accept-as-is,so,Ada Pell,2031-03-05`),
      file('b.csv', `${FIRST},accept-as-is,,Bo Ferrin,2031-03-05`, `${SECOND},accept-as-is,so,Ada Pell,2031-03-06 10:30`),
    ];
    const { rulings, remarks } = await readRulingFiles(paths, '2031-03-07');
    expect(rulings).toEqual([
      { finding: FIRST, decision: 'accept-as-is', note: 'seen on film', by: 'Ada Pell', on: '2031-03-05' },
      { finding: SECOND, decision: 'accept-as-is', note: 'so', by: 'Ada Pell', on: '2031-03-06' },
    ]);
    expect(remarks).toHaveLength(1);
    expect(remarks[0]).toMatch(
      /is ruled accept-as-is more than once\. Kept: Ada Pell on 2031-03-05 \(.*a\.csv, row 2\), "seen on film"\. Not kept: Bo Ferrin on 2031-03-05 \(.*b\.csv, row 2\), without a note\.$/,
    );
  });

  it('dated later than today are told in one sentence and count', async () => {
    const path = file('a.csv', `${FIRST},accept-as-is,,Ada Pell,2099-01-01`, `${SECOND},accept-as-is,,Ada Pell,2031-03-08`);
    const { rulings, remarks } = await readRulingFiles([path], '2031-03-07');
    expect(rulings).toHaveLength(2);
    expect(remarks).toEqual([
      `A ruling is dated later than the day of this comparison, 2031-03-07; look whether the year is right: ${FIRST} (2099-01-01).`,
    ]);
  });
});

describe('a summary after rulings', () => {
  const ruling = { decision: 'accept-as-is', note: '', by: 'Ada Pell', on: '2031-03-05' } as const;

  it('says how many of the findings that are still open were decided', () => {
    const open = (decided: number): Findings => ({
      ...EXAMPLE,
      corrected: [],
      findings: EXAMPLE.findings.map((finding, at) => ({ ...finding, status: 'open', ruling: at < decided ? ruling : null })),
    });
    const all = String(EXAMPLE.findings.length);
    expect(flat(renderText(open(2)))).toContain(
      `0 corrected, ${all} still open (2 of them decided by the library and no longer counted), 0 new.`,
    );
    expect(flat(renderText(open(0)))).toContain(`0 corrected, ${all} still open, 0 new.`);
  });

  it.each([
    [0, 2, 'the vendor is not charged with these before the library has ruled.'],
    [1, 2, 'the library has ruled on 1 of these, and the vendor is not charged with the other before it has ruled.'],
    [2, 2, 'the library has ruled on all of these.'],
    [1, 1, 'the library has ruled on it.'],
  ])('says of the findings that rest on doubts whether the library has ruled: %i of %i', (ruled, resting, says) => {
    const item: Findings['record'][number] = {
      id: 'date-jump:00417:41',
      code: 'date-jump',
      severity: 'major',
      says: 'The date jumps.',
      likely: null,
      reel: '00417',
      frames: { from: '41', to: '41' },
      count: 1,
      title: null,
      date: null,
      edition: null,
      evidence: [],
      places: [],
      explained: null,
    };
    const result: Findings = {
      ...EXAMPLE,
      record: [item],
      findings: EXAMPLE.findings.map((finding, at) => ({
        ...finding,
        ...(at < resting ? { doubts: [item.id] } : {}),
        ruling: at < ruled ? ruling : null,
      })),
    };
    for (const report of [renderText(result), renderHtml(result)]) expect(flat(report)).toContain(says);
  });
});
