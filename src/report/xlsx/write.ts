import { unzipSync, type Zippable, zipSync } from 'fflate';
import writeXlsxFile, { type Cell } from 'write-excel-file/node';
import { storedText } from './cell-text.js';
import { completedSheet, definedNames, ruleLooks } from './sheet-xml.js';
import { type Look, lookKey, type TextSheet } from './text-sheet.js';

/** The first moment that an archive can name (PKWARE APPNOTE 6.3.10, section 4.4.6): a report does not tell when it was written. */
const NO_TIME = '1980-01-01T12:00:00';
/** A line of 10 points with its distance, and the highest row. */
const LINE = 13.5;
const HIGHEST = 405;
/** Words do not fill a line to its end. */
const FILLED = 0.85;
const GREY = '#E8ECEF';

/** Writes sheets of text as an .xlsx file: every cell is text in the number format `@`, so that no spreadsheet program makes anything else of it. Same sheets, same bytes. */
export async function writeWorkbook(sheets: readonly TextSheet[]): Promise<Uint8Array> {
  const data = sheets.map((sheet) => ({
    data: cellsOf(sheet),
    sheet: sheet.name,
    columns: sheet.widths.map((width) => ({ width })),
  }));
  const feature = {
    files: {
      transform: {
        'xl/worksheets/sheet{id}.xml': {
          transform: (xml: string, _: unknown, { sheetIndex }: { readonly sheetIndex: number }) => {
            const sheet = sheets[sheetIndex];
            if (sheet === undefined) throw new Error(`There is no sheet number ${String(sheetIndex)}.`);
            const before = sheets.slice(0, sheetIndex).reduce((sum, { rules = [] }) => sum + rules.length, 0);
            return completedSheet(xml, sheet, sheetIndex === 0, before);
          },
        },
        'xl/styles.xml': { transform: (xml: string) => withLooks(asBuiltIn(xml), ruleLooks(sheets)) },
        'xl/workbook.xml': { transform: (xml: string) => xml.replace('<definedNames/>', () => definedNames(sheets)) },
      },
    },
  };
  const written = await writeXlsxFile(data, { features: [feature], fontFamily: 'Arial', fontSize: 10 }).toBuffer();
  return packedAgain(written);
}

function cellsOf({ heads, rows, widths, looks }: TextSheet): Cell[][] {
  const head = (text: string): Cell => ({
    ...textCell(text),
    fontWeight: 'bold',
    backgroundColor: GREY,
    height: heightOf(heads ?? [], widths),
  });
  const row = (texts: readonly string[], index: number): Cell[] => {
    const overflows = (at: number): boolean => looks?.get(lookKey(index, at))?.overflowing === true;
    const height = heightOf(
      texts.map((text, at) => (overflows(at) ? '' : text)),
      widths,
    );
    return widths.map((_, at) => {
      const look = looks?.get(lookKey(index, at));
      if (look !== undefined) return lookedCell(texts[at] ?? '', look, height);
      const cell = { ...textCell(texts[at] ?? ''), height };
      // A sheet of plain lines has its catchwords in the first column.
      return heads === null && at === 0 ? { ...cell, fontWeight: 'bold' } : cell;
    });
  };
  // An empty row shows how the columns are formatted.
  return [...(heads === null ? [] : [heads.map(head)]), ...(rows.length === 0 ? [[]] : rows).map(row)];
}

/** Height of a row in points: enough for the longest text of it, as far as a spreadsheet program allows (409 points). */
function heightOf(texts: readonly string[], widths: readonly number[]): number {
  const lines = texts.map((text, at) => {
    const width = Math.max(1, (widths[at] ?? 0) * FILLED);
    return text.split('\n').reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / width)), 0);
  });
  return Math.min(HIGHEST, Math.max(1, ...lines) * LINE);
}

function textCell(text: string): { value: string; type: StringConstructor; format: '@'; wrap: true; alignVertical: 'top' } {
  return { value: storedText(text), type: String, format: '@', wrap: true, alignVertical: 'top' };
}

function lookedCell(
  text: string,
  { fill, ink, bold = false, centred = false, number = false, overflowing = false }: Look,
  height: number,
): Cell {
  const look = {
    height,
    ...(fill === undefined ? {} : { backgroundColor: fill }),
    ...(ink === undefined ? {} : { textColor: ink }),
    ...(bold ? { fontWeight: 'bold' as const } : {}),
    ...(centred ? { align: 'center' as const } : {}),
  };
  if (number) return { value: Number(text), type: Number, alignVertical: 'top', ...look };
  return { ...textCell(text), wrap: !overflowing, ...look };
}

/** The looks of conditional formatting stand behind the styles of cells (ECMA-376 part 1, 18.8.39). */
function withLooks(xml: string, looks: string): string {
  if (looks === '') return xml;
  const place = /<tableStyles|<colors|<extLst|<\/styleSheet>/.exec(xml);
  if (place === null || xml.includes('<dxfs')) throw new Error('The styles as they were written have no place for those of rules.');
  return `${xml.slice(0, place.index)}${looks}${xml.slice(place.index)}`;
}

/** The number format `@` under the number that every program knows for text (ECMA-376 part 1, section 18.8.30), and not one of the file's own. */
function asBuiltIn(xml: string): string {
  const own = /<numFmts count="1"><numFmt numFmtId="(\d+)" formatCode="@"\/><\/numFmts>/.exec(xml);
  return own === null ? xml : xml.replace(own[0], '').replaceAll(`numFmtId="${own[1] ?? ''}"`, 'numFmtId="49"');
}

/** The same parts in an order and with times that do not depend on when and where they were written. */
function packedAgain(bytes: Uint8Array): Uint8Array {
  const parts = Object.entries(unzipSync(bytes)).toSorted(([a], [b]) => (a < b ? -1 : 1));
  const packed: Zippable = Object.fromEntries(parts.map(([name, part]) => [name, [part, { mtime: NO_TIME, level: 6 }] as const]));
  return zipSync(packed);
}
