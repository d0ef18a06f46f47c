import type { SampleQuestion } from '../../model/sample.js';
import type { ExpectedPage, Worksheet, WorksheetUnit } from '../../model/worksheet.js';
import { scriptJson } from '../json-escapes.js';
import { counted } from '../words.js';
import { curvePicture } from './curve.js';
import { factsOf, labelOf, placeOf } from './facts.js';
import { fileLink, htmlText } from './html-text.js';
import { QUESTION_WORDS } from './questions.js';
import { SCRIPT } from './script.js';
import { STYLE } from './style.js';

/** What the page needs beside the worksheet. */
export interface WorksheetPage {
  /** The way from the page to the batch, encoded and ending in `/`; null where files are only named. */
  readonly base: string | null;
  /** Name under which the answers are saved. */
  readonly file: string;
  /** SHA-256 of a text in UTF-8, in base 64: Content Security Policy Level 3, 2.3.1. */
  readonly digest: (text: string) => string;
}

/** Kinds of image that browsers show, those that all of them do first; a browser that cannot says so in its place. */
const SHOWN = [/\.(jpe?g|png|gif|webp|avif)$/i, /\.(jp2|jpx|j2k)$/i, /\.tiff?$/i];

/** The worksheet as one self-contained page that is worked through by keyboard and saves its answers as a file. */
export function worksheetHtml(worksheet: Worksheet, page: WorksheetPage): string {
  const { code, seed, listSha256, questions, units, unit, lot } = worksheet;
  const random = units.filter((one) => one.random);
  const others = units.filter((one) => !one.random);
  const facts = { code, seed, listSha256, questions, file: page.file, units: units.map(({ number, id }) => ({ number, id })) };
  const policy = [
    "default-src 'none'",
    `script-src 'sha256-${page.digest(SCRIPT)}'`,
    `style-src 'sha256-${page.digest(STYLE)}'`,
    "img-src 'self' file:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const name = `${lot.by === 'reel' ? 'Reel' : 'Batch'} ${lot.name}`;
  const cards = (list: readonly WorksheetUnit[], before: number): string =>
    list.map((one, at) => card(one, before + at + 1, worksheet, page)).join('\n');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${htmlText(name)}: worksheet of the spot check</title>
<style>${STYLE}</style>
</head>
<body>
<a class="skip" href="#card-1">Go to the first ${unit}</a>
<header>
<h1>${htmlText(name)}: worksheet of the spot check</h1>
${opening(worksheet, random.length, others.length)}
${curvePicture(worksheet.curve, unit)}
${keys(questions)}
</header>
<div class="bar" role="region" aria-label="Progress and saving"><div id="controls" hidden>
<label>Who looks <input type="text" id="by" autocomplete="name"></label>
<progress id="progress" max="${String(units.length)}" value="0" aria-label="Answered"></progress>
<span id="said" role="status"></span>
<button type="button" id="save">Save the answers</button>
</div></div>
<main>
<h2>Drawn at random (${String(random.length)})</h2>
${cards(random, 0)}
${others.length === 0 ? '' : `<h2>For a reason, not counted (${String(others.length)})</h2>\n${cards(others, random.length)}`}
</main>
<script type="application/json" id="facts">${scriptJson(facts)}</script>
<script>${SCRIPT}</script>
</body>
</html>
`;
}

function opening({ batch, delivery, plan, seed, listSha256, code, unit }: Worksheet, random: number, others: number): string {
  const extras =
    others === 0
      ? ''
      : ` ${counted(others, unit)} more ${others === 1 ? 'is' : 'are'} looked at for a reason and not counted in the figures.`;
  return `<p>Batch ${htmlText(batch)}, delivery ${String(delivery)}. ${htmlText(plan)}</p>
<p>${counted(random, unit)} ${random === 1 ? 'was' : 'were'} drawn at random.${extras} Answer every question of every ${unit}, then save the answers and judge them with
<code>reeltally sample judge draw.json --worksheet</code> and the saved file.</p>
<dl>
<dt>Draw</dt><dd>${htmlText(code)}</dd>
<dt>Seed</dt><dd>${htmlText(seed)}</dd>
<dt>List, SHA-256</dt><dd>${htmlText(listSha256)}</dd>
</dl>
<noscript><p>Without scripts this page cannot save. Fill in worksheet.csv instead, which holds the same rows.</p></noscript>`;
}

function keys(questions: readonly SampleQuestion[]): string {
  const rows: readonly (readonly [string, string])[] = [
    ['n', 'next'],
    ['p', 'the one before'],
    ['u', 'the next with an open answer'],
    ...questions.map((question, at) => [String(at + 1), `“${QUESTION_WORDS[question]}”: no; pressed again, yes`] as const),
    ['y', 'yes to all that is still open, and on to the next'],
    ['m', 'to the note; Escape leads back'],
    ['s', 'save the answers as a file'],
  ];
  return `<details class="keys" open>
<summary>Keys</summary>
<dl>
${rows.map(([key, does]) => `<dt><kbd>${key}</kbd></dt><dd>${does}</dd>`).join('\n')}
</dl>
<p>Everything can be reached with Tab, Space and the arrow keys too. Answers already saved: <label>open the file <input type="file" id="earlier" accept=".json"></label></p>
<p><label><input type="checkbox" id="single" checked> Use these single keys</label></p>
</details>`;
}

function card(one: WorksheetUnit, at: number, { unit, questions }: Worksheet, page: WorksheetPage): string {
  const id = `card-${String(at)}`;
  const reasons = one.reasons.length === 0 ? '' : `<p>Looked at because: ${htmlText(one.reasons.join('; '))}.</p>`;
  const facts = factsOf(one).map(([head, value]) => `<dt>${head}</dt><dd>${htmlText(value)}</dd>`);
  const asked = questions.map((question, index) => fieldset(question, `${id}-${String(index + 1)}`));
  return `<article id="${id}" tabindex="-1" aria-labelledby="${id}-name" data-state="open">
<h3 id="${id}-name">${unit === 'page' ? 'Page' : 'Issue'} ${String(at)}: ${htmlText(one.id)} <span class="state">not answered yet</span></h3>
${reasons}
<dl>
${facts.join('\n')}
</dl>
${one.pages.map((shown) => files(shown, one.pages.length > 1, page.base)).join('\n')}
${asked.join('\n')}
<label class="note">Note <input type="text" maxlength="10000"></label>
<p><button type="button">All else is well, next</button></p>
</article>`;
}

function fieldset(question: SampleQuestion, name: string): string {
  const choice = (value: string): string => `<label><input type="radio" name="${name}" value="${value}"> ${value}</label>`;
  return `<fieldset data-question="${question}"><legend>${QUESTION_WORDS[question]}</legend>${choice('yes')}${choice('no')}</fieldset>`;
}

function files(shown: ExpectedPage, several: boolean, base: string | null): string {
  const what = `${several ? `page ${labelOf(shown)}, ` : ''}${placeOf(shown)}`;
  if (shown.files.length === 0) return `<p>The return names no file for ${htmlText(what)}.</p>`;
  const links = shown.files.map(({ use, path }) => ({ use, path, href: base === null ? null : fileLink(base, path) }));
  const items = links.map(({ use, path, href }) =>
    href === null
      ? `<li>${htmlText(use)}: ${htmlText(path)}</li>`
      : `<li>${htmlText(use)}: <a href="${htmlText(href)}">${htmlText(path)}</a></li>`,
  );
  const image = SHOWN.flatMap((kind) => links.find(({ path, href }) => href !== null && kind.test(path)) ?? [])[0];
  const picture =
    image?.href == null
      ? ''
      : `<img loading="lazy" src="${htmlText(image.href)}" alt="${htmlText(`Image of ${what}`)}"><p hidden>This browser cannot show ${htmlText(image.path)}, or the file is not there. Open it with the link above.</p>`;
  return `<ul aria-label="${htmlText(`Files of ${what}`)}">\n${items.join('\n')}\n</ul>${picture}`;
}
