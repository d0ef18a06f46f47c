import type { BlankDay, BlankRecord } from '../../model/blank-record.js';
import { MONTHS } from '../html/civil.js';
import { html, type Markup, trusted } from '../html/markup.js';
import { counted } from '../words.js';
import { type BlankMonth, monthsOf } from './months.js';
import { DAY_STATES } from './states.js';

const WEEK: readonly (readonly [string, string])[] = [
  ['Mo', 'Monday'],
  ['Tu', 'Tuesday'],
  ['We', 'Wednesday'],
  ['Th', 'Thursday'],
  ['Fr', 'Friday'],
  ['Sa', 'Saturday'],
  ['Su', 'Sunday'],
];

const STYLE = `
:root { color-scheme: light; --ink: #1c1b18; --soft: #5f5c54; --line: #8b8778; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 60rem; background: #fff; color: var(--ink); font: 1rem/1.4 system-ui, sans-serif; }
h1 { font-size: 1.4rem; margin: 0 0 .25rem; }
h2 { font-size: 1.1rem; margin: 1.25rem 0 .5rem; }
p { margin: .25rem 0; max-width: 75ch; }
.legend { list-style: none; display: flex; flex-wrap: wrap; gap: .25rem 1.25rem; margin: .5rem 0; padding: 0; }
.legend b { display: inline-block; min-width: 1.5rem; text-align: center; border: 1px solid var(--ink); margin-right: .3rem; print-color-adjust: exact; }
.fill { display: flex; flex-wrap: wrap; gap: .5rem 2rem; margin: .75rem 0; }
.fill span { flex: 1 1 12rem; border-bottom: 1px solid var(--ink); }
.months { display: grid; grid-template-columns: repeat(auto-fill, minmax(16rem, 1fr)); gap: .75rem 1.25rem; align-items: start; }
abbr { text-decoration: none; }
table { border-collapse: separate; border-spacing: 2px; width: 100%; table-layout: fixed; break-inside: avoid; }
caption { text-align: left; font-weight: bold; }
th { font-size: .75rem; font-weight: normal; color: var(--soft); padding: 0; }
td { height: 1.9rem; padding: 0 .15rem; vertical-align: top; font-size: .7rem; color: var(--soft); }
td.on { border: 1px solid var(--ink); color: var(--ink); print-color-adjust: exact; }
td b { float: right; font-size: .95rem; line-height: 1.8rem; }
${DAY_STATES.map(({ state, fill, ink }) => `.${state} { background: ${fill}; color: ${ink}; }`).join('\n')}
td.open, .legend .open { background: #fff; }
@page { size: A4 portrait; margin: 12mm; }
@media print { body { padding: 0; max-width: none; font-size: .8rem; } p { max-width: none; } .months { grid-template-columns: repeat(3, 1fr); gap: .4rem .9rem; } td { height: 1.55rem; } td b { line-height: 1.5rem; } .year + .year { break-before: page; } }
`;

/** The calendar of the expected issues as a page for the printer: a box for each, with room for a letter. `digest` gives SHA-256 in base 64. */
export function blankHtml(blank: BlankRecord, digest: (text: string) => string): string {
  const { title, from, to, pattern, days } = blank;
  const name = title.name === null ? title.id : `${title.name} (${title.id})`;
  const open = days.filter(({ state }) => state === 'open').length;
  const expected = days.filter((day) => day.expected).length;
  const page = html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-${digest(STYLE)}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${name}: calendar of the issues</title>
<style>${trusted(STYLE)}</style>
</head>
<body>
<header>
<h1>${name}: calendar of the issues</h1>
<p>${from} to ${to}. Published: ${pattern.join('; ')}. ${counted(expected, 'issue')} ${expected === 1 ? 'is' : 'are'} expected${open === expected ? '' : `, ${String(open)} of them not filled in yet`}.</p>
<p>Each framed day is one on which an issue is expected. Write its letter into the frame; an issue on another day gets a frame of its own.</p>
<ul class="legend" aria-label="Letters">${DAY_STATES.map(({ state, sign, words }) => html`<li><b class="${state}">${sign === '' ? trusted('&nbsp;') : sign}</b>${words}</li>`)}</ul>
<div class="fill"><span>Reel</span><span>Looked through by</span><span>on</span></div>
</header>
<main>
${byYear(monthsOf(days)).map(
  ([year, months]) => html`<section class="year" aria-labelledby="y${year}"><h2 id="y${year}">${year}</h2>
<div class="months">${months.map(monthTable)}</div>
</section>
`,
)}</main>
</body>
</html>
`;
  return page.markup;
}

function byYear(months: readonly BlankMonth[]): readonly (readonly [number, readonly BlankMonth[]])[] {
  const years = new Map<number, BlankMonth[]>();
  for (const one of months) years.set(one.month.year, [...(years.get(one.month.year) ?? []), one]);
  return [...years];
}

function monthTable({ month, before, days }: BlankMonth): Markup {
  const cells = [...Array.from({ length: before }, () => '<td></td>'), ...days.map((day, at) => cell(day, at + 1))];
  const weeks = Array.from(
    { length: Math.ceil(cells.length / 7) },
    (_, week) => `<tr>${cells.slice(7 * week, 7 * week + 7).join('')}</tr>`,
  );
  const heads = WEEK.map(([short, long]) => `<th scope="col"><abbr title="${long}">${short}</abbr></th>`).join('');
  return html`<table><caption>${MONTHS[month.month - 1] ?? ''} ${month.year}</caption><tr>${trusted(heads)}</tr>${trusted(weeks.join(''))}</table>
`;
}

function cell(day: BlankDay | null, number: number): string {
  if (day === null || day.state === null) return `<td>${String(number)}</td>`;
  const sign = DAY_STATES.find(({ state }) => state === day.state)?.sign ?? '';
  return `<td class="on ${day.state}">${sign === '' ? '' : `<b>${sign}</b>`}${String(number)}</td>`;
}
