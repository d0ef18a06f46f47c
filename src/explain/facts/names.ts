import type { FindingCode } from '../../catalogue/codes.js';
import { type Fact, isOfIssue } from './statements.js';

/** How a fact is called, and the code of what is wrong with it. */
export interface FactName {
  readonly one: string;
  readonly many: string;
  readonly code: FindingCode;
  /** What is to be given where it is left out. */
  readonly give: string;
}

export const FACT_NAMES: Readonly<Record<Fact, FactName>> = {
  number: { one: 'frame number', many: 'frame numbers', code: 'frame-number-wrong', give: 'the number of its frame on the reel' },
  reel: { one: 'reel number', many: 'reel numbers', code: 'reel-number-wrong', give: 'the number of its reel' },
  order: {
    one: 'place in the issue',
    many: 'places in the issue',
    code: 'page-order-differs',
    give: 'its place in the issue, counted from 1',
  },
  page: { one: 'page number', many: 'page numbers', code: 'page-number-differs', give: 'the number that is printed on it' },
  section: { one: 'section', many: 'sections', code: 'section-differs', give: 'its section' },
  title: { one: 'title identifier', many: 'title identifiers', code: 'title-differs', give: 'its title identifier' },
  date: { one: 'date', many: 'dates', code: 'date-differs', give: 'its date' },
  datePrinted: { one: 'printed date', many: 'printed dates', code: 'printed-date-differs', give: 'the date that is printed on it' },
  edition: { one: 'edition order', many: 'edition numbers', code: 'edition-differs', give: 'its edition order' },
  editionLabel: {
    one: 'edition label',
    many: 'edition labels',
    code: 'edition-label-differs',
    give: 'the edition label that is printed on it',
  },
  volume: { one: 'volume', many: 'volumes', code: 'volume-differs', give: 'the volume that is printed on it' },
  issueNumber: { one: 'issue number', many: 'issue numbers', code: 'issue-number-differs', give: 'the issue number that is printed on it' },
};

/** What a fact is a fact of. */
export function bearer(fact: Fact): 'page' | 'issue' {
  return isOfIssue(fact) ? 'issue' : 'page';
}

/** The name of a fact as the columns of the list have it. */
export function fieldName(fact: Fact): string {
  return fact === 'number' ? 'frame' : fact;
}
