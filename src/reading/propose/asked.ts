import { readCalendar } from '../../calendar/julian.js';
import type { OpenQuestion, ReadingFile } from '../../model/reading.js';
import { inSeries } from '../../normalise/in-series.js';

/** A question about how a workbook is read, with the answer that is unmistakable, null where only the library can tell. */
export interface Asked extends OpenQuestion {
  readonly sure: string | null;
  /** Answers that are likely beside the proposed one. */
  readonly likely: readonly string[];
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
    readonly likely?: readonly string[];
  },
): Asked {
  const { choices = [], proposed, sure = false, field, likely = [] } = answers;
  return {
    about,
    of,
    ...(field === undefined ? {} : { field }),
    asks,
    choices,
    proposed,
    answer: null,
    sure: sure === true ? proposed : sure === false ? null : sure,
    likely,
  };
}

/** The answers that there are, whatever question a file holds. */
const ANSWERS = {
  sheets: ['frames', 'issues', 'titles', 'reels', 'nothing'],
  below: ['as above', 'nothing'],
  order: ['day month year', 'month day year'],
  century: ['16', '17', '18', '19', '20'],
  ditto: ['as above', 'as written'],
  frames: ['counted'],
  loneNumbers: ['count', 'page'],
  pages: ['published', 'filmed'],
  noPages: ['a page each', 'not known'],
  spreads: ['one frame', 'a frame each'],
  duplicates: ['held back', 'delivered'],
  retakes: ['the retake', 'both'],
  colours: ['nothing', 'held back', 'not on the film', 'blank', 'target', 'void'],
  comments: ['notes', 'nothing'],
  struck: ['leave out', 'keep'],
  phrases: ['fact', 'note'],
  rows: ['leave out', 'keep', 'date of the rows below'],
} as const satisfies Partial<Record<About, readonly [string, ...string[]]>>;

const CLOSED: ReadonlyMap<About, readonly string[]> = new Map(Object.entries(ANSWERS) as [About, readonly string[]][]);

/** The answers to a question; none where any text is one. A file may have lost what we wrote there. */
export function answersTo({ about, choices }: OpenQuestion): readonly string[] {
  const closed = CLOSED.get(about);
  return closed === undefined ? choices : choices.length === 0 ? closed : choices.filter((choice) => closed.includes(choice));
}

/** True where the answer is one that the question takes. */
export function isAnswer(question: OpenQuestion, answer: string): boolean {
  const choices = answersTo(question);
  if (answer.trim() === '') return false;
  if (question.about === 'year') return /^(?:1[6-9]|20)\d\d$/.test(answer.trim());
  if (question.about === 'calendar') return readCalendar(answer) !== null;
  if (question.about === 'columns') return answer.split(',').every((field) => choices.includes(field.trim()));
  return choices.length === 0 || choices.includes(answer);
}

/** So many answers are read at a glance; the names of our columns stand in the help and in the reading file. */
const AT_A_GLANCE = 8;

/** The answers to a question in words; empty where any text is one. */
export function answersInWords(question: OpenQuestion): string {
  const choices = answersTo(question);
  if (choices.length <= AT_A_GLANCE) return inSeries(choices, 'or');
  return 'one of our columns, two joined ones parted by a comma, "note" or "nothing"';
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
        sheets: put(next.sheets, { ...before(next.sheets), is: one(answer, ANSWERS.sheets) }),
      };
    case 'reel':
      return { ...next, sheets: put(next.sheets, { is: 'frames', ...before(next.sheets), reel: answer }) };
    case 'columns':
      return { ...next, columns: put(next.columns, { ...before(next.columns), is: answer }) };
    case 'below':
      return {
        ...next,
        columns: put(next.columns, { is: question.field ?? 'note', ...before(next.columns), below: one(answer, ANSWERS.below) }),
      };
    case 'titles':
      return { ...next, titles: put(next.titles, answer) };
    case 'words': {
      const words = new Map(Object.entries(next.words ?? {}));
      words.set(question.field ?? '', put(words.get(question.field ?? ''), answer));
      return { ...next, words: Object.fromEntries(words) };
    }
    case 'order':
      return { ...next, dates: { ...next.dates, order: one(answer, ANSWERS.order) } };
    case 'century':
      return { ...next, dates: { ...next.dates, century: one(answer, ANSWERS.century) } };
    case 'year':
      return { ...next, dates: { ...next.dates, year: answer.trim() } };
    case 'calendar':
      return { ...next, dates: { ...next.dates, calendar: answer.trim().toLowerCase() } };
    case 'ditto':
      return { ...next, ditto: one(answer, ANSWERS.ditto) };
    case 'frames':
      return { ...next, frames: 'counted' };
    case 'loneNumbers':
      return { ...next, loneNumbers: one(answer, ANSWERS.loneNumbers) };
    case 'pages':
      return { ...next, pages: one(answer, ANSWERS.pages) };
    case 'noPages':
      return { ...next, noPages: one(answer, ANSWERS.noPages) };
    case 'spreads':
      return { ...next, spreads: one(answer, ANSWERS.spreads) };
    case 'duplicates':
      return { ...next, duplicates: one(answer, ANSWERS.duplicates) };
    case 'retakes':
      return { ...next, retakes: one(answer, ANSWERS.retakes) };
    case 'colours':
      return { ...next, colours: put(next.colours, one(answer, ANSWERS.colours)) };
    case 'comments':
      return { ...next, comments: one(answer, ANSWERS.comments) };
    case 'struck':
      return { ...next, struck: one(answer, ANSWERS.struck) };
    case 'phrases':
      return { ...next, phrases: put(next.phrases, one(answer, ANSWERS.phrases)) };
    case 'rows':
      return { ...next, rows: put(next.rows, one(answer, ANSWERS.rows)) };
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
