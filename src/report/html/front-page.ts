import type { Finding, Findings } from '../../model/findings.js';
import { kindsInWords, REEL_HEADS } from '../text/counts.js';
import { findingInShort } from '../text/finding.js';
import { classesInWords, counted, differencesInWords, pagesInWords, receivedInWords, stillCounts, whoActs, worstFirst } from '../words.js';
import { anchorOf } from './links.js';
import { severityMark } from './marks.js';
import { html, type Markup } from './markup.js';
import { facts, table } from './table.js';

/** More open items than this would push the signatures off the first page. */
const OPEN_ITEMS = 6;

function whatWasCompared({ run, agreement, tool }: Findings): Markup {
  const { reviewDays, reviewDayKind } = agreement.terms;
  return facts([
    ['Batch', run.batch],
    ['Delivery', run.delivery],
    ['Received', run.received ?? 'not stated'],
    ['Compared', html`${run.at.replace('T', ' ').replace(/Z$/, ' UTC')}`],
    ['Library', agreement.library === '' ? 'not stated' : agreement.library],
    ['Vendor', agreement.vendor === '' ? 'not stated' : agreement.vendor],
    [
      'Review time agreed',
      `${String(reviewDays)} ${reviewDayKind} days${run.received === null ? '' : ` from ${run.received}`}${run.reviewDay === undefined ? '' : `, up to ${run.reviewDay}${run.at.slice(0, 10) > run.reviewDay ? ' (overdue)' : ''}`}`,
    ],
    ['Layout, program', `${run.profile}; ${tool.name} ${tool.version}`],
  ]);
}

function reelCounts({ counts }: Findings): Markup {
  const rows = counts.reels.map((reel) => [reel.reel, reel.frames, reel.returned, reel.matched, reel.unmatched, reel.absent]);
  const sum = (column: number): number => rows.reduce((total, row) => total + Number(row[column] ?? 0), 0);
  const all = rows.length > 1 ? [['all', ...[1, 2, 3, 4, 5].map(sum)]] : [];
  return table({ caption: 'Reels', numbers: [1, 2, 3, 4, 5] }, ['Reel', ...REEL_HEADS], [...rows, ...all]);
}

function classCounts({ counts }: Findings): Markup {
  const says = classesInWords(counts);
  const classes = table(
    { caption: 'Price classes', numbers: [1, 2, 3, 4] },
    ['Class', 'in the record', 'returned', 'accepted', 'disputed'],
    counts.classes.map((line) => [line.class, line.record, line.returned, line.accepted, line.disputed]),
  );
  return html`<div>${classes}${says !== null && html`<p class="quiet">${says}</p>`}</div>`;
}

function openItems(result: Findings): Markup {
  const list = worstFirst(result.findings);
  const open = list.flatMap((finding, at) => (stillCounts(finding) && finding.severity !== 'note' ? [{ finding, at }] : []));
  if (open.length === 0) return html`<p>None.</p>`;
  const acts = (finding: Finding): string => ({ vendor: 'vendor', library: 'library', nobody: 'to be settled' })[whoActs(finding)];
  const more = open.length - OPEN_ITEMS;
  return html`<ol class="open-items">${open
    .slice(0, OPEN_ITEMS)
    .map(
      ({ finding, at }) =>
        html`<li value="${at + 1}">${severityMark(finding.severity)} <a href="#${anchorOf(finding.id, at)}">${findingInShort(finding, result)}</a> <span class="quiet">For: ${acts(finding)}.</span></li>`,
    )}</ol>${more > 0 && html`<p>and ${counted(more, 'more item')}, listed under <a href="#findings">Findings</a>.</p>`}
`;
}

function inputs({ run }: Findings): Markup {
  return table(
    { caption: 'What was read, with SHA-256' },
    ['Read as', 'name', 'SHA-256'],
    run.inputs.map((input) => [input.role, input.name, input.sha256 === '' ? 'a folder' : html`<code>${input.sha256}</code>`]),
  );
}

const signature = (whose: string): Markup =>
  html`<div class="signature"><p>${whose}</p><dl><dt>Name</dt><dd></dd><dt>Date</dt><dd></dd><dt>Signature</dt><dd></dd></dl></div>`;

/** With the verdict above it the page that a manager signs: what was compared, counts, open items, what was read, two signatures. */
export function frontPage(result: Findings): Markup {
  const { counts } = result;
  const received = receivedInWords(counts.received);
  const gaps = result.unchecked.filter((gap) => gap.required).length;
  return html`<section class="front" aria-labelledby="counts">
${whatWasCompared(result)}
<h2 id="counts">Counts</h2>
<div class="tables">${reelCounts(result)}${classCounts(result)}</div>
<p>${kindsInWords(result) ?? false} ${pagesInWords(counts)};
${differencesInWords(counts)}.</p>
${
  received !== null &&
  html`<p class="quiet">${received}</p>
`
}<h2>Open items</h2>
${openItems(result)}${gaps > 0 && html`<p>${counted(gaps, 'required check')} could not be made: see <a href="#unchecked">Not checked</a>.</p>`}
<h2>What was read</h2>
${inputs(result)}
<h2>Signatures</h2>
<p>The verdict is advice. What is accepted, sent back or paid is decided by the people who sign, under the agreement with the vendor.</p>
<div class="signatures">${signature('Checked by')}${signature('Decided by')}</div>
</section>
`;
}
