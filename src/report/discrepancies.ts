import type { Finding, Findings } from '../model/findings.js';
import { placeSources } from './places.js';
import { actInWords, frameOfStep, repairInWords } from './repair.js';
import { inRuns } from './runs.js';
import { forTheVendor, framesInWords, whoActs } from './words.js';

/** A column of the list for the vendor. */
export interface ListColumn {
  readonly head: string;
  /** Width in characters where the list is a workbook. */
  readonly width: number;
  /** `steps`: where the steps stand that are too many for a row. */
  readonly value: (finding: Finding, result: Findings, steps?: StepsPlace) => string;
  /** True where a cell keeps its line breaks: what the vendor wrote comes back as it was. */
  readonly lines: boolean;
}

/** The sheet of the workbook that has every step. */
export const STEPS_SHEET = 'all steps';
const STEPS_IN = { workbook: `on the sheet "${STEPS_SHEET}"`, table: `in discrepancies.xlsx, on the sheet "${STEPS_SHEET}"` } as const;
/** What the list is: a workbook with a sheet for all steps, or one table by itself. */
export type StepsPlace = keyof typeof STEPS_IN;
/** Its columns; none is called as one of the answers or rulings is, which are read from the list alone. */
export const STEP_HEADS = ['for finding', 'file', 'element', 'your frame number', 'what to do'] as const;

/** So many documents, and so many steps in them, are named in a row; the workbook has a sheet with all. */
const MOST = 3;

/** What is the library's to decide first: until it has, nobody is to change anything. */
const OURS = 'Nothing yet: the library looks at this first and will say what is to be done.';
const isOurs = (finding: Finding): boolean => whoActs(finding) === 'library';
const stepsAsked = (finding: Finding): Finding['repair'] => (isOurs(finding) ? [] : finding.repair);

/** The columns in the order of the work: where it is, what is wrong, what to do, the answer. Those that give nothing are for the answer. */
const COLUMNS: readonly (readonly [head: string, width: number, value: ListColumn['value']])[] = [
  ['your file', 20, yourFiles],
  ['your frame', 8, yourFrames],
  ['our frame', 11, ourFrames],
  ['issue', 15, issueInWords],
  ['severity', 8, (finding) => finding.severity],
  ['what is wrong', 30, (finding) => finding.says],
  ['what to do', 30, (finding) => (isOurs(finding) ? OURS : (finding.instruction ?? ''))],
  [
    'in your files',
    24,
    (finding, _, steps = 'table') => repairInWords(stepsAsked(finding), MOST, documentsOf(finding).slice(0, MOST), STEPS_IN[steps]),
  ],
  ['rescan', 7, (finding) => finding.rescan],
  ['who acts', 9, (finding) => `${whoActs(finding)}${finding.status === 'open' ? '; open since an earlier delivery' : ''}`],
  ['vendor answer', 20, (finding) => finding.answer?.text ?? ''],
  ['fixed in delivery', 8, (finding) => finding.answer?.fixedIn ?? ''],
  ['answered on', 10, (finding) => finding.answer?.on ?? ''],
  ['finding', 14, (finding) => finding.id],
];

/** The columns of the list for the vendor, in their order. */
export const LIST_COLUMNS: readonly ListColumn[] = COLUMNS.map(([head, width, value]) => ({
  head,
  width,
  value,
  lines: head === 'vendor answer',
}));

/** The texts of a row as cells: `one` writes a text on one line, `several` one whose line breaks stay. */
export function listCells(row: readonly string[], one: (text: string) => string, several: (text: string) => string): readonly string[] {
  return row.map((text, at) => (LIST_COLUMNS[at]?.lines === true ? several(text) : one(text)));
}

/** The list for the vendor: the texts of a row for each finding, worst first, without what was ruled to be a slip of the record. */
export function listRows(result: Findings, steps: StepsPlace): readonly (readonly string[])[] {
  return forTheVendor(result.findings).map((finding) => LIST_COLUMNS.map(({ value }) => value(finding, result, steps)));
}

/** Every step that is asked of the vendor, a row for each, in the order of the list. */
export function stepRows({ findings }: Findings): readonly (readonly string[])[] {
  return forTheVendor(findings).flatMap((finding) =>
    stepsAsked(finding).map((step) => [finding.id, step.document ?? '', step.element ?? '', frameOfStep(step), actInWords(step)]),
  );
}

/** The documents of the return that a finding is about, the first of them. */
function yourFiles(finding: Finding): string {
  const documents = documentsOf(finding);
  return [...documents.slice(0, MOST), ...(documents.length > MOST ? [`and ${String(documents.length - MOST)} more`] : [])].join(' | ');
}

/** The numbers that the return gives to the frames of a finding. */
function yourFrames({ id }: Finding, { reels }: Findings): string {
  const numbers = reels.flatMap(({ frames }) =>
    frames.filter(({ findings }) => findings.includes(id)).flatMap(({ returned }) => returned ?? []),
  );
  return numbers.length === 0 ? '' : inRuns(numbers);
}

/** The documents in which something stands; of what is wanting, those in which it is to be put. */
function documentsOf({ places, repair }: Finding): readonly string[] {
  const named = placeSources(places).flatMap(({ document }) => document ?? []);
  return named.length > 0 ? named : [...new Set(repair.flatMap(({ document }) => document ?? []))];
}

function ourFrames({ reel, frames, at }: Finding): string {
  const where = frames !== null ? framesInWords(frames) : at === null ? '' : `at frame ${at}`;
  return [...(reel === null ? [] : [`reel ${reel}`]), ...(where === '' ? [] : [where])].join(', ');
}

function issueInWords({ title, date, edition, page }: Finding, { titles }: Findings): string {
  const name = titles.find(({ id }) => id === title)?.name || title;
  return [
    ...(name === null ? [] : [name]),
    ...(date === null ? [] : [date]),
    ...(edition === null || edition === 1 ? [] : [`edition ${String(edition)}`]),
    ...(page === null ? [] : [`page ${page}`]),
  ].join(', ');
}
