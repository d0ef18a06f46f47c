import { basename } from 'node:path';
import type { Findings } from '../model/findings.js';
import type { SavedDraw, SavedSample } from '../model/sample.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { jsonText } from '../report/json.js';
import { sampleText } from '../report/sample-text.js';
import { drawMistakes, judgeSample } from '../sampling/judge.js';
import { mergedReadings } from '../sampling/readers.js';
import { savedSample } from '../sampling/saved.js';
import { drawCode } from '../sampling/worksheet.js';
import { type AnsweredFile, readAnsweredWorksheet } from './inputs/answered-worksheet.js';
import { refusal } from './inputs/refusal.js';
import type { ResultFile } from './outputs/results-folder.js';

/** A draw and the worksheets that were answered for it, as paths; `by` is who looked where a worksheet does not say. */
export interface JudgeFiles {
  readonly draw: string;
  readonly worksheets: readonly string[];
  readonly by?: string;
}

/** Every file that a judged sample puts into its folder. */
export const SAMPLE_FILES: ReadonlySet<string> = new Set(['sample.json', 'sample.txt']);
/** In a dossier, what goes to the vendor of it. */
export const IMAGE_LIST = 'images-to-correct.xlsx';

/** Judges the answered worksheets of a draw. Throws UserMistake. */
export async function judgedSample({ draw: path, worksheets, by = '' }: JudgeFiles): Promise<SavedSample> {
  const { value: draw, sha256 } = await readJsonFile(path, 'draw');
  const files: AnsweredFile[] = [];
  for (const worksheet of worksheets) files.push(await readAnsweredWorksheet(worksheet, draw, by));
  const source = { role: 'draw', name: basename(path), sha256 };
  const sample = sampleFrom(draw, files, by, [
    source,
    ...files.map((file) => ({ role: 'worksheet', name: file.name, sha256: file.sha256 })),
  ]);
  if ('refused' in sample) throw new UserMistake(refusal(`${worksheets.join(', ')}: this cannot be judged as it is`, sample.refused));
  return sample;
}

/** What comes of the answers in these worksheets, or why nothing does. */
export function sampleFrom(
  draw: SavedDraw,
  files: readonly AnsweredFile[],
  by: string,
  inputs: SavedSample['inputs'],
): SavedSample | { readonly refused: readonly string[] } {
  const changed = drawMistakes(draw);
  if (changed.length > 0) return { refused: changed };
  const answers = mergedReadings(
    draw,
    drawCode(draw),
    files.flatMap(({ readings }) => readings),
  );
  if ('refused' in answers) return answers;
  return savedSample(judgeSample(draw, answers), draw, answers, { by, inputs });
}

/** A judged sample in each of its forms, with the list for the vendor of what it found wrong in the result from which it was drawn. */
export async function sampleFilesFor(sample: SavedSample, result: Findings): Promise<readonly ResultFile[]> {
  const { imageList } = await import('./sample-findings.js');
  const list = await imageList(result, sample);
  return [...sampleFiles(sample), ...(list === null ? [] : [{ name: IMAGE_LIST, content: list }])];
}

/** A judged sample in each of its forms. */
export function sampleFiles(sample: SavedSample): readonly ResultFile[] {
  return [
    { name: 'sample.json', content: jsonText(sample) },
    { name: 'sample.txt', content: sampleText(sample, 80) },
  ];
}
