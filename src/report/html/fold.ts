import { type Gap, html, type Markup } from './markup.js';

/** What a reader unfolds in a finding: written out under a heading, for who reads without a script; the script folds it when the finding is chosen. */
export function fold(kind: string, head: Gap, inside: Gap): Markup {
  return html`<div class="fold ${kind}"><h4>${head}</h4><div>
${inside}</div></div>
`;
}
