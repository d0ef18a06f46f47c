import { basename } from 'node:path';
import type { SavedSample } from '../model/sample.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { jsonText } from '../report/json.js';
import { sampleText } from '../report/sample-text.js';
import { judgeSample } from '../sampling/judge.js';
import { savedSample } from '../sampling/saved.js';
import { readAnsweredWorksheet } from './inputs/answered-worksheet.js';
import { refusal } from './inputs/refusal.js';
import type { ResultFile } from './outputs/results-folder.js';

/** A draw and the worksheet that was answered for it, as paths; `by` is who looked where the worksheet does not say. */
export interface JudgeFiles {
  readonly draw: string;
  readonly worksheet: string;
  readonly by?: string;
}

/** Every file that a judged sample puts into its folder. */
export const SAMPLE_FILES: ReadonlySet<string> = new Set(['sample.json', 'sample.txt']);

/** Judges the answered worksheet of a draw. Throws UserMistake. */
export async function judgedSample(files: JudgeFiles): Promise<SavedSample> {
  const { value: draw, sha256 } = await readJsonFile(files.draw, 'draw');
  const answers = await readAnsweredWorksheet(files.worksheet, draw, files.by);
  const judged = judgeSample(draw, answers.sheet);
  if ('refused' in judged) throw new UserMistake(refusal(`${files.worksheet}: the worksheet cannot be judged as it is`, judged.refused));
  return savedSample(judged, draw, answers.sheet, [
    { role: 'draw', name: basename(files.draw), sha256 },
    { role: 'worksheet', name: basename(files.worksheet), sha256: answers.sha256 },
  ]);
}

/** A judged sample in each of its forms. */
export function sampleFiles(sample: SavedSample): readonly ResultFile[] {
  return [
    { name: 'sample.json', content: jsonText(sample) },
    { name: 'sample.txt', content: sampleText(sample, 80) },
  ];
}
