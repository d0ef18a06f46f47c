import type { OpenQuestion, ReadingFile } from '../../model/reading.js';

/** A question about how a workbook is read, with the answer that is unmistakable, null where only the library can tell. */
export interface Asked extends OpenQuestion {
  readonly sure: string | null;
}

type About = OpenQuestion['about'];

/** Makes a question. `sure` is left out where nothing is unmistakable; true means that the proposal is. */
export function asked(
  about: About,
  of: string,
  asks: string,
  answers: {
    readonly choices?: readonly string[];
    readonly proposed: string | null;
    readonly sure?: boolean | string;
    readonly field?: string;
  },
): Asked {
  const { choices = [], proposed, sure = false, field } = answers;
  return {
    about,
    of,
    ...(field === undefined ? {} : { field }),
    asks,
    choices,
    proposed,
    answer: null,
    sure: sure === true ? proposed : sure === false ? null : sure,
  };
}

/** True where the answer is one that the question takes. */
export function isAnswer({ about, choices }: OpenQuestion, answer: string): boolean {
  if (answer.trim() === '') return false;
  if (about === 'columns') return answer.split(',').every((field) => choices.includes(field.trim()));
  return choices.length === 0 || choices.includes(answer);
}

/** The reading with one question answered; the question itself is gone. */
export function withAnswer(reading: ReadingFile, question: OpenQuestion, answer: string): ReadingFile {
  const rest = (reading.open ?? []).filter(
    ({ about, of, field }) => about !== question.about || of !== question.of || field !== question.field,
  );
  const settled = withoutOpen(reading);
  const next: ReadingFile = rest.length === 0 ? settled : { ...settled, open: rest };
  const put = <Value>(dictionary: { readonly [k: string]: Value } | undefined, value: Value): { readonly [k: string]: Value } =>
    Object.fromEntries([...Object.entries(dictionary ?? {}), [question.of, value]]);
  const before = <Value>(dictionary: { readonly [k: string]: Value } | undefined): Value | undefined =>
    new Map(Object.entries(dictionary ?? {})).get(question.of);
  switch (question.about) {
    case 'sheets':
      return {
        ...next,
        sheets: put(next.sheets, { ...before(next.sheets), is: one(answer, ['frames', 'issues', 'titles', 'reels', 'nothing']) }),
      };
    case 'reel':
      return { ...next, sheets: put(next.sheets, { is: 'frames', ...before(next.sheets), reel: answer }) };
    case 'columns':
      return { ...next, columns: put(next.columns, { ...before(next.columns), is: answer }) };
    case 'below':
      return {
        ...next,
        columns: put(next.columns, { is: question.field ?? 'note', ...before(next.columns), below: one(answer, ['as above', 'nothing']) }),
      };
    case 'titles':
      return { ...next, titles: put(next.titles, answer) };
    case 'words': {
      const words = new Map(Object.entries(next.words ?? {}));
      words.set(question.field ?? '', put(words.get(question.field ?? ''), answer));
      return { ...next, words: Object.fromEntries(words) };
    }
    case 'order':
      return { ...next, dates: { ...next.dates, order: one(answer, ['day month year', 'month day year']) } };
    case 'century':
      return { ...next, dates: { ...next.dates, century: one(answer, ['16', '17', '18', '19', '20']) } };
    case 'ditto':
      return { ...next, ditto: one(answer, ['as above', 'as written']) };
    case 'frames':
      return { ...next, frames: 'counted' };
    case 'loneNumbers':
      return { ...next, loneNumbers: one(answer, ['count', 'page']) };
    case 'pages':
      return { ...next, pages: one(answer, ['published', 'filmed']) };
    case 'colours':
      return { ...next, colours: put(next.colours, one(answer, ['nothing', 'held back', 'not on the film', 'blank', 'target', 'void'])) };
    case 'phrases':
      return { ...next, phrases: put(next.phrases, one(answer, ['fact', 'note'])) };
    case 'rows':
      return { ...next, rows: put(next.rows, one(answer, ['leave out', 'keep'])) };
  }
}

/** The reading without its open questions. */
export function withoutOpen(reading: ReadingFile): ReadingFile {
  return Object.fromEntries(Object.entries(reading).filter(([key]) => key !== 'open')) as unknown as ReadingFile;
}

/** The question as a reading file keeps it. */
export function openQuestion({ about, of, field, asks, choices, proposed, answer }: Asked): OpenQuestion {
  return { about, of, ...(field === undefined ? {} : { field }), asks, choices, proposed, answer };
}

/** The answer as one of the words there are; a question is only answered by one of its choices. */
function one<const Word extends string>(answer: string, words: readonly [Word, ...Word[]]): Word {
  return words.find((word) => word === answer) ?? words[0];
}
