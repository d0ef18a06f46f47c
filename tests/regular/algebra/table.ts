import type { How, Row, Scope, What } from '../../forge/algebra/edit.js';
import type { Product } from '../../forge/algebra/products.js';
import type { Drawn } from './drawn.js';

/** Whether the record by itself shows a kind of slip. */
export interface Kind {
  readonly what: What;
  /** Left out: however it is changed, over whatever. */
  readonly hows?: readonly How[];
  readonly scopes?: readonly Scope[];
  /** One sentence why no regularity shows it; null where one does. */
  readonly hidden: string | null;
  /** Where a kind that is shown otherwise cannot be, and why. */
  readonly but?: { readonly why: string; readonly where: (drawn: Drawn) => boolean };
}

const WIDE: readonly Scope[] = ['reel', 'title', 'batch'];
const was = ({ issues }: Drawn): readonly Row[] => issues.flatMap((issue) => (issue.was === null ? [] : [issue.was]));

/** The issues of the film of the titles of a slip, by day. */
function titleIssues({ scenery, issues }: Drawn): readonly { readonly date: string; readonly volume: string | null }[] {
  const titles = new Set(issues.map((issue) => issue.was?.['title']));
  return scenery.film.issues
    .filter(({ title, status, edition }) => titles.has(title) && status === 'on-film' && edition === 1)
    .toSorted((a, b) => (a.date < b.date ? -1 : 1));
}

/** The volumes of the issues in front of the slip and behind it are not both there and the same. */
function volumeBegins(drawn: Drawn): boolean {
  const days = was(drawn).map(({ date }) => String(date));
  const [from = '', to = ''] = [days.toSorted()[0], days.toSorted().at(-1)];
  const all = titleIssues(drawn);
  const [before, behind] = [all.findLast(({ date }) => date < from), all.find(({ date }) => date > to)];
  return before === undefined || behind?.volume !== before.volume;
}

/** Nothing of the title lies in front of the slip, or nothing behind. */
function atAnEnd(drawn: Drawn): boolean {
  const days = was(drawn).map(({ date }) => String(date));
  const all = titleIssues(drawn).map(({ date }) => date);
  return days.includes(all[0] ?? '') || days.includes(all.at(-1) ?? '');
}

/** The same editions of the same days, dealt out otherwise. */
function sameEditions({ issues }: Drawn): boolean {
  const days = (side: 'was' | 'is'): string =>
    JSON.stringify(issues.map((issue) => [issue[side]?.['title'], issue[side]?.['date'], issue[side]?.['edition']].join(' ')).toSorted());
  return days('was') === days('is');
}

const nameless = (drawn: Drawn): boolean => sameEditions(drawn) && !was(drawn).some(({ editionLabel }) => editionLabel === 'First');
const noPageAmong = ({ frames }: Drawn): boolean =>
  !frames.some(({ was: before, is }) => (before === null || is === null) && (before ?? is)?.['deliver'] === true);
const wholeWeeks = ({ planted }: Drawn): boolean => Number(planted.params['by']) % 7 === 0;
const numberWasMeant = (drawn: Drawn): boolean => was(drawn).every(({ issueNumberIntended }) => typeof issueNumberIntended === 'string');
const anEdition = (drawn: Drawn): boolean => was(drawn).some(({ edition }) => Number(edition) > 1);
const nothingNoted = ({ frames }: Drawn): boolean =>
  frames.every((frame) => (frame.was?.['condition'] as readonly string[]).length === 0 && frame.was?.['retakeOf'] === null);
const noPageShown = ({ frames }: Drawn): boolean => frames.some((frame) => frame.was?.['kind'] !== 'page' && frame.was !== null);
const inHolidays = (drawn: Drawn): boolean =>
  was(drawn).some(({ date }) => String(date).slice(5) >= '12-20' || String(date).slice(5) <= '01-03');
const inSections = ({ frames }: Drawn): boolean => frames.some((frame) => frame.was?.['section'] !== null);

/** Every kind of slip of the record, the first row that fits. All of it is common practice, no source. */
export const KINDS: readonly Kind[] = [
  {
    what: 'number',
    hows: ['shifted'],
    scopes: ['reel', 'batch'],
    hidden: 'The counter of a film reader is set to 1 anywhere, so a reel whose numbers are all too high counts on as it should.',
  },
  { what: 'number', hidden: null },
  {
    what: 'page',
    hows: ['exchanged'],
    scopes: WIDE,
    hidden: 'A label that was taken for the place in the issue counts on as a label does; most papers begin each issue with page 1.',
  },
  {
    what: 'page',
    hows: ['exchanged'],
    scopes: ['issue'],
    hidden: null,
    but: {
      why: 'Two issues that follow each other change places with all their labels, letters of the sections and all.',
      where: inSections,
    },
  },
  { what: 'page', hidden: null },
  { what: 'order', hidden: null },
  { what: 'section', hows: ['shifted', 'moved'], hidden: null },
  { what: 'section', hows: ['other', 'exchanged', 'repeated'], scopes: ['page'], hidden: null },
  {
    what: 'section',
    hows: ['other'],
    scopes: WIDE,
    hidden: null,
    but: { why: 'Where no issue has sections, all pages of all issues in one are as regular.', where: (drawn) => !inSections(drawn) },
  },
  { what: 'section', hows: ['exchanged'], scopes: ['run'], hidden: null },
  { what: 'section', hows: ['reversed'], scopes: ['issue'], hidden: null },
  {
    what: 'section',
    hidden:
      'Where the label begins with the letter of its section, a section that is not given is none that is lost; and a paper may give any name to several pages.',
  },
  { what: 'title', hidden: null },
  {
    what: 'date',
    hows: ['shifted'],
    scopes: WIDE,
    hidden: null,
    but: { why: 'A run that is too late by whole weeks falls on the days of the paper.', where: wholeWeeks },
  },
  { what: 'date', hidden: null },
  { what: 'datePrinted', hidden: 'A paper may print any date, and the record says it once.' },
  {
    what: 'edition',
    hows: ['exchanged', 'repeated', 'reversed', 'moved'],
    hidden: null,
    but: { why: 'Editions lie on the film in either order, and each may be the thinner one, where no name counts them.', where: nameless },
  },
  { what: 'edition', hidden: null },
  { what: 'editionLabel', hidden: 'The words stand on the paper alone.' },
  {
    what: 'volume',
    hows: ['other', 'shifted'],
    scopes: ['issue', 'run'],
    hidden: null,
    but: { why: 'A volume may begin with any issue, so that of the first and last ones has no witness.', where: volumeBegins },
  },
  { what: 'volume', hows: ['exchanged'], hidden: null },
  {
    what: 'volume',
    hows: ['reversed', 'moved'],
    hidden: null,
    but: { why: 'A volume may begin with any issue, so that of the first and last ones has no witness.', where: atAnEnd },
  },
  {
    what: 'volume',
    hows: ['constant', 'repeated'],
    hidden: 'A volume may begin with any issue: one that begins a few issues late is as regular as one that does not.',
  },
  { what: 'volume', hidden: 'The volume of a whole run is counted nowhere else.' },
  {
    what: 'issueNumber',
    hows: ['shifted'],
    scopes: WIDE,
    hidden: 'Numbers that are all too high run on; only where the title goes on to another reel do they not.',
  },
  {
    what: 'issueNumber',
    hidden: null,
    but: { why: 'Of a misprinted number the record says which was meant, and that one runs on.', where: numberWasMeant },
  },
  {
    what: 'frame',
    hows: ['missing'],
    hidden: null,
    but: {
      why: 'A blank, a target and a second take leave no trace where the numbers were closed up, nor does an issue in front of all others, behind them, or beside an earlier edition.',
      where: (drawn) => noPageAmong(drawn) || (drawn.planted.edit.scope !== 'page' && (atAnEnd(drawn) || anEdition(drawn))),
    },
  },
  {
    what: 'frame',
    hows: ['repeated'],
    hidden: null,
    but: { why: 'A blank, a target or a second take may well be there twice.', where: noPageAmong },
  },
  {
    what: 'delivery',
    hows: ['other'],
    hidden: null,
    but: {
      why: 'A blank side of an issue is a page on which nothing is printed, and a blank exposure looks the same.',
      where: noPageShown,
    },
  },
  {
    what: 'delivery',
    hows: ['exchanged'],
    hidden: null,
    but: { why: 'Of two takes of which nothing is noted either may be the better one.', where: nothingNoted },
  },
  {
    what: 'delivery',
    hows: ['moved'],
    hidden: null,
    but: { why: 'Around Christmas and the New Year papers are thicker and thinner than else.', where: inHolidays },
  },
  { what: 'delivery', hidden: null },
  {
    what: 'document',
    hows: ['exchanged'],
    hidden: null,
    but: { why: 'The editions of a day lie on the film in either order, and each may be the thinner one.', where: sameEditions },
  },
  { what: 'document', hidden: null },
  { what: 'absence', hows: ['other'], hidden: 'Whether a page that is not on the film was published stands nowhere else.' },
  { what: 'absence', hidden: null },
];

/** The row of a product. */
export function kindOf({ what, how, scope }: Product): Kind | undefined {
  return KINDS.find((kind) => kind.what === what && (kind.hows?.includes(how) ?? true) && (kind.scopes?.includes(scope) ?? true));
}
