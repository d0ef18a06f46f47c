import { describe, expect, it } from 'vitest';
import type { CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { irregularities } from '../../src/regular/index.js';
import { patternOf } from '../../src/regular/pattern.js';

/** Days since 1970, as `Date` counts them: a calendar that is not ours. */
const numberOf = (day: string): number => Date.parse(`${day}T00:00:00Z`) / 86_400_000;
const dayOf = (number: number): string => new Date(number * 86_400_000).toISOString().slice(0, 10);

/** So many weekly issues of four pages from Thursday 5 January 1899 on, numbered, with some days written otherwise. */
function weekly(issues: number, written: (day: string, at: number) => string, numbered = true): CollationRecord {
  const frames = Array.from({ length: issues }, (_, at) =>
    Array.from(
      { length: 4 },
      (__, page): FrameEntry => ({
        frame: String(at * 4 + page + 1),
        date: written(dayOf(numberOf('1899-01-05') + 7 * at), at),
        page: String(page + 1),
        ...(numbered ? { issueNumber: String(100 + at) } : {}),
      }),
    ),
  ).flat();
  return { format: 'reeltally/collation-record/2', titles: [{ id: 'tv1' }], reels: [{ number: '14', frames }] };
}

function found(record: CollationRecord) {
  const { record: read, side, problems } = normaliseRecord({ sheets: [], records: [{ name: 'r.json', record }] });
  expect(problems).toEqual([]);
  const { found: items, runs } = irregularities(read, side);
  return { items: items.map(({ code, date, likely }) => [code, date, likely]), days: runs[0]?.patterns.map(({ days }) => days) };
}

describe('one day of a record that is a slip', () => {
  it.each([
    ['another year', '1898-03-09', true],
    ['another year, where issues have no numbers', '1898-03-09', false],
    ['a year that is far', '1889-03-09', true],
    ['a later year', '1900-03-09', true],
  ])('is told once, with the day that was meant, and hides the days of the paper from nothing: %s', (_, slip, numbered) => {
    const { items, days } = found(weekly(20, (day, at) => (at === 9 ? slip : day), numbered));
    expect(items).toEqual([['date-off-pattern', slip, 'Thursday 9 March 1899 was probably meant.']]);
    expect(days).toEqual([['thu']]);
  });

  it('does not hide a number that is wrong as well', () => {
    const record = weekly(20, (day, at) => (at === 9 ? '1898-03-09' : day));
    const frames = record.reels[0]?.frames.map((frame, at) => (at >= 60 && at < 64 ? { ...frame, issueNumber: '151' } : frame)) ?? [];
    const { items } = found({ ...record, reels: [{ number: '14', frames }] });
    expect(items).toEqual([
      ['date-off-pattern', '1898-03-09', 'Thursday 9 March 1899 was probably meant.'],
      ['numbering-jumps', '1899-04-20', '115 was probably meant: the issue of 1899-04-27 has 116.'],
    ]);
  });
});

describe('the weekdays that issues show', () => {
  const from = (first: string, steps: readonly number[]): readonly number[] =>
    steps.reduce((days, step) => [...days, (days.at(-1) ?? 0) + step], [numberOf(first)]);
  const weeks = (count: number) => Array.from({ length: count }, () => 7);

  it('are not hidden by a day that lies far from all others', () => {
    const days = from('1899-01-05', weeks(19));
    expect(patternOf(days)).toEqual({ days: ['thu'] });
    expect(patternOf([...days, numberOf('1889-03-09')])).toEqual({ days: ['thu'] });
    expect(patternOf([...days, numberOf('1900-03-09'), numberOf('1798-03-09')])).toEqual({ days: ['thu'] });
  });

  it('are none where a paper came out once a month, or had a long pause', () => {
    expect(patternOf(from('1899-01-05', [28, 35, 28, 28, 28, 35, 28, 28, 35, 28, 28]))).toBeNull();
    expect(patternOf(from('1899-01-05', [...weeks(6), 7 * 30, ...weeks(6)]))).toBeNull();
  });
});
