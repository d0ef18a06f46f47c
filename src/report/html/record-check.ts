import type { Findings } from '../../model/findings.js';
import type { RecordCheck, RecordItem } from '../../model/record-check.js';
import { doubtPlace } from '../record-doubts.js';
import { counted } from '../words.js';
import { calendarSection } from './calendar.js';
import { severityMark } from './marks.js';
import { html, type Markup } from './markup.js';
import { pageCounts } from './page-counts.js';
import { inShell } from './shell.js';
import { toldOf } from './signs.js';
import { bullets, facts, table } from './table.js';

/** So many items of one cause are shown; record-check.xlsx has them all. */
const MOST = 100;

/** The check of a record as one HTML file for screen and paper, without a script: what to look at by cause, then the calendar and the pages per issue. */
export function renderRecordCheck(check: RecordCheck, film: Pick<Findings, 'titles' | 'reels'>): string {
  const open = check.items.filter(({ explained }) => explained === null);
  const result = { ...film, findings: [] };
  const whole = { result, places: new Map<string, number>(), told: toldOf(result), alone: true };
  const pictures = html`${calendarSection(whole)}${pageCounts(whole)}`;
  const parts = [
    ['items', 'To look at'],
    ['calendar', 'Calendar'],
    ['pages', 'Pages per issue'],
    ['explained', 'Explained'],
  ] as const;
  const body = html`${itemsSection(check, open)}${pictures}${explainedSection(check)}`;
  const shown = parts.filter(([id]) => body.markup.includes(`<h2 id="${id}">`));
  return inShell({
    title: `The record, checked by itself: ${verdict(open)}`,
    heading: 'The record, checked by itself',
    about: "Before the film goes out: what does not fit by the record's own regularity",
    skip: { id: 'items', words: 'To what there is to look at' },
    parts: shown,
    contents: 'Parts of the page',
    body: html`${overview(check)}${body}`,
    data: null,
  });
}

function verdict(open: readonly RecordItem[]): string {
  return open.length === 0 ? 'nothing to look at' : `${counted(open.length, 'place')} to look at`;
}

function overview({ totals, titles, inputs, tool }: RecordCheck): Markup {
  return html`<section aria-label="What was checked">
${facts([
  ['Read', inputs.map(({ name }) => name).join(', ')],
  ['It holds', totals],
  ['Program', `${tool.name} ${tool.version}`],
])}${table(
  { caption: 'Titles', numbers: [1] },
  ['Title', 'issues', 'from', 'to', 'days of publication'],
  titles.map(({ id, name, issues, from, to, days, learned }) => [
    name === id ? id : `${name} (${id})`,
    issues,
    from ?? '',
    to ?? '',
    days.length === 0
      ? 'not known'
      : `${days.map((day) => day.charAt(0).toUpperCase() + day.slice(1)).join(', ')}${learned ? ' (learned from its issues)' : ''}`,
  ]),
)}</section>
`;
}

/** The open items by cause, in the order of the catalogue: the most telling first. */
function itemsSection({ catalogue }: RecordCheck, open: readonly RecordItem[]): Markup {
  const causes = catalogue
    .map((entry) => ({ ...entry, own: open.filter(({ code }) => code === entry.code) }))
    .filter(({ own }) => own.length > 0);
  return html`<section aria-labelledby="items"><h2 id="items">To look at</h2>
${
  causes.length === 0
    ? html`<p>Nothing in the record contradicts itself.</p>`
    : html`<ul class="severities">${causes.map(
        ({ code, title, severity, own }) =>
          html`<li>${severityMark(severity)} <a href="#cause-${code}">${title}</a> <b>${own.length}</b></li>`,
      )}</ul>
<p class="quiet">Where the film shows that something is as it should be, write so in record-check.xlsx, in the columns note, by and on. That is kept beside the record as NAME.explained.csv and is not asked again.</p>`
}${causes.map(
  ({ code, title, why, own }) => html`<h3 id="cause-${code}">${title} (${own.length})</h3>
<p class="quiet">${why}</p>
${table({ caption: 'Places' }, ['Where', 'what is so', 'likely', 'rows'], own.slice(0, MOST).map(itemRow))}${
  own.length > MOST && html`<p>and ${counted(own.length - MOST, 'more item')}; record-check.xlsx has them all.</p>`
}`,
)}</section>
`;
}

function itemRow(item: RecordItem): readonly (Markup | string)[] {
  return [
    doubtPlace(item),
    html`${item.says}${item.evidence.map((sentence) => html`<br><span class="quiet">${sentence}</span>`)}`,
    item.likely ?? '',
    rowsOf(item),
  ];
}

/** `frames.csv, rows 3 to 6`. */
function rowsOf({ places }: RecordItem): string {
  return [...new Set(places.map(({ sheet }) => sheet))]
    .map((sheet) => {
      const rows = places.filter((place) => place.sheet === sheet).map(({ row }) => row);
      const [first, last] = [Math.min(...rows), Math.max(...rows)];
      return `${sheet}, row${first === last ? ` ${String(first)}` : `s ${String(first)} to ${String(last)}`}`;
    })
    .join('; ');
}

function explainedSection({ items }: RecordCheck): Markup {
  const explained = items.flatMap(({ says, explained: said }) => (said === null ? [] : [{ says, ...said }]));
  if (explained.length === 0) return html``;
  return html`<section aria-labelledby="explained"><h2 id="explained">Explained</h2>
${bullets(explained.slice(0, MOST).map(({ says, note, by, on }) => html`${says} <span class="quiet">${note} (${by}, ${on})</span>`))}${
  explained.length > MOST && html`<p>and ${explained.length - MOST} more.</p>`
}</section>
`;
}
