import { basename, dirname } from 'node:path';
import type { Side } from '../model/film.js';
import type { OpenQuestion, ReadingFile } from '../model/reading.js';
import type { WrittenGrid } from '../model/written-grid.js';
import { UserMistake } from '../read/mistake.js';
import { readingPath, readRecord } from '../read/record.js';
import {
  answersInWords,
  isAnswer,
  NO_READING,
  openQuestion,
  questionsAhead,
  questionsOf,
  settledReading,
  withAnswer,
  withAnswers,
  withoutOpen,
} from '../reading/propose/index.js';
import { readingInWords } from '../reading/told.js';
import { collationRecord } from './inputs/collation-record.js';
import { refusal } from './inputs/refusal.js';
import { writeResults } from './outputs/results-folder.js';
import type { Surroundings } from './surroundings.js';

/** How the answers come about. */
export interface ReadWish {
  /** Takes what is unmistakable unasked. */
  readonly yes: boolean;
  /** Asks a person; gives null when nobody answers any more. Null where there is nobody to ask. */
  readonly ask: ((question: OpenQuestion, again: boolean) => Promise<string | null>) | null;
  /** Asks the person whether what is unmistakable is so, in lines; null when nobody answers any more. */
  readonly confirm: ((lines: readonly string[]) => Promise<boolean | null>) | null;
}

/** What came of it: the reading file that was looked at, whether it was written, and what is still to be asked; the record where nothing is. */
export interface ReadOutcome {
  readonly path: string;
  readonly written: boolean;
  readonly open: readonly OpenQuestion[];
  /** How the workbook is read by it, in lines; none for a sheet of our form. */
  readonly reads: readonly string[];
  readonly side: Side | null;
}

/** Finds out how a workbook is to be read, and keeps the answers in the reading file beside it. Throws UserMistake. */
export async function readWorkbook(paths: readonly string[], wish: ReadWish, { say }: Surroundings): Promise<ReadOutcome> {
  const path = await readingPath(paths);
  const { grids, readings } = await readRecord(paths);
  const [first, second] = readings;
  if (first !== undefined && second !== undefined)
    throw new UserMistake(`${first.name} and ${second.name} lie beside these files; read one of them after the other.`);
  const before = first?.reading ?? NO_READING;
  refuseWrongAnswers(before, basename(path));
  const { reading: answered, unused } = withAnswers(grids, withoutOpen(before), before.open ?? []);
  for (const { asks, answer } of unused)
    say(`the answer "${(answer ?? '').slice(0, 60)}" is not needed, as what it answers does not arise: ${asks}`, 'remark');
  const settled = await settledIn(grids, answered, wish);
  const reading = wish.ask === null ? settled : await asked(grids, settled, wish.ask);
  const open = questionsAhead(grids, reading).map(openQuestion);
  const rest = withoutOpen(reading);
  const next: ReadingFile = open.length === 0 ? rest : { ...rest, open };
  const written = Object.keys(next).length > 1 && JSON.stringify(next) !== JSON.stringify(before);
  if (written) {
    const name = basename(path);
    await writeResults(dirname(path), [{ name, content: `${JSON.stringify(next, null, 2)}\n` }], true, new Set([name]));
  }
  const reads = readingInWords(rest);
  if (open.length > 0) return { path, written, open, reads, side: null };
  const { side, warnings } = await collationRecord(paths);
  for (const warning of warnings) say(warning, 'remark');
  return { path, written, open, reads, side };
}

/** Looks at the answers that somebody wrote beside the open questions. Throws UserMistake with all that are none. */
function refuseWrongAnswers(reading: ReadingFile, name: string): void {
  const wrong: string[] = [];
  for (const question of reading.open ?? []) {
    const answer = question.answer?.trim() ?? '';
    if (answer !== '' && !isAnswer(question, answer))
      wrong.push(`"${answer.slice(0, 60)}" does not answer this: ${question.asks} Write ${answersInWords(question)}.`);
  }
  if (wrong.length > 0)
    throw new UserMistake(
      refusal(`${name}: ${wrong.length === 1 ? 'this answer' : 'these answers'} cannot be taken`, wrong, 'answers more'),
    );
}

/** With what is unmistakable, where it is to be taken unasked or a person says that it is so. */
async function settledIn(grids: readonly WrittenGrid[], reading: ReadingFile, { yes, confirm }: ReadWish): Promise<ReadingFile> {
  const settled = settledReading(grids, reading);
  if (yes || settled === reading) return settled;
  return (await confirm?.(readingInWords(settled))) === true ? settled : reading;
}

async function asked(grids: readonly WrittenGrid[], reading: ReadingFile, ask: NonNullable<ReadWish['ask']>): Promise<ReadingFile> {
  let next = reading;
  let again = false;
  for (;;) {
    const [question] = questionsOf(grids, next);
    if (question === undefined) return next;
    const line = await ask(openQuestion(question), again);
    // What is not answered when the input ends stays open.
    if (line === null) return next;
    const text = line.trim();
    const answer = text === '' ? (question.proposed ?? '') : text;
    again = !isAnswer(question, answer);
    if (!again) next = withAnswer(next, question, answer);
  }
}
