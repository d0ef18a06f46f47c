import { createHash } from 'node:crypto';
import { isDay } from '../calendar/civil.js';
import type { Findings } from '../model/findings.js';
import type { Ruling } from '../model/rulings.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { readRegularFile } from '../read/regular-file.js';
import { readCsv } from '../read/sheet-csv.js';

/** What came back on the findings: the library's decisions, and the vendor's answers by finding. */
export interface AnsweredList {
  readonly rulings: readonly Ruling[];
  readonly answers: ReadonlyMap<string, { readonly text: string; readonly on: string }>;
  readonly sha256: string;
}

const DECISIONS: readonly Ruling['decision'][] = ['vendor-corrects', 'accept-as-is', 'collation-wrong'];
const LARGEST = 64 * 1024 * 1024;

/** Reads rulings: a JSON file of that format, or a CSV with the columns finding, decision, note, by, on, such as our own list of discrepancies filled in. Throws UserMistake. */
export async function readAnsweredList(path: string): Promise<AnsweredList> {
  if (!/\.(csv|tsv|txt)$/i.test(path)) {
    const { value, sha256 } = await readJsonFile(path, 'rulings');
    return { rulings: value.rulings, answers: new Map(), sha256 };
  }
  const bytes = await readRegularFile(path, LARGEST);
  return { ...fromSheet(bytes, path), sha256: createHash('sha256').update(bytes).digest('hex') };
}

function fromSheet(bytes: Buffer, path: string): Pick<AnsweredList, 'rulings' | 'answers'> {
  const { headers, rows } = readCsv(bytes, path);
  const columns = headers.map(key);
  for (const needed of ['finding', 'decision']) {
    if (!columns.includes(needed))
      throw new UserMistake(`${path}: there is no column "${needed}"; a list of rulings needs finding, decision, note, by and on.`);
  }
  const rulings: Ruling[] = [];
  const answers = new Map<string, { text: string; on: string }>();
  for (const { row, cells } of rows) {
    const value = (column: string): string => unguarded((cells[columns.indexOf(key(column))] ?? '').trim());
    const finding = value('finding');
    const where = `${path}, row ${String(row)}`;
    const text = value('vendor answer');
    if (text !== '') answers.set(finding, { text, on: value('answered on') });
    const wish = value('decision');
    if (wish === '') continue;
    if (finding === '') throw new UserMistake(`${where}: the row has a decision and names no finding.`);
    const decision = DECISIONS.find((known) => known === wish.toLowerCase());
    if (decision === undefined)
      throw new UserMistake(`${where}, column decision: "${wish}" is no decision. Write ${DECISIONS.join(', ')}, or leave it empty.`);
    const on = value('on');
    if (on !== '' && !isDay(on)) throw new UserMistake(`${where}, column on: "${on}" is no day of the calendar. Write it as 2026-01-31.`);
    rulings.push({ finding, decision, note: value('note'), by: value('by'), on });
  }
  return { rulings, answers };
}

const key = (head: string): string => head.toLowerCase().replace(/[\s_-]/g, '');

/** Takes off the mark that our own list puts before a cell which a spreadsheet would change. */
const unguarded = (cell: string): string => (cell.startsWith("'") ? cell.slice(1) : cell);

/** The result with what the vendor answered to its findings. */
export function withAnswers(result: Findings, answers: AnsweredList['answers']): Findings {
  return { ...result, findings: result.findings.map((finding) => ({ ...finding, answer: answers.get(finding.id) ?? finding.answer })) };
}
