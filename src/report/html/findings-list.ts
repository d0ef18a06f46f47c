import { counted, SEVERITIES, worstFirst } from '../words.js';
import { type Around, titleName } from './around.js';
import { findingEntry } from './finding.js';
import { framesByFinding } from './finding-strip.js';
import { CAUSE_NAMES, severityMark } from './marks.js';
import { html, type Markup } from './markup.js';

/** So many findings are open when the page comes up; more would make it slow, and longer than anyone reads at once. */
const OPEN_AT_FIRST = 60;

const unique = (values: readonly string[]): readonly string[] => [...new Set(values)].sort();

function choice(name: string, label: string, values: readonly string[], words: (value: string) => string): Markup {
  if (values.length < 2) return html``;
  return html`<label>${label} <select data-filter="${name}"><option value="*">all</option>${values.map(
    (value) => html`<option value="${value}">${words(value)}</option>`,
  )}</select></label>
`;
}

/** What the script uses to show a part of the findings and to save decisions; hidden where no script runs. */
function tools(whole: Around): Markup {
  const { findings } = whole.result;
  const title = (id: string): string => titleName(whole, id === '' ? null : id);
  return html`<div class="tools" id="tools" hidden>
<fieldset class="filters"><legend>Show findings</legend>
<span class="checks">${SEVERITIES.filter((severity) => findings.some((finding) => finding.severity === severity)).map(
    (severity) => html`<label><input type="checkbox" data-severity="${severity}" checked> ${severityMark(severity)}</label> `,
  )}</span>
${choice('cause', 'Cause', unique(findings.map((finding) => finding.cause)), (cause) => Object.entries(CAUSE_NAMES).find(([known]) => known === cause)?.[1] ?? cause)}
${choice('reel', 'Reel', unique(findings.map((finding) => finding.reel ?? '')), (reel) => reel || 'no reel')}
${choice('title', 'Title', unique(findings.map((finding) => finding.title ?? '')), title)}
${choice('code', 'Code', unique(findings.map((finding) => finding.code)), (code) => code)}
<label>Search <input type="search" id="search" autocomplete="off"></label>
<button type="button" id="reset">Show all</button> <button type="button" id="fold">Fold all</button> <button type="button" id="unfold">Unfold all</button>
</fieldset>
<fieldset class="decisions"><legend>Decisions</legend>
<label>Your name <input type="text" id="decider" maxlength="1000" autocomplete="name"></label>
<label>Day <input type="date" id="decided"></label>
<button type="button" id="save">Save decisions</button> <button type="button" id="forget">Take back what was not saved</button>
<p class="quiet">Mark each finding below, then save. The file is read with <code>verify --rulings</code>, which gives the new verdict; this page does not change it.</p>
</fieldset>
<p id="shown" role="status">${counted(findings.length, 'finding')} shown.</p>
<p id="saved" role="status"></p>
</div>
`;
}

/** The findings, worst first. */
export function findingsList(whole: Around): Markup {
  const { result } = whole;
  const list = worstFirst(result.findings);
  const frames = framesByFinding(result);
  const none = html`<p>No finding: what the vendor sent agrees with the collation record.</p>`;
  return html`<section aria-labelledby="findings"><h2 id="findings">Findings</h2>
${
  list.length === 0
    ? none
    : html`${tools(whole)}<ol class="findings">
${list.map((finding, at) => findingEntry(finding, at, frames.get(finding.id) ?? [], whole, at < OPEN_AT_FIRST))}</ol>`
}
</section>
`;
}
