import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { RECORD_COLUMNS } from '../../src/catalogue/record-columns.js';
import type { AbsentEntry, FrameEntry } from '../../src/model/collation-record.js';
import { FRAME_COLUMNS } from '../../src/normalise/frame-sheet.js';
import { ISSUE_COLUMNS } from '../../src/normalise/issue-sheet.js';
import { REEL_COLUMNS, TITLE_COLUMNS } from '../../src/normalise/record-titles.js';
import { WEEKDAY_COLUMN } from '../../src/normalise/weekday-column.js';
import { readRecord } from '../../src/read/record.js';
import { understoodRecord } from '../../src/reading/index.js';
import { newFolder, reeltally } from './command.js';

const { stdout: HELP } = reeltally(['help', 'record']);

/** Tables of the help that are CSV: indented lines with commas, by their first head. */
function example(head: string): string {
  const block = HELP.split('\n\n').find((text) => text.startsWith(`    ${head}`)) ?? '';
  return block
    .split('\n')
    .map((line) => line.trim())
    .join('\n');
}

/** What a sheet of either form can say of a frame. */
const facts = ({ frame, kind, deliver, title, date, datePrinted, edition, page, pagePrinted, order, duplicateOf }: FrameEntry) => ({
  frame,
  kind: kind ?? 'page',
  deliver: deliver ?? (kind ?? 'page') === 'page',
  title: kind === undefined || kind === 'page' ? title : undefined,
  date,
  datePrinted,
  edition: date === undefined ? undefined : (edition ?? 1),
  page,
  pagePrinted,
  order,
  duplicateOf,
});

const absence = ({ title, date, page, published }: AbsentEntry) => ({ title, date, page, published });

describe('the help on the record', () => {
  it.each([
    ['frame sheet', [...FRAME_COLUMNS, WEEKDAY_COLUMN]],
    ['issue sheet', [...ISSUE_COLUMNS, WEEKDAY_COLUMN]],
    ['titles', TITLE_COLUMNS],
    ['reels', REEL_COLUMNS],
  ] as const)('tells every column of a sheet and no other: %s', (sheet, columns) => {
    expect(RECORD_COLUMNS[sheet].map(({ name }) => name).sort()).toEqual([...columns].sort());
    for (const name of columns) expect(HELP).toContain(`| \`${name}\` |`);
    expect(HELP).not.toContain('<!--');
  });

  it('shows examples that load and describe one film', async () => {
    const folder = newFolder();
    const sides = [];
    for (const [name, head] of [
      ['frames.csv', 'reel,frame'],
      ['issues.csv', 'reel,first frame'],
    ] as const) {
      writeFileSync(join(folder, name), example(head));
      const { record, problems, warnings } = understoodRecord(await readRecord([join(folder, name)]));
      expect([problems, warnings]).toEqual([[], []]);
      sides.push({ frames: record.reels[0]!.frames.map(facts), absent: record.reels[0]!.absent?.map(absence) });
    }
    expect(sides[0]).toMatchObject({ frames: { length: 7 }, absent: { length: 2 } });
    expect(sides[1]).toEqual(sides[0]);
    writeFileSync(join(folder, 'titles.csv'), example('id,name'));
    const { record, problems } = understoodRecord(await readRecord([join(folder, 'frames.csv'), join(folder, 'titles.csv')]));
    expect(problems).toEqual([]);
    expect(record.titles).toMatchObject([{ name: 'The Tolmouth Lantern', patterns: [{ days: ['wed', 'sat'], usualPages: [4] }] }]);
  });
});
