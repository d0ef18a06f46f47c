import type { Correction, Finding, Repair, ResultPlace } from '../../model/findings.js';
import { placeSources } from '../places.js';
import { actInWords } from '../repair.js';
import { inRuns } from '../runs.js';
import { inWords, whereOnFilm, whichIssue } from '../text/finding.js';
import { answerInWords, CAUSE_WORDS, counted, stillCounts } from '../words.js';
import type { Around } from './around.js';
import { signed } from './film-groups.js';
import { type FramesOfFinding, findingStrip } from './finding-strip.js';
import { anchorOf, batchPath } from './links.js';
import { severityMark } from './marks.js';
import { html, type Markup } from './markup.js';
import { rulingForm } from './ruling-form.js';
import { bullets, table } from './table.js';

const MOST_FILES = 24;
const MOST_PLACES = 12;

/** Decisions in words, as the forms and the list say them. */
export const RULING_WORDS: ReadonlyMap<string, string> = new Map([
  ['vendor-corrects', 'The vendor corrects it'],
  ['collation-wrong', 'The record was wrong'],
  ['accept-as-is', 'Accepted as it is'],
]);

function readings(finding: Finding): Markup {
  if (finding.collation === null && finding.return === null) return html``;
  const field = finding.field === null ? '' : ` (${inWords(finding.field)})`;
  return html`<dl class="readings"><div><dt>The record says${field}</dt><dd>${finding.collation ?? 'nothing'}</dd></div>
<div><dt>The return says${field}</dt><dd>${finding.return ?? 'nothing'}</dd></div></dl>
`;
}

/** Corrections of one kind on frames that follow each other are one line. */
function corrections(list: readonly Correction[]): Markup {
  const lines = new Map<string, { readonly first: Correction; readonly frames: string[] }>();
  for (const correction of list) {
    const { reel, action, field, from, to } = correction;
    const same = action === 'set' ? [reel, action, field, from, to] : [reel, action, field, action === 'remove' ? '' : `${from}>${to}`];
    const key = JSON.stringify(same);
    const line = lines.get(key) ?? { first: correction, frames: [] };
    lines.set(key, line);
    line.frames.push(correction.frame);
  }
  const words = { set: 'set', 'insert-after': 'insert after', remove: 'remove', renumber: 'renumber' } as const;
  const more = lines.size - MOST_FILES;
  return html`${table(
    { caption: 'What the record would need if the return is right', rowHeads: false },
    ['Reel', 'frames', 'change', 'field', 'from', 'to'],
    [...lines.values()]
      .slice(0, MOST_FILES)
      .map(({ first, frames }) => [first.reel, inRuns(frames), words[first.action], inWords(first.field), first.from, first.to]),
  )}${more > 0 && html`<p>and ${counted(more, 'more change')}; findings.json names them all.</p>`}`;
}

/** What is to be changed in the vendor's files, step by step. */
function repair(steps: readonly Repair[], batch: string | undefined): Markup {
  if (steps.length === 0) return html``;
  const more = steps.length - MOST_FILES;
  const rows = steps
    .slice(0, MOST_FILES)
    .map((step) => [step.document === null ? '' : batchPath(step.document, batch), step.element ?? '', step.frame ?? '', actInWords(step)]);
  return html`<details class="repair"><summary>What to change in the vendor’s files (${steps.length})</summary>
${table({ caption: 'In the vendor’s own file names and frame numbers', rowHeads: false }, ['file', 'element', 'frame', 'change'], rows)}${more > 0 && html`<p>and ${counted(more, 'more change')}; findings.json names them all.</p>`}</details>
`;
}

function places(list: readonly ResultPlace[], batch: string | undefined): Markup {
  const sources = placeSources(list);
  const first = (words: readonly string[]): string =>
    words.slice(0, 4).join(', ') + (words.length > 4 ? ` and ${String(words.length - 4)} more` : '');
  const inReturn = sources.flatMap(({ document, spots }) =>
    document === null ? [] : [html`${batchPath(document, batch)}${spots.length > 0 && `: ${first(spots)}`}`],
  );
  const inRecord = sources
    .filter(({ document }) => document === null)
    .map(({ sheet, spots }) => [...(sheet === '' ? [] : [`sheet ${sheet}`]), ...spots].join(', '));
  const more = inReturn.length - MOST_PLACES;
  return html`${inReturn.length > 0 && html`<h4>In the return</h4>${bullets(inReturn.slice(0, MOST_PLACES))}`}${more > 0 && html`<p>and ${counted(more, 'more document')}</p>`}${inRecord.length > 0 && html`<h4>In the record</h4>${bullets(inRecord.slice(0, MOST_PLACES))}`}`;
}

function files(parts: readonly FramesOfFinding[], batch: string | undefined): Markup {
  const all = parts.flatMap(({ reel, places: at }) => at.flatMap((place) => reel.frames[place]?.files ?? []));
  if (all.length === 0) return html``;
  const more = all.length - MOST_FILES;
  return html`<details class="files"><summary>Files of these frames (${all.length})</summary>
${bullets(all.slice(0, MOST_FILES).map((file) => html`${batchPath(file.path, batch)} <span class="quiet">${file.use}</span>`))}${more > 0 && html`<p>and ${counted(more, 'more file')}; findings.json names them all.</p>`}</details>
`;
}

function dealings(finding: Finding): Markup {
  const { ruling, answer } = finding;
  const notes = [
    finding.rescan === 'yes' && 'Film has to be scanned again.',
    ...finding.billable.map((line) => `Billing: ${line.class} ${signed(line.change)}`),
    finding.status === 'open' && 'Open since an earlier delivery.',
    finding.status === 'new' && 'New in this delivery.',
    answer !== null && html`<b>Vendor’s answer${answer.on === '' ? '' : ` of ${answer.on}`}:</b> ${answerInWords(answer)}`,
    ruling !== null &&
      html`<b>Library’s decision:</b> ${RULING_WORDS.get(ruling.decision) ?? ruling.decision}${ruling.by !== '' && `, by ${ruling.by}`}${ruling.on !== '' && ` on ${ruling.on}`}.${ruling.note !== '' && ` ${ruling.note}`}`,
  ].filter((note) => note !== false);
  return bullets(notes);
}

/** Everything about one finding, folded under its head; the number is its place in the list, from 1. */
export function findingEntry(finding: Finding, at: number, parts: readonly FramesOfFinding[], whole: Around, open: boolean): Markup {
  const { result, options } = whole;
  const anchor = anchorOf(finding.id, at);
  const title = result.catalogue.find((entry) => entry.code === finding.code)?.title ?? finding.code;
  const issue = whichIssue(finding, result);
  const place = whereOnFilm(finding);
  return html`<li class="finding ${finding.severity}" id="${anchor}" data-severity="${finding.severity}" data-cause="${finding.cause}" data-reel="${finding.reel ?? ''}" data-title="${finding.title ?? ''}" data-code="${finding.code}">
<details${open && html` open`}><summary>${severityMark(finding.severity)} <h3>${at + 1}. ${title}</h3> <span class="where">${place.charAt(0).toUpperCase()}${place.slice(1)}${issue !== '' && `; ${issue}`}</span>${stillCounts(finding) ? '' : html` <span class="ruled">no longer counts</span>`}</summary>
<div class="body"><p class="says">${finding.says}</p>
${readings(finding)}${finding.instruction !== null && html`<p class="instruction"><b>What to do:</b> ${finding.instruction}</p>`}
${findingStrip(finding, parts, whole)}<p><b>Likely cause:</b> ${CAUSE_WORDS[finding.cause]}.</p>
${bullets(finding.evidence)}${
  finding.alternatives.length > 0 &&
  html`<h4>What else would explain it</h4>${bullets(
    finding.alternatives.map(
      (other) =>
        html`${other.says} <span class="quiet">Cause: ${CAUSE_WORDS[other.cause]}.</span>${other.instruction !== null && html` Then: ${other.instruction}`}`,
    ),
  )}`
}${dealings(finding)}${repair(finding.repair, options.batch)}${corrections(finding.corrections)}${places(finding.places, options.batch)}${files(parts, options.batch)}
<p class="quiet">Code <code>${finding.code}</code>. <a href="#${anchor}">Link to this finding</a>: <code>${finding.id}</code></p>
${rulingForm(finding, at)}</div></details></li>
`;
}
