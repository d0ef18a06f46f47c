import type { ResultFrame, ResultReel } from '../../model/findings.js';
import { inRuns } from '../runs.js';
import { counted } from '../words.js';
import { type Around, findingLink, titleName } from './around.js';
import { smallStrip } from './cells.js';
import { drift, type FilmGroup, filmGroups, signed } from './film-groups.js';
import { signLegend } from './legend.js';
import { KINDS } from './marks.js';
import { html, joined, type Markup } from './markup.js';
import { findingsAt, signsInWords, signText } from './signs.js';

/** Words for a number of frames of a kind, such as `4 pages`. */
function kindsInWords(frames: readonly ResultFrame[]): string {
  const counts = new Map<string, number>();
  for (const frame of frames) counts.set(frame.kind, (counts.get(frame.kind) ?? 0) + 1);
  return [...counts].map(([kind, count]) => counted(count, KINDS.some(([known]) => known === kind) ? kind : 'exposure')).join(', ');
}

/** What must be the same for two frames to be told in one line. */
const alike = (frame: ResultFrame): string =>
  JSON.stringify([
    frame.frame === null,
    frame.returned === null ? null : drift(frame),
    frame.kind,
    frame.state,
    frame.deliver,
    frame.duplicateOf,
    frame.sourceReel,
    frame.condition,
    frame.findings,
    frame.follows,
  ]);

/** Frames that follow each other and are alike. */
function linesOf(frames: readonly ResultFrame[]): readonly (readonly ResultFrame[])[] {
  const lines: { readonly key: string; readonly frames: ResultFrame[] }[] = [];
  for (const frame of frames) {
    const key = alike(frame);
    const last = lines.at(-1);
    if (last?.key === key) last.frames.push(frame);
    else lines.push({ key, frames: [frame] });
  }
  return lines.map((line) => line.frames);
}

function line(frames: readonly ResultFrame[], whole: Around): Markup {
  const [first] = frames;
  if (first === undefined) return html``;
  const returned = inRuns(frames.map((frame) => frame.returned));
  const came = first.returned === null ? 'did not come' : drift(first) === 0 ? 'came under the same number' : `came as ${returned}`;
  const labels = first.kind === 'page' ? inRuns(frames.map((frame) => frame.page)) : 'none';
  const shows =
    labels === 'none' ? (frames.length === 1 ? first.kind : kindsInWords(frames)) : `${frames.length === 1 ? 'page' : 'pages'} ${labels}`;
  const notes = [
    signText(first.state)[frames.length === 1 ? 'one' : 'many'],
    ...(first.deliver ? [] : ['held back']),
    ...first.condition,
    ...(first.duplicateOf === null ? [] : [`same page as frame ${first.duplicateOf}`]),
    ...(first.sourceReel === null ? [] : [`from reel ${first.sourceReel}`]),
  ];
  const links = findingsAt(first, whole.told).flatMap(({ id }) => findingLink(whole, id, (number) => html`${number}`) ?? []);
  const named =
    first.frame === null
      ? 'Not in the record'
      : `${frames.length === 1 ? 'Frame' : 'Frames'} ${inRuns(frames.map((frame) => frame.frame))}`;
  return html`<li>${named}: ${shows}; ${came}; ${notes.join(', ')}${links.length > 0 && html`; ${links.length === 1 ? 'finding' : 'findings'} ${joined(links, ', ')}`}</li>`;
}

/** Sentences where the distance between the two numberings becomes another. */
function driftChanges(frames: readonly ResultFrame[], before: number): { readonly says: readonly string[]; readonly now: number } {
  const says: string[] = [];
  let now = before;
  for (const frame of frames) {
    const distance = drift(frame);
    if (distance === null || distance === now) continue;
    says.push(
      distance === 0
        ? `from frame ${frame.frame ?? ''} the numbers agree`
        : `from frame ${frame.frame ?? ''} numbers came ${signed(distance)}`,
    );
    now = distance;
  }
  return { says, now };
}

/** An issue with its frames below it, for who reads without a script; the script makes a button of its head and folds the frames. */
function group(one: FilmGroup, changes: readonly string[], whole: Around): Markup {
  const { frames } = one;
  const numbers = inRuns(frames.map((frame) => frame.frame));
  const moved = frames.some((frame) => (drift(frame) ?? 0) !== 0);
  const when = one.date ?? (one.title === null ? 'no issue' : 'undated');
  const edition = one.edition !== null && one.edition !== 1 ? `, edition ${String(one.edition)}` : '';
  const said = `${one.title === null ? '' : `${titleName(whole, one.title)} `}${when}: ${kindsInWords(frames)}; ${signsInWords(frames.map((frame) => frame.state))}`;
  return html`<div class="group"><p class="issue"><span class="when">${when}${edition}</span>${smallStrip(frames, whole.told, said)}<span class="numbers">${numbers}${moved && html` <span class="moved">came ${inRuns(frames.map((frame) => frame.returned))}</span>`}</span>${changes.map((change) => html`<span class="drift">${change}</span>`)}</p><ul>${linesOf(frames).map((frame) => line(frame, whole))}</ul></div>
`;
}

/** Issues in one box, which a browser lays out when it comes into view: ten thousand frames at once would be slow. */
const CHUNK = 16;

/** One reel, every frame a cell in film order, cut into issues. */
function reelStrip(reel: ResultReel, whole: Around): Markup {
  let distance = 0;
  let title: string | null = null;
  const groups = filmGroups(reel).map((one) => {
    const { says, now } = driftChanges(one.frames, distance);
    distance = now;
    const head = one.title !== null && one.title !== title ? html`<h4>${titleName(whole, one.title)}</h4>` : html``;
    title = one.title ?? title;
    return html`${head}${group(one, says, whole)}`;
  });
  const chunks = Array.from({ length: Math.ceil(groups.length / CHUNK) }, (_, at) => groups.slice(at * CHUNK, at * CHUNK + CHUNK));
  return html`<h3>Reel ${reel.number}</h3>
<p>${counted(reel.frames.length, 'place')} on the film: ${kindsInWords(reel.frames)}; ${signsInWords(reel.frames.map((frame) => frame.state))}.</p>
${chunks.map(
  (chunk) => html`<div class="reel">${chunk}</div>
`,
)}`;
}

/** All reels as strips of film. */
export function filmStrips(whole: Around): Markup {
  const { result } = whole;
  if (result.reels.length === 0) return html``;
  const size = (name: string, words: string, checked: boolean): Markup =>
    html`<label><input type="radio" name="cells" id="cells-${name}"${checked && html` checked`}> ${words}</label> `;
  return html`<section class="strips" aria-labelledby="film"><h2 id="film">The film, frame by frame</h2>
<p>Each sign is a frame, in the order of the film.<span class="to-unfold"> Open an issue to read its frames with both numbers.</span></p>
<fieldset class="zoom"><legend>Size of the signs</legend>${size('small', 'small', false)}${size('middle', 'middle', true)}${size('large', 'large', false)}</fieldset>
${signLegend()}${result.reels.map((reel) => reelStrip(reel, whole))}</section>
`;
}
