import type { CatalogueEntry } from '../model/findings.js';

/** Codes about the collation record itself, found by `collation check` before the film goes out. */
export const RECORD_CODES = [
  {
    code: 'date-impossible',
    group: 'record',
    title: 'A date in the record is no day of the calendar',
    why: 'Nothing can be compared with a day that never was. What the paper prints may be impossible; the real date may not.',
    severity: 'critical',
  },
  {
    code: 'frame-numbers-broken',
    group: 'record',
    title: 'The frame numbers of the record skip or repeat',
    why: 'The record counts the frames of the film. A slip in the count puts each later frame wrong, and the vendor would be blamed for it.',
    severity: 'critical',
  },
  {
    code: 'editions-unordered',
    group: 'record',
    title: 'Several issues of one day have no clear editions',
    why: 'Two issues of the same title and day need different edition numbers, or nobody can tell which one is meant.',
    severity: 'critical',
  },
  {
    code: 'weekday-clash',
    group: 'record',
    title: 'The printed weekday does not fit the date',
    why: 'A date and its weekday prove each other. Where they clash one of them was misread or misprinted.',
    severity: 'major',
  },
  {
    code: 'gap-unexplained',
    group: 'record',
    title: 'An expected issue is neither on the film nor accounted for',
    why: 'By its pattern the paper came out that day. The record should say whether the issue is wanting or was not published.',
    severity: 'major',
  },
  {
    code: 'pages-unaccounted',
    group: 'record',
    title: 'Pages of an issue are not accounted for',
    why: 'The page numbers skip without a word about the missing ones, so a vendor cannot know whether to look for them.',
    severity: 'major',
  },
  {
    code: 'duplicate-unpaired',
    group: 'record',
    title: 'A duplicate or retake has no partner',
    why: 'A frame that is held back as a duplicate needs the frame that is delivered in its place.',
    severity: 'major',
  },
  {
    code: 'identifier-malformed',
    group: 'record',
    title: 'An identifier is not well formed',
    why: 'A title is matched by its identifier. One that a spreadsheet shortened or a hand mistyped matches nothing.',
    severity: 'major',
  },
  {
    code: 'date-off-pattern',
    group: 'record',
    title: 'An issue falls on a day on which the paper did not appear',
    why: 'It may be a holiday issue or an extra, or a slip in the date. It is worth one look.',
    severity: 'minor',
  },
  {
    code: 'page-count-unusual',
    group: 'record',
    title: 'An issue has an unusual number of pages',
    why: 'A page too few or too many against the usual number is often a page overlooked or counted twice.',
    severity: 'minor',
  },
  {
    code: 'numbering-jumps',
    group: 'record',
    title: 'Volume or issue numbers jump',
    why: 'Either an issue is wanting or the printer misnumbered. The record should say which.',
    severity: 'minor',
  },
] as const satisfies readonly CatalogueEntry[];
