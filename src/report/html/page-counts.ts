import { counted } from '../words.js';
import { type Filmed, titleName } from './around.js';
import { inForce } from './civil.js';
import { html, type Markup, trusted } from './markup.js';
import { table } from './table.js';

/** An issue with its numbers of pages. */
interface IssuePages {
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
  /** On the film and to be delivered. */
  pages: number;
  /** Known to be absent. */
  absent: number;
  /** Pages that came. */
  returned: number;
}

/** Bars in one row of the picture: more would be thinner than a point on a phone. */
const BARS = 80;
const MOST_ROWS = 120;

function issuesOf({ result }: Filmed): readonly IssuePages[] {
  const issues = new Map<string, IssuePages>();
  const at = (title: string | null, date: string | null, edition: number | null): IssuePages => {
    const key = JSON.stringify([title, date, edition]);
    const issue = issues.get(key) ?? { title, date, edition, pages: 0, absent: 0, returned: 0 };
    issues.set(key, issue);
    return issue;
  };
  for (const frame of result.reels.flatMap((reel) => reel.frames)) {
    if (frame.title === null && frame.date === null) continue;
    const issue = at(frame.title, frame.date, frame.edition);
    if (frame.state !== 'return-only' && frame.kind === 'page' && frame.deliver) issue.pages++;
    if (frame.returnedKind === 'page') issue.returned++;
  }
  for (const absence of result.reels.flatMap((reel) => reel.absent)) {
    if (absence.page !== null && absence.published !== 'no') at(absence.title, absence.date, absence.edition ?? 1).absent++;
  }
  return [...issues.values()];
}

/** The count that is found most often; the smaller of two. */
function commonest(issues: readonly IssuePages[]): number {
  const counts = new Map<number, number>();
  for (const { pages } of issues) counts.set(pages, (counts.get(pages) ?? 0) + 1);
  return [...counts].sort(([a, many], [b, more]) => more - many || a - b)[0]?.[0] ?? 0;
}

type Judged = IssuePages & { readonly usual: readonly number[] };

const isUsual = (issue: Judged): boolean => issue.usual.includes(issue.pages) && issue.absent === 0;

/** A row of bars, as wide as the screen: filled where the count is usual, open where it is not, dashed for absent pages; the usual count is a line. */
function bars(issues: readonly Judged[], height: number, said: string): Markup {
  const box = (at: number, from: number, to: number): string => `M${String(at * 8 + 1)} ${String(height - to)}h6v${String(to - from)}h-6z`;
  const draw = (
    name: string,
    wanted: (issue: Judged) => boolean,
    from: (issue: Judged) => number,
    to: (issue: Judged) => number,
  ): string => {
    const path = issues.map((issue, at) => (wanted(issue) && to(issue) > from(issue) ? box(at, from(issue), to(issue)) : '')).join('');
    return path === '' ? '' : `<path class="${name}" d="${path}"/>`;
  };
  const line = issues.map((issue, at) => issue.usual.map((usual) => `M${String(at * 8)} ${String(height - usual)}h8`).join('')).join('');
  const none = (): number => 0;
  return html`<svg class="bars" role="img" aria-label="${said}" viewBox="0 0 ${Math.max(issues.length, 40) * 8} ${height}" preserveAspectRatio="none">${trusted(
    draw('usual', isUsual, none, (issue) => issue.pages) +
      draw(
        'unusual',
        (issue) => !isUsual(issue),
        none,
        (issue) => issue.pages,
      ) +
      draw(
        'absent',
        () => true,
        (issue) => issue.pages,
        (issue) => issue.pages + issue.absent,
      ) +
      `<path class="line" d="${line}"/>`,
  )}</svg>`;
}

function titlePart(name: string, issues: readonly Judged[], stated: boolean, alone: boolean): Markup {
  const height = Math.max(4, ...issues.flatMap((issue) => [issue.pages + issue.absent, ...issue.usual])) + 1;
  const rows = Array.from({ length: Math.ceil(issues.length / BARS) }, (_, row) => issues.slice(row * BARS, row * BARS + BARS));
  const odd = issues.filter((issue) => !isUsual(issue) || (!alone && issue.returned !== issue.pages));
  const usual = [...new Set(issues.flatMap((issue) => issue.usual))].sort((a, b) => a - b).join(' or ');
  return html`<h3>${name}</h3>
<p>${counted(issues.length, 'issue')}; ${stated ? 'usual by the record' : 'most often'}: ${usual} pages. The line is that count.</p>
${rows.map((row) => {
  const span = `${row[0]?.date ?? 'undated'} to ${row.at(-1)?.date ?? 'undated'}`;
  return html`<figure class="counts">${bars(row, height, `Pages per issue of ${name}, ${span}`)}<figcaption>${span}, ${counted(row.length, 'issue')}; height ${height} pages</figcaption></figure>
`;
})}${table(
  { caption: `${name}: issues with another count${alone ? '' : ', and those of which another number of pages came'}`, numbers: [1, 2, 3] },
  ['Issue', 'pages on the film', 'absent', ...(alone ? [] : ['pages that came'])],
  odd
    .slice(0, MOST_ROWS)
    .map((issue) => [
      `${issue.date ?? 'undated'}${issue.edition !== null && issue.edition !== 1 ? `, edition ${String(issue.edition)}` : ''}`,
      issue.pages,
      issue.absent,
      ...(alone ? [] : [issue.returned]),
    ]),
)}${odd.length > MOST_ROWS && html`<p>and ${counted(odd.length - MOST_ROWS, 'more issue')}.</p>`}`;
}

/** Pages per issue along the run of each title, as bars with the usual count, and in a table what is not usual. */
export function pageCounts(whole: Filmed): Markup {
  const byTitle = new Map<string | null, IssuePages[]>();
  for (const issue of issuesOf(whole)) {
    const own = byTitle.get(issue.title) ?? [];
    byTitle.set(issue.title, own);
    own.push(issue);
  }
  if (byTitle.size === 0) return html``;
  return html`<section aria-labelledby="pages"><h2 id="pages">Pages per issue</h2>
<ul class="legend" aria-label="Signs in the picture"><li><span class="key usual"></span> usual count</li><li><span class="key unusual"></span> another count (open)</li><li><span class="key absent"></span> absent pages (dashed)</li></ul>
${[...byTitle].map(([id, issues]) => {
  const title = whole.result.titles.find((known) => known.id === id);
  const most = commonest(issues);
  const judged = issues.map((issue): Judged => {
    const usual = issue.date === null ? [] : inForce(title?.patterns ?? [], issue.date).flatMap((pattern) => pattern.usualPages ?? []);
    return { ...issue, usual: usual.length > 0 ? [...new Set(usual)] : [most] };
  });
  const stated = title?.patterns.some((pattern) => (pattern.usualPages ?? []).length > 0) ?? false;
  return titlePart(titleName(whole, id), judged, stated, whole.alone);
})}</section>
`;
}
