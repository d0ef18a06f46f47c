import type { ResultFrame, ResultReel } from '../../model/findings.js';
import { inRuns } from '../runs.js';
import { counted, SEVERITIES } from '../words.js';
import { type Around, findingTarget } from './around.js';
import { showsWhat, signClasses } from './cells.js';
import { signLegend } from './legend.js';
import { escaped, html, type Markup, trusted } from './markup.js';
import { findingsAt, heaviest, signsInWords, weightAt } from './signs.js';

/** Signs in one reel's bar at most: more would be too narrow to hit. A longer reel has one sign for several frames. */
const LONGEST = 120;

/** What the frames are, for people: `Frames 25 to 28: differ; findings 1, 5`. */
function described(frames: readonly ResultFrame[], numbers: readonly number[]): string {
  const named = inRuns(frames.map(({ frame }) => frame));
  const who =
    named === 'none'
      ? `${counted(frames.length, 'frame')} not in the record`
      : frames.length === 1
        ? `Frame ${named}, ${frames.map(showsWhat).join()}`
        : `Frames ${named}`;
  const findings = numbers.length === 0 ? '' : `; ${numbers.length === 1 ? 'finding' : 'findings'} ${inRuns(numbers.map(String))}`;
  return `${who}: ${signsInWords(frames.map((frame) => frame.state))}${findings}`;
}

/** One sign for frames that lie together, with the way to the worst finding about them. */
function sign(frames: readonly ResultFrame[], whole: Around): string {
  const { told } = whole;
  const signs = frames.map((frame) => frame.state);
  const weights = frames.map((frame) => weightAt(frame, told));
  const classes = signClasses(heaviest(signs), SEVERITIES.find((severity) => weights.includes(severity)) ?? null);
  const targets = frames.flatMap((frame) => findingsAt(frame, told).flatMap(({ id }) => findingTarget(whole, id) ?? []));
  const numbers = [...new Set(targets.map(({ number }) => number))].sort((a, b) => a - b);
  const words = escaped(described(frames, numbers));
  const first = targets.find(({ number }) => number === numbers[0]);
  if (first === undefined) return `<i class="${classes}" title="${words}"></i>`;
  return `<a class="${classes}" href="${escaped(first.href)}" title="${words}" aria-label="${words}" tabindex="-1" data-findings="${numbers.join(' ')}"></a>`;
}

function reelBar({ number, frames }: ResultReel, whole: Around): Markup {
  const each = Math.max(1, Math.ceil(frames.length / LONGEST));
  const groups = Array.from({ length: Math.ceil(frames.length / each) }, (_, at) => frames.slice(at * each, at * each + each));
  const said = `Reel ${number}: ${signsInWords(frames.map((frame) => frame.state))}`;
  return html`<div class="reel-bar"><p><b>Reel ${number}</b> <span class="quiet">${counted(frames.length, 'frame')}${each > 1 && `, each sign ${each}`}</span></p><div class="bar" role="group" aria-label="${said}">${trusted(groups.map((group) => sign(group, whole)).join(''))}</div></div>
`;
}

/** Every reel on one screen: where something is wrong, of which kind and how much it weighs. */
export function overview(whole: Around): Markup {
  const { reels } = whole.result;
  if (reels.length === 0) return html``;
  return html`<section class="overview" aria-labelledby="overview"><h2 id="overview">The film at a glance</h2>
<div class="reel-bars" role="group" aria-label="Reels" tabindex="0">
${reels.map((reel) => reelBar(reel, whole))}</div>
<details class="legend-fold"><summary>What the signs mean</summary>
${signLegend()}</details></section>
`;
}
