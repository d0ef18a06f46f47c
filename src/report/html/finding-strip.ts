import type { Finding, Findings, ResultFrame, ResultReel } from '../../model/findings.js';
import { counted } from '../words.js';
import type { Around } from './around.js';
import { cellClasses, kindOf, showsWhat } from './cells.js';
import { drift } from './film-groups.js';
import { html, type Markup } from './markup.js';
import { thumbnail } from './pictures.js';
import { type Sign, signText } from './signs.js';

/** Frames shown on either side of what a finding names, and at either end of a long run. */
const NEIGHBOURS = 2;
const END = 4;

/** Where the frames lie that a finding says something of, for one reel. */
export interface FramesOfFinding {
  readonly reel: ResultReel;
  readonly places: readonly number[];
}

/** For every finding the reels and places of its frames, those that only follow from it too, by its id; made once for a whole result. */
export function framesByFinding(result: Findings): ReadonlyMap<string, readonly FramesOfFinding[]> {
  const found = new Map<string, { reel: ResultReel; places: number[] }[]>();
  for (const reel of result.reels) {
    reel.frames.forEach((frame, place) => {
      for (const id of [...frame.findings, ...(frame.follows ?? [])]) {
        const parts = found.get(id) ?? [];
        found.set(id, parts);
        const last = parts.at(-1);
        if (last?.reel === reel) last.places.push(place);
        else parts.push({ reel, places: [place] });
      }
    });
  }
  return found;
}

/** Those places of a finding that are drawn: the middle of a long run is left out. */
export function drawnPlaces(places: readonly number[]): readonly number[] {
  return places.length <= 2 * END + 1 ? places : [...places.slice(0, END), ...places.slice(-END)];
}

/** The places to draw: those named, with their neighbours. */
function placesToDraw(places: readonly number[], length: number): readonly number[] {
  const drawn = new Set<number>(drawnPlaces(places));
  for (const place of [places[0] ?? 0, places.at(-1) ?? 0]) {
    for (let step = -NEIGHBOURS; step <= NEIGHBOURS; step++) {
      if (place + step >= 0 && place + step < length) drawn.add(place + step);
    }
  }
  return [...drawn].sort((a, b) => a - b);
}

/** One frame as a piece of film: the record's number above, the return's below, what it shows, its sign, in words for those who do not see it. */
function piece(frame: ResultFrame, inside: boolean, whole: Around): Markup {
  const { told } = whole;
  const moved = frame.frame !== frame.returned && frame.returned !== null && (drift(frame) ?? 1) !== 0;
  return html`<li class="${inside ? 'inside' : 'beside'}"><span class="of-record"><span class="unseen">Our frame </span>${frame.frame ?? '–'}</span>
${thumbnail(frame, whole) ?? html``}<i class="${cellClasses(frame, told)}" aria-hidden="true">${kindOf(frame)[1]}</i>
<span class="label">${showsWhat(frame)}</span>
<span class="of-return${moved && ' moved'}"><span class="unseen">The vendor's number </span>${frame.returned ?? '–'}</span>
<span class="unseen">${signText(frame.state).one}${!frame.deliver && ', held back'}</span></li>`;
}

function rowOf({ reel, places }: FramesOfFinding, finding: Finding, several: boolean, whole: Around): Markup {
  const named = new Set(places);
  const drawn = placesToDraw(places, reel.frames.length);
  const cells = drawn.map((place, at) => {
    const frame = reel.frames[place];
    const before = drawn[at - 1];
    const left = before === undefined ? 0 : place - before - 1;
    return html`${left > 0 && html`<li class="left-out">… ${counted(left, 'frame')} …</li>`}${frame !== undefined && piece(frame, named.has(place), whole)}`;
  });
  const signs = [...new Set(drawn.flatMap((place) => reel.frames[place] ?? []).map((frame): Sign => frame.state))];
  const meant = signs.filter((sign) => sign !== 'agrees').map((sign) => `${signText(sign).glyph} ${signText(sign).one}`);
  const reelName = several || finding.reel !== reel.number ? `Reel ${reel.number}. ` : '';
  return html`<ol class="film">${cells}</ol>
<p class="quiet key-line">${reelName}Above each frame our number, below it the vendor's.${meant.length > 0 && ` ${meant.join('; ')}.`}</p>
`;
}

/** The frames of a finding as pieces of film with their neighbours, one for each reel; nothing where no frame names it. */
export function findingStrip(finding: Finding, parts: readonly FramesOfFinding[], whole: Around): Markup {
  return html`${parts.map((part) => rowOf(part, finding, parts.length > 1, whole))}`;
}
