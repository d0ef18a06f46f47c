import { describe, expect, it } from 'vitest';
import { UserMistake } from '../../../src/read/mistake.js';
import { readWorkbook } from '../../../src/read/workbook/index.js';
import { type Random, randomFrom } from '../../forge/film/random.js';
import { bookOf } from './book-of.js';

const STYLES =
  '<fonts><font/><font><strike/></font></fonts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="0" fontId="1"/></cellXfs>';
const STRINGS = ['<t>one</t>', '<r><rPr><strike/></rPr><t>old</t></r><r><t>new</t></r>', '<t>_x0041_</t>'];
const VALUES = ['<v>0</v>', '<v>1</v>', '<v>2</v>', '<v>0</v>', '<v>1</v>', '<v>2</v>'];
const OTHER_VALUES = ['<v>7</v>', '<v>42370</v>', '<v>007</v>', '<v>1234567890</v>', '<v>1.5</v>', '<v></v>', '<v/>'];
const TEXTS = ['12', 'a_x000D_b', 'é \u{1f600}', '\ufefflabel', 'a&amp;b', 'a]b', 'a\r\nb', ' ', '', '<![CDATA[x]]>'];
const TYPES = ['', ' t="n"', ' t="s"', ' t="s"', ' t="inlineStr"', ' t="str"', ' t="b"'];
const LETTERS = ['A', 'B', 'C', 'D', 'Z', 'AA'];

function cell(random: Random, row: number, column: number): string {
  const type = random.chance(10) ? ' t="z"' : random.pick(TYPES);
  const letters = random.chance(10) ? random.pick(['ALM', 'XFE', 'a']) : (LETTERS[column] ?? '');
  const address = random.chance(20) ? '' : ` r="${letters}${String(random.chance(10) ? row + 1 : row)}"`;
  const style = random.chance(400) ? ` s="${String(random.below(4))}"` : '';
  const attributes = random.shuffled([address, style, type]).join('');
  const inside =
    type === ' t="inlineStr"'
      ? `<is><t${random.chance(500) ? ' xml:space="preserve"' : ''}>${random.pick(TEXTS)}</t></is>`
      : random.pick(random.chance(100) ? OTHER_VALUES : VALUES);
  return random.chance(250) ? `<c${attributes}/>` : `<c${attributes}>${random.chance(30) ? '<f>A1</f>' : ''}${inside}</c>`;
}

function sheet(random: Random): string {
  const rows = Array.from({ length: 1 + random.below(3) }, (_, at) => {
    const columns = LETTERS.flatMap((_, column) => (random.chance(random.pick([300, 600])) ? [column] : []));
    return `<row r="${String(at + 1)}">${columns.map((column) => cell(random, at + 1, column)).join('')}</row>`;
  });
  return `<sheetData>${rows.join('')}</sheetData>`;
}

/** What is read of a sheet, or the sentence with which it is refused. */
function read(inner: string): unknown {
  try {
    return readWorkbook(bookOf({ sheets: { frames: inner }, styles: STYLES, strings: STRINGS }), 'x.xlsx').sheets;
  } catch (error) {
    if (error instanceof UserMistake) return error.message;
    throw error;
  }
}

describe('cells in the form of most programs', () => {
  // XML 1.0 section 3.1: white space before the end of a tag says nothing; no cell with it is read by the quick way.
  it('are read as the same cells with white space in their tags are', () => {
    let [same, cells] = [0, 0];
    for (let seed = 1; seed <= 500; seed += 1) {
      const inner = sheet(randomFrom(seed));
      const found = read(inner);
      expect(found).toEqual(read(inner.replaceAll(/<c(?=[ />])([^>]*?)(\/?)>/g, '<c$1 $2>')));
      if (typeof found !== 'string') same += 1;
      if (typeof found !== 'string') cells += JSON.stringify(found).split('"address"').length - 1;
    }
    expect(same).toBeGreaterThan(150);
    expect(cells).toBeGreaterThan(400);
  });

  it('are passed over where their row is of another vocabulary', () => {
    expect(read('<sheetData><x:row r="1"><c r="A1"><v>1</v></c></x:row><row r="2"><c r="A2"><v>2</v></c></row></sheetData>')).toMatchObject(
      [{ rows: [{ row: 2, cells: [{ address: 'A2', value: '2' }] }] }],
    );
  });

  it('may be cut off anywhere, and it is said', () => {
    const whole = '<sheetData><row r="1"><c r="A1" s="1" t="s"><v>0</v></c><c r="B1" t="inlineStr"><is><t>x</t></is></c>';
    for (let end = whole.indexOf('<c'); end < whole.length; end += 1) expect(read(whole.slice(0, end))).toMatch(/not well-formed XML/);
  });
});
