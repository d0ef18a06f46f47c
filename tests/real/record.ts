import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ReturnFacts } from './facts.js';

/** What a record says beside the facts of the documents, from knowing the set. */
export interface RecordNeeds {
  /** Number of the reel where the documents give none. */
  readonly reel: string;
  readonly carrier: 'film' | 'print';
  /** How many frames the reel has; those that are in no document are in the record and held back. Null: the record ends with the last page. */
  readonly frames: number | null;
}

const HEAD = [
  'reel',
  'frame',
  'kind',
  'deliver',
  'title',
  'date',
  'edition',
  'edition label',
  'issue number',
  'page',
  'page printed',
  'order',
  'note',
];

/**
 * Writes the record that a person would have written who had the same film before her: pages and targets in film order. The label wanted is the page's place,
 * and where the documents print none, nothing is printed.
 */
export function writeRecord(folder: string, facts: ReturnFacts, needs: RecordNeeds): void {
  const rows = new Map<number, (string | number)[]>();
  let counted = 0;
  const reel = facts.issues[0]?.reel ?? facts.reels[0]?.number ?? needs.reel;
  for (const issue of facts.issues) {
    for (const page of issue.pages) {
      counted += 1;
      const printed = page.label === null ? '-' : page.label === String(page.order) ? '' : page.label;
      const identity = [issue.title, issue.date, issue.edition ?? 1, issue.editionLabel ?? '', issue.issueNumber ?? ''];
      const frame = page.frame ?? counted;
      rows.set(frame, [reel, frame, 'page', 'yes', ...identity, page.order, printed, page.order, '']);
    }
  }
  for (const target of facts.reels.flatMap(({ targets }) => targets)) {
    if (target.frame !== null) rows.set(target.frame, [reel, target.frame, 'target', 'no', ...blanks(8), 'target on the film']);
  }
  for (let frame = 1; frame <= (needs.frames ?? 0); frame += 1) {
    if (!rows.has(frame)) rows.set(frame, [reel, frame, 'other', 'no', ...blanks(8), 'not ordered']);
  }
  const title = facts.issues[0];
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'frames.csv'), sheet([HEAD, ...[...rows.entries()].sort(([a], [b]) => a - b).map(([, row]) => row)]));
  writeFileSync(
    join(folder, 'titles.csv'),
    sheet([
      ['id', 'name'],
      [title?.title ?? '', title?.titleName ?? ''],
    ]),
  );
  writeFileSync(
    join(folder, 'reels.csv'),
    sheet([
      ['number', 'carrier'],
      [reel, needs.carrier],
    ]),
  );
}

function blanks(count: number): string[] {
  return Array.from({ length: count }, () => '');
}

function sheet(rows: readonly (readonly (string | number)[])[]): string {
  return rows
    .map(
      (row) => `${row.map((cell) => (/[",\n]/.test(String(cell)) ? `"${String(cell).replaceAll('"', '""')}"` : String(cell))).join(',')}\n`,
    )
    .join('');
}
