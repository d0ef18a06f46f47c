import { basename, dirname } from 'node:path';
import { createInterface } from 'node:readline';
import { totalsInWords } from '../collation/totals.js';
import type { OpenQuestion, ReadingFile } from '../model/reading.js';
import type { WrittenGrid } from '../model/written-grid.js';
import { UserMistake } from '../read/mistake.js';
import { readingPath, readRecord } from '../read/record.js';
import { isAnswer, NO_READING, openQuestion, questionsOf, settledReading, withAnswer, withoutOpen } from '../reading/propose/index.js';
import { collationRecord } from './collation-record.js';
import { writeResults } from './results-folder.js';
import { print, tell } from './streams.js';

/** Options of `collation read` as they come from the command line. */
export interface ReadArguments {
  readonly yes?: boolean;
  readonly quiet?: boolean;
}

/** Exit status while a question is open: the user can mend it. */
const OPEN = 3;

/** Says how a workbook is read, asks on a terminal, and keeps the answers beside it; gives 0 once the record is read, 3 while a question is open. Throws UserMistake. */
export async function collationReadCommand(paths: readonly string[], { yes = false, quiet = false }: ReadArguments): Promise<number> {
  const path = await readingPath(paths);
  const written = await readRecord(paths);
  const { grids, readings } = written;
  const [first, second] = readings;
  if (first !== undefined && second !== undefined)
    throw new UserMistake(`${first.name} and ${second.name} lie beside these files; read one of them after the other.`);
  const before = first?.reading ?? NO_READING;
  const answered = withAnswersIn(before, basename(path));
  const settled = yes ? settledReading(grids, answered) : answered;
  const asks = process.stdin.isTTY && process.stderr.isTTY && !yes;
  const reading = asks ? await askedOnTerminal(grids, settled) : settled;
  const open = questionsOf(grids, reading).map(openQuestion);
  const rest = withoutOpen(reading);
  const next: ReadingFile = open.length === 0 ? rest : { ...rest, open };
  const says = Object.keys(next).length > 1;
  if (says && JSON.stringify(next) !== JSON.stringify(before)) {
    const name = basename(path);
    await writeResults(dirname(path), [{ name, content: `${JSON.stringify(next, null, 2)}\n` }], true, new Set([name]));
    if (!quiet) tell(`Written to ${path}.\n`);
  }
  if (open.length > 0) {
    await print(openInWords(open, path, paths));
    return OPEN;
  }
  const { side, warnings } = await collationRecord(paths);
  if (!quiet) for (const warning of warnings) tell(`reeltally: ${warning}\n`);
  await print(`The record: ${totalsInWords(side)}\n`);
  return 0;
}

/** Takes the answers that somebody wrote beside the open questions. Throws UserMistake for one that is none. */
function withAnswersIn(reading: ReadingFile, name: string): ReadingFile {
  let next = reading;
  for (const question of reading.open ?? []) {
    const answer = question.answer?.trim() ?? '';
    if (answer === '') continue;
    if (!isAnswer(question, answer))
      throw new UserMistake(
        `${name}: "${answer.slice(0, 60)}" is no answer to "${question.asks}" There are ${question.choices.join(', ')}.`,
      );
    next = withAnswer(next, question, answer);
  }
  return withoutOpen(next);
}

async function askedOnTerminal(grids: readonly WrittenGrid[], reading: ReadingFile): Promise<ReadingFile> {
  const terminal = createInterface({ input: process.stdin, output: process.stderr });
  // Lines are taken one by one, so that what is typed or pasted ahead is not lost between two questions.
  const lines = terminal[Symbol.asyncIterator]();
  let next = reading;
  try {
    for (;;) {
      const [question] = questionsOf(grids, next);
      if (question === undefined) return next;
      const { asks, choices, proposed } = question;
      tell(
        `\n${asks}\n${choices.length === 0 ? '' : `  ${choicesInWords(choices)}\n`}Answer${proposed === null ? '' : ` [${proposed}]`}: `,
      );
      const line = await lines.next();
      // What is not answered when the input ends stays open.
      if (line.done === true) return next;
      const text = line.value.trim();
      const answer = text === '' ? (proposed ?? '') : text;
      if (isAnswer(question, answer)) next = withAnswer(next, question, answer);
      else tell(choices.length === 0 ? 'An answer is needed here.\n' : 'That is none of the answers.\n');
    }
  } finally {
    terminal.close();
  }
}

/** So many choices are read at a glance; the names of our columns stand in the help and in the reading file. */
const AT_A_GLANCE = 8;

function choicesInWords(choices: readonly string[]): string {
  if (choices.length <= AT_A_GLANCE) return choices.join(', ');
  return 'one of our columns, two joined ones parted by a comma, "note" or "nothing"';
}

function openInWords(open: readonly OpenQuestion[], path: string, paths: readonly string[]): string {
  const lines = open.flatMap(({ asks, choices, proposed }, at) => [
    `${String(at + 1)}. ${asks}`,
    ...(choices.length === 0 ? [] : [`   ${choicesInWords(choices)}`]),
    ...(proposed === null ? [] : [`   Proposed: ${proposed}`]),
  ]);
  const count = open.length === 1 ? 'One question is open' : `${String(open.length)} questions are open`;
  return [
    `${count} about how the record is read:`,
    '',
    ...lines,
    '',
    `Write each answer beside its question in ${path}, under "answer", and run "reeltally collation read ${paths.join(' ')}" again.`,
    'On a terminal the questions are asked one by one; --yes takes what is unmistakable.',
    '',
  ].join('\n');
}
