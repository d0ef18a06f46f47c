import { expect } from 'vitest';
import { issueDocument } from '../read/documents.js';
import { batchWith } from './batch-with.js';
import { limited } from './limits.js';
import type { Row } from './row.js';
import { kept } from './sheets.js';

/** Texts on which patterns that go back and forth take years: many ways to begin, and an end that fits none. */
const SLOW = [
  `${'1 '.repeat(30_000)}!`,
  `${'a'.repeat(40_000)}!`,
  `${' '.repeat(50_000)}x`,
  '(('.repeat(20_000),
  `${'1-'.repeat(20_000)}x`,
  `${'IVX'.repeat(15_000)}?`,
  `${'1899-01-'.repeat(6000)}~`,
];

const LABELS = ['1', '10', '12', '3A', '3a', '9', 'I', '\u0131', 'i', '\u00e4', 'z', 'Z'];

export const PATTERN_ROWS: readonly Row[] = [
  {
    code: 'R1',
    name: 'texts in documents on which careless patterns never end',
    status: 1,
    says: 'vocabulary-unknown',
    run: async () => {
      const files = SLOW.map((text, at) => {
        const name = `190703${String(at + 3).padStart(2, '0')}01`;
        const document = issueDocument({
          lccn: text,
          date: text,
          printed: text,
          edition: text,
          caption: text,
          volume: text,
          number: text,
          label: text,
          present: text,
          pages: [{ order: text, number: text, reel: text, frame: text, note: text, section: text, files: [text.slice(0, 3000)] }],
        });
        return [`sn99000001/17/${name}/${name}.xml`, document] as const;
      });
      return limited([
        'verify',
        '--collation',
        kept('reel.csv', 'reel,frame,title,date,page\n17,3,sn99000001,1907-03-03,1\n'),
        '--batch',
        batchWith(Object.fromEntries(files)),
      ]);
    },
  },
  ...SLOW.map(
    (text, at): Row => ({
      code: 'R1',
      name: `cells of a record on which careless patterns never end, ${String(at + 1)} of ${String(SLOW.length)}`,
      status: 3,
      says: 'cannot be used as it is',
      run: async () => {
        const heads =
          'reel,frame,kind,deliver,title,date,date printed,edition,volume,issue number,section,page,page printed,condition,duplicate of,note';
        return limited([
          'collation',
          'check',
          kept(
            'reel.csv',
            `${heads}\n${heads
              .split(',')
              .map(() => text)
              .join(',')}\n`,
          ),
        ]);
      },
    }),
  ),
  {
    code: 'R1',
    name: 'a cell of pages on which a careless pattern never ends',
    status: 3,
    says: 'cannot be used as it is',
    run: async () =>
      limited([
        'collation',
        'check',
        kept(
          'reel.csv',
          `reel,title,date,pages\n1,sn99000001,1888-01-02,"${'1-'.repeat(4990)}x"\n2,sn99000001,1888-01-03,"${'('.repeat(9000)}"\n`,
        ),
      ]),
  },
  {
    code: 'R2',
    name: 'labels are sorted alike in every language of the machine',
    status: 0,
    says: '"frame": "12"',
    run: async () => {
      const rows = LABELS.map((label, at) => `${label},${String(at + 1)},sn99000001,1888-01-${String(at + 10)},${label}`);
      const record = kept('reel.csv', ['reel,frame,title,date,page', ...rows, ''].join('\n'));
      const ways = ['C', 'tr_TR.UTF-8', 'sv_SE.UTF-8'].map(async (locale) =>
        limited(['collation', 'convert', record, '--to', 'json'], { env: { LC_ALL: locale, LANG: locale } }),
      );
      const [first, ...others] = await Promise.all(ways);
      if (first === undefined) throw new Error('nothing was run');
      for (const other of others) expect(other.stdout).toBe(first.stdout);
      return first;
    },
  },
];
