import type {
  AnsweredUnit,
  Draw,
  MergedReadings,
  Reader,
  ReadersDisagree,
  Reading,
  Refused,
  SampleQuestion,
  SavedAnswers,
} from '../model/sample.js';
import { questions } from './questions.js';

type Answer = 'yes' | 'no';
type Listed = Pick<SavedAnswers, 'number' | 'id'>;

/**
 * The answers of all who looked at the units of a draw, as one. A row in which nothing is answered was left to others; rows of other draws are passed over.
 * Where two people disagree, the answer no counts. Refused by name and in the order of the numbers: rows that changed, are missing or are
 * there twice, open answers, and one person who says both; where nothing is answered at all, that is said once.
 */
export function mergedReadings(draw: Draw, code: string, readings: readonly Reading[]): MergedReadings | Refused {
  const units = [...draw.drawn, ...draw.extras].map(({ number, id }) => ({ number, id })).sort((a, b) => a.number - b.number);
  const asked = questions[draw.unit];
  const mine = readings.map((reading) => ({ ...reading, rows: reading.rows.filter((row) => row.draw === code) }));
  const strange = mine.find(({ rows }, at) => rows.length === 0 && (readings[at]?.rows.length ?? 0) > 0);
  if (strange !== undefined && mine.every(({ rows }) => rows.length === 0))
    return {
      refused: [
        `${strange.file}: this worksheet belongs to another draw; this one is ${code}. Bring the worksheet that was written with this draw.`,
      ],
    };
  if (mine.every(({ rows }) => !rows.some(isAnswered)))
    return {
      refused: [
        `Nothing is answered yet: ${units.length === 1 ? 'the one unit that was drawn has' : `none of the ${units.length} units that were drawn has`} an answer. Look at them and answer each question with yes or no.`,
      ],
    };
  const refused = [...mine.flatMap((reading) => rowMistakes(units, asked, reading)), ...missing(units, code, mine, readings)];
  if (refused.length > 0) return { refused };
  const looked = mine.map((reading) => ({
    ...reading,
    rows: reading.rows.filter(isAnswered),
  }));
  const merged = units.map((unit) => mergedUnit(unit, asked, code, looked));
  const mistakes = merged.flatMap((one) => one.mistakes);
  if (mistakes.length > 0) return { refused: mistakes };
  return {
    rows: merged.map(({ row }) => row),
    readers: readersOf(looked),
    twice: merged.filter(({ readers }) => readers > 1).length,
    disagree: merged.flatMap((one) => one.disagree),
  };
}

/** True for a row in which at least one question is answered. */
const isAnswered = ({ answers }: AnsweredUnit): boolean => answers.some(({ answer }) => answer !== null);

function mergedUnit(
  { number, id }: Listed,
  asked: readonly SampleQuestion[],
  code: string,
  readings: readonly Reading[],
): {
  readonly row: SavedAnswers;
  readonly readers: number;
  readonly disagree: readonly ReadersDisagree[];
  readonly mistakes: readonly string[];
} {
  const rows = readings.flatMap(({ by, file, rows: all }) => all.filter((row) => row.number === number).map((row) => ({ by, file, row })));
  const mistakes: string[] = [];
  const disagree: ReadersDisagree[] = [];
  const answers = asked.map((question) => {
    const given = rows.flatMap(({ by, file, row }) => {
      const answer = answerTo(row, question);
      return answer === null ? [] : [{ by, file, answer }];
    });
    const of = (answer: Answer): readonly string[] => [...new Set(given.flatMap((one) => (one.answer === answer ? [one.by] : [])))];
    const [yes, no] = [of('yes'), of('no')];
    const both = yes.find((by) => no.includes(by));
    if (both !== undefined)
      mistakes.push(
        `Unit ${number} ("${id}"): ${both === '' ? 'somebody without a name' : both} answers both yes and no to ${question}, in ${[...new Set(given.map(({ file }) => file))].join(' and ')}. Let one answer stand${both === '' ? ', or write into the column by who looked' : ''}.`,
      );
    else if (yes.length > 0 && no.length > 0) disagree.push({ id, question, yes, no });
    return { question, answer: no.length > 0 ? ('no' as const) : yes.length > 0 ? ('yes' as const) : null };
  });
  const open = answers.filter(({ answer }) => answer === null).map(({ question }) => question);
  if (open.length > 0) mistakes.push(`Unit ${number} ("${id}") has no answer to ${open.join(', ')}. Answer yes or no.`);
  const readers = new Set(rows.map(({ by }) => by)).size;
  const notes = rows
    .filter(({ row }) => row.note !== '')
    .map(({ by, row }) => (readers > 1 && by !== '' ? `${by}: ${row.note}` : row.note));
  return { row: { draw: code, number, id, answers, note: [...new Set(notes)].join('; ') }, readers, disagree, mistakes };
}

function readersOf(readings: readonly Reading[]): readonly Reader[] {
  const units = new Map<string, Set<number>>();
  for (const { by, rows } of readings)
    if (rows.length > 0) units.set(by, new Set([...(units.get(by) ?? []), ...rows.map(({ number }) => number)]));
  return [...units].map(([by, numbers]) => ({ by, units: numbers.size }));
}

function rowMistakes(units: readonly Listed[], asked: readonly SampleQuestion[], { rows, file }: Reading): readonly string[] {
  const expected = new Map(units.map(({ number, id }) => [number, id] as const));
  const seen = new Set<number>();
  return rows.flatMap((row): readonly string[] => {
    const id = expected.get(row.number);
    const again = seen.has(row.number);
    seen.add(row.number);
    if (id === undefined) return [`${file}: unit ${row.number} ("${row.id}") was not drawn. Take its row out.`];
    if (id !== row.id) return [`${file}: unit ${row.number} is called "${row.id}", but "${id}" was drawn. Put the name back.`];
    if (again) return [`${file}: unit ${row.number} ("${id}") stands there twice. Keep one row.`];
    const named = row.answers.map(({ question }) => question);
    const strange = named.filter((question, index) => !asked.includes(question) || named.indexOf(question) !== index);
    if (strange.length === 0) return [];
    return [`${file}: unit ${row.number} ("${row.id}") answers ${strange.join(', ')}, which was not asked or is answered already.`];
  });
}

/** Units that no worksheet has a row of; one whose row names another draw is told so. */
function missing(units: readonly Listed[], code: string, mine: readonly Reading[], all: readonly Reading[]): readonly string[] {
  const known = new Set(mine.flatMap(({ rows }) => rows.map(({ number }) => number)));
  return units
    .filter(({ number }) => !known.has(number))
    .map(({ number, id }) => {
      const found = all.flatMap(({ file, rows }) =>
        rows.filter((row) => row.number === number && row.id === id).map((row) => ({ file, row })),
      )[0];
      return found === undefined
        ? `Unit ${number} ("${id}") was drawn but has no row. Put it back and answer it.`
        : `${found.file}: the row of unit ${number} ("${id}") has "${found.row.draw}" in the column draw, and this draw is ${code}: it belongs to another draw. Put the code back.`;
    });
}

function answerTo(row: AnsweredUnit, question: SampleQuestion): Answer | null {
  return row.answers.find((entry) => entry.question === question)?.answer ?? null;
}
