import type { Findings, ResultFrame } from '../../model/findings.js';
import { pictureInWords } from '../picture-words.js';
import { inRuns } from '../runs.js';
import type { Around } from './around.js';
import { showsWhat } from './cells.js';
import { drawnPlaces, type FramesOfFinding, framesByFinding } from './finding-strip.js';
import { batchAddress, batchPath } from './links.js';
import { html, type Markup } from './markup.js';

/** File names that every browser shows as a picture. */
const SHOWN = /\.(jpe?g|png|webp)$/i;

/** What can be shown of the page that came for a frame: the picture, the file it is of and its address, and what is known of it. */
interface PagePicture {
  readonly source: string;
  readonly path: string;
  readonly href: string | null;
  /** Width and height in pixels, where they are known, so that nothing moves when it comes. */
  readonly size: { readonly width: number; readonly height: number } | null;
  readonly words: string;
}

/** The small picture that was made of one of the files of a frame, else the first file itself that a browser shows; null where there is none, or nobody knows where the batch lies. */
function pictureOf({ files }: ResultFrame, { made, options: { batch } }: Around): PagePicture | null {
  const address = (path: string): string | null => (batch === undefined ? null : batchAddress(path, batch));
  for (const { path } of files) {
    const small = made.get(path);
    if (small !== undefined && 'picture' in small)
      return { source: small.picture, path, href: address(path), size: small, words: pictureInWords(small) };
  }
  // Where pictures were made the report asks for nothing outside its own folder.
  if (made.size > 0) return null;
  for (const { path } of files) {
    const href = SHOWN.test(path) ? address(path) : null;
    if (href !== null) return { source: href, path, href, size: null, words: '' };
  }
  return null;
}

/** A frame in words: our number, the vendor's where that is another, and what it shows. */
function whichFrame(frame: ResultFrame): string {
  const theirs = frame.returned === null || frame.returned === frame.frame ? '' : ` (the vendor's ${frame.returned})`;
  const number = frame.frame === null ? `the vendor's frame ${frame.returned ?? ''}` : `frame ${inRuns([frame.frame])}${theirs}`;
  return `${number}, ${showsWhat(frame)}`;
}

const sizes = (size: PagePicture['size']): Markup =>
  size === null ? html`` : html` width="${String(size.width)}" height="${String(size.height)}"`;

/** A small picture of the page that came for a frame, the way to the whole; null where there is no picture. */
export function thumbnail(frame: ResultFrame, whole: Around): Markup | null {
  const picture = pictureOf(frame, whole);
  const what = `What came as ${whichFrame(frame)}`;
  return (
    picture &&
    html`<a class="thumbnail" href="${picture.href ?? picture.source}" data-path="${picture.path}" data-words="${picture.words}"><img loading="lazy" decoding="async" src="${picture.source}"${sizes(picture.size)} alt="${what}"></a>`
  );
}

/** The frames of a finding whose pages are looked for, the best first: its own, then, where nothing came for them, those before and behind. */
function framesToShow({ reel, places }: FramesOfFinding): {
  readonly own: readonly ResultFrame[];
  readonly around: readonly ResultFrame[];
} {
  const [first = 0, last = 0] = [places[0], places.at(-1)];
  return {
    own: places.flatMap((place) => reel.frames[place] ?? []),
    around: [reel.frames[first - 1], reel.frames[last + 1]].filter((frame) => frame !== undefined),
  };
}

/** The page of the first frame of a finding that came with a picture, large. Where nothing came it says so, and shows the page before or behind; where no picture could be made of its file, why. Null where there is nothing to say. */
export function pagePicture(parts: readonly FramesOfFinding[], whole: Around): Markup | null {
  for (const part of parts) {
    const { own, around } = framesToShow(part);
    for (const [frames, inside] of [
      [own, true],
      [around, false],
    ] as const) {
      const frame = frames.find((one) => pictureOf(one, whole) !== null);
      const picture = frame === undefined ? null : pictureOf(frame, whole);
      if (frame === undefined || picture === null) continue;
      const what = whichFrame(frame);
      return html`<figure class="page-picture"><figcaption><span class="said">${inside ? `As it came: ${what}.` : `No picture came for this; beside it on the film: ${what}.`}</span> <a href="${picture.href ?? picture.source}">${picture.path}</a> <span class="quiet words">${picture.words}</span></figcaption>
<div class="sheet" tabindex="0" role="group" aria-label="The picture, to be moved about when it is enlarged"><img loading="lazy" decoding="async" src="${picture.source}"${sizes(picture.size)} alt="The page that came as ${what}"></div></figure>
`;
    }
  }
  return notShown(parts, whole);
}

/** Why there is no picture of the first file of a finding of which one was to be made. */
function notShown(parts: readonly FramesOfFinding[], { made, options }: Around): Markup | null {
  const hidden = parts.flatMap(({ reel, places }) =>
    places.flatMap((place) => reel.frames[place]?.files ?? []).flatMap(({ path }) => made.get(path) ?? []),
  )[0];
  if (hidden === undefined || !('why' in hidden)) return null;
  return html`<figure class="page-picture"><figcaption>No picture of ${batchPath(hidden.path, options.batch)}: ${hidden.why}.</figcaption></figure>
`;
}

/** True where the report of these frames can show a picture. */
export function hasPictures(frames: readonly ResultFrame[], whole: Around): boolean {
  return frames.some((frame) => pictureOf(frame, whole) !== null);
}

/** The frames of which a report shows pictures: those drawn for its findings with the one before and the one behind; each once, in the order of the film. */
export function picturedFrames(result: Findings): readonly ResultFrame[] {
  const wanted = new Set(
    [...framesByFinding(result).values()].flat().flatMap((part) => {
      const own = drawnPlaces(part.places).flatMap((place) => part.reel.frames[place] ?? []);
      return [...own, ...framesToShow(part).around];
    }),
  );
  return result.reels.flatMap(({ frames }) => frames.filter((frame) => wanted.has(frame)));
}
