import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import type { WrittenGrid } from '../../src/model/written-grid.js';
import type { SheetProblem } from '../../src/model/written-sheet.js';
import { readWorkbook } from '../../src/read/workbook/index.js';
import { NO_READING, questionsOf, settledReading, withAnswer } from '../../src/reading/propose/index.js';
import { applyReading } from '../../src/reading/sheet.js';
import { waysOf } from '../../src/reading/ways.js';
import { gridsOf } from '../normalise/written.js';
import { NOTED } from './as-coordinators-write.js';
import { WORKBOOK } from './as-people-make-it.js';
import { writtenBook } from './workbook-writers.js';

/** What somebody answers who takes what is proposed, and writes what nobody can propose. */
function answered(grids: readonly WrittenGrid[]): ReadingFile {
  let reading = settledReading(grids, NO_READING);
  for (let round = 0; round < 60; round += 1) {
    const [question] = questionsOf(grids, reading);
    if (question === undefined) break;
    const { about, choices, proposed } = question;
    reading = withAnswer(reading, question, proposed ?? choices[0] ?? (about === 'titles' ? 'sn90000001' : '14'));
  }
  // Damage is proposed as a note; here it is taken as a fact, like all else.
  return { ...reading, phrases: Object.fromEntries(Object.keys(reading.phrases ?? {}).map((key) => [key, 'fact'])) };
}

type Json = { readonly [key: string]: unknown };
const isObject = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value);

/** The reading without one of its entries, for each of them. */
function without(value: Json, path: readonly string[] = []): readonly { readonly path: string; readonly rest: Json }[] {
  return Object.entries(value).flatMap(([key, inner]) => {
    if (path.length === 0 && key === 'format') return [];
    const place = [...path, key];
    const others = Object.fromEntries(Object.entries(value).filter(([other]) => other !== key));
    const own = { path: place.join(' > '), rest: others };
    // A sheet or a column with nothing said of it would be no entry of the format.
    const inside =
      isObject(inner) && !('is' in inner)
        ? without(inner, place).map((one) => ({ path: one.path, rest: { ...value, [key]: one.rest } }))
        : isObject(inner)
          ? Object.keys(inner)
              .filter((part) => part !== 'is')
              .map((part) => ({
                path: `${place.join(' > ')} > ${part}`,
                rest: { ...value, [key]: Object.fromEntries(Object.entries(inner).filter(([one]) => one !== part)) },
              }))
          : [];
    return [own, ...inside];
  });
}

interface Fact {
  readonly row: number;
  readonly field: string;
  readonly text: string;
  readonly head: string;
}

/** The facts that a sheet is read as, a text for each row and column of ours, in the order of the rows. */
function factsOf(grid: WrittenGrid, reading: ReadingFile): { readonly facts: readonly Fact[]; readonly remarks: readonly SheetProblem[] } {
  const { sheet, remarks } = applyReading({ ...grid, reading: 0 }, waysOf(reading));
  const facts = (sheet?.rows ?? []).flatMap(({ row, cells }) =>
    (sheet?.means ?? []).flatMap((field, at): readonly Fact[] => {
      const text = cells[at] ?? '';
      return field === null || text === '' ? [] : [{ row, field, text, head: sheet?.headers[at] ?? '' }];
    }),
  );
  return { facts, remarks };
}

const keyOf = ({ row, field, text }: Fact): string => JSON.stringify([row, field, text]);

/** Facts that no cell of their row and column holds to the letter. */
function notLiteral({ sheet }: WrittenGrid, facts: readonly Fact[]): readonly Fact[] {
  return facts.filter(({ row, text, head, field }) => {
    const own = sheet.rows.find((one) => one.row === row)?.cells ?? [];
    const columns = new Set(
      sheet.rows.flatMap(({ cells }) =>
        cells.flatMap(({ column, value }) => (value.trim() === head || value.trim() === field ? [column] : [])),
      ),
    );
    return !own.some(({ column, value }) => columns.has(column) && value.trim() === text);
  });
}

/** What is neither in the reading file nor in a remark: facts that are not literal, of whose row nothing is said, and that stay whatever entry is taken away. `invented` are facts that come from nowhere. */
function silent(
  grid: WrittenGrid,
  reading: ReadingFile,
  invented: readonly Fact[] = [],
): { readonly doubtful: number; readonly silent: readonly string[] } {
  const { facts, remarks } = factsOf(grid, reading);
  const said = new Set(remarks.map(({ row }) => row));
  const doubtful = notLiteral(grid, [...facts, ...invented]);
  let open = doubtful.filter(({ row }) => !said.has(row));
  for (const { rest } of without(reading as unknown as Json)) {
    if (open.length === 0) break;
    const still = new Set([...factsOf(grid, rest as unknown as ReadingFile).facts, ...invented].map(keyOf));
    open = open.filter((fact) => still.has(keyOf(fact)));
  }
  return { doubtful: doubtful.length, silent: open.map(keyOf) };
}

describe('every reading that is not literal stands in the reading file or in a remark', () => {
  it.each(Object.keys(NOTED))('of a sheet with notes: %s', (file) => {
    const grids = gridsOf(file, NOTED[file] ?? '');
    const reading = answered(grids);
    expect(questionsOf(grids, reading)).toEqual([]);
    for (const grid of grids) {
      const found = silent(grid, reading);
      expect(found.doubtful).toBeGreaterThan(6);
      expect(found.silent).toEqual([]);
    }
  });

  it('of a workbook with all that people put around their data', async () => {
    const { sheets, date1904, program } = readWorkbook(Buffer.from(await writtenBook(WORKBOOK)), 'film.xlsx');
    const grids = sheets.map((sheet): WrittenGrid => ({ file: 'film.xlsx', sheet, book: { date1904, program }, reading: null }));
    const reading = answered(grids);
    const found = grids.map((grid) => silent(grid, reading));
    expect(found.reduce((sum, { doubtful }) => sum + doubtful, 0)).toBeGreaterThan(20);
    expect(found.flatMap((one) => one.silent)).toEqual([]);
  });

  it('and would be seen, were it silent', () => {
    const [grid] = gridsOf('reel-14.csv', 'frame | title | date | page\n 1 | x1 | 1899-01-04 | 1');
    if (grid === undefined) throw new Error('no sheet');
    const said: ReadingFile = { ...NO_READING, sheets: { 'reel-14': { is: 'frames', reel: '14' } } };
    expect(silent(grid, said)).toEqual({ doubtful: 1, silent: [] });
    const edition = { row: 2, field: 'edition', text: '2', head: 'edition' };
    expect(silent(grid, said, [edition])).toEqual({ doubtful: 2, silent: ['[2,"edition","2"]'] });
  });
});
