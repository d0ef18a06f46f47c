import { isDay } from '../../calendar/civil.js';
import type { Findings } from '../../model/findings.js';
import type { Ruling } from '../../model/rulings.js';
import type { WrittenSheet } from '../../model/written-sheet.js';
import { sheetInWords } from '../../normalise/sheet-row.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { headKey } from '../../read/sheet-heads.js';
import { cellTexts, isSheetName, readSheetFile, type SheetWish } from './sheet-file.js';

/** What came back on the findings: the library's decisions, and the vendor's answers by finding. */
export interface AnsweredList {
  readonly rulings: readonly Ruling[];
  readonly answers: ReadonlyMap<string, { readonly text: string; readonly on: string }>;
  readonly sha256: string;
}

const DECISIONS: readonly Ruling['decision'][] = ['vendor-corrects', 'accept-as-is', 'collation-wrong'];

/** Reads rulings: a JSON file of that format, or a CSV file or workbook with the columns finding, decision, note, by, on, such as our own list of discrepancies filled in. Throws UserMistake. */
export async function readAnsweredList(path: string): Promise<AnsweredList> {
  if (!isSheetName(path)) {
    const { value, sha256 } = await readJsonFile(path, 'rulings');
    return { rulings: value.rulings, answers: new Map(), sha256 };
  }
  const { sheet, sha256 } = await readSheetFile(path, WISH);
  return { ...fromSheet(sheet, path), sha256 };
}

const NEEDED = ['finding', 'decision'];
const WISH: SheetWish = {
  what: 'a list of rulings',
  fits: (heads) => NEEDED.every((needed) => heads.includes(needed)),
  needs: 'finding, decision, note, by and on',
  largest: 64 * 1024 * 1024,
};

function fromSheet(sheet: WrittenSheet, path: string): Pick<AnsweredList, 'rulings' | 'answers'> {
  const columns = sheet.headers.map(headKey);
  const lacking = NEEDED.find((needed) => !columns.includes(needed));
  if (lacking !== undefined) throw new UserMistake(`${path}: there is no column "${lacking}"; a list of rulings needs ${WISH.needs}.`);
  const cell = cellTexts(sheet);
  const rulings: Ruling[] = [];
  const answers = new Map<string, { text: string; on: string }>();
  for (const { row } of sheet.rows) {
    const value = (column: string): string => cell(row, columns.indexOf(headKey(column)));
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

/** The result with what the vendor answered to its findings. */
export function withAnswers(result: Findings, answers: AnsweredList['answers']): Findings {
  return { ...result, findings: result.findings.map((finding) => ({ ...finding, answer: answers.get(finding.id) ?? finding.answer })) };
}
