import type { Finding, Findings } from '../model/findings.js';
import { framesInWords, worstFirst } from './words.js';
import { shownText } from './xlsx/cell-text.js';
import { writeWorkbook } from './xlsx/write.js';

/** Name of the library's own file of rulings in a folder of results. */
export const RULINGS_FILE = 'rulings.xlsx';

/** The decisions that a row takes, and what each does. */
const MEANINGS: readonly (readonly [decision: string, means: string])[] = [
  ['vendor-corrects', 'The vendor is to put it right: the finding counts, whichever side was thought to be wrong.'],
  ['accept-as-is', 'It may stay as it came: the finding no longer counts, and its frames are paid as they came.'],
  [
    'collation-wrong',
    'The record was wrong: the finding no longer counts, its frames are paid, and it leaves the list that goes to the vendor.',
  ],
];
const HOW: readonly string[] = [
  'Write one of these words into "decision", and into "by" and "on" who decided and on which day (such as 1999-12-31); "note" is for the reason. Leave the rest as it is.',
  'A decision without a name or a day does not count. A row without a decision decides nothing.',
  'Then verify again with --rulings and this file. It stays with the library: the vendor has a list of its own, and nothing that is written there decides anything.',
];
const HEADS = ['id', 'frames', 'says', 'decision', 'note', 'by', 'on'];

/** A row of the file as somebody left it. */
export interface KeptRuling {
  readonly id: string;
  readonly frames: string;
  readonly says: string;
  readonly decision: string;
  readonly note: string;
  readonly by: string;
  readonly on: string;
}

/**
 * The findings as a workbook in which the library decides: a row for each, the worst first. What somebody wrote into an earlier copy (`kept`)
 * stands where it stood; rows whose finding is gone follow at the end, so that nothing is lost.
 */
export async function renderRulings(result: Findings, kept: readonly KeptRuling[] = []): Promise<Uint8Array> {
  const written = new Map(kept.map((row) => [row.id, row]));
  const known = new Set(result.findings.map(({ id }) => id));
  const rows = [
    ...worstFirst(result.findings).map((finding) => rowOf(finding, written.get(finding.id))),
    ...kept.filter(({ id }) => !known.has(id)).map((row) => [row.id, row.frames, row.says, row.decision, row.note, row.by, row.on]),
  ];
  return writeWorkbook([
    {
      name: 'rulings',
      heads: HEADS,
      rows: rows.map((row) => row.map(shownText)),
      widths: [26, 24, 60, 18, 30, 18, 12],
      choices: { column: HEADS.indexOf('decision'), words: MEANINGS.map(([decision]) => decision) },
    },
    {
      name: 'how to rule',
      heads: null,
      rows: [...MEANINGS, ...HOW.map((line, at) => [at === 0 ? 'How' : '', line])].map((line) => line.map(shownText)),
      widths: [22, 110],
    },
  ]);
}

function rowOf(finding: Finding, kept: KeptRuling | undefined): readonly string[] {
  const { id, reel, frames, says, ruling } = finding;
  const where = [...(reel === null ? [] : [`reel ${reel}`]), ...(frames === null ? [] : [framesInWords(frames)])].join(', ');
  const { decision, note, by, on } = kept ?? ruling ?? { decision: '', note: '', by: '', on: '' };
  return [id, where, says, decision, note, by, on];
}
