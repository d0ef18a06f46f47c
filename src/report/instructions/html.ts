import type { InstructedReel, Instruction, Instructions } from '../../model/instructions.js';
import { html, type Markup, trusted } from '../html/markup.js';

const STYLE = `
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 54rem; padding: 1.5rem 1rem; font: .9rem/1.4 Arial, Helvetica, sans-serif; color: #111; background: #fff; }
header p { margin: .1rem 0; }
h1 { font-size: 1.3rem; margin: 0 0 .25rem; }
h2 { font-size: 1.05rem; margin: 1.5rem 0 .4rem; padding-top: .4rem; border-top: 2px solid #111; }
dl { display: grid; grid-template-columns: 8.5rem 1fr; gap: .1rem .75rem; margin: 0 0 .75rem; }
dt { color: #444; }
dd { margin: 0; overflow-wrap: anywhere; }
table { width: 100%; border-collapse: collapse; }
th { text-align: left; font-weight: 600; border-bottom: 1px solid #111; }
th, td { padding: .18rem .6rem .18rem 0; vertical-align: top; overflow-wrap: anywhere; }
td { border-bottom: 1px solid #ccc; }
thead th:first-child { width: 20%; }
thead th:nth-child(2) { width: 16%; }
td:first-child:not([colspan]) { font-weight: 600; }
tbody th { padding-top: .5rem; }
footer { margin-top: 1.5rem; font-size: .8rem; color: #444; overflow-wrap: anywhere; }
@page { size: A4; margin: 13mm 14mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 8.5pt; line-height: 1.28; }
  footer { font-size: 7.5pt; }
  h1 { font-size: 13pt; }
  h2 { font-size: 11pt; break-after: avoid; }
  section + section { break-before: page; }
  dl { grid-template-columns: 27mm 1fr; break-inside: avoid; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
}
`;

/**
 * The sheet that goes with the film, to be printed: a reel begins on a page of its own. No script, nothing loaded; `digest` gives the SHA-256 of a
 * text in UTF-8 in base 64, for the policy that lets only this style in (Content Security Policy Level 3, 2.3.1).
 */
export function renderInstructionsHtml(sheet: Instructions, digest: (text: string) => string): string {
  const policy = `default-src 'none'; style-src 'sha256-${digest(STYLE)}'; base-uri 'none'; form-action 'none'`;
  const open = sheet.reels.flatMap(({ instructions }) => instructions).filter((one) => one.open).length;
  const page = html`<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Instructions for scanning: ${sheet.reels.map(({ number }) => `reel ${number}`).join(', ')}</title>
<style>${trusted(STYLE)}</style>
</head>
<body>
<main>
<header>
<h1>Instructions for scanning</h1>
${sheet.library !== '' && html`<p>From: ${sheet.library}</p>`}
${sheet.vendor !== '' && html`<p>To: ${sheet.vendor}</p>`}
<p>Scan every frame, number it as it lies on the film, and deliver the pages of each issue in their order. What differs from that stands below.</p>
${open > 0 && html`<p>The library is still checking its record: ${open === 1 ? 'one line below is' : `${String(open)} lines below are`} marked “being checked”. Ask before you act on ${open === 1 ? 'it' : 'them'}.</p>`}
</header>
${sheet.reels.map((reel) => reelPart(reel, sheet))}
</main>
<footer>The record of these reels goes with this sheet as sent-record.json, SHA-256 ${sheet.record}.</footer>
</body>
</html>
`;
  return `<!DOCTYPE html>\n${page.markup}`;
}

function reelPart({ number, facts, instructions }: InstructedReel, { titles }: Instructions): Markup {
  const several = new Set(instructions.flatMap(({ title }) => title ?? [])).size > 1;
  const nameOf = (id: string): string => titles.find((title) => title.id === id)?.name ?? id;
  return html`<section>
<h2>Reel ${number}</h2>
<dl>
${facts.map(({ name, text }) => html`<dt>${name}</dt><dd>${text}</dd>\n`)}</dl>
${
  instructions.length === 0
    ? html`<p>Nothing else differs: deliver the pages in the order in which they lie on the film.</p>`
    : html`<table>
<thead><tr><th scope="col">Frames</th><th scope="col">Issue</th><th scope="col">What to do</th></tr></thead>
<tbody>
${instructions.map((one, at) => [several && titleHead(one.title, instructions.slice(0, at), nameOf), row(one)])}</tbody>
</table>`
}
</section>
`;
}

/** A line with the name of a title where the instructions come to another one. */
function titleHead(title: string | null, before: readonly Instruction[], nameOf: (id: string) => string): Markup | false {
  const last = before.findLast((one) => one.title !== null)?.title ?? null;
  return title !== null && title !== last && html`<tr><th scope="rowgroup" colspan="3">${nameOf(title)}</th></tr>\n`;
}

/** A list of frames that is longer than that stands in its sentence. */
const LONG = 40;

function row(one: Instruction): Markup {
  const { date, edition, frames, says } = one;
  if ((frames ?? '').length > LONG) return html`<tr><td colspan="3">${sentenceOf(one)}</td></tr>\n`;
  const day = date === null ? '' : edition === null || edition === 1 ? date : `${date}, ed. ${String(edition)}`;
  // The head of the column says already that these are frames.
  return html`<tr><td>${frames?.replace(/^frames? /, '') ?? ''}</td><td>${day}</td><td>${capital(says)}${one.open && ` ${CHECKING}`}</td></tr>\n`;
}

/** The whole sentence of an instruction, its frames in front. */
export function sentenceOf({ frames, says, open }: Instruction): string {
  return `${frames === null ? capital(says) : `${capital(frames)}: ${says}`}${open ? ` ${CHECKING}` : ''}`;
}

/** Behind what rests on a doubt of the record. */
const CHECKING = 'Being checked by the library: ask before you act on it.';

/** A sentence with a capital letter in front. */
function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
