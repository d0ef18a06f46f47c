import { basename } from 'node:path';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { jsonText } from '../report/json.js';
import { sampleText } from '../report/sample-text.js';
import { judgeSample } from '../sampling/judge.js';
import { savedSample } from '../sampling/saved.js';
import { readAnsweredWorksheet } from './answered-worksheet.js';
import { refuseExisting, writeResults } from './results-folder.js';
import { print, tell, widthOf } from './streams.js';

/** Options of `sample judge` as they come from the command line. */
export interface JudgeArguments {
  readonly worksheet?: string;
  readonly by?: string;
  readonly out?: string;
  readonly format?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const SAMPLE_FILES: ReadonlySet<string> = new Set(['sample.json', 'sample.txt']);
/** So many mistakes of a worksheet are told at once. */
const TOLD = 20;

/** Judges the answered worksheet of a draw: 0 where the lot is accepted, 1 where it is not. Throws UserMistake. */
export async function judgeCommand(path: string, options: JudgeArguments): Promise<number> {
  const { worksheet, format = 'text', out, replace = false } = options;
  if (worksheet === undefined)
    throw new UserMistake('Say which answers are to be judged: --worksheet with the file that the page saved, or the sheet filled in.');
  if (format !== 'text' && format !== 'json') throw new UserMistake(`--format: there is no format ${format}. There are text, json.`);
  if (out !== undefined) await refuseExisting(out, replace, SAMPLE_FILES);
  const { value: draw, sha256 } = await readJsonFile(path, 'draw');
  const answers = await readAnsweredWorksheet(worksheet, draw, options.by);
  const judged = judgeSample(draw, answers.sheet);
  if ('refused' in judged) throw new UserMistake(refusal(worksheet, judged.refused));
  const sample = savedSample(judged, draw, answers.sheet, [
    { role: 'draw', name: basename(path), sha256 },
    { role: 'worksheet', name: basename(worksheet), sha256: answers.sha256 },
  ]);
  if (out === undefined) await print(format === 'json' ? jsonText(sample) : sampleText(sample, widthOf(process.stdout)));
  else {
    const files = [
      { name: 'sample.json', content: jsonText(sample) },
      { name: 'sample.txt', content: sampleText(sample, 80) },
    ];
    await writeResults(out, files, replace, SAMPLE_FILES);
    if (options.quiet !== true) tell(`Written to ${out}: ${files.map(({ name }) => name).join(', ')}.\n${sample.says[0] ?? ''}\n`);
  }
  return judged.outcome === 'rejected' ? 1 : 0;
}

function refusal(worksheet: string, refused: readonly string[]): string {
  const rest = refused.length - TOLD;
  return [
    `${worksheet}: the worksheet cannot be judged as it is:`,
    ...refused.slice(0, TOLD).map((says) => `  ${says}`),
    ...(rest > 0 ? [`  and ${String(rest)} more.`] : []),
  ].join('\n');
}
