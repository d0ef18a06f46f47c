import { fileURLToPath } from 'node:url';
import { ROWS } from './rows.js';

/** Where the table stands. */
export const README = fileURLToPath(new URL('README.md', import.meta.url));

const GROUPS: readonly (readonly [string, string])[] = [
  ['X', 'Documents'],
  ['C', 'Sheets'],
  ['Z', 'Workbooks'],
  ['J', 'JSON'],
  ['P', 'Paths and special files'],
  ['O', 'What is written'],
  ['R', 'Patterns and order'],
];

/** The README of this folder: every row as the tests hold it. */
export function readme(): string {
  const tables = GROUPS.map(([letter, title]) => {
    const rows = ROWS.filter(({ code }) => code.startsWith(letter)).map(({ code, name, status, says, slow }) => [
      code,
      cell(name),
      String(status),
      says === '' ? '' : `“${cell(says)}”`,
      slow === true ? 'slow' : '',
    ]);
    return `## ${title}\n\n${table([['', 'what comes', 'status', 'what is said', ''], ...rows])}\n`;
  });
  return `# What comes to harm, and how it ends

Hostile, damaged and very large input, and what goes wrong while results are written. Each row is a test. \`rows.slow.test.ts\` runs the command as a user does: it must end with
the status and the words of its row, within 10 seconds of CPU and 512 MiB of memory, without a fault of the program. \`rows.test.ts\` holds status and words every day, in a thread
where nothing is said around the call, but for what is marked _slow_. \`kills.slow.test.ts\` kills a run at each of its moments; \`faults.slow.test.ts\` has full and closed disks, files
that vanish or grow, and five time zones; \`npm run fuzz\` looks for rows that nobody thought of. This file is written by \`npm run generate\`.

${tables.join('\n')}`;
}

/** A table whose columns are as wide as their widest cell, as the formatter lays it out. */
function table([heads = [], ...rows]: readonly (readonly string[])[]): string {
  const widths = heads.map((head, at) => Math.max(3, head.length, ...rows.map((row) => row[at]?.length ?? 0)));
  const line = (cells: readonly string[], fill: string): string =>
    `| ${cells.map((text, at) => text.padEnd(widths[at] ?? 0, fill)).join(' | ')} |`;
  return [
    line(heads, ' '),
    line(
      heads.map(() => ''),
      '-',
    ),
    ...rows.map((row) => line(row, ' ')),
  ].join('\n');
}

const cell = (text: string): string => text.replaceAll('|', '\\|');
