import { describe, expect, it } from 'vitest';
import { checkRecord } from '../../src/collation/check.js';
import { checkText } from '../../src/collation/check-text.js';
import type { FrameEntry } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { irregularities } from '../../src/regular/index.js';
import { recordOfSheets } from '../normalise/written.js';

describe('what is told of a record', () => {
  it('lists how many pages are usual as people say it', () => {
    const counts = [...Array.from({ length: 8 }, () => [4, 10, 12]).flat(), 6];
    let frame = 0;
    const frames = counts.flatMap((pages, at) =>
      Array.from({ length: pages }, (_, page): FrameEntry => {
        frame += 1;
        const day = new Date(Date.UTC(1899, 0, 5) + at * 604_800_000).toISOString().slice(0, 10);
        return { frame: String(frame), date: day, page: String(page + 1) };
      }),
    );
    const record = { format: 'reeltally/collation-record/2' as const, titles: [{ id: 'tv1' }], reels: [{ number: '14', frames }] };
    const { side } = normaliseRecord({ sheets: [], records: [{ name: 'r.json', record }] });
    expect(irregularities(record, side).found.map(({ code, evidence }) => [code, evidence])).toEqual([
      ['page-count-unusual', ['Most issues of the title have 4, 10 or 12 pages.']],
    ]);
  });

  it('names every row of what it is said of, and none between', () => {
    const weeks = Array.from({ length: 30 }, (_, at) => `14 | ${String(at + 1)} | tv1 | 1899-01-05 | ${String(at + 1)} | Monday`);
    const { record, side } = recordOfSheets({ 'reel-14.csv': `reel | frame | title | date | page | weekday printed\n${weeks.join('\n')}` });
    const tool = { name: 'reeltally', version: '0' };
    expect(checkText(checkRecord(record, side, { tool, inputs: [], explained: [] }))).toContain('reel-14.csv, rows 2 to 31\n');
    const apart = weeks.map((row, at) => (at === 10 ? '14 | 11 | tv1 | 1899-01-12 | 1 |' : row));
    const text = recordOfSheets({ 'reel-14.csv': `reel | frame | title | date | page | weekday printed\n${apart.join('\n')}` });
    expect(checkText(checkRecord(text.record, text.side, { tool, inputs: [], explained: [] }))).toContain(
      'reel-14.csv, rows 2 to 11 and 13 to 31\n',
    );
  });
});
