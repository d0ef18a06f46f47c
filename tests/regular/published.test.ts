import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isDay, weekday } from '../../src/calendar/civil.js';
import type { CollationRecord, FrameEntry, TitleEntry } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { irregularities } from '../../src/regular/index.js';

/** An issue of one page a frame, by its day and facts. */
function recordOf(
  issues: readonly (readonly [day: string, facts: Partial<FrameEntry>])[],
  title: Partial<TitleEntry> = {},
  absent: CollationRecord['reels'][number]['absent'] = [],
): CollationRecord {
  const frames = issues.flatMap(([date, facts], at): readonly FrameEntry[] =>
    [1, 2, 3, 4].map((page) => ({ frame: String(at * 4 + page), date, page: String(page), ...facts })),
  );
  return {
    format: 'reeltally/collation-record/2',
    titles: [{ id: 'tv1', ...title }],
    reels: [{ number: '14', frames, ...(absent.length === 0 ? {} : { absent }) }],
  };
}

function found(record: CollationRecord) {
  const { record: read, side, problems } = normaliseRecord({ sheets: [], records: [{ name: 'r.json', record }] });
  expect(problems).toEqual([]);
  return irregularities(read, side).found.map(({ code, date, count, likely }) => ({ code, date, count, likely }));
}

const SIX_DAYS: TitleEntry['patterns'] = [{ days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'] }];
const WEEKLY: TitleEntry['patterns'] = [{ days: ['thu'] }];

describe('published runs', () => {
  it('of a daily that paused in the summer of 1880 are one question, and the numbers answer it', () => {
    // A newspaper history of 2006 (snugspout blog): the last number before the pause, of 30 June 1880, is vol. 8 no. 283; the next, of 1 September, no. 284. 53 days without Sundays.
    const run = (second: string) =>
      found(
        recordOf(
          [
            ['1880-06-30', { volume: '8', issueNumber: '283' }],
            ['1880-09-01', { volume: '8', issueNumber: second }],
          ],
          { patterns: SIX_DAYS },
        ),
      );
    expect(run('284')).toEqual([
      { code: 'gap-unexplained', date: '1880-07-01', count: 53, likely: 'The numbers go on, so probably nothing was published then.' },
    ]);
    expect(run('337')).toEqual([
      {
        code: 'gap-unexplained',
        date: '1880-07-01',
        count: 53,
        likely: 'The numbers leave out as many: they were probably published and are wanting.',
      },
    ]);
  });

  it('of a daily whose numbers jumped from 14,499 to 15,000 over a Sunday are a jump and no gap', () => {
    // The New York paper's own note of 1 January 2000, as retold in 2014: 6 February 1898 was no. 14,499, 7 February was printed 15,000, and the count went on from there.
    const items = found(
      recordOf(
        [
          ['1898-02-05', { issueNumber: '14,498' }],
          ['1898-02-06', { issueNumber: '14,499' }],
          ['1898-02-07', { issueNumber: '15,000' }],
          ['1898-02-08', { issueNumber: '15,001' }],
        ],
        {
          patterns: [{ days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] }],
        },
      ),
    );
    expect(items).toEqual([{ code: 'numbering-jumps', date: '1898-02-07', count: 4, likely: null }]);
  });

  it('of a paper three times a week with one number left out lack one issue', () => {
    const items = found(
      recordOf(
        [
          ['1899-02-11', { issueNumber: '58' }],
          ['1899-02-16', { issueNumber: '60' }],
        ],
        { patterns: [{ days: ['tue', 'thu', 'sat'] }] },
      ),
    );
    expect(items).toEqual([
      {
        code: 'gap-unexplained',
        date: '1899-02-14',
        count: 1,
        likely: 'The numbers leave out as many: it was probably published and is wanting.',
      },
    ]);
  });
});

describe('the days of the issues', () => {
  it('show the old year in January, by the weekday and the film', () => {
    const items = found(
      recordOf(
        [
          ['1899-12-28', { issueNumber: '51', weekdayPrinted: 'Thursday' }],
          ['1899-01-04', { issueNumber: '52', weekdayPrinted: 'Thursday' }],
          ['1900-01-11', { issueNumber: '53', weekdayPrinted: 'Thursday' }],
        ],
        { patterns: WEEKLY, language: 'eng' },
      ),
    );
    expect(items[0]).toEqual({
      code: 'weekday-clash',
      date: '1899-01-04',
      count: 4,
      likely: 'Thursday 4 January 1900 was probably meant.',
    });
  });

  it('show a year that was misread, where the weekday does not: 18 October was a Thursday in 1883 and in 1888', () => {
    const items = found(
      recordOf(
        [
          ['1883-10-11', { issueNumber: '41', weekdayPrinted: 'Thursday' }],
          ['1888-10-18', { issueNumber: '42', weekdayPrinted: 'Thursday' }],
          ['1883-10-25', { issueNumber: '43', weekdayPrinted: 'Thursday' }],
        ],
        { patterns: WEEKLY, language: 'eng' },
      ),
    );
    expect(items[0]).toEqual({
      code: 'date-off-pattern',
      date: '1888-10-18',
      count: 4,
      likely: 'Thursday 18 October 1883 was probably meant.',
    });
  });

  it('are learned where the record gives none, and then said of those that differ', () => {
    const weeks = Array.from({ length: 20 }, (_, at): readonly [string, Partial<FrameEntry>] => {
      const day = new Date(Date.UTC(1899, 0, 5 + at * 7 + (at === 11 ? 1 : 0)));
      return [day.toISOString().slice(0, 10), { issueNumber: String(at + 1) }];
    });
    expect(found(recordOf(weeks))).toEqual([
      {
        code: 'date-off-pattern',
        date: '1899-03-24',
        count: 4,
        likely: 'It came out on another day than usual, or Thursday 23 March 1899 was meant.',
      },
    ]);
  });

  it('are those of the Julian calendar where the title is dated by it: 1 January 1900 there was a Saturday', () => {
    // The Julian calendar ran 12 days behind until 28 February 1900: 1900-01-01 is 1900-01-13, a Saturday.
    const saturdays = (word: string) =>
      recordOf(
        [1, 8, 15, 22, 29].map((day, at): readonly [string, Partial<FrameEntry>] => [
          `1900-01-${String(day).padStart(2, '0')}`,
          { issueNumber: String(at + 1), weekdayPrinted: word },
        ]),
        { calendar: 'julian-until 1918-01-31', language: 'eng', patterns: [{ days: ['sat'] }] },
      );
    expect(found(saturdays('Saturday'))).toEqual([]);
    expect(found(saturdays('Monday')).map(({ code }) => code)).toEqual(Array.from({ length: 5 }, () => 'weekday-clash'));
  });

  it('never fall on what a change of the calendar left out: 3 to 13 September 1752 in Britain', () => {
    // 24 Geo. II c. 23: the day behind 2 September 1752 was 14 September.
    const run = (day: string) =>
      found(
        recordOf(
          [
            ['1752-09-01', {}],
            [day, {}],
            ['1752-09-20', {}],
          ],
          { calendar: 'julian-until 1752-09-02' },
        ),
      ).filter(({ code }) => code === 'date-impossible');
    for (const day of ['1752-09-02', '1752-09-14']) expect(run(day)).toEqual([]);
    for (const day of ['1752-09-03', '1752-09-13']) expect(run(day)).toMatchObject([{ code: 'date-impossible', date: day }]);
  });

  it('agree with the weekdays that are tabulated elsewhere', () => {
    const path = new URL('../../../shared/data/calendar-check-values.json', import.meta.url);
    let text: string;
    try {
      text = readFileSync(path, 'utf8');
    } catch {
      return;
    }
    const { weekdays, impossible } = JSON.parse(text) as {
      readonly weekdays: Record<string, Record<string, string>>;
      readonly impossible: readonly string[];
    };
    for (const table of Object.values(weekdays))
      for (const [day, name] of Object.entries(table)) expect([day, weekday(day)]).toEqual([day, name.toLowerCase()]);
    for (const day of impossible) expect(isDay(day)).toBe(false);
  });
});

describe('a misprint', () => {
  it('that comes in each issue is asked for in the one that lacks it, and nowhere else', () => {
    const weeks = (lacking: readonly number[]): CollationRecord => {
      const record = recordOf(
        [5, 12, 19, 26]
          .flatMap((day) =>
            ['01', '10'].map((month): readonly [string, Partial<FrameEntry>] => [`1899-${month}-${String(day).padStart(2, '0')}`, {}]),
          )
          .toSorted(([a], [b]) => (a < b ? -1 : 1)),
      );
      const reels = record.reels.map((reel) => ({
        ...reel,
        frames: reel.frames.map((frame, at) =>
          frame.page === '3' && !lacking.includes(Math.floor(at / 4)) ? { ...frame, pagePrinted: '8' } : frame,
        ),
      }));
      return { ...record, reels };
    };
    expect(found(weeks([]))).toEqual([]);
    expect(found(weeks([3]))).toEqual([
      { code: 'misprint-recurs', date: '1899-01-26', count: 1, likely: 'It probably prints 8 here too. Look at the film.' },
    ]);
    // A run of issues that have it right is no oversight.
    expect(found(weeks([3, 4]))).toEqual([]);
  });
});
