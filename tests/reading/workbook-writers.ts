import { createRequire } from 'node:module';
import { init } from 'excelize-wasm';
import writeXlsxFile from 'write-excel-file/node';
import type { Cell, Sheet } from './workbook.fods.js';

type Given = Sheet['rows'][number][number];

const cellOf = (given: Given): Cell | null =>
  given === null ? null : typeof given === 'string' ? { text: given } : typeof given === 'number' ? { number: given } : given;

/** `of:=[.A7]+1` as Excel writes formulas. */
const formulaOf = (text: string): string =>
  text
    .replace(/^of:=/, '')
    .replaceAll(/\[\.([A-Z]+\d+)(?::\.([A-Z]+\d+))?\]/g, (_, from: string, to?: string) => (to === undefined ? from : `${from}:${to}`));

const addressOf = (column: number, row: number): string => `${'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[column] ?? ''}${String(row)}`;

/** Days since the end of 1899, as workbooks store a day (ECMA-376 part 1, 18.17.4.1), from March 1900 on. */
const serialOf = (day: string): number => (Date.parse(`${day}T00:00:00Z`) - Date.UTC(1899, 11, 30)) / 86_400_000;

/** Built-in number formats for days (ECMA-376 part 1, 18.8.30): m/d/yyyy, d-mmm-yy, m/d/yyyy h:mm. */
const DAY_FORMATS = [14, 15, 22] as const;

/** The workbook as excelize writes it, a library of Go: shared strings, merged ranges, built-in formats of days, formulas with their results. */
export async function excelizeBook(sheets: readonly Sheet[]): Promise<Uint8Array> {
  const home = createRequire(import.meta.url).resolve('excelize-wasm');
  const excelize = await init(home.replace(/[^/]*$/, 'excelize.wasm.gz'));
  const file = excelize.NewFile();
  const done = <Answer extends { error: string | null }>(answer: Answer): Answer => {
    if (answer.error !== null) throw new Error(answer.error);
    return answer;
  };
  let days = 0;
  for (const [at, { name, hidden, rows }] of sheets.entries()) {
    if (at === 0) done(file.SetSheetName('Sheet1', name));
    else done(file.NewSheet(name));
    for (const [down, cells] of rows.entries())
      for (const [across, given] of cells.entries()) {
        const cell = cellOf(given);
        if (cell === null) continue;
        const { text, number, day, formula, wide = 1, high = 1 } = cell;
        const address = addressOf(across, down + 1);
        if (text !== undefined) done(file.SetCellStr(name, address, text));
        if (number !== undefined) done(file.SetCellInt(name, address, number));
        if (day !== undefined) {
          done(file.SetCellFloat(name, address, serialOf(day), -1, 64));
          const format = file.NewStyle({ NumFmt: DAY_FORMATS[(days += 1) % DAY_FORMATS.length] ?? 14 });
          done(file.SetCellStyle(name, address, address, done(format).style));
        }
        if (formula !== undefined) done(file.SetCellFormula(name, address, formulaOf(formula)));
        if (wide > 1 || high > 1) done(file.MergeCell(name, address, addressOf(across + wide - 1, down + high)));
      }
    if (hidden === true) done(file.SetSheetVisible(name, false));
  }
  const written = file.WriteToBuffer() as { readonly buffer: Uint8Array; readonly error: string | null };
  return done(written).buffer;
}

/** The workbook as write-excel-file writes it: strings in the cells, formats of days of its own; it hides no sheet and knows no results of formulas. */
export async function writtenBook(sheets: readonly Sheet[]): Promise<Uint8Array> {
  const book = sheets.map(({ name, rows }) => ({
    sheet: name,
    data: rows.map((cells) =>
      cells.map((given) => {
        const cell = cellOf(given);
        if (cell === null) return null;
        const span = {
          ...(cell.wide === undefined ? {} : { columnSpan: cell.wide }),
          ...(cell.high === undefined ? {} : { rowSpan: cell.high }),
        };
        if (cell.day !== undefined) return { value: new Date(`${cell.day}T00:00:00Z`), type: Date, format: 'dd/mm/yyyy', ...span };
        return { value: cell.number ?? cell.text ?? '', ...span };
      }),
    ),
  }));
  return writeXlsxFile(book).toBuffer();
}
