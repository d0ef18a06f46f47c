import type { SampleQuestion } from '../../model/sample.js';

/** Each question as whoever looks is asked it; yes means that all is well. */
export const QUESTION_WORDS: Readonly<Record<SampleQuestion, string>> = {
  'right-date': 'The date of publication is right',
  'right-issue': 'It belongs to this issue and edition',
  'right-page': 'The page number is right',
  'right-order': 'It stands in its place in the issue',
  complete: 'Nothing is cut off, covered or missing',
  legible: 'It can be read',
};

/** Column head of a question in a sheet. */
export function questionHead(question: SampleQuestion): string {
  return question.replaceAll('-', ' ');
}
