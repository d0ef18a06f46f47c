import { basename } from 'node:path';
import type { Finding, Findings, Input } from '../../model/findings.js';
import type { WrittenSheet } from '../../model/written-sheet.js';
import { sheetInWords } from '../../normalise/sheet-row.js';
import { UserMistake } from '../../read/mistake.js';
import { headKey } from '../../read/sheet-heads.js';
import { misreadUtf8 } from '../../read/windows-1252.js';
import { short } from '../../report/visible.js';
import { counted } from '../../report/words.js';
import { answerCells, firstOf } from './answer-cells.js';
import { cellTexts, isSheetName, readSheetFile, type SheetWish, typedCells } from './sheet-file.js';

type Answer = NonNullable<Finding['answer']>;

/** What the vendor answered, by finding, with the files in which it stands. */
export interface AnswerFiles {
  readonly answers: ReadonlyMap<string, Answer>;
  /** Every finding that has a row, answered or not; empty where no file was given. */
  readonly rows: ReadonlySet<string>;
  readonly remarks: readonly string[];
  readonly inputs: readonly Input[];
}

/** A finding is told by so many characters of its sentence. */
const NAMED = 160;

const WISH: SheetWish = {
  what: 'the list of discrepancies',
  fits: (heads) => heads.includes('finding') && heads.includes(headKey('vendor answer')),
  needs: 'finding, vendor answer, fixed in delivery and answered on',
  largest: 64 * 1024 * 1024,
};

/** Reads the list of discrepancies as the vendor sent it back: the columns for answers and no others. A decision in it is no decision, and is named. Throws UserMistake. */
export async function readAnswerFiles(paths: readonly string[]): Promise<AnswerFiles> {
  const answers = new Map<string, Answer>();
  const rows = new Set<string>();
  const remarks: string[] = [];
  const inputs: Input[] = [];
  for (const path of paths) {
    if (!isSheetName(path))
      throw new UserMistake(`${path}: answers are read from the list of discrepancies as it came back: CSV, XLSX or ODS.`);
    const { sheet, sha256 } = await readSheetFile(path, WISH);
    inputs.push({ role: 'answers', name: basename(path), sha256 });
    remarks.push(...answersIn(sheet, path, answers, rows));
  }
  return { answers, rows, remarks, inputs };
}

function answersIn(sheet: WrittenSheet, path: string, answers: Map<string, Answer>, known: Set<string>): readonly string[] {
  const columns = sheet.headers.map(headKey);
  if (!WISH.fits(columns))
    throw new UserMistake(
      `${path}: the columns ${WISH.needs} are needed; the first of them that is missing is "${columns.includes('finding') ? 'vendor answer' : 'finding'}".`,
    );
  const cell = cellTexts(sheet);
  const typedAt = typedCells(sheet);
  const given = answerCells(sheet, columns);
  const remarks: string[] = [];
  const decided: string[] = [];
  for (const { row } of sheet.rows) {
    const value = (name: string): string => {
      const column = columns.indexOf(headKey(name));
      return typedAt(row, column)?.kind === 'error' ? '' : cell(row, column);
    };
    const finding = value('finding');
    known.add(finding);
    const where = `${sheetInWords(sheet)}, row ${String(row)}`;
    if (value('decision') !== '') decided.push(`row ${String(row)} ("${value('decision').slice(0, 40)}")`);
    const { text, fixedIn, on } = given.inRow(row);
    if (text === '' && fixedIn === '' && on === '') continue;
    if (finding === '') {
      remarks.push(`${where}: an answer stands here and the row names no finding; it was left out.`);
      continue;
    }
    if (answers.has(finding)) remarks.push(`${where}: ${finding} is answered a second time; this answer is kept.`);
    answers.set(finding, { text, ...(fixedIn === '' ? {} : { fixedIn }), on });
  }
  if (decided.length > 0)
    remarks.push(
      `${sheetInWords(sheet)}: the column "decision" is not read, because only the library's own file rules: ${firstOf(decided, 3)}.`,
    );
  return [...(sheet.typed === undefined ? sheet.warnings : []), ...remarks, ...given.remarks(), ...misreadCells(sheet)];
}

/** A sentence about a list that somebody opened in another encoding than it has, with its first word that shows it: answers stay as they stand, and rows are known by the finding. */
function misreadCells(sheet: WrittenSheet): readonly string[] {
  const garbled = sheet.rows.flatMap(({ row, cells }) =>
    cells.flatMap((text) => {
      const before = misreadUtf8(text);
      return before === null ? [] : [{ row, now: text.split(' '), then: before.split(' ') }];
    }),
  );
  const [first] = garbled;
  if (first === undefined) return [];
  const at = first.now.findIndex((word, place) => word !== first.then[place]);
  const word = (words: readonly string[]): string => `"${(words[at] ?? '').slice(0, 40)}"`;
  return [
    `${sheetInWords(sheet)}: the text of ${String(garbled.length)} ${garbled.length === 1 ? 'cell' : 'cells'} is garbled: row ${String(first.row)} has ${word(first.now)} for ${word(first.then)}. The list is UTF-8, and somebody opened it as Windows-1252 and saved it so. Its rows were told by the finding all the same, and answers are quoted as they stand; the XLSX list has no such trouble.`,
  ];
}

/** How much of the list came back answered, for whoever waits for the result. */
export function answersInWords({ answers, rows }: AnswerFiles): string {
  const came = `The list came back with ${counted(rows.size, 'row')}`;
  return answers.size === 0
    ? `${came}, and no answer in it.`
    : `${came}, ${answers.size === 1 ? 'one of them answered. The answer stands beside its finding in every report' : `${String(answers.size)} of them answered. The answers stand beside their findings in every report`}.`;
}

/** The result with what the vendor answered to its findings, and what is to be said of the answers. */
export function withAnswers(result: Findings, files: AnswerFiles): Findings {
  const { findings, remarks } = answered(result, files, 'this result');
  return { ...result, run: { ...result.run, remarks: [...result.run.remarks, ...remarks] }, findings };
}

/**
 * The findings of a result, called `of` in sentences, with what the vendor answered to them. Said are answers to what is not a finding of it, and findings
 * of the list that have no row any more: in the list of the earlier delivery those that were known there, else all that the vendor was told.
 */
export function answered(
  result: Findings,
  { answers, rows, inputs }: AnswerFiles,
  of: string,
): Pick<Required<Findings>, 'findings' | 'pending'> & { readonly remarks: readonly string[] } {
  const { findings, corrected, pending = [] } = result;
  const known = new Set([...findings, ...corrected, ...pending].map(({ id }) => id));
  const stray = [...answers.keys()].filter((id) => !known.has(id));
  const withAnswer = (finding: Finding): Finding => ({ ...finding, answer: answers.get(finding.id) ?? finding.answer });
  return {
    findings: findings.map(withAnswer),
    pending: pending.map(withAnswer),
    remarks: [
      ...stray.map((id) => `The vendor answered to ${id.slice(0, 100)}, which is not a finding of ${of}.`),
      ...(inputs.length === 0 ? [] : goneRows(result, rows)),
    ],
  };
}

function goneRows({ findings }: Findings, rows: ReadonlySet<string>): readonly string[] {
  const later = findings.some(({ status }) => status !== undefined);
  const listed = findings.filter(({ status }) => !later || status === 'open');
  const gone = listed.filter(({ id, ruling }) => ruling?.decision !== 'collation-wrong' && !rows.has(id));
  if (gone.length === 0) return [];
  if (rows.size === 0)
    return [
      `The list came back without any row: ${gone.length === 1 ? 'its one finding was' : `all its ${String(gone.length)} findings were`} looked for all the same.`,
    ];
  const named = firstOf(
    gone.map(({ id, says }) => `${id} ("${short(says, NAMED)}")`),
    5,
  );
  return [
    `The list came back without ${gone.length === 1 ? 'the row' : 'the rows'} of ${named}: ${gone.length === 1 ? 'it was' : 'they were'} looked for all the same.`,
  ];
}
