import type { SheetProblem } from '../model/written-sheet.js';
import { inSeries } from './in-series.js';
import { sheetInWords } from './sheet-row.js';

/** So many examples show what a cause looks like. */
const EXAMPLES = 3;

/** A problem without its place, as a sentence. */
export function problemInWords({ held, guess, says }: SheetProblem): string {
  if (held === undefined) return says;
  return `${held}${guess === undefined ? '' : ` (${guess}?)`} ${says}`;
}

/** One sentence for each cause but for cells that hold for several rows only where they stand, with its place, or with the number of its cells and a few of them. Causes come in the order in which they first appear. */
export function byCause(problems: readonly SheetProblem[]): readonly string[] {
  const causes = new Map<string, SheetProblem[]>();
  for (const problem of problems) {
    const key = JSON.stringify([problem.column, problem.says, problem.held === undefined]);
    const known = causes.get(key);
    if (known === undefined) causes.set(key, [problem]);
    else known.push(problem);
  }
  return [...causes.values()].map((own) => {
    const cells = own.filter(({ again }) => again !== true);
    return causeInWords(cells.length > 0 ? cells : own.slice(0, 1));
  });
}

function causeInWords(problems: readonly SheetProblem[]): string {
  const [first] = problems;
  if (first === undefined) return '';
  const column = first.column === null ? [] : [`column ${first.column}`];
  if (problems.length === 1) {
    const row = first.row === null ? [] : [`row ${String(first.row)}`];
    return `${[sheetInWords(first), ...row, ...column].join(', ')}: ${problemInWords(first)}`;
  }
  const sheets = [...new Set(problems.map(sheetInWords))];
  const files = [...new Set(problems.map(({ file }) => file))];
  const where = sheets.length === 1 ? sheetInWords(first) : `${inFiles(files)}, ${String(sheets.length)} sheets`;
  const place = [files.length === sheets.length && files.length > 1 ? inFiles(files) : where, ...column].join(', ');
  const examples = distinct(problems).map((problem) => exampleInWords(problem, sheets.length > 1));
  const [things, subject] = first.held === undefined ? [first.row === null ? 'places' : 'rows', ''] : ['cells', 'each '];
  return `${place}, ${String(problems.length)} ${things}, such as ${inSeries(examples)}: ${subject}${first.says}`;
}

function inFiles(files: readonly string[]): string {
  return files.length === 1 ? (files[0] ?? '') : `${String(files.length)} files`;
}

/** A few that look different from each other, else the first ones. */
function distinct(problems: readonly SheetProblem[]): readonly SheetProblem[] {
  const seen = new Set<string | undefined>();
  const others = problems.filter(({ held }) => !seen.has(held) && seen.add(held));
  return (others.length < EXAMPLES ? [...others, ...problems.filter((one) => !others.includes(one))] : others).slice(0, EXAMPLES);
}

function exampleInWords({ held, guess, row, ...place }: SheetProblem, named: boolean): string {
  const where = [...(row === null ? [] : [`row ${String(row)}`]), ...(named ? [sheetInWords(place)] : [])].join(' of ');
  if (held === undefined) return where;
  const beside = [...(guess === undefined ? [] : [`${guess}?`]), ...(where === '' ? [] : [where])].join(', ');
  return beside === '' ? held : `${held} (${beside})`;
}
