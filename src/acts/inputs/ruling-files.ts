import { basename } from 'node:path';
import { isDay } from '../../calendar/civil.js';
import { datedLater, type MergedRulings, mergedRulings, type WrittenRuling } from '../../judge/merged-rulings.js';
import type { Input } from '../../model/findings.js';
import type { Ruling } from '../../model/rulings.js';
import type { WrittenSheet } from '../../model/written-sheet.js';
import { sheetInWords } from '../../normalise/sheet-row.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { headKey } from '../../read/sheet-heads.js';
import { cellTexts, dayTexts, isSheetName, readSheetFile, type SheetWish } from './sheet-file.js';

/** What the library decided, with the files in which it stands. */
export interface RulingFiles extends MergedRulings {
  readonly inputs: readonly Input[];
}

const DECISIONS: readonly Ruling['decision'][] = ['vendor-corrects', 'accept-as-is', 'collation-wrong'];
/** The list that goes to the vendor is known by what only that list asks for. */
const VENDORS = ['vendor answer', 'what to do', 'fixed in delivery'].map(headKey);
const IDS = ['id', 'finding'];
const NEEDS = 'id, decision, note, by and on';
const WISH: SheetWish = {
  what: "the library's rulings",
  // the vendor's list fits as well, so that it can be refused for what it is
  fits: (heads) => IDS.some((id) => heads.includes(id)) && ['decision', ...VENDORS].some((head) => heads.includes(head)),
  needs: NEEDS,
  largest: 64 * 1024 * 1024,
};

/** Reads the library's rulings: rulings.xlsx as it is written beside a result, a sheet with the same columns, or the JSON file that the report saves, on the day `today`. Throws UserMistake. */
export async function readRulingFiles(paths: readonly string[], today: string): Promise<RulingFiles> {
  const written: WrittenRuling[] = [];
  const remarks: string[] = [];
  const inputs: Input[] = [];
  for (const path of paths) {
    const file = await readOne(path);
    written.push(...file.rulings);
    remarks.push(...file.remarks);
    inputs.push({ role: 'rulings', name: basename(path), sha256: file.sha256 });
  }
  const merged = mergedRulings(written);
  return { ...merged, remarks: [...remarks, ...merged.remarks, ...datedLater(merged.rulings, today)], inputs };
}

interface OneFile {
  readonly rulings: readonly WrittenRuling[];
  readonly remarks: readonly string[];
  readonly sha256: string;
}

async function readOne(path: string): Promise<OneFile> {
  if (!isSheetName(path)) {
    const { value, sha256 } = await readJsonFile(path, 'rulings');
    return { rulings: value.rulings.map((ruling) => ({ ...ruling, where: basename(path) })), remarks: [], sha256 };
  }
  const { sheet, sha256 } = await readSheetFile(path, WISH);
  return { ...fromSheet(sheet, path), sha256 };
}

function fromSheet(sheet: WrittenSheet, path: string): Pick<OneFile, 'rulings' | 'remarks'> {
  const columns = sheet.headers.map(headKey);
  if (VENDORS.some((head) => columns.includes(head)))
    throw new UserMistake(
      `${path}: this is the list that goes to the vendor, and nothing that is written into it rules. Write your rulings into rulings.xlsx, which stands beside the result, and give that with --rulings; what the vendor answered is read with --answers.`,
    );
  const id = IDS.find((name) => columns.includes(name));
  if (id === undefined || !columns.includes('decision'))
    throw new UserMistake(
      `${path}: there is no column "${id === undefined ? 'id' : 'decision'}"; the library's rulings need the columns ${NEEDS}.`,
    );
  const cell = cellTexts(sheet);
  const day = dayTexts(sheet);
  const rulings: WrittenRuling[] = [];
  const remarks: string[] = [];
  for (const { row } of sheet.rows) {
    const value = (column: string): string => cell(row, columns.indexOf(column));
    const finding = value(id);
    const where = `${sheetInWords(sheet)}, row ${String(row)}`;
    const wish = value('decision');
    const [note, by, on] = [value('note'), value('by'), day(row, columns.indexOf('on'))];
    if (wish === '') {
      if (note !== '' || by !== '' || on !== '')
        remarks.push(`${where}: ${finding === '' ? 'a row without a finding' : finding} has no decision, so nothing is ruled here.`);
      continue;
    }
    if (finding === '') throw new UserMistake(`${where}: the row has a decision and names no finding.`);
    const decision = DECISIONS.find((known) => known === wish.toLowerCase());
    if (decision === undefined)
      throw new UserMistake(`${where}, column decision: "${wish}" is not a decision. Write ${DECISIONS.join(', ')}, or leave it empty.`);
    if (on !== '' && !isDay(on))
      throw new UserMistake(`${where}, column on: "${on}" is not a day of the calendar. Write it as 2026-01-31.`);
    rulings.push({ finding, decision, note, by, on, where });
  }
  return { rulings, remarks };
}
