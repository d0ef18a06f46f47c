import type { Finding } from '../../model/findings.js';
import { inRuns, plainNumber } from '../runs.js';
import { inWords, whereOnFilm, whichIssue } from '../text/finding.js';
import { answerInWords, CAUSE_WORDS, framesInWords, stillCounts } from '../words.js';
import type { Around } from './around.js';
import { signed } from './film-groups.js';
import { filesList, placesList, repairTable } from './finding-sources.js';
import { type FramesOfFinding, findingStrip } from './finding-strip.js';
import { anchorOf } from './links.js';
import { severityMark } from './marks.js';
import { escaped, html, type Markup, trusted } from './markup.js';
import { pagePicture } from './pictures.js';
import { recordSide } from './record-side.js';
import { bullets } from './table.js';

/** Decisions in words, as the page says them. */
const RULING_WORDS: ReadonlyMap<string, string> = new Map([
  ['vendor-corrects', 'The vendor corrects it'],
  ['collation-wrong', 'Our record was wrong'],
  ['accept-as-is', 'Accepted as it is'],
]);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function readings({ collation, return: returned, field }: Finding): Markup {
  if (collation === null && returned === null) return html``;
  // Whether a frame is to be delivered is what the reading itself says.
  const what = field === null || field === 'deliver' ? '' : ` (${inWords(field)})`;
  return html`<dl class="readings"><div><dt>Our record${what}</dt><dd>${collation ?? 'nothing'}</dd></div>
<div><dt>What came${what}</dt><dd>${returned ?? 'nothing'}</dd></div></dl>
`;
}

function alternatives(finding: Finding): Markup {
  if (finding.alternatives.length === 0) return html``;
  const each = finding.alternatives.map(
    ({ says, cause, instruction }) =>
      html`${says} <span class="quiet">Cause: ${CAUSE_WORDS[cause]}.</span>${instruction !== null && html` Then: ${instruction}`}`,
  );
  return html`<h4>What else would explain it</h4>${bullets(each)}`;
}

function dealings(finding: Finding): Markup {
  const { ruling, answer } = finding;
  const notes = [
    finding.rescan === 'yes' && 'Film has to be scanned again.',
    ...finding.billable.map((line) => `Billing: ${line.class} ${signed(line.change)}`),
    finding.status === 'open' && 'Open since an earlier delivery.',
    finding.status === 'new' && 'New in this delivery.',
    answer !== null && html`<b>Vendor's answer${answer.on === '' ? '' : ` of ${answer.on}`}:</b> ${answerInWords(answer)}`,
    ruling !== null &&
      html`<b>Library's decision:</b> ${RULING_WORDS.get(ruling.decision) ?? ruling.decision}${ruling.by !== '' && `, by ${ruling.by}`}${ruling.on !== '' && ` on ${ruling.on}`}.${ruling.note !== '' && ` ${ruling.note}`}`,
  ].filter((note) => note !== false);
  return bullets(notes);
}

/** The frames and days that a finding touches, for the filter: record and vendor numbers in runs such as `25-28 115`, days as they are written. */
function touched(finding: Finding, parts: readonly FramesOfFinding[]): Markup {
  const frames = parts.flatMap(({ reel, places }) => places.flatMap((place) => reel.frames[place] ?? []));
  const days = new Set([finding.date, ...frames.map(({ date }) => date)].filter((day) => day !== null));
  const numbers = [...new Set(frames.flatMap(({ frame, returned }) => [frame, returned]))].sort(
    (a, b) => (plainNumber(a) ?? 0) - (plainNumber(b) ?? 0),
  );
  const runs = frames.length === 0 ? '' : inRuns(numbers).replaceAll(' to ', '-').replaceAll(', ', ' ');
  // All of them, however many: what is left out is not found. What is longer than a number or a day was never one.
  const all = (words: readonly string[]): Markup =>
    trusted(escaped(words.filter(({ length }) => length <= 24).join(' '), Number.POSITIVE_INFINITY));
  return html` data-frames="${all(runs.split(' '))}" data-days="${all([...days])}"`;
}

/** Where a finding lies in as few words as a list has room for. */
function inShort({ reel, frames, at, date }: Finding, several: boolean): string {
  const spot = frames !== null ? framesInWords(frames, 3) : at !== null ? `at frame ${at}` : '';
  return [several && reel !== null ? `reel ${reel}` : '', spot, date ?? ''].filter((part) => part !== '').join(', ');
}

/** Everything about one finding; the number is its place in the list, from 1. */
export function findingEntry(finding: Finding, at: number, parts: readonly FramesOfFinding[], whole: Around): Markup {
  const { result, options } = whole;
  const anchor = anchorOf(finding.id, at);
  const title = result.catalogue.find((entry) => entry.code === finding.code)?.title ?? finding.code;
  const issue = whichIssue(finding, result);
  const picture = pagePicture(parts, whole);
  return html`<article class="finding ${finding.severity}${picture !== null && ' pictured'}" id="${anchor}" data-severity="${finding.severity}" data-place="${inShort(finding, result.reels.length > 1)}"${touched(finding, parts)}>
<div class="said"><p class="eyebrow">${severityMark(finding.severity)} <span class="title">${title}</span>${stillCounts(finding) ? '' : html` <span class="ruled">no longer counts</span>`}</p>
<h3 tabindex="-1">${at + 1}. ${finding.says}</h3>
<p class="where">${capital(whereOnFilm(finding))}${issue !== '' && `; ${issue}`}</p>
${readings(finding)}${findingStrip(finding, parts, whole)}${finding.instruction !== null && html`<p class="instruction"><b>What to do:</b> ${finding.instruction}</p>`}
<p><b>Likely cause:</b> ${CAUSE_WORDS[finding.cause]}.</p>
${finding.evidence.length > 0 && html`<h4>Evidence</h4>${bullets(finding.evidence)}`}${alternatives(finding)}${dealings(finding)}${placesList(finding.places, options.batch)}${repairTable(finding.repair, options.batch)}${recordSide(finding, result)}${filesList(parts, options.batch)}
<p class="quiet reference">Code <code>${finding.code}</code>. <a href="#${anchor}">Link to this finding</a>: <code>${finding.id}</code></p></div>
${picture}</article>
`;
}
