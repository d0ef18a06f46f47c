import type { SampleQuestion, SampleUnit } from '../model/sample.js';

/** What is asked of each unit. An issue is asked only what all its pages share. */
export const questions: Readonly<Record<SampleUnit, readonly SampleQuestion[]>> = {
  page: ['right-date', 'right-issue', 'right-page', 'right-order', 'complete', 'legible'],
  issue: ['right-date', 'right-issue', 'complete'],
};

/** The code of what is wrong where a question is answered no, as the vendor's list names it. */
export const CODES: Readonly<Record<SampleQuestion, string>> = {
  'right-date': 'image-wrong-page',
  'right-issue': 'image-wrong-page',
  'right-page': 'image-wrong-page',
  'right-order': 'image-out-of-order',
  complete: 'image-incomplete',
  legible: 'image-illegible',
};
