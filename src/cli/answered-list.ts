import { createHash } from 'node:crypto';
import { isDay } from '../calendar/civil.js';
import type { Findings } from '../model/findings.js';
import type { Ruling } from '../model/rulings.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { withoutGuard } from '../normalise/sheet-guard.js';
import { sheetInWords } from '../normalise/sheet-row.js';
import { typedCellText } from '../normalise/typed-cell.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { readRegularFile } from '../read/regular-file.js';
import { readCsv } from '../read/sheet-csv.js';
import { isWorkbookName, readXlsx } from '../read/sheet-xlsx.js';

/** What came back on the findings: the library's decisions, and the vendor's answers by finding. */
export interface AnsweredList {
  readonly rulings: readonly Ruling[];
  readonly answers: ReadonlyMap<string, { readonly text: string; readonly on: string }>;
  readonly sha256: string;
}

const DECISIONS: readonly Ruling['decision'][] = ['vendor-corrects', 'accept-as-is', 'collation-wrong'];
const NEEDED = ['finding', 'decision'];
const LARGEST = 64 * 1024 * 1024;

/** Reads rulings: a JSON file of that format, or a CSV file or workbook with the columns finding, decision, note, by, on, such as our own list of discrepancies filled in. Throws UserMistake. */
export async function readAnsweredList(path: string): Promise<AnsweredList> {
  if (!/\.(csv|tsv|txt)$/i.test(path) && !isWorkbookName(path)) {
    const { value, sha256 } = await readJsonFile(path, 'rulings');
    return { rulings: value.rulings, answers: new Map(), sha256 };
  }
  const bytes = await readRegularFile(path, LARGEST);
  const sheets = isWorkbookName(path) ? readXlsx(bytes, path) : [readCsv(bytes, path)];
  return { ...fromSheet(listAmong(sheets, path)), sha256: createHash('sha256').update(bytes).digest('hex') };
}

/** The one sheet that is a list: a workbook has others beside it. */
function listAmong(sheets: readonly WrittenSheet[], path: string): WrittenSheet {
  const lists = sheets.filter(({ headers }) => NEEDED.every((needed) => headers.map(key).includes(needed)));
  const [list, second] = lists;
  if (list !== undefined && second !== undefined)
    throw new UserMistake(
      `${path}: the sheets ${list.sheet} and ${second.sheet} both have the columns of a list of rulings; keep one of them.`,
    );
  if (list !== undefined) return list;
  const lacking = sheets.length > 1 ? NEEDED : NEEDED.filter((needed) => !(sheets[0]?.headers ?? []).map(key).includes(needed));
  throw new UserMistake(
    sheets.length > 1
      ? `${path}: no sheet has the columns ${lacking.map((name) => `"${name}"`).join(' and ')}; a list of rulings needs finding, decision, note, by and on.`
      : `${path}: there is no column "${lacking[0] ?? ''}"; a list of rulings needs finding, decision, note, by and on.`,
  );
}

function fromSheet(sheet: WrittenSheet): Pick<AnsweredList, 'rulings' | 'answers'> {
  const { headers, rows, typed, problems } = sheet;
  const [problem] = problems;
  if (problem !== undefined) throw new UserMistake(`${sheetInWords(sheet)}, row ${String(problem.row)}: ${problem.says}`);
  const columns = headers.map(key);
  // A day that somebody typed over a text cell is a day of our time, and its number is clear.
  const others = new Map((typed?.cells ?? []).map((cell) => [`${String(cell.row)}|${String(cell.column)}`, cell]));
  const rulings: Ruling[] = [];
  const answers = new Map<string, { text: string; on: string }>();
  for (const { row, cells } of rows) {
    const value = (column: string): string => {
      const at = columns.indexOf(key(column));
      const other = others.get(`${String(row)}|${String(at)}`);
      if (other !== undefined && typed !== undefined) return typedCellText(other, typed.book);
      const text = (cells[at] ?? '').trim();
      // The cells of a workbook need no mark; one that was made from our CSV has it all the same.
      return typed === undefined ? unguarded(text) : withoutGuard(text);
    };
    const finding = value('finding');
    const where = `${sheetInWords(sheet)}, row ${String(row)}`;
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
