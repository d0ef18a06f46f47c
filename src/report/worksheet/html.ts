import type { SampleQuestion } from '../../model/sample.js';
import type { Worksheet, WorksheetLot, WorksheetUnit } from '../../model/worksheet.js';
import { scriptJson } from '../json-escapes.js';
import { counted } from '../words.js';
import { curvePicture } from './curve.js';
import { factsOf } from './facts.js';
import { type FilesShown, filesAndPicture } from './files.js';
import { htmlText } from './html-text.js';
import { QUESTION_WORDS } from './questions.js';
import { SCRIPT } from './script.js';
import { STYLE } from './style.js';

/** What the page needs beside the worksheet. */
export interface WorksheetPage extends FilesShown {
  /** Name under which the answers are saved. */
  readonly file: string;
  /** SHA-256 of a text in UTF-8, in base 64: Content Security Policy Level 3, 2.3.1. */
  readonly digest: (text: string) => string;
}

/** The worksheet as one self-contained page that is worked through by keyboard and saves its answers as a file. */
export function worksheetHtml(worksheet: Worksheet, page: WorksheetPage): string {
  const { questions, unit, lots } = worksheet;
  const units = lots.flatMap(({ code, units: all }) => all.map(({ number, id }) => ({ draw: code, number, id })));
  const facts = { code: lots.map(({ code }) => code).join('-'), questions, file: page.file, units };
  const policy = [
    "default-src 'none'",
    `script-src 'sha256-${page.digest(SCRIPT)}'`,
    `style-src 'sha256-${page.digest(STYLE)}'`,
    "img-src 'self' file:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const [only] = lots;
  const name = only !== undefined && lots.length === 1 ? nameOf(only) : `${String(lots.length)} reels of ${worksheet.batch}`;
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
${opening(worksheet)}
${keys(questions)}
</header>
<div class="bar" role="region" aria-label="Progress and saving"><div id="controls" hidden>
<label>Who looks <input type="text" id="by" autocomplete="name"></label>
<progress id="progress" max="${String(units.length)}" value="0" aria-label="Answered"></progress>
<span id="said" role="status"></span>
<button type="button" id="save">Save the answers</button>
</div></div>
<main>
${lots.map((lot, at) => lotPart(lot, worksheet, page, unitsOf(lots.slice(0, at)))).join('\n')}
</main>
<script type="application/json" id="facts">${scriptJson(facts)}</script>
<script>${SCRIPT}</script>
</body>
</html>
`;
}

const nameOf = ({ lot }: WorksheetLot): string => `${lot.by === 'reel' ? 'Reel' : 'Batch'} ${lot.name}`;
const unitsOf = (lots: readonly WorksheetLot[]): number => lots.reduce((sum, { units }) => sum + units.length, 0);

/** One lot: what tells its draw, then the cards of its units, counted on from those before. */
function lotPart(lot: WorksheetLot, worksheet: Worksheet, page: WorksheetPage, before: number): string {
  const random = lot.units.filter((one) => one.random);
  const others = lot.units.filter((one) => !one.random);
  const several = worksheet.lots.length > 1;
  const of = several ? `${htmlText(nameOf(lot))}, ` : '';
  const cards = (list: readonly WorksheetUnit[], from: number): string =>
    list.map((one, at) => card(one, from + at + 1, worksheet, page)).join('\n');
  const drawn = several ? 'drawn' : 'Drawn';
  const beside = several ? 'for' : 'For';
  return `<h2>${of}${drawn} at random (${String(random.length)})</h2>
${cards(random, before)}
${others.length === 0 ? '' : `<h2>${of}${beside} a reason, not counted (${String(others.length)})</h2>\n${cards(others, before + random.length)}`}`;
}

function opening({ batch, delivery, lots, unit }: Worksheet): string {
  const all = lots.flatMap(({ units }) => units);
  const random = all.filter((one) => one.random).length;
  const others = all.length - random;
  const extras =
    others === 0
      ? ''
      : ` ${counted(others, unit)} more ${others === 1 ? 'is' : 'are'} looked at for a reason and not counted in the figures.`;
  return `<p>Batch ${htmlText(batch)}, delivery ${String(delivery)}.</p>
<p>${counted(random, unit)} ${random === 1 ? 'was' : 'were'} drawn at random.${extras} Answer every question of every ${unit}, then save the answers beside this page and judge them
with <code>reeltally sample judge</code>. Several people may share the work or look at the same ${unit}s: each saves a file, and all of them are judged together.</p>
${lots.map((lot) => drawFacts(lot, unit, lots.length > 1)).join('\n')}
<noscript><p>Without scripts this page cannot save. Fill in worksheet.csv instead, which holds the same rows.</p></noscript>`;
}

function drawFacts(lot: WorksheetLot, unit: string, several: boolean): string {
  const { code, seed, listSha256, plan, curve } = lot;
  return `<p>${several ? `${htmlText(nameOf(lot))}. ` : ''}${htmlText(plan)}</p>
<dl>
<dt>Draw</dt><dd>${htmlText(code)}</dd>
<dt>Seed</dt><dd>${htmlText(seed)}</dd>
<dt>List, SHA-256</dt><dd>${htmlText(listSha256)}</dd>
</dl>
${curvePicture(curve, unit)}`;
}

function keys(questions: readonly SampleQuestion[]): string {
  const rows: readonly (readonly [string, string])[] = [
    ['n', 'next'],
    ['p', 'the one before'],
    ['u', 'the next with an open answer'],
    ...questions.map((question, at) => [String(at + 1), `“${QUESTION_WORDS[question]}”: no; pressed again, yes`] as const),
    ['y', 'yes to all that is still open, and on to the next'],
    ['m', 'to the note; Escape leads back'],
    ['+ and -', 'the picture larger, smaller'],
    ['t', 'the picture turned by a quarter'],
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
<div class="beside">
<div>
${one.pages.map((shown) => filesAndPicture(shown, one.pages.length > 1, page)).join('\n')}
</div>
<div class="asked">
${asked.join('\n')}
<label class="note">Note <input type="text" maxlength="10000"></label>
<p><button type="button">All else is well, next</button></p>
</div>
</div>
</article>`;
}

function fieldset(question: SampleQuestion, name: string): string {
  const choice = (value: string): string => `<label><input type="radio" name="${name}" value="${value}"> ${value}</label>`;
  return `<fieldset data-question="${question}"><legend>${QUESTION_WORDS[question]}</legend>${choice('yes')}${choice('no')}</fieldset>`;
}
