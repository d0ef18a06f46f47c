import type { Findings } from '../../model/findings.js';
import type { RenderOptions } from '../formats.js';
import { DECISION_WORDS } from '../words.js';
import { around } from './around.js';
import { calendarSection } from './calendar.js';
import { closingSections } from './closing.js';
import { SCRIPT, SCRIPT_SHA256, STYLE, STYLE_SHA256 } from './embedded.js';
import { filmStrips } from './film-strip.js';
import { findingsList } from './findings-list.js';
import { frontPage } from './front-page.js';
import { drawings } from './marks.js';
import { html, trusted } from './markup.js';
import { pageCounts } from './page-counts.js';
import { pageData } from './page-data.js';
import { recordSection } from './record.js';

/** Nothing is loaded and nothing is sent (Content Security Policy Level 3); of scripts and styles only the two that are named by their digest. */
const POLICY = [
  "default-src 'none'",
  `script-src 'sha256-${SCRIPT_SHA256}'`,
  `style-src 'sha256-${STYLE_SHA256}'`,
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** The report as one HTML file that needs nothing beside it: to be read on a screen, printed and signed. */
export function renderHtml(result: Findings, options: RenderOptions = {}): string {
  const { run, verdict } = result;
  const whole = around(result, options);
  const name = `Batch ${run.batch}, delivery ${String(run.delivery)}`;
  const parts = [
    ['findings', 'Findings'],
    ['film', 'Film'],
    ['calendar', 'Calendar'],
    ['pages', 'Pages per issue'],
    ['record', 'The record'],
    ['unchecked', 'Not checked'],
    ['reading', 'How to read'],
  ] as const;
  const pictures = html`${filmStrips(whole)}${calendarSection(whole)}${pageCounts(whole)}${recordSection(whole)}`;
  const shown = parts.filter(
    ([id]) => !['film', 'calendar', 'pages', 'record'].includes(id) || pictures.markup.includes(`<h2 id="${id}">`),
  );
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(POLICY)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<title>${name}: ${DECISION_WORDS[verdict.decision]}</title>
<style>${trusted(STYLE)}</style>
</head>
<body>
<a class="skip" href="#findings">To the findings</a>
${drawings()}
<header><h1>${name}</h1>
<p class="quiet">What the vendor sent, compared with the collation record</p>
<nav aria-label="Parts of the report"><ul>${shown.map(([id, words]) => html`<li><a href="#${id}">${words}</a></li>`)}</ul></nav></header>
<main>
${frontPage(result)}${findingsList(whole)}${pictures}${closingSections(result)}</main>
${pageData(result)}
<script>${trusted(SCRIPT)}</script>
</body>
</html>
`.markup;
}
