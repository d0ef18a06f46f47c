import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { newFolder } from '../cli/command.js';
import { issueDocument } from '../read/documents.js';
import { batchWith } from './batch-with.js';
import { limited } from './limits.js';
import type { Row } from './row.js';
import { kept } from './sheets.js';

const record = (frames: string, more = ''): string =>
  `{"format": "reeltally/collation-record/2", "titles": [{"id": "sn99000001"}], "reels": [{"number": "12", "frames": [${frames}]}]${more}}`;
const FRAME = '{"frame": "1", "title": "sn99000001", "date": "1888-01-02", "page": "1"}';

function refused(code: string, name: string, content: string | Buffer, says: string): Row {
  return { code, name, status: 3, says, run: async () => limited(['collation', 'check', kept('record.json', content)]) };
}

/** A profile of the library's own in which a name pattern could be tried in very many ways. */
const slowPattern = (): string => {
  const folder = newFolder();
  const path = join(folder, 'own.json');
  writeFileSync(
    path,
    JSON.stringify({
      format: 'reeltally/profile/2',
      name: 'own',
      startsFrom: 'issue-mets',
      documents: { issue: { names: [`${'{any}a'.repeat(28)}{any}b.xml`, '{day}{edition}.xml'] } },
    }),
  );
  return path;
};

export const JSON_ROWS: readonly Row[] = [
  refused('J1', 'a field twice', record(FRAME.replace('"page": "1"', '"page": "1", "page": "2"')), 'is given twice here'),
  refused('J1', 'a number that cannot be kept exactly', record(FRAME.replace('"frame": "1"', '"frame": 12345678901234567890')), 'line 1'),
  {
    code: 'J1',
    name: 'a byte order mark',
    status: 0,
    says: '1 frame',
    run: async () => limited(['collation', 'check', kept('record.json', `\ufeff${record(FRAME)}`)]),
  },
  refused('J1', 'a million lists inside each other', `${'['.repeat(1_000_000)}${']'.repeat(1_000_000)}`, 'more than 64 deep'),
  refused('J1', 'a hundred lists inside each other', record(FRAME, `, "x": ${'['.repeat(100)}${']'.repeat(100)}`), 'more than 64 deep'),
  refused('X8', 'a field called `__proto__`', record(FRAME, ', "__proto__": {"polluted": true}'), 'cannot be the name of a field'),
  refused(
    'X8',
    'a record that has all fields from nowhere',
    '{"format": "reeltally/collation-record/2", "constructor": {}, "toString": 1}',
    'there is no field',
  ),
  {
    code: 'J2',
    name: 'a name pattern of a profile that could be tried in very many ways',
    status: 1,
    says: 'file-not-listed',
    run: async () => {
      const document = issueDocument({
        lccn: 'sn99000001',
        date: '1907-03-03',
        edition: '1',
        pages: [{ order: '1', number: '1', reel: '17', frame: '3' }],
      });
      const slow = Array.from({ length: 60 }, (_, at) => [`sn99000001/17/${'a'.repeat(200 - at)}c.xml`, '<alto/>'] as const);
      const batch = batchWith({
        'sn99000001/17/1907030301/1907030301.xml': document,
        ...(Object.fromEntries(slow) as Record<string, string>),
      });
      return limited([
        'verify',
        '--collation',
        kept('reel.csv', 'reel,frame,title,date,page\n17,3,sn99000001,1907-03-03,1\n'),
        '--batch',
        batch,
        '--profile',
        slowPattern(),
      ]);
    },
    holds: ({ stderr }) => {
      expect(stderr).not.toContain('profile');
    },
  },
  {
    ...refused(
      'J3',
      'twenty thousand wrong entries',
      record(Array.from({ length: 20_000 }, () => '1').join(',')),
      'and very many more like these',
    ),
    slow: true,
  },
  {
    ...refused(
      'J3',
      'a million wrong entries',
      record(Array.from({ length: 1_000_000 }, () => '{"frame":1}').join(',')),
      'expected text in double quotes',
    ),
    slow: true,
  },
  {
    ...refused(
      'J3',
      'a record of 300,000 frames',
      record(Array.from({ length: 300_000 }, (_, at) => `{"frame":"${String(at + 1)}"}`).join(',')),
      'the record has 300000 frames; at most 200000 are read',
    ),
    slow: true,
  },
  {
    code: 'J4',
    name: 'a number where text is wanted: nothing is turned into something else, nothing filled in, nothing left out',
    status: 3,
    says: 'expected text in double quotes: "12"',
    run: async () => limited(['collation', 'check', kept('record.json', record(FRAME.replace('"page": "1"', '"page": 12')))]),
  },
];
