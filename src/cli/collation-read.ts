import { createInterface } from 'node:readline';
import { type ReadOutcome, type ReadWish, readWorkbook } from '../acts/collation-read.js';
import { takeInRecord } from '../acts/dossier/record.js';
import { totalsInWords } from '../collation/totals.js';
import type { OpenQuestion } from '../model/reading.js';
import { answersInWords } from '../reading/propose/index.js';
import { namedRecord } from './in-dossier.js';
import { print, tell } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `collation read` as they come from the command line. */
export interface ReadArguments {
  readonly yes?: boolean;
  readonly quiet?: boolean;
}

/** Exit status while a question is open: the user can mend it. */
const OPEN = 3;

/** Says how a workbook is read, asks on a terminal, and keeps the answers beside it; gives 0 once the record is read, 3 while a question is open. Throws UserMistake. */
export async function collationReadCommand(named: readonly string[], { yes = false, quiet = false }: ReadArguments): Promise<number> {
  const { paths, root } = await namedRecord(named);
  const asks = process.stdin.isTTY && process.stderr.isTTY && !yes;
  const around = surroundings({ quiet });
  const { path, written, open, reads, side } = asks
    ? await askedOnTerminal((person) => readWorkbook(paths, { yes, ...person }, around))
    : await readWorkbook(paths, { yes, ask: null, confirm: null }, around);
  if (root !== null) await takeInRecord(root, around);
  if (written && !quiet) tell(`Written to ${path}.\n`);
  if (reads.length > 0) await print(`How it is read:\n${indented(reads)}\n`);
  if (side === null) {
    await print(openInWords(open, path, named));
    return OPEN;
  }
  await print(`The record: ${totalsInWords(side)}\n`);
  return 0;
}

type Person = Pick<ReadWish, 'ask' | 'confirm'>;

/** Lends the work a person at the terminal to ask. */
async function askedOnTerminal(work: (person: Person) => Promise<ReadOutcome>): Promise<ReadOutcome> {
  const terminal = createInterface({ input: process.stdin, output: process.stderr });
  // Lines are taken one by one, so that what is typed or pasted ahead is not lost between two questions.
  const lines = terminal[Symbol.asyncIterator]();
  const answer = async (question: string): Promise<string | null> => {
    tell(question);
    const line = await lines.next();
    return line.done === true ? null : line.value;
  };
  try {
    return await work({
      ask: (question, again) => {
        const { asks, proposed } = question;
        const answers = answersInWords(question);
        if (again) tell(answers === '' ? 'An answer is needed here.\n' : 'That is not one of the answers.\n');
        const list = answers === '' ? '' : `  ${answers}\n`;
        return answer(`\n${asks}\n${list}Answer${proposed === null ? '' : ` [${proposed}]`}: `);
      },
      confirm: async (reads) => {
        for (
          let question = `What seems unmistakable:\n${indented(reads)}\nIs all of that so?\n  yes, or no to be asked one by one\nAnswer [yes]: `;
          ;
        ) {
          const line = (await answer(question))?.trim().toLowerCase() ?? null;
          if (line === null) return null;
          if (['', 'y', 'yes'].includes(line)) return true;
          if (['n', 'no'].includes(line)) return false;
          question = 'Answer yes or no [yes]: ';
        }
      },
    });
  } finally {
    terminal.close();
  }
}

/** Lines of a list; a long one goes on below itself. */
function indented(lines: readonly string[]): string {
  return lines.map((line) => `  ${line}`).join('\n');
}

function openInWords(open: readonly OpenQuestion[], path: string, paths: readonly string[]): string {
  const lines = open.flatMap((question, at) => [
    `${String(at + 1)}. ${question.asks}`,
    ...(answersInWords(question) === '' ? [] : [`   ${answersInWords(question)}`]),
    ...(question.proposed === null ? [] : [`   Proposed: ${question.proposed}`]),
  ]);
  const count = open.length === 1 ? 'One question is open' : `${String(open.length)} questions are open`;
  return [
    `${count} about how the record is read:`,
    '',
    ...lines,
    '',
    `Write each answer beside its question in ${path}, under "answer", and run "${['reeltally collation read', ...paths].join(' ')}" again.`,
    'On a terminal the questions are asked one by one; --yes takes what is unmistakable.',
    '',
  ].join('\n');
}
