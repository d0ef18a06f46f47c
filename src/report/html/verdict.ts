import type { Finding, Findings } from '../../model/findings.js';
import { nextStep } from '../text/next-step.js';
import { DECISION_WORDS, SEVERITIES, stillCounts } from '../words.js';
import { mark, severityMark } from './marks.js';
import { html, type Markup } from './markup.js';
import { bullets } from './table.js';

/** How many findings of each severity count, and how many no longer do. */
function severityCounts(findings: readonly Finding[]): Markup {
  const counting = findings.filter(stillCounts);
  const ruled = findings.length - counting.length;
  return html`<ul class="severities">${SEVERITIES.map(
    (severity) => html`<li>${severityMark(severity)} <b>${counting.filter((finding) => finding.severity === severity).length}</b></li>`,
  )}${ruled > 0 && html`<li>Decided by the library, no longer counted <b>${ruled}</b></li>`}</ul>
`;
}

/** What the program advises, why, and what comes next. */
export function verdictBox(result: Findings): Markup {
  const { verdict, findings } = result;
  return html`<div class="verdict ${verdict.decision}"><h2 id="verdict">${mark(verdict.decision)} <span class="quiet">Verdict:</span> ${DECISION_WORDS[verdict.decision]}</h2>
<div class="reasons">${bullets(verdict.reasons)}</div><p class="next"><b>Next:</b> ${nextStep(result)}</p>
${severityCounts(findings)}</div>
`;
}
