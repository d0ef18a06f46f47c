import type { Findings } from '../../model/findings.js';
import type { RenderOptions } from '../formats.js';
import { DECISION_WORDS } from '../words.js';
import { around } from './around.js';
import { calendarSection } from './calendar.js';
import { closingSections } from './closing.js';
import { filmStrips } from './film-strip.js';
import { frontPage } from './front-page.js';
import { html } from './markup.js';
import { overview } from './overview.js';
import { pageCounts } from './page-counts.js';
import { pageData } from './page-data.js';
import { hasPictures } from './pictures.js';
import { recordSection, sentSection } from './record.js';
import { inShell } from './shell.js';
import { verdictBox } from './verdict.js';
import { workbench } from './workbench.js';

/** The report as one HTML file that needs nothing beside it: to be read on a screen, printed and signed. */
export function renderHtml(result: Findings, options: RenderOptions = {}): string {
  const { run, verdict } = result;
  const whole = around(result, options);
  const name = `Batch ${run.batch}, delivery ${String(run.delivery)}`;
  const parts = [
    ['findings', 'Findings'],
    ['counts', 'Counts, signatures'],
    ['film', 'Film'],
    ['calendar', 'Calendar'],
    ['pages', 'Pages per issue'],
    ['sent', 'Changed since sent'],
    ['record', 'The record'],
    ['unchecked', 'Not checked'],
    ['reading', 'How to read'],
  ] as const;
  const pictures = html`${filmStrips(whole)}${calendarSection(whole)}${pageCounts(whole)}${sentSection(whole)}${recordSection(whole)}`;
  const shown = parts.filter(
    ([id]) => !['film', 'calendar', 'pages', 'sent', 'record'].includes(id) || pictures.markup.includes(`<h2 id="${id}">`),
  );
  return inShell({
    title: `${name}: ${DECISION_WORDS[verdict.decision]}`,
    heading: name,
    about: 'What the vendor sent, compared with the collation record',
    skip: { id: 'findings', words: 'To the findings' },
    parts: shown,
    contents: 'Parts of the report',
    body: html`<section class="top" aria-labelledby="verdict">
${verdictBox(result)}</section>
${overview(whole)}${frontPage(result)}${workbench(whole)}${pictures}${closingSections(result)}`,
    data: pageData(result),
    pictures: hasPictures(
      result.reels.flatMap(({ frames }) => frames),
      whole,
    ),
  });
}
