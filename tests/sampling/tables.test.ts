import { describe, expect, it } from 'vitest';
import type { InspectionLevel, Severity, TablePlan } from '../../src/model/sample.js';
import { codeLetters } from '../../src/sampling/code-letters.js';
import { aqls, masterTables, restsOf } from '../../src/sampling/master-tables.js';
import { codeLetter, tablePlan } from '../../src/sampling/table-plan.js';
import { lookUps } from './look-ups.js';

const levels: readonly InspectionLevel[] = ['S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III'];

function planned(lot: number, level: InspectionLevel, severity: Severity, aql: string): TablePlan {
  const plan = tablePlan({ lot, level, severity, aql });
  if ('refused' in plan) throw new Error(plan.refused.join(' '));
  return plan;
}

describe('published look-ups in MIL-STD-105E', () => {
  it.each(lookUps)('$lot units, level $level, $severity, AQL $aql ($source)', ({ lot, level, severity, aql, plan }) => {
    expect(planned(lot, level, severity, aql)).toMatchObject(plan);
  });

  it('are 18', () => {
    expect(lookUps.length).toBe(18);
  });
});

/** What a cell must be by its place: rows and columns are steps of the same length, so a plan moves along the diagonals (pattern of the tables). */
const byPlace: Readonly<Record<'normal' | 'tightened', ReadonlyMap<number, number>>> = {
  normal: new Map([
    [14, 0],
    [17, 1],
    [18, 2],
    [19, 3],
    [20, 5],
    [21, 7],
    [22, 10],
    [23, 14],
    [24, 21],
    [25, 30],
    [26, 44],
  ]),
  tightened: new Map([
    [15, 0],
    [18, 1],
    [19, 2],
    [20, 3],
    [21, 5],
    [22, 8],
    [23, 12],
    [24, 18],
    [25, 27],
    [26, 41],
  ]),
};

describe('the pattern of the tables', () => {
  it.each(['normal', 'tightened'] as const)('%s: the acceptance number depends on row plus column alone', (severity) => {
    let printed = 0;
    masterTables[severity].forEach((row, i) => {
      row.cells.split(' ').forEach((cell, j) => {
        const numbers = /^(\d+)\/(\d+)$/.exec(cell);
        if (numbers === null) return;
        printed++;
        const accept = row.letter === 'S' ? 1 : byPlace[severity].get(i + j);
        expect([row.letter, aqls[j], Number(numbers[1]), Number(numbers[2])]).toEqual([row.letter, aqls[j], accept, (accept ?? NaN) + 1]);
      });
    });
    expect(printed).toBeGreaterThan(130);
  });

  it('the arrows beside the first plan of a row point where the pattern says', () => {
    masterTables.normal.forEach((row, i) => {
      const cells = row.cells.split(' ');
      const cellAt = (sum: number): string | undefined => cells[sum - i];
      if (15 - i >= 0 && 15 - i < 26) expect([row.letter, cellAt(15)]).toEqual([row.letter, i === 0 ? 'v' : '^']);
      if (16 - i >= 0 && 16 - i < 26 && i < 15) expect([row.letter, cellAt(16)]).toEqual([row.letter, 'v']);
    });
    masterTables.tightened.forEach((row, i) => {
      if (row.letter === 'R' || row.letter === 'S') return;
      const cells = row.cells.split(' ');
      for (const sum of [16, 17]) if (sum - i >= 0) expect([row.letter, sum, cells[sum - i]]).toEqual([row.letter, sum, 'v']);
    });
  });

  it('following arrows ends on a printed plan from every letter and AQL, with the sample size of the row it ends in', () => {
    const sizes = { normal: 0, tightened: 0, reduced: 0 };
    for (const severity of ['normal', 'tightened', 'reduced'] as const)
      for (const aql of aqls)
        for (const { upTo } of codeLetters)
          for (const level of levels) {
            const plan = planned(Math.min(upTo, 10_000_000), level, severity, aql);
            const row = masterTables[severity].find(({ letter }) => letter === plan.usedLetter);
            expect(plan.printedSize).toBe(row?.size);
            expect(row?.cells.split(' ')[aqls.indexOf(aql)]).toBe(`${plan.accept}/${plan.reject}`);
            sizes[severity]++;
          }
    expect(sizes).toEqual({ normal: 26 * 105, tightened: 26 * 105, reduced: 26 * 105 });
  });

  it('rows have 26 cells, letters leave out I and O, lots grow and so do letters', () => {
    for (const severity of ['normal', 'tightened', 'reduced'] as const) {
      expect(masterTables[severity].map(({ letter }) => letter).join('')).toBe(
        severity === 'tightened' ? 'ABCDEFGHJKLMNPQRS' : 'ABCDEFGHJKLMNPQR',
      );
      for (const row of masterTables[severity]) expect(row.cells.split(' ').length).toBe(26);
    }
    for (const level of levels) {
      const letters = codeLetters.map(({ letters: row }) => row[level]);
      expect(letters).toEqual([...letters].sort());
    }
  });

  it('a lot of 9 to 15 has letter A on level I; copies with B there exist and are wrong', () => {
    expect([codeLetter(8, 'I'), codeLetter(9, 'I'), codeLetter(15, 'I'), codeLetter(16, 'I')]).toEqual(['A', 'A', 'A', 'B']);
  });

  it('marks the cells that rest on one source or on memory', () => {
    const once = (severity: Severity, rests: string): readonly string[] =>
      masterTables[severity].flatMap(({ letter }) =>
        aqls.filter((aql) => restsOf(severity, letter, aql) === rests).map((aql) => `${letter} ${aql}`),
      );
    expect(once('normal', 'one-source')).toEqual([]);
    expect(once('tightened', 'one-source')).toEqual(['J 0.40', 'K 0.25', 'L 0.15', 'M 0.10', 'N 0.065', 'P 0.040', 'Q 0.025']);
    expect(once('tightened', 'memory').length).toBe(25);
    expect(once('reduced', 'one-source').length).toBe(416);
    expect(planned(400, 'II', 'tightened', '0.65').rests).toBe('several-sources');
    expect(planned(900, 'II', 'tightened', '0.40').rests).toBe('one-source');
    expect(planned(900, 'II', 'reduced', '0.65').rests).toBe('one-source');
  });
});

describe('a look-up', () => {
  it('takes the whole lot where the printed sample is the lot or more', () => {
    // letter A at AQL 0.65 leads down to F with 20
    expect(planned(8, 'II', 'normal', '0.65')).toMatchObject({ size: 8, printedSize: 20, letter: 'A', usedLetter: 'F' });
  });

  it('takes 1 for 1.0, and refuses what the tables do not have, in a sentence', () => {
    expect(planned(900, 'II', 'normal', '1').aql).toBe('1.0');
    expect(tablePlan({ lot: 900, level: 'II', severity: 'normal', aql: '2' })).toMatchObject({
      refused: [expect.stringMatching(/^The acceptance quality limit is "2"\. The tables have these: 0\.010, /)],
    });
    expect(tablePlan({ lot: 0, level: 'II', severity: 'normal', aql: '' })).toMatchObject({
      refused: [expect.any(String), expect.any(String)],
    });
  });
});

describe('Table I and the sample sizes as the standard heads its rows', () => {
  /** Lots from the first to the last of each row, and the letters of one level from the first row to the last. */
  const rows: readonly (readonly [number, number])[] = [
    [2, 8],
    [9, 15],
    [16, 25],
    [26, 50],
    [51, 90],
    [91, 150],
    [151, 280],
    [281, 500],
    [501, 1200],
    [1201, 3200],
    [3201, 10_000],
    [10_001, 35_000],
    [35_001, 150_000],
    [150_001, 500_000],
    [500_001, 900_000_000],
  ];
  const letters: Readonly<Record<InspectionLevel, string>> = {
    'S-1': 'AAAABBBBCCCCDDD',
    'S-2': 'AAABBBCCCDDDEEE',
    'S-3': 'AABBCCDDEEFFGGH',
    'S-4': 'AABCCDEEFGGHJJK',
    I: 'AABCCDEFGHJKLMN',
    II: 'ABCDEFGHJKLMNPQ',
    III: 'BCDEFGHJKLMNPQR',
  };

  it.each(levels)('give the letters of level %s at both ends of each row', (level) => {
    for (const end of [0, 1] as const) expect(rows.map((row) => codeLetter(row[end], level)).join('')).toBe(letters[level]);
  });

  it('rise by the fifth root of ten, and on reduced inspection lie two letters behind', () => {
    const sizes = [2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000];
    expect(masterTables.normal.map(({ size }) => size)).toEqual(sizes);
    expect(masterTables.tightened.map(({ size }) => size)).toEqual([...sizes, 3150]);
    expect(masterTables.reduced.map(({ size }) => size)).toEqual([2, 2, ...sizes.slice(0, -2)]);
    expect(masterTables.normal.map(({ letter }) => letter).join('')).toBe('ABCDEFGHJKLMNPQR');
  });

  it('take an AQL as it is written in digits and no other way', () => {
    expect(planned(400, 'II', 'normal', ' 1 ').aql).toBe('1.0');
    for (const aql of ['1e0', '0x1', '+1', '', '1.', '0.011'])
      expect(tablePlan({ lot: 400, level: 'II', severity: 'normal', aql })).toEqual({
        refused: [expect.stringContaining(`is "${aql}". The tables have`)],
      });
  });
});
