import type { DueLine, ExpectedReport, NeedsRow } from '../../model/expected-delivery.js';
import { cell, sheet } from '../sheet.js';
import { visible } from '../visible.js';
import { counted } from '../words.js';
import type { TextSheet } from '../xlsx/text-sheet.js';

/** The return that would be right as text: in numbers, then what must, may and must not be said. */
export function expectedText(report: ExpectedReport): string {
  const { counts, placeless, profile } = report;
  const lines = [
    `The return that would be right${profile === null ? '' : `, as ${profile}`}`,
    '',
    ...counts.reels.flatMap(({ number, frames, deliver, heldBack, titles }) => [
      `Reel ${number}: ${counted(frames, 'frame')}, ${String(deliver)} to deliver, ${String(heldBack)} held back`,
      ...titles.map(({ title, issues, pages }) => `  ${title}: ${counted(issues, 'issue')}, ${counted(pages, 'page')}`),
    ]),
    `Together: ${counted(counts.issues, 'issue')}; not on the film: ${counted(counts.absences.issues, 'issue')} and ${counted(counts.absences.pages, 'page')}`,
    '',
    ...money(report),
    'What the return must, may and must not say',
    ...needsTable(report.needs),
    ...(placeless.length === 0
      ? []
      : ['', `To be delivered, but in no issue, so that this layout has no place for it: ${placeless.join('; ')}.`]),
  ];
  return `${lines.map(visible).join('\n')}\n`;
}

function money({ amounts, sum, currency }: ExpectedReport): readonly string[] {
  if (amounts.length === 0) return [];
  const width = Math.max(...amounts.map((one) => one.class.length));
  return [
    'What it comes to where everything is accepted',
    ...amounts.map(({ class: name, units, unitPrice, amount }) => {
      const price = unitPrice === null || amount === null ? 'no price agreed' : `x ${unitPrice} = ${amount} ${currency}`;
      return `  ${name.padEnd(width)}  ${String(units)} ${price}`;
    }),
    ...(sum === null ? [] : [`  ${'Sum'.padEnd(width)}  ${sum} ${currency}`]),
    '',
  ];
}

function needsTable(needs: readonly NeedsRow[]): readonly string[] {
  const heads = ['', 'must', 'may', 'must not', 'policy'];
  const rows = needs.map(({ what, must, may, mustNot, policy }) => [what, String(must), String(may), String(mustNot), policy ?? '']);
  const widths = heads.map((head, at) => Math.max(head.length, ...rows.map((row) => (row[at] ?? '').length)));
  const line = (cells: readonly string[]): string =>
    `  ${cells.map((text, at) => (at === 0 || at === 4 ? text.padEnd(widths[at] ?? 0) : text.padStart(widths[at] ?? 0))).join('  ')}`.trimEnd();
  return [line(heads), ...rows.map(line)];
}

const COLUMNS: readonly (keyof DueLine)[] = [
  'folder',
  'document',
  'what',
  'reel',
  'frame',
  'title',
  'date',
  'edition',
  'section',
  'page',
  'order',
];
const WIDTHS = [34, 38, 16, 12, 9, 16, 13, 9, 9, 9, 8];

/** The list of folders and documents as CSV. */
export function expectedCsv({ lines }: ExpectedReport): string {
  return sheet([COLUMNS, ...lines.map((line) => COLUMNS.map((column) => cell(line[column])))]);
}

/** The list as a sheet of a workbook, with the numbers and needs on sheets beside it. */
export function expectedSheets(report: ExpectedReport): readonly TextSheet[] {
  const { lines, counts, amounts, needs, currency, sum } = report;
  const reels = counts.reels.flatMap(({ number, frames, deliver, heldBack, titles }) => [
    [number, '', String(frames), String(deliver), String(heldBack), '', ''],
    ...titles.map(({ title, issues, pages }) => [number, title, '', '', '', String(issues), String(pages)]),
  ]);
  const classes = amounts.map((one) => [
    one.class,
    String(one.units),
    one.unitPrice ?? '',
    one.amount ?? '',
    one.amount === null ? '' : currency,
  ]);
  return [
    { name: 'documents', heads: COLUMNS, rows: lines.map((line) => COLUMNS.map((column) => line[column])), widths: WIDTHS },
    {
      name: 'counts',
      heads: ['reel', 'title', 'frames', 'to deliver', 'held back', 'issues', 'pages'],
      rows: reels,
      widths: [12, 44, 9, 11, 11, 9, 9],
    },
    {
      name: 'money',
      heads: ['class', 'units', 'unit price', 'amount', 'currency'],
      rows: [...classes, ...(sum === null ? [] : [['Sum', '', '', sum, currency]])],
      widths: [24, 10, 12, 14, 10],
    },
    {
      name: 'must and may',
      heads: ['what', 'must', 'may', 'must not', 'policy'],
      rows: needs.map(({ what, must, may, mustNot, policy }) => [what, String(must), String(may), String(mustNot), policy ?? '']),
      widths: [44, 9, 9, 10, 28],
    },
  ];
}
