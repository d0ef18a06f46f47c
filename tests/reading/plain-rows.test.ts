import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import type { BookCell, BookRow, BookSheet } from '../../src/model/written-grid.js';
import { wholeRow } from '../../src/reading/plain-rows.js';
import { isPlain, type ReadRow } from '../../src/reading/read-row.js';
import { rowReader } from '../../src/reading/row-reader.js';
import { rowKind } from '../../src/reading/rows.js';
import { layoutOf } from '../../src/reading/sheet.js';
import { waysOf } from '../../src/reading/ways.js';
import { makeFilm } from '../forge/film/make-film.js';
import { type Random, randomFrom } from '../forge/film/random.js';
import { frameSheet } from '../forge/record/frame-sheet.js';
import { recordOf } from '../forge/record/record-of.js';

/** What stands in a cell of a frame sheet that says more than its column holds, or something else. */
const ODD = [
  '"',
  'do.',
  '6 i.e. 5',
  'n/a',
  'frame 3',
  '4/5/78',
  '4. Mai 1878',
  'Wed 4 Jan 1899',
  "'1899-01-04",
  "'0012",
  'p. 3',
  '[3]',
  '4 pp',
  'Total',
  '12:',
  'held back',
  'not on film',
  'supplement',
  'x',
  'D',
  'torn; p. 2 missing',
  'Retake because out of focus',
  'reel',
  'frame',
  'page',
  '1901',
  'May',
  ' ',
  '2nd',
  'Beacon',
];
const READINGS: readonly Omit<ReadingFile, 'format'>[] = [
  {},
  { ditto: 'as above', columns: { date: { is: 'date', below: 'as above' } } },
  {
    dates: { order: 'day month year', century: '18', year: '1878' },
    titles: { Beacon: 'sn1', B: 'sn1' },
    words: { kind: { x: 'held back' }, 'duplicate of': { D: 'yes' } },
  },
  {
    frames: 'counted',
    words: { note: { x: 'leave out' }, edition: { '2nd': '2' } },
    phrases: { missing: 'fact', torn: 'fact', retake: 'fact' },
  },
  {
    titles: { '': 'sn1' },
    columns: { note: { is: 'note' }, reduction: { is: 'year' }, order: { is: 'nothing' } },
    colours: { FFFF00: 'held back' },
  },
];

const cellOf = (random: Random, value: string, column: number, row: number): BookCell => ({
  address: `${'ABCDEFGHIJKLMNOPQRSTUVWXYZ'.at(column % 26) ?? ''}${String(row)}`,
  column,
  kind: /^\d{1,5}$/.test(value) && random.chance(100) ? 'number' : 'text',
  value,
  format: 'General',
  formula: random.chance(3) ? 'A1' : null,
  colour: random.chance(10) ? 'FFFF00' : null,
  ink: null,
  struck: random.chance(3),
  comment: random.chance(3) ? 'looked at twice' : null,
});

function drawnSheet(seed: number): BookSheet {
  const random = randomFrom(seed);
  const text = frameSheet(recordOf(makeFilm({ seed: 1 + (seed % 12), pages: 24 })));
  const rate = random.pick([0, 10, 40, 120]);
  const rows = parse(text, { bom: true, relax_column_count: true }).map(
    (cells, at): BookRow => ({
      row: at + 1,
      hidden: false,
      cells: cells.flatMap((written, column) => {
        const value = at > 0 && random.chance(rate) ? random.pick(ODD) : written;
        return value === '' ? [] : [cellOf(random, value, column, at + 1)];
      }),
    }),
  );
  return { name: 'frames', hidden: false, rows, hiddenColumns: [], merged: [] };
}

const contents = ({ row, cells, facts, typed, stated }: ReadRow): unknown => [row, [...cells], [...facts], [...typed], stated];

describe('plain rows of a frame sheet', () => {
  it.each(READINGS.map((reading, at) => [at, reading] as const))(
    'are what is read of them cell by cell, with nothing to say: way %i',
    (_, said) => {
      const ways = waysOf({ format: 'reeltally/reading/1', ...said });
      let [plain, others] = [0, 0];
      for (let seed = 1; seed <= 40; seed += 1) {
        const sheet = drawnSheet(seed);
        const { heads, plans, use } = layoutOf({ file: 'x.csv', sheet, book: { date1904: false, program: null }, reading: null }, ways)!;
        let told = 0;
        const tell = (): void => void (told += 1);
        const notes = { ways, say: tell, remark: tell, complain: tell };
        const how = { plans, heads, use: use!, ways, book: { date1904: false, program: null }, reel: seed % 2 === 0 ? '14' : null };
        const [quick, whole] = [rowReader(how, notes), rowReader(how, notes)];
        for (const row of sheet.rows.slice(1)) {
          const found = quick.plain(row);
          const kind = rowKind(row, heads, plans).is;
          told = 0;
          const slow = kind === 'data' ? whole.row(row) : null;
          if (found === null) {
            others += 1;
            if (kind === 'data') quick.row(row);
            continue;
          }
          plain += 1;
          expect([kind, told, isPlain(found)]).toEqual(['data', 0, true]);
          expect(contents(wholeRow(found, plans))).toEqual(contents(slow!));
        }
      }
      expect(Math.min(plain, others)).toBeGreaterThan(100);
    },
  );
});
