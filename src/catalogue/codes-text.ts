import type { CatalogueEntry } from '../model/findings.js';

/** Codes that rest on the recognised text of the pages; they need `--read-text`. */
export const TEXT_CODES = [
  {
    code: 'text-date-disagrees',
    group: 'text',
    title: 'The text of the pages speaks for another date',
    why: "The dates printed in the running heads are the film's own witness where record and return agree on a wrong day.",
    severity: 'major',
  },
  {
    code: 'pages-nearly-the-same',
    group: 'text',
    title: 'Two pages carry nearly the same text',
    why: 'A page that was scanned twice, or two takes of one page, look like two different pages in every list; only the words show it.',
    severity: 'major',
  },
  {
    code: 'text-on-blank',
    group: 'text',
    title: 'A blank side carries text',
    why: 'What the record calls blank is full of words. Either the record is wrong there or another frame stands in its place.',
    severity: 'major',
  },
  {
    code: 'text-page-number-disagrees',
    group: 'text',
    title: 'The text of the page shows another page number',
    why: 'The number read at the head of the page differs from both lists. Machine reading errs often, so this is a reason to look, not to send back.',
    severity: 'minor',
  },
  {
    code: 'continuation-broken',
    group: 'text',
    title: 'An article does not go on where the page says',
    why: 'A line that sends the reader on to another page finds nothing there. A page may be wanting or exchanged.',
    severity: 'minor',
  },
] as const satisfies readonly CatalogueEntry[];
