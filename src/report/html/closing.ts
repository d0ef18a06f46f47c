import type { Findings } from '../../model/findings.js';
import { findingInShort } from '../text/finding.js';
import { asSentence, framesInWords, gapPlaces } from '../words.js';
import { severityMark } from './marks.js';
import { html, type Markup } from './markup.js';
import { bullets } from './table.js';

const MOST = 300;

/** What stands at the end: corrected, unchecked, remarks, why each code matters, how to read the report. */
export function closingSections(result: Findings): Markup {
  const { corrected, unchecked, run, catalogue } = result;
  const more = (count: number): Markup => (count > MOST ? html`<p>and ${count - MOST} more; findings.json has them all.</p>` : html``);
  return html`${
    corrected.length > 0 &&
    html`<section aria-labelledby="corrected"><h2 id="corrected">Corrected since the earlier delivery</h2>
${bullets(corrected.slice(0, MOST).map((finding) => html`${findingInShort(finding, result)} <code>${finding.id}</code>`))}${more(corrected.length)}</section>
`
  }<section aria-labelledby="unchecked"><h2 id="unchecked">Not checked</h2>
${
  unchecked.length === 0
    ? html`<p>Nothing was left unchecked.</p>`
    : bullets(
        unchecked
          .slice(0, MOST)
          .map(
            (gap) =>
              html`<b>${gap.what}</b>${gapPlaces(gap) !== '' && html` <span class="quiet">(${gapPlaces(gap)})</span>`}${gap.frames !== null && `, ${framesInWords(gap.frames)}`}: ${asSentence(gap.why)}${gap.required && html` <strong>This check is required.</strong>`}`,
          ),
      )
}${more(unchecked.length)}</section>
${
  run.remarks.length > 0 &&
  html`<section aria-labelledby="remarks"><h2 id="remarks">Choices made while reading</h2>
${bullets(run.remarks.slice(0, MOST))}${more(run.remarks.length)}</section>
`
}${
  catalogue.length > 0 &&
  html`<section aria-labelledby="codes"><h2 id="codes">Why these findings matter</h2>
<dl class="codes">${catalogue.map(
    (entry) =>
      html`<div><dt>${entry.title} <code>${entry.code}</code></dt><dd>${entry.why} <span class="quiet">Usually ${severityMark(entry.severity)}; group ${entry.group}.</span></dd></div>
`,
  )}</dl></section>
`
}<section aria-labelledby="reading"><h2 id="reading">How to read this report</h2>
<div class="how-to-read"><p>The <b>record</b> is what the library wrote down about the film before it was scanned; the <b>return</b> is what the vendor sent. The two were laid side by side frame by frame. A <b>finding</b> is one cause with everything it explains: a blank that was passed over is one finding, however many numbers it moved.</p>
<p>A <b>frame</b> is one exposure on the film, whatever it shows; a page is what some frames show. A frame that is <b>held back</b> is scanned and counted and not delivered. <b>Order</b> is a page's place in its issue, whatever number is printed on it.</p>
<ul>
<li>${severityMark('critical')} makes the issue or page unusable, or lost to its readers.</li>
<li>${severityMark('major')} leads a reader or a later check astray.</li>
<li>${severityMark('minor')} is wrong and hinders nobody much.</li>
<li>${severityMark('note')} is worth knowing and weighs nothing.</li>
</ul>
<p>The cause says which side is likelier wrong; the reasons stand under it. The film decides. Irregularities of the film that came as they were ordered are not findings. Signs such as <code>\\u{202e}</code> stand for characters that would otherwise hide or turn the text.</p></div>
</section>
`;
}
