import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { XmlDocument } from 'libxml2-wasm';
import { expect } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { readWorkbook } from '../../src/read/workbook/index.js';
import { newFolder, savedResult } from '../cli/command.js';
import { EXAMPLE, finding } from '../report/example.js';
import { HOSTILE, STEERING } from '../report/hostile.js';
import { type Ending, limited } from './limits.js';
import type { Row } from './row.js';

/** A result that the schema allows, in which everything that came from outside is hostile. */
const HOSTILE_SAVED: Findings = {
  ...EXAMPLE,
  run: { ...EXAMPLE.run, batch: `batch ${HOSTILE.csi ?? ''}${HOSTILE.c1osc ?? ''}`, remarks: Object.values(HOSTILE) },
  titles: EXAMPLE.titles.map((title) => ({ ...title, name: `${title.name}${HOSTILE.title ?? ''}` })),
  findings: Object.entries(HOSTILE).map(([name, text]) =>
    finding({
      id: `volume-differs-${name}`,
      code: 'volume-differs',
      severity: 'critical',
      says: text,
      instruction: text,
      collation: text,
      return: text,
      page: text,
      title: text,
      evidence: [text],
      places: [{ document: text, line: 1 }],
    }),
  ),
};

/** A result large enough to be cut by whatever cuts. */
const LARGE: Findings = {
  ...EXAMPLE,
  findings: Array.from({ length: 3000 }, (_, at) =>
    finding({ id: `volume-differs-${String(at)}`, code: 'volume-differs', severity: 'critical', says: 'So it is. '.repeat(20) }),
  ),
};

const saved = new Map<Findings, string>();
const pathOf = (result: Findings): string => {
  const known = saved.get(result) ?? savedResult(result);
  saved.set(result, known);
  return known;
};

const rendered = async (result: Findings, format: string): Promise<Ending> => limited(['render', pathOf(result), '--format', format]);

/** A report of the hostile result, printed. */
function printed(code: string, name: string, format: string, says: string, holds: (ending: Ending) => void): Row {
  return { code, name, status: 0, says, run: async () => rendered(HOSTILE_SAVED, format), holds };
}

/** A report of the hostile result, written into a folder: the bytes of the file. */
async function written(format: string, file: string): Promise<{ readonly ending: Ending; readonly bytes: Buffer }> {
  const out = join(newFolder(), 'out');
  const ending = await limited(['render', pathOf(HOSTILE_SAVED), '--format', format, '--out', out]);
  return { ending, bytes: readFileSync(join(out, file)) };
}

async function cellsOfWorkbook(): Promise<readonly { readonly value: string; readonly kind: string; readonly format: string }[]> {
  const { bytes } = await written('xlsx', 'discrepancies.xlsx');
  return readWorkbook(bytes, 'discrepancies.xlsx').sheets.flatMap(({ rows }) => rows.flatMap(({ cells }) => cells));
}

function oldResults(): string {
  const folder = newFolder();
  for (const name of ['findings.json', 'discrepancies.csv']) writeFileSync(join(folder, name), 'old');
  return folder;
}

const unchanged = (folder: string): void => {
  expect(readdirSync(folder).toSorted()).toEqual(['discrepancies.csv', 'findings.json']);
  for (const name of readdirSync(folder)) expect(readFileSync(join(folder, name), 'utf8')).toBe('old');
};

export const WRITING_ROWS: readonly Row[] = [
  printed('O1', 'cells that a spreadsheet would run, in the CSV', 'csv', '"\'=1+1"', ({ stdout }) => {
    const cells: readonly string[][] = parse(stdout, { bom: true });
    for (const cell of cells.flat()) expect(cell).not.toMatch(/^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20\s]/);
  }),
  {
    code: 'O2',
    name: 'cells that a spreadsheet would run, in the workbook',
    status: 0,
    says: 'Written to',
    run: async () => (await written('xlsx', 'discrepancies.xlsx')).ending,
    holds: async () => {
      const cells = await cellsOfWorkbook();
      expect(cells.filter(({ value }) => value.startsWith('=1+1')).length).toBeGreaterThan(0);
      expect(new Set(cells.map(({ kind }) => kind))).toEqual(new Set(['text']));
    },
  },
  {
    code: 'O3',
    name: '0012 and 1-2 in the workbook stay what they are',
    status: 0,
    says: 'Written to',
    run: async () => (await written('xlsx', 'discrepancies.xlsx')).ending,
    holds: async () => {
      const cells = await cellsOfWorkbook();
      for (const text of ['0012', '1-2', '3E1', 'MAR1'])
        expect(cells.filter(({ value, format }) => value === text && format === '@').length).toBeGreaterThan(0);
    },
  },
  {
    code: 'O4',
    name: 'control characters, half letters and very long texts in the workbook',
    status: 0,
    says: 'Written to',
    run: async () => (await written('xlsx', 'discrepancies.xlsx')).ending,
    holds: async () => {
      for (const { value } of await cellsOfWorkbook()) {
        expect(value.length).toBeLessThanOrEqual(32_767);
        expect(value).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/u);
      }
    },
  },
  printed('O5', 'control characters and what looks like markup, in the XML', 'xml', '<discrepancies', ({ stdout }) => {
    const document = XmlDocument.fromBuffer(Buffer.from(stdout));
    expect(document.root.name).toBe('discrepancies');
    document.dispose();
  }),
  printed('O6', 'scripts, links and pictures in texts, in the page', 'html', "default-src 'none'", ({ stdout }) => {
    expect(stdout).not.toMatch(/<script>alert|<img[^>]+https?:|href="javascript:/);
    expect(stdout).toMatch(/script-src 'sha256-/);
  }),
  printed('O7', 'the end of a script in the data of the page', 'html', '</script>', ({ stdout }) => {
    expect(stdout.match(/<\/script>/g)?.length).toBe(stdout.match(/<script\b/g)?.length);
  }),
  printed('O8', 'what steers a terminal, in the summary', 'text', '\\u{1b}', ({ stdout }) => {
    expect(stdout).not.toMatch(STEERING);
  }),
  {
    code: 'O8',
    name: 'what steers a terminal, in the ledger',
    status: 0,
    says: '\\u{1b}',
    run: async () => limited(['ledger', pathOf(HOSTILE_SAVED)]),
    holds: ({ stdout }) => {
      expect(stdout).not.toMatch(STEERING);
    },
  },
  {
    code: 'O8',
    name: 'what steers a terminal, in a name of a file that is told of',
    status: 3,
    says: '\\u{1b}',
    run: async () => limited(['render', `/nowhere/${HOSTILE.title ?? ''}${HOSTILE.c1osc ?? ''}${HOSTILE.bidi ?? ''}`, '--format', 'text']),
    holds: ({ stderr }) => {
      expect(stderr).not.toMatch(STEERING);
    },
  },
  ...['json', 'jsonl'].map(
    (format): Row =>
      printed('O8', `what steers a terminal, in the ${format}`, format, '\\u001b', ({ stdout }) => {
        expect(stdout).not.toMatch(STEERING);
      }),
  ),
  {
    code: 'O10',
    slow: true,
    name: 'a disk that takes no more',
    status: 3,
    says: 'What was there before is unchanged',
    run: async () => {
      const folder = oldResults();
      const ending = await limited(['render', pathOf(LARGE), '--format', 'json,csv', '--out', folder, '--replace'], {
        shell: 'ulimit -f 64; "$@"',
      });
      unchanged(folder);
      return ending;
    },
  },
  ...(existsSync('/dev/full')
    ? [
        {
          code: 'O11',
          slow: true,
          name: 'a standard output on a full disk',
          status: 3,
          says: 'the disk is full',
          run: async () => limited(['render', pathOf(LARGE), '--format', 'json'], { shell: '"$@" >/dev/full' }),
        } satisfies Row,
      ]
    : []),
  {
    code: 'O12',
    slow: true,
    name: 'a reader that has seen enough',
    status: 0,
    says: 'status 0',
    run: async () => limited(['render', pathOf(LARGE), '--format', 'json'], { shell: '{ "$@"; echo "status $?" >&2; } | head -n 1' }),
    holds: ({ stdout, stderr }) => {
      expect([stdout, stderr]).toEqual(['{\n', 'status 0\n']);
    },
  },
  {
    code: 'O13',
    slow: true,
    name: 'a big result into a pipe, whole',
    status: 0,
    says: 'volume-differs-2999',
    run: async () => limited(['render', pathOf(LARGE), '--format', 'json'], { shell: '"$@" | cat' }),
    holds: ({ stdout }) => {
      expect((JSON.parse(stdout) as Findings).findings).toHaveLength(3000);
    },
  },
  {
    code: 'O15',
    name: 'a signal to end while results are made',
    status: 143,
    says: '',
    killed: true,
    run: async () => {
      const folder = oldResults();
      const ending = await limited(['render', pathOf(LARGE), '--format', 'json,csv', '--out', folder, '--replace'], {
        shell: '"$@" & sleep 0.3; kill -TERM $!; wait $!',
      });
      unchanged(folder);
      return ending;
    },
  },
  {
    code: 'O16',
    slow: true,
    name: 'memory that is not enough',
    status: 134,
    says: 'heap',
    killed: true,
    run: async () => {
      const folder = oldResults();
      const ending = await limited(['render', pathOf(LARGE), '--format', 'json,csv', '--out', folder, '--replace'], {
        shell: 'ulimit -c 0; "$@"; exit $?',
        env: { NODE_OPTIONS: '--max-old-space-size=8' },
      });
      unchanged(folder);
      return ending;
    },
  },
];
