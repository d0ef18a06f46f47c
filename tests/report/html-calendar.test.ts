import { describe, expect, it } from 'vitest';
import { daysInMonth, WEEKDAYS, weekday } from '../../src/calendar/civil.js';
import type { Findings, ResultAbsence, ResultFrame } from '../../src/model/findings.js';
import type { RecordCheck } from '../../src/model/record-check.js';
import { around } from '../../src/report/html/around.js';
import { calendars } from '../../src/report/html/calendar-days.js';
import { dayOf, firstWeekday, monthFromNumber, monthLength, monthNumber, monthOf } from '../../src/report/html/civil.js';
import { renderHtml } from '../../src/report/html/index.js';
import { renderRecordCheck } from '../../src/report/html/record-check.js';
import { EXAMPLE, finding } from './example.js';

// The room `calendar` is held against published tables in tests/calendar; here it is the measure.
describe('the days of a report', () => {
  it('have the lengths and weekdays of the calendar in every month of the years 1 to 9999', () => {
    for (let year = 1; year <= 9999; year += year > 1500 && year < 2100 ? 1 : 37) {
      for (let month = 1; month <= 12; month++) {
        expect(monthLength({ year, month })).toBe(daysInMonth(year, month));
        expect(WEEKDAYS[firstWeekday({ year, month })]).toBe(weekday(dayOf({ year, month }, 1)));
        expect(monthFromNumber(monthNumber({ year, month }))).toEqual({ year, month });
      }
    }
  });

  it('are days of the calendar or none', () => {
    expect(monthOf('1900-02-28')).toEqual({ year: 1900, month: 2 });
    for (const text of ['1900-02-29', '1899-01-XX', '1899-01-04?', '1899-13-01', '0000-01-01', '', 'soon'])
      expect(monthOf(text)).toBeNull();
  });
});

const TITLE = 'vz90000001';
const page = (date: string, facts: Partial<ResultFrame> = {}): ResultFrame => ({
  ...EXAMPLE.reels[0]!.frames[0]!,
  date,
  title: TITLE,
  ...facts,
});
const absent = (date: string, facts: Partial<ResultAbsence>): ResultAbsence => ({
  title: TITLE,
  date,
  edition: 1,
  page: null,
  published: 'yes',
  ...facts,
});

/** January 1899 of a Thursday paper: 5, 12, 19 and 26 were Thursdays. */
const JANUARY: Findings = {
  ...EXAMPLE,
  titles: [{ id: TITLE, name: 'The Tolmouth Lantern', patterns: [{ days: ['thu'], usualPages: [1] }] }],
  findings: [
    finding({ id: 'numbers', code: 'frame-number-wrong', severity: 'major', field: 'number', says: 'Numbers moved.' }),
    finding({
      id: 'date',
      code: 'date-differs',
      severity: 'critical',
      field: 'date',
      says: 'Another date.',
      date: '1899-01-27',
      title: TITLE,
    }),
  ],
  reels: [
    {
      number: '00417',
      absent: [
        absent('1899-01-12', {}),
        absent('1899-01-19', { published: 'no' }),
        absent('1899-01-26', { published: 'unknown' }),
        absent('1899-02-02', { page: '2' }),
      ],
      frames: [
        page('1899-01-05', { state: 'differs', findings: ['numbers'] }),
        page('1899-01-06'),
        page('1899-01-06', { edition: 2 }),
        page('1899-01-27', { state: 'differs', findings: ['date', 'numbers'] }),
        page('1899-02-02'),
        page('1899-02-16'),
        page('1899-03-16', { state: 'return-only', frame: null }),
        page('1899-01-XX'),
      ],
    },
  ],
};

describe('the calendar of a title', () => {
  const [calendar] = calendars(around(JANUARY, {}));
  const on = (day: string) => calendar?.months.flatMap((month) => month.days).find((one) => one.day === day);

  it('says of each day what became of it', () => {
    expect(on('1899-01-05')).toMatchObject({ state: 'film', also: [], issues: 1 });
    expect(on('1899-01-06')).toMatchObject({ state: 'off', issues: 2 });
    expect(on('1899-01-12')?.state).toBe('wanting');
    expect(on('1899-01-19')?.state).toBe('not-published');
    expect(on('1899-01-26')?.state).toBe('unknown');
    expect(on('1899-01-27')).toMatchObject({ state: 'wrong', also: ['off'], finding: 'date' });
    expect(on('1899-02-02')?.state).toBe('part');
    // The record says nothing of it, which is another thing than that nobody knows.
    expect(on('1899-02-09')?.state).toBe('silent');
    expect(on('1899-02-10')?.state).toBe('none');
    // Beyond the last day that the record knows nothing is expected.
    expect(on('1899-02-23')?.state).toBe('none');
    expect(on('1899-03-16')?.state).toBe('return');
    expect(calendar?.undated).toEqual(['1899-01-XX']);
  });

  it('expects issues as a regularity pattern of MARC 21 has them', () => {
    // Thursdays, but not the second of a month (853 $y: omitted, second Thursday), and the first Monday of each month besides
    const patterns = [{ days: ['thu' as const], regularity: 'ow02th;pw01mo' }];
    const [marc] = calendars(around({ ...JANUARY, findings: [], titles: [{ id: TITLE, name: 'The Tolmouth Lantern', patterns }] }, {}));
    const state = (day: string) => marc?.months.flatMap((month) => month.days).find((one) => one.day === day)?.state;
    expect(state('1899-02-06')).toBe('silent');
    expect(state('1899-02-09')).toBe('none');
    expect(state('1899-01-06')).toBe('off');
  });

  it('shows a combined issue on both of its days', () => {
    const [combined] = calendars(
      around(
        {
          ...JANUARY,
          findings: [],
          reels: [
            {
              number: '1',
              absent: [absent('1899-01-12', { combinedWith: '1899-01-13' })],
              frames: [page('1899-01-05', { combinedWith: '1899-01-06' })],
            },
          ],
        },
        {},
      ),
    );
    const days = combined?.months
      .flatMap((month) => month.days)
      .filter(({ state }) => state === 'film' || state === 'off' || state === 'wanting');
    expect(days?.map(({ day, state }) => `${day} ${state}`)).toEqual([
      '1899-01-05 film',
      '1899-01-06 off',
      '1899-01-12 wanting',
      '1899-01-13 wanting',
    ]);
  });

  it('says the same in words below', () => {
    const text = renderHtml(JANUARY).replace(/<[^>]*>/g, '');
    expect(text).toContain('W wanting: published, not on the film (1): 1899-01-12');
    expect(text).toContain('O on the film, on a day that is not a usual day of issue (2): 1899-01-06, 1899-01-27');
    expect(text).toContain('Dates that name no day: 1899-01-XX');
  });

  it('leaves a silence of many years out, and says so', () => {
    const frames = [page('1850-01-03'), page('1899-01-05'), page('1900-01-04')];
    const [long] = calendars(around({ ...JANUARY, findings: [], reels: [{ number: '1', absent: [], frames }] }, {}));
    expect(long?.months.map((month) => month.without).filter((months) => months > 0)).toEqual([12 * 49 - 1]);
    expect(long?.months).toHaveLength(1 + 13);
  });

  it('stays within bounds when the dates do not', () => {
    const frames = Array.from({ length: 3000 }, (_, at) => page(dayOf({ year: 1 + 3 * at, month: 1 }, 1)));
    const [wild] = calendars(around({ ...JANUARY, findings: [], reels: [{ number: '1', absent: [], frames }] }, {}));
    expect([wild?.months.length, wild?.left]).toEqual([1200, 1800]);
  });
});

describe('pages per issue', () => {
  const text = (page: string): string => page.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

  it('name the issues of which the pages did not come as the record has them, whatever the paper did', () => {
    const frames = [
      page('1899-01-05'),
      page('1899-01-05', { page: '2' }),
      page('1899-01-12', { state: 'differs', returnedKind: null, returned: null }),
      page('1899-01-12', { page: '2', deliver: false, state: 'differs' }),
      page('1899-03-16', { state: 'return-only', frame: null }),
    ];
    const said = text(renderHtml({ ...JANUARY, findings: [], reels: [{ number: '1', absent: [], frames }] }));
    expect(said).toContain('usual by the record: 1 page, drawn as a line');
    // The issue of 5 January has two pages where one is usual, and both came: nothing to look at.
    expect(said).toMatch(/Issue pages on the film not on the film did not come came besides 1899-01-12 1 0 1 1 1899-03-16 0 0 0 1 <?/);
    expect(said).not.toMatch(/came besides 1899-01-05/);
  });

  it('mark what is unusual for the paper where a record is checked by itself', () => {
    const check: RecordCheck = {
      format: 'reeltally/record-check/1',
      tool: { name: 'reeltally', version: '0' },
      inputs: [],
      totals: '',
      titles: [],
      items: [],
      catalogue: [],
    };
    const frames = [page('1899-01-05'), page('1899-01-12'), page('1899-01-12', { page: '2' })];
    const said = text(renderRecordCheck(check, { titles: JANUARY.titles, reels: [{ number: '1', absent: [], frames }] }));
    expect(said).toMatch(/Issue pages on the film not on the film 1899-01-12 2 0/);
  });
});
