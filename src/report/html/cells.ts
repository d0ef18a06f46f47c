import type { ResultFrame } from '../../model/findings.js';
import { drift } from './film-groups.js';
import { KINDS, LOOKS, lookOf } from './marks.js';
import { escaped, html, type Markup, trusted } from './markup.js';

const kindOf = (frame: ResultFrame): readonly [string, string] => KINDS.find(([kind]) => kind === frame.kind) ?? ['other', 'O'];

/** The classes of a cell: first letters that the style sheet gives shape and colour. Short, for a reel has thousands. */
function classesOf(frame: ResultFrame, numbering: ReadonlySet<string>): string {
  return `${kindOf(frame)[0].charAt(0)} ${LOOKS[lookOf(frame, numbering)].css}${frame.deliver ? '' : ' held'}`;
}

/** One frame as a small cell: kind as letter and outline, state as colour and sign. What it stands for is said by the group it is in. */
export function smallCell(frame: ResultFrame, numbering: ReadonlySet<string>): string {
  return `<i class="${classesOf(frame, numbering)}">${kindOf(frame)[1]}</i>`;
}

/** Frames as a row of small cells that stands as one picture with a description. */
export function smallStrip(frames: readonly ResultFrame[], numbering: ReadonlySet<string>, description: string): Markup {
  return trusted(
    `<span class="strip" role="img" aria-label="${escaped(description)}">${frames.map((frame) => smallCell(frame, numbering)).join('')}</span>`,
  );
}

/** What a frame shows, such as `page A3` or `blank`. */
export function showsWhat(frame: ResultFrame): string {
  return frame.kind === 'page' && frame.page !== null ? `page ${frame.page}` : frame.kind;
}

/** One frame as a large cell with both numbers, in words for those who do not see it. */
export function largeCell(frame: ResultFrame, numbering: ReadonlySet<string>, inside: boolean): Markup {
  const moved = (drift(frame) ?? 0) !== 0;
  return html`<li class="${inside ? 'inside' : 'beside'}"><span class="of-record"><span class="unseen">Record’s frame </span>${frame.frame ?? '–'}</span>
<i class="${classesOf(frame, numbering)}" aria-hidden="true">${kindOf(frame)[1]}</i>
<span class="label">${frame.kind === 'page' && frame.page === null ? 'no label' : showsWhat(frame)}</span>
<span class="of-return${moved ? ' moved' : ''}"><span class="unseen">Return’s frame </span>${frame.returned ?? '–'}</span>
<span class="unseen">${LOOKS[lookOf(frame, numbering)].one}${frame.deliver ? '' : ', held back'}</span></li>`;
}
