import type { Check, Policies, Sampling, Terms, Tolerances } from '../model/agreement.js';

/** One policy: its values, the default first, and what each means. */
export interface PolicyEntry<K extends keyof Policies = keyof Policies> {
  readonly name: K;
  readonly means: string;
  readonly values: readonly { readonly value: Policies[K]; readonly means: string }[];
}

/** Keeps the name and the values of an entry together while it is checked. */
function policy<K extends keyof Policies>(name: K, means: string, values: readonly (readonly [Policies[K], string])[]): PolicyEntry<K> {
  return { name, means, values: values.map(([value, text]) => ({ value, means: text })) };
}

/** Every policy in the order of the documentation; the first value of each is the default, before what a profile says. */
export const POLICIES: readonly PolicyEntry[] = [
  policy('pageNumber', 'Which page label the return gives.', [
    ['intended', 'the label the library wants'],
    ['printed', 'the label on the paper, where the record notes that it differs'],
    ['either', 'one or the other'],
  ]),
  policy('unnumberedPage', 'What the return gives where no page number is printed.', [
    ['either', 'a label or none'],
    ['omit', 'no label'],
    ['supply', 'the label the library wants'],
  ]),
  policy('printedDate', 'Whether the return gives the date on the paper where it is not the real one.', [
    ['required', 'it must stand beside the real date'],
    ['optional', 'it may'],
    ['never', 'it must not'],
  ]),
  policy('absentPages', 'Whether the return names pages known not to be on the film.', [
    ['stated', 'it must'],
    ['omitted', 'it must not'],
    ['either', 'it may'],
  ]),
  policy('absentIssues', 'Whether the return names whole issues known not to be on the film.', [
    ['either', 'it may'],
    ['stated', 'it must'],
    ['omitted', 'it must not'],
  ]),
  policy('frameNumbers', 'Whether the frame numbers of what is delivered may have gaps.', [
    ['gaps-allowed', 'they may: frames that are held back keep their numbers'],
    ['unbroken', 'they may not: every number is delivered or lies among the unmatched frames'],
  ]),
  policy('targets', 'Whether the return lists the targets on the film.', [
    ['either', 'it may'],
    ['listed', 'it must'],
    ['not-listed', 'it must not'],
  ]),
  policy('editionOrder', 'How editions of one day are numbered.', [
    ['intended', 'as they came out'],
    ['filmed', 'as they stand on the film'],
  ]),
  policy('splitExposures', 'How the two halves of one exposure are numbered.', [
    ['lettered', 'one number, with A and B'],
    ['separate', 'a number each, counted on'],
  ]),
  policy('reelNumber', 'Which reel number the return carries where reels were spliced together.', [
    ['carrier', 'that of the carrier'],
    ['source', 'that of the reel that was spliced in'],
  ]),
  policy('files', 'Whether the files of every page must be in this copy of the batch.', [
    ['if-present', 'only where the batch holds files of that use at all'],
    ['required', 'always'],
  ]),
  policy('redelivery', 'What the vendor sends again after corrections.', [
    ['whole', 'the whole batch'],
    ['named-items', 'only the named documents and files, which replace those of the same name'],
  ]),
];

/** Share of delivered pages above which the verdict changes. */
export const TOLERANCES: Tolerances = { majorShare: 0.01, minorShare: 0.001 };

/** Checks without which a batch cannot be accepted, and what each looks at. */
export const CHECKS: readonly { readonly name: Check; readonly means: string }[] = [
  { name: 'pairing', means: 'each frame of the record has its partner in the return' },
  { name: 'deliver', means: 'what is to be delivered is, and what is to be held back is not' },
  { name: 'title', means: 'the title of each issue' },
  { name: 'date', means: 'the date of each issue' },
  { name: 'edition', means: 'the edition of each issue' },
  { name: 'page', means: 'the label of each page' },
  { name: 'order', means: 'the place of each page in its issue' },
];

/** Review time and billing where the agreement says nothing. Three weeks: the Library of Congress, National Digital Library, quality review introduction. No price is ever assumed. */
export const TERMS: Terms = {
  reviewDays: 21,
  reviewDayKind: 'calendar',
  holidays: [],
  currency: '',
  payOn: 'accepted',
  rounding: 'half-up',
  classes: [],
};

/** Spot checks where the agreement says nothing: each delivery is judged by itself, 2 % wrong units are let through at most once in twenty. Our choice, no source. */
export const SAMPLING: Sampling = { plan: 'limiting-quality', level: 'II', aql: '1.0', limitingQuality: '2', risk: '0.05', unit: 'page' };

/** The policies before profile and agreement: the first value of each entry above, written out so that each has its own type. */
export const DEFAULT_POLICIES: Policies = {
  pageNumber: 'intended',
  unnumberedPage: 'either',
  printedDate: 'required',
  absentPages: 'stated',
  absentIssues: 'either',
  frameNumbers: 'gaps-allowed',
  targets: 'either',
  editionOrder: 'intended',
  splitExposures: 'lettered',
  reelNumber: 'carrier',
  files: 'if-present',
  redelivery: 'whole',
};
