import type { Finding } from '../../model/findings.js';
import { counted, SEVERITIES, worstFirst } from '../words.js';
import type { Around } from './around.js';
import { decisionBar } from './decision-bar.js';
import { findingEntry } from './finding.js';
import { framesByFinding } from './finding-strip.js';
import { severityMark } from './marks.js';
import { html, type Markup } from './markup.js';

/** What narrows the list, and the list itself, which the script fills; hidden where no script runs. */
function tools(findings: readonly Finding[]): Markup {
  const count = (severity: string): number => findings.filter((finding) => finding.severity === severity).length;
  return html`<div class="tools" id="tools" hidden>
<form id="filters" aria-label="Show findings">
<fieldset class="checks"><legend class="unseen">Severity</legend>${SEVERITIES.filter((severity) => count(severity) > 0).map(
    (severity) =>
      html`<label><input type="checkbox" name="severity" value="${severity}" checked> ${severityMark(severity)} ${count(severity)}</label> `,
  )}</fieldset>
<label class="state"><span class="unseen">Show</span><select id="state"><option value="all">all</option><option value="open">to decide</option><option value="decided">decided</option></select></label>
<label class="find"><span class="unseen">Find</span><input type="search" id="find" autocomplete="off" placeholder="word, frame or day"></label>
<p id="shown" role="status">${counted(findings.length, 'finding')}.</p> <button type="button" id="reset">Show all</button>
</form>
<nav id="list" aria-label="List of findings"></nav>
</div>
`;
}

/** The findings, worst first: without a script one below the other, with it a list beside the one that is chosen and what is decided about it. */
export function workbench(whole: Around): Markup {
  const { result } = whole;
  const list = worstFirst(result.findings);
  const frames = framesByFinding(result);
  if (list.length === 0) {
    return html`<section aria-labelledby="findings"><h2 id="findings">Findings</h2>
<p>No finding: what the vendor sent agrees with the collation record.</p>
</section>
`;
  }
  return html`<section class="workbench" aria-labelledby="findings"><h2 id="findings">Findings</h2>
${tools(list)}<div class="findings" id="pane">
${list.map((finding, at) => findingEntry(finding, at, frames.get(finding.id) ?? [], whole))}</div>
${decisionBar()}</section>
`;
}
