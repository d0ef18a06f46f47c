import type { OpenQuestion, ReadingFile } from '../../model/reading.js';
import type { WrittenGrid } from '../../model/written-grid.js';
import { type Asked, answersTo, withAnswer } from './asked.js';
import { questionsOf } from './questions.js';

/** Answers follow from each other in no more rounds than that. */
const MOST_ROUNDS = 20;

/**
 * Everything that is to be asked of a workbook at once: what is open, what follows when all that is proposed is taken, and what another likely
 * answer would open, with that answer named in front. So a person answers once, and the workbook is read.
 */
export function questionsAhead(grids: readonly WrittenGrid[], reading: ReadingFile): readonly Asked[] {
  const open = questionsOf(grids, reading);
  if (open.length === 0) return [];
  const asked = new Map(open.map((question) => [keyOf(question), question]));
  for (const question of followUps(grids, taken(reading, open))) if (!asked.has(keyOf(question))) asked.set(keyOf(question), question);
  const conditional = new Map<string, { readonly question: Asked; readonly conditions: readonly string[] }>();
  for (const question of open)
    for (const answer of otherwise(question)) {
      const others = open.filter((one) => one !== question);
      for (const more of followUps(grids, taken(withAnswer(reading, question, answer), others))) {
        const key = keyOf(more);
        // What is unmistakable then is taken then.
        if (asked.has(key) || more.sure !== null) continue;
        const { conditions = [] } = conditional.get(key) ?? {};
        conditional.set(key, { question: more, conditions: [...new Set([...conditions, condition(question, answer)])] });
      }
    }
  return [
    ...asked.values(),
    ...[...conditional.values()].map(({ question, conditions }) => ({
      ...question,
      asks: `Only if ${conditions.join(', or ')}: ${question.asks}`,
    })),
  ];
}

/**
 * The reading with the answers to questions that arise once the others are answered, and with what follows from them unmistakably. `unused` are answers
 * to questions that do not arise.
 */
export function withAnswers(
  grids: readonly WrittenGrid[],
  reading: ReadingFile,
  open: readonly OpenQuestion[],
): { readonly reading: ReadingFile; readonly unused: readonly OpenQuestion[] } {
  const asked = new Set(open.map(keyOf));
  let left = open.filter(({ answer }) => (answer?.trim() ?? '') !== '');
  let next = reading;
  if (left.length === 0) return { reading, unused: [] };
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const arising = questionsOf(grids, next);
    const keys = new Set(arising.map(keyOf));
    const answered = left.filter((question) => keys.has(keyOf(question)));
    const sure = arising.filter((question) => question.sure !== null && !asked.has(keyOf(question)));
    if (answered.length + sure.length === 0) break;
    for (const question of answered) next = withAnswer(next, question, question.answer?.trim() ?? '');
    for (const question of sure) next = withAnswer(next, question, question.sure ?? '');
    left = left.filter((question) => !answered.includes(question));
  }
  return { reading: next, unused: left };
}

function keyOf({ about, of, field = '' }: OpenQuestion): string {
  return JSON.stringify([about, of, field]);
}

/** What is asked, round by round, where each question gets its likely answer. */
function followUps(grids: readonly WrittenGrid[], reading: ReadingFile): readonly Asked[] {
  const found = new Map<string, Asked>();
  let next = reading;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const questions = questionsOf(grids, next).filter((question) => !found.has(keyOf(question)));
    if (questions.length === 0) break;
    for (const question of questions) found.set(keyOf(question), question);
    next = taken(next, questions);
  }
  return [...found.values()];
}

function taken(reading: ReadingFile, questions: readonly Asked[]): ReadingFile {
  return questions.reduce((next, question) => withAnswer(next, question, likely(question)), reading);
}

/** What a person probably answers; where nobody can tell, an answer that opens nothing else. */
function likely(question: Asked): string {
  const choices = answersTo(question);
  return question.proposed ?? (choices.includes('nothing') ? 'nothing' : choices[0]) ?? SOME[question.about] ?? '1';
}

const SOME: Partial<Record<OpenQuestion['about'], string>> = { year: '1900', calendar: 'gregorian' };

/** Other answers that a person may well give. */
function otherwise(question: Asked): readonly string[] {
  // What a phrase opens when it is no fact is asked beside it.
  if (question.sure !== null || question.about === 'phrases') return [];
  if (question.likely.length > 0) return question.likely;
  const choices = answersTo(question);
  return choices.length === 2 ? choices.filter((choice) => choice !== likely(question)) : [];
}

function condition({ about, of }: Asked, answer: string): string {
  if (about === 'columns') return `the column "${of}" is ${answer}`;
  if (about === 'loneNumbers') return `a number alone among the pages is a ${answer}`;
  if (about === 'pages') return `the pages are those ${answer}`;
  return `"${of}" is ${answer}`;
}
