import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { XmlDocument, XmlElement } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { readWorkbook } from '../../src/read/workbook/index.js';
import { LIST_COLUMNS, listRows } from '../../src/report/discrepancies.js';
import { render } from '../../src/report/index.js';
import { renderRulings } from '../../src/report/rulings-sheet.js';
import { CELL_LIMIT, shownText, storedText } from '../../src/report/xlsx/cell-text.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { EXAMPLE } from './example.js';
import { HOSTILE, HOSTILE_RESULT, STEERING } from './hostile.js';

const bytesOf = async (result: Findings): Promise<Buffer> => Buffer.from(await render(result, 'xlsx'));
const MAIN = { m: 'http://schemas.openxmlformats.org/spreadsheetml/2006/main' };

/** The parts of a workbook as XML documents of libxml2. */
function partsOf(bytes: Uint8Array): ReadonlyMap<string, string> {
  return new Map(Object.entries(unzipSync(bytes)).map(([name, part]) => [name, Buffer.from(part).toString('utf8')]));
}

/** Values of an XPath of a part. */
function found(part: string | undefined, path: string): readonly string[] {
  using document = XmlDocument.fromString(part ?? '');
  return document.find(path, MAIN).map((node) => node.content);
}

describe('the list for the vendor as a workbook', () => {
  it('asks nothing of the vendor where the library has to look first', () => {
    const [finding] = EXAMPLE.findings;
    if (finding === undefined) throw new Error('The example has no finding.');
    const rowOf = (cause: typeof finding.cause): readonly string[] | undefined =>
      listRows({ ...EXAMPLE, findings: [{ ...finding, cause, ruling: null }] }, 'workbook')[0];
    const at = (head: string): number => LIST_COLUMNS.findIndex((column) => column.head === head);
    expect(rowOf('vendor-metadata')?.[at('what to do')]).toBe(finding.instruction);
    expect(rowOf('collation')?.[at('what to do')]).toBe('Nothing yet: the library looks at this first and will say what is to be done.');
    expect(rowOf('collation')?.[at('in your files')]).toBe('');
    expect(rowOf('collation')?.[at('who acts')]).toMatch(/^library/);
  });

  it('holds the texts of the list, one row for each thing to do', async () => {
    const [cover, list] = readXlsx(await bytesOf(EXAMPLE), 'x.xlsx');
    expect(list).toMatchObject({ sheet: 'discrepancies', headers: LIST_COLUMNS.map(({ head }) => head), problems: [], warnings: [] });
    expect(list?.rows.map(({ cells }) => cells)).toEqual(listRows(EXAMPLE, 'workbook'));
    expect(cover?.sheet).toBe('about this list');
    const lines = new Map(cover?.rows.map(({ cells }) => [cells[0] ?? '', cells[1] ?? '']));
    expect(lines.get('Batch')).toBe('batch_vzx_pilot');
    expect(lines.get('Delivery')).toBe('2');
    expect(lines.get('Verdict')).toBe('Return for rework');
    expect(lines.get('Rows in the list')).toBe('5: 2 critical, 2 major, 1 minor');
    expect(lines.get('For the vendor to do')).toBe('3');
    expect(lines.get('How to answer it')).toContain('"vendor answer"');
  });

  it('has a row for every step in the files of the vendor on a sheet of its own, which a row with too many names', async () => {
    const [first] = EXAMPLE.findings;
    const step = { do: 'set', element: 'pageModsBib1', field: 'date', from: '1874-09-02', to: '1879-09-02' } as const;
    const repair = ['24', '26', '28', '30', '32'].map((frame) => ({ ...step, document: `a/${frame}.xml`, frame }));
    const sheets = readXlsx(await bytesOf({ ...EXAMPLE, findings: [{ ...first!, repair }] }), 'x.xlsx');
    const steps = sheets.find(({ sheet }) => sheet === 'all steps');
    expect(steps?.headers).toEqual(['for finding', 'file', 'element', 'your frame number', 'what to do']);
    expect(steps?.rows.map(({ cells }) => cells)).toEqual(
      repair.map(({ document, frame }) => [first!.id, document, 'pageModsBib1', frame, 'date 1874-09-02 becomes 1879-09-02']),
    );
    const list = sheets.find(({ sheet }) => sheet === 'discrepancies');
    expect(list?.rows[0]?.cells[list.headers.indexOf('in your files')]).toMatch(/ \| and 2 more on the sheet "all steps"$/);
    const none = readXlsx(await bytesOf({ ...EXAMPLE, findings: [{ ...first!, repair: [] }] }), 'x.xlsx');
    expect(none.map(({ sheet }) => sheet)).not.toContain('all steps');
  });

  it('leaves out what the list as CSV leaves out', async () => {
    const ruling = { decision: 'collation-wrong', note: '', by: 'Ada Pell', on: '1926-01-13' };
    const ruled: Findings = { ...EXAMPLE, findings: EXAMPLE.findings.map((one) => (one.cause === 'collation' ? { ...one, ruling } : one)) };
    const ids = readXlsx(await bytesOf(ruled), 'x.xlsx')[1]?.rows.map(({ cells }) => cells.at(-1));
    expect(ids).toHaveLength(4);
    expect(ids).not.toContainEqual(expect.stringContaining('page-not-in-collation'));
  });

  it('has only cells of text in the format for text, and no formula', async () => {
    for (const result of [EXAMPLE, HOSTILE_RESULT]) {
      const { sheets } = readWorkbook(await bytesOf(result), 'x.xlsx');
      const cells = sheets.flatMap(({ rows }) => rows.flatMap((row) => row.cells));
      expect(cells.length).toBeGreaterThan(90);
      expect(cells.filter(({ kind, format, formula }) => kind !== 'text' || format !== '@' || formula !== null)).toEqual([]);
    }
  });

  it('can be filled in: columns stay text, heads stay in sight, are filtered and repeated in print, nothing is to be decided in it', async () => {
    const parts = partsOf(await bytesOf(EXAMPLE));
    const sheet = parts.get('xl/worksheets/sheet2.xml');
    const style = found(sheet, '//m:cols/m:col/@style');
    expect(style).toHaveLength(LIST_COLUMNS.length);
    // Number 49 is `@` (ECMA-376 part 1, section 18.8.30).
    const formats = found(parts.get('xl/styles.xml'), '//m:cellXfs/m:xf/@numFmtId');
    expect(new Set(formats)).toEqual(new Set(['49']));
    expect(new Set(style).has('0')).toBe(false);
    expect(found(sheet, '//m:pane[@state="frozen"]/@ySplit')).toEqual(['1']);
    expect(found(sheet, '//m:autoFilter/@ref')).toEqual(['A1:N6']);
    expect(found(sheet, '//m:pageSetup/@orientation')).toEqual(['landscape']);
    // one page wide and as many long as it takes
    expect(found(sheet, '//m:pageSetup/@fitToWidth')).toEqual(['1']);
    expect(found(sheet, '//m:pageSetup/@fitToHeight')).toEqual(['0']);
    expect(found(sheet, '//m:dataValidation/@sqref')).toEqual([]);
    expect(LIST_COLUMNS.map(({ head }) => head)).not.toContain('decision');
    const rulings = partsOf(await renderRulings(EXAMPLE)).get('xl/worksheets/sheet1.xml');
    expect(found(rulings, '//m:dataValidation/m:formula1')).toEqual(['"vendor-corrects,accept-as-is,collation-wrong"']);
    expect(found(rulings, '//m:dataValidation/@sqref')).toEqual(['D2:D6']);
    expect(found(parts.get('xl/workbook.xml'), '//m:definedName[@name="_xlnm.Print_Titles"]')).toEqual([
      "'discrepancies'!$A:$A,'discrepancies'!$1:$1",
    ]);
  });

  it('writes the elements of a sheet in the order of the standard', async () => {
    // CT_Worksheet, ECMA-376 part 1, annex A.2 (from memory).
    const ORDER = [
      'sheetPr',
      'dimension',
      'sheetViews',
      'sheetFormatPr',
      'cols',
      'sheetData',
      'sheetProtection',
      'autoFilter',
      'mergeCells',
      'conditionalFormatting',
      'dataValidations',
      'hyperlinks',
      'printOptions',
      'pageMargins',
      'pageSetup',
      'headerFooter',
      'drawing',
    ];
    const parts = partsOf(await bytesOf(EXAMPLE));
    for (const name of ['xl/worksheets/sheet1.xml', 'xl/worksheets/sheet2.xml']) {
      using document = XmlDocument.fromString(parts.get(name) ?? '');
      const names = document.find('/m:worksheet/*', MAIN).map((node) => (node instanceof XmlElement ? node.name : ''));
      expect(names).toEqual(ORDER.filter((one) => names.includes(one)));
    }
  });

  it('has the same bytes whenever it is written', async () => {
    const first = await bytesOf(EXAMPLE);
    await new Promise((resolve) => setTimeout(resolve, 2100));
    expect((await bytesOf(EXAMPLE)).equals(first)).toBe(true);
  });

  it('is made of well-formed parts whatever the texts, in the eyes of another reader', async () => {
    for (const part of partsOf(await bytesOf(HOSTILE_RESULT)).values()) {
      using document = XmlDocument.fromString(part);
      expect(document.root.name).not.toBe('');
    }
  });

  it('can be empty', async () => {
    const [, list] = readXlsx(await bytesOf({ ...EXAMPLE, findings: [] }), 'x.xlsx');
    expect(list?.rows).toEqual([]);
  });
});

describe('hostile text in the workbook', () => {
  it('is seen and does nothing', async () => {
    const [, list] = readXlsx(await bytesOf(HOSTILE_RESULT), 'x.xlsx');
    expect(list?.rows).toHaveLength(HOSTILE_RESULT.findings.length);
    const texts = list?.rows.flatMap(({ cells }) => cells) ?? [];
    expect(texts.filter((text) => STEERING.test(text))).toEqual([]);
    // The cells are text, so that nothing needs a mark in front.
    for (const name of ['formula', 'dde', 'zeros', 'prototype', 'markup']) expect(texts).toContain(HOSTILE[name]);
    expect(texts).toContain('end \\u{fffe} \\u{ffff}');
  });

  it('that is longer than a cell is cut, and says so', () => {
    expect(shownText('9'.repeat(CELL_LIMIT))).toBe('9'.repeat(CELL_LIMIT));
    for (const long of ['9'.repeat(40_000), '\u0000'.repeat(20_000), '𝔸'.repeat(30_000), `${'x'.repeat(32_726)}${'𝔸'.repeat(30)}`]) {
      const cut = shownText(long);
      expect(cut.length).toBeLessThanOrEqual(CELL_LIMIT);
      expect(cut).toMatch(/ … \(cut, \d+ characters\)$/);
      expect(cut).not.toMatch(/\p{Cs}/u);
    }
  });
});

describe('a text in a cell', () => {
  const anyText = fc
    .array(
      fc.oneof(
        fc.string({ unit: 'binary' }),
        fc.string({ unit: fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code)) }),
        fc.constantFrom(
          '_x000D_',
          '_x',
          '005F_',
          '_x005F_x0041_',
          'constructor',
          '__proto__',
          'toString',
          '\r\n',
          ' ',
          "'",
          '\ufffd',
          '\u{1fffe}',
          '\u0085',
        ),
      ),
      { minLength: 1, maxLength: 4 },
    )
    .map((pieces) => pieces.join(''))
    .filter((text) => text !== '');

  it('comes back to the letter, halves of pairs and controls too', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(anyText, { minLength: 1, maxLength: 20 }), async (texts) => {
        const bytes = Buffer.from(await writeTables([{ name: 'a', heads: ['head'], rows: texts.map((text) => [text]) }]));
        const cells = readWorkbook(bytes, 'x.xlsx').sheets[0]?.rows.flatMap((row) => row.cells.map(({ value }) => value));
        expect(cells).toEqual(['head', ...texts]);
      }),
      { seed: 1888, numRuns: 150 },
    );
  });

  it.each([
    // ECMA-376 part 1, section 22.9.2.19 (ST_Xstring): "_x005F_" stands for the low line of a text that looks like such a group.
    ['a_x000D_b', 'a_x005F_x000D_b'],
    ['a\rb', 'a_x000D_b'],
    ['_x12', '_x12'],
    ['constructor', '_x0063_onstructor'],
  ])('%j is stored as %j', (text, stored) => {
    expect(storedText(text)).toBe(stored);
  });
});
