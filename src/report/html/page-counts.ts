import { usualPages } from '../../calendar/patterns.js';
import { counted } from '../words.js';
import { type Filmed, titleName } from './around.js';
import { html, type Markup, trusted } from './markup.js';
import { type IssuePages, issuesOf } from './page-numbers.js';
import { table } from './table.js';

/** Bars in one row of the picture: more would be thinner than a point on a phone. */
const BARS = 80;
const MOST_ROWS = 120;

/** The count that is found most often; the smaller of two. */
function commonest(issues: readonly IssuePages[]): number {
  const counts = new Map<number, number>();
  for (const { pages } of issues) counts.set(pages, (counts.get(pages) ?? 0) + 1);
  return [...counts].sort(([a, many], [b, more]) => more - many || a - b)[0]?.[0] ?? 0;
}

type Judged = IssuePages & { readonly usual: readonly number[] };

/** One part of every bar: its class, the words of the legend, and from where to where it reaches. */
interface Layer {
  readonly css: string;
  readonly words: string;
  readonly from: (issue: Judged) => number;
  readonly to: (issue: Judged) => number;
}

const isUsual = ({ usual, pages, absent }: Judged): boolean => usual.includes(pages) && absent === 0;

const ABSENT: Layer = {
  css: 'absent',
  words: 'not on the film, as the record says (dashed)',
  from: ({ pages }) => pages,
  to: ({ pages, absent }) => pages + absent,
};

/** Against a return a bar marks what differs from the record; whatever the paper did is as it should be. */
const WITH_RETURN: readonly Layer[] = [
  { css: 'usual', words: 'pages of the record that came', from: () => 0, to: ({ came }) => came },
  { css: 'unusual', words: 'pages that did not come (open)', from: ({ came }) => came, to: ({ pages }) => pages },
  ABSENT,
  {
    css: 'besides',
    words: 'pages that came and were not to come (framed)',
    from: ({ pages, absent }) => pages + absent,
    to: ({ pages, absent, besides }) => pages + absent + besides,
  },
];

/** In the check of a record by itself a bar marks what is unusual for the paper. */
const ALONE: readonly Layer[] = [
  { css: 'usual', words: 'usual count', from: () => 0, to: (issue) => (isUsual(issue) ? issue.pages : 0) },
  { css: 'unusual', words: 'another count (open)', from: () => 0, to: (issue) => (isUsual(issue) ? 0 : issue.pages) },
  ABSENT,
];

/** A row of bars, as wide as the screen; the usual count is a line. */
function bars(issues: readonly Judged[], layers: readonly Layer[], height: number, said: string): Markup {
  const drawn = layers.map(({ css, from, to }) => {
    const path = issues.map((issue, at) => {
      const [low, high] = [from(issue), to(issue)];
      return high > low ? `M${String(at * 8 + 1)} ${String(height - high)}h6v${String(high - low)}h-6z` : '';
    });
    return path.every((part) => part === '') ? '' : `<path class="${css}" d="${path.join('')}"/>`;
  });
  const line = issues.map((issue, at) => issue.usual.map((usual) => `M${String(at * 8)} ${String(height - usual)}h8`).join('')).join('');
  return html`<svg class="bars" role="img" aria-label="${said}" viewBox="0 0 ${Math.max(issues.length, 40) * 8} ${height}" preserveAspectRatio="none">${trusted(
    `${drawn.join('')}<path class="line" d="${line}"/>`,
  )}</svg>`;
}

const named = ({ date, edition }: IssuePages): string =>
  `${date ?? 'undated'}${edition !== null && edition !== 1 ? `, edition ${String(edition)}` : ''}`;

/** The issues that a reader should look at, in a table. */
function oddOnes(name: string, issues: readonly Judged[], alone: boolean): Markup {
  const odd = issues.filter((issue) => (alone ? !isUsual(issue) : issue.came !== issue.pages || issue.besides > 0));
  const rows = odd
    .slice(0, MOST_ROWS)
    .map((issue) => [named(issue), issue.pages, issue.absent, ...(alone ? [] : [issue.pages - issue.came, issue.besides])]);
  const caption = alone ? `${name}: issues with another count` : `${name}: issues of which the pages did not come as the record has them`;
  const heads = ['Issue', 'pages on the film', 'not on the film', ...(alone ? [] : ['did not come', 'came besides'])];
  return html`${table({ caption, numbers: [1, 2, 3, 4] }, heads, rows)}${odd.length > MOST_ROWS && html`<p>and ${counted(odd.length - MOST_ROWS, 'more issue')}.</p>`}`;
}

function titlePart(name: string, issues: readonly Judged[], stated: boolean, alone: boolean): Markup {
  const tallest = issues.flatMap((issue) => [issue.pages + issue.absent + issue.besides, ...issue.usual]);
  const height = Math.max(4, ...tallest) + 1;
  const rows = Array.from({ length: Math.ceil(issues.length / BARS) }, (_, row) => issues.slice(row * BARS, row * BARS + BARS));
  const usual = [...new Set(issues.flatMap((issue) => issue.usual))].sort((a, b) => a - b);
  const pages = usual.length === 1 && usual[0] === 1 ? 'page' : 'pages';
  return html`<div class="page-counts"><h3>${name}</h3>
<p>${counted(issues.length, 'issue')}; ${stated ? 'usual by the record' : 'most often'}: ${usual.join(' or ')} ${pages}, drawn as a line.</p>
${rows.map((row) => {
  const span = `${row[0]?.date ?? 'undated'} to ${row.at(-1)?.date ?? 'undated'}`;
  return html`<figure class="counts">${bars(row, alone ? ALONE : WITH_RETURN, height, `Pages per issue of ${name}, ${span}`)}<figcaption>${span}, ${counted(row.length, 'issue')}; height ${height} pages</figcaption></figure>
`;
})}${oddOnes(name, issues, alone)}</div>
`;
}

/** Pages per issue along the run of each title, as bars with the usual count, and in a table what is to be looked at. */
export function pageCounts(whole: Filmed): Markup {
  const byTitle = new Map<string | null, IssuePages[]>();
  for (const issue of issuesOf(whole)) {
    const own = byTitle.get(issue.title) ?? [];
    byTitle.set(issue.title, own);
    own.push(issue);
  }
  if (byTitle.size === 0) return html``;
  const layers = whole.alone ? ALONE : WITH_RETURN;
  return html`<section aria-labelledby="pages"><h2 id="pages">Pages per issue</h2>
<ul class="legend" aria-label="Signs in the picture">${layers.map(({ css, words }) => html`<li><span class="key ${css}"></span> ${words}</li>`)}</ul>
${[...byTitle].map(([id, issues]) => {
  const title = whole.result.titles.find((known) => known.id === id);
  const most = commonest(issues);
  const judged = issues.map((issue): Judged => {
    const usual = issue.date === null ? [] : usualPages(title?.patterns ?? [], issue.date);
    return { ...issue, usual: usual.length > 0 ? usual : [most] };
  });
  const stated = title?.patterns.some((pattern) => (pattern.usualPages ?? []).length > 0) ?? false;
  return titlePart(titleName(whole, id), judged, stated, whole.alone);
})}</section>
`;
}
