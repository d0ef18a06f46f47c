import type { Finding, Findings, ResultFrame, ResultReel } from '../../model/findings.js';
import { counted } from '../words.js';
import type { Around } from './around.js';
import { largeCell } from './cells.js';
import { html, type Markup } from './markup.js';

/** Frames shown on either side of what a finding names, and at either end of a long run. */
const NEIGHBOURS = 2;
const END = 4;

/** Where the frames lie that name a finding, for one reel. */
export interface FramesOfFinding {
  readonly reel: ResultReel;
  readonly places: readonly number[];
}

/** For every finding the reels and places of the frames that name it, by its id; made once for a whole result. */
export function framesByFinding(result: Findings): ReadonlyMap<string, readonly FramesOfFinding[]> {
  const found = new Map<string, { reel: ResultReel; places: number[] }[]>();
  for (const reel of result.reels) {
    reel.frames.forEach((frame, place) => {
      for (const id of frame.findings) {
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

/** The places to draw: those named with their neighbours, the middle of long runs left out. */
function placesToDraw(places: readonly number[], length: number): readonly number[] {
  const ends = places.length <= 2 * END + 1 ? places : [...places.slice(0, END), ...places.slice(-END)];
  const drawn = new Set<number>();
  for (const place of ends) drawn.add(place);
  for (const place of [places[0] ?? 0, places.at(-1) ?? 0]) {
    for (let step = -NEIGHBOURS; step <= NEIGHBOURS; step++) {
      if (place + step >= 0 && place + step < length) drawn.add(place + step);
    }
  }
  return [...drawn].sort((a, b) => a - b);
}

function rowOf({ reel, places }: FramesOfFinding, finding: Finding, several: boolean, { numbering }: Around): Markup {
  const named = new Set(places);
  const drawn = placesToDraw(places, reel.frames.length);
  const cells = drawn.map((place, at) => {
    const frame: ResultFrame | undefined = reel.frames[place];
    const before = drawn[at - 1];
    const left = before === undefined ? 0 : place - before - 1;
    return html`${left > 0 && html`<li class="left-out">… ${counted(left, 'frame')} …</li>`}${frame !== undefined && largeCell(frame, numbering, named.has(place))}`;
  });
  return html`<p class="quiet">${several || finding.reel !== reel.number ? `Reel ${reel.number}. ` : ''}Above each frame its number in the record, below it the number that came back.</p>
<ol class="film">${cells}</ol>
`;
}

/** The frames of a finding as pieces of film with their neighbours, one for each reel; nothing where no frame names it. */
export function findingStrip(finding: Finding, parts: readonly FramesOfFinding[], whole: Around): Markup {
  return html`${parts.map((part) => rowOf(part, finding, parts.length > 1, whole))}`;
}
