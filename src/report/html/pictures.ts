import type { ResultFrame } from '../../model/findings.js';
import { inRuns } from '../runs.js';
import { showsWhat } from './cells.js';
import type { FramesOfFinding } from './finding-strip.js';
import { batchAddress } from './links.js';
import { html, type Markup } from './markup.js';

/** File names that every browser shows as a picture. */
const SHOWN = /\.(jpe?g|png|webp)$/i;

/** The first file of a frame that a browser shows, with its address; null where there is none, or nobody knows where the batch lies. */
function pictureOf({ files }: ResultFrame, batch: string | undefined): { readonly href: string; readonly path: string } | null {
  if (batch === undefined) return null;
  for (const { path } of files) {
    const href = SHOWN.test(path) ? batchAddress(path, batch) : null;
    if (href !== null) return { href, path };
  }
  return null;
}

/** A small picture of the page that came for a frame, the way to the whole; null where there is no picture. */
export function thumbnail(frame: ResultFrame, batch: string | undefined): Markup | null {
  const picture = pictureOf(frame, batch);
  return (
    picture &&
    html`<a class="thumbnail" href="${picture.href}"><img loading="lazy" decoding="async" src="${picture.href}" alt="What came as ${showsWhat(frame)}, frame ${frame.returned ?? frame.frame ?? ''}"></a>`
  );
}

/** The page of the first frame of a finding that came with a picture, large. Where nothing came it says so, and shows the page before or behind; null where there is no picture. */
export function pagePicture(parts: readonly FramesOfFinding[], batch: string | undefined): Markup | null {
  for (const { reel, places } of parts) {
    const own = places.flatMap((place) => reel.frames[place] ?? []);
    const [first = 0, last = 0] = [places[0], places.at(-1)];
    const around = [reel.frames[first - 1], reel.frames[last + 1]].filter((frame) => frame !== undefined);
    for (const [frames, inside] of [
      [own, true],
      [around, false],
    ] as const) {
      const frame = frames.find((one) => pictureOf(one, batch) !== null);
      const picture = frame === undefined ? null : pictureOf(frame, batch);
      if (frame === undefined || picture === null) continue;
      const what = `frame ${inRuns([frame.frame ?? frame.returned])}, ${showsWhat(frame)}`;
      return html`<figure class="page-picture"><figcaption>${inside ? `As it came: ${what}.` : `No picture came for this; beside it on the film: ${what}.`} <a href="${picture.href}">${picture.path}</a></figcaption>
<img loading="lazy" decoding="async" src="${picture.href}" alt="The page that came as ${what}"></figure>
`;
    }
  }
  return null;
}

/** True where the report of these frames can show a picture. */
export function hasPictures(frames: readonly ResultFrame[], batch: string | undefined): boolean {
  return frames.some((frame) => pictureOf(frame, batch) !== null);
}
