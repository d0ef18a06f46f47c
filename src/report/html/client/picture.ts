import type { Entry } from './entries.js';
import type { Keys } from './keys.js';

const LARGEST = 6;
const STEP = 1.5;
/** Height of the picture as the page shows it at first, in hundredths of the window. */
const FIRST = 62;

const pictureIn = (entry: Entry | null): HTMLImageElement | null => entry?.body.querySelector<HTMLImageElement>('.sheet img') ?? null;

function enlarge(image: HTMLImageElement, by: number): void {
  const size = Math.min(LARGEST, Math.max(1, Number(image.dataset.size ?? '1') * by));
  image.dataset.size = String(size);
  const { style } = image;
  style.maxWidth = style.maxHeight = size === 1 ? '' : 'none';
  style.height = size === 1 ? '' : `${String(Math.round(FIRST * size))}vh`;
  makeRoom(image);
}

/** A turned picture keeps the box of the upright one: it is made no higher than the sheet is wide, and margins give it the room that it takes, so that nothing is cut off. */
function makeRoom(image: HTMLImageElement): void {
  const { dataset, parentElement: sheet, style } = image;
  const lying = Number(dataset.turned ?? '0') % 2 === 1;
  if ((dataset.size ?? '1') === '1')
    style.maxHeight = lying && sheet !== null ? `min(${String(FIRST)}vh, ${String(sheet.clientWidth)}px)` : '';
  const more = (image.offsetWidth - image.offsetHeight) / 2;
  style.margin = lying ? `${String(more)}px ${String(-more)}px` : '';
}

/** The picture takes another size when it comes, or when the window does. */
const sizes = new ResizeObserver((entries) => {
  for (const { target } of entries) {
    const image = target.matches('img') ? target : target.querySelector('img');
    if (image instanceof HTMLImageElement) makeRoom(image);
  }
});

function turn(image: HTMLImageElement): void {
  const quarter = (Number(image.dataset.turned ?? '0') + 1) % 4;
  image.dataset.turned = String(quarter);
  image.style.rotate = quarter === 0 ? '' : `${String(quarter * 90)}deg`;
  makeRoom(image);
  sizes.observe(image);
  if (image.parentElement !== null) sizes.observe(image.parentElement);
}

/** Shows the page of a piece of film large, in place of what was shown. */
function show({ body }: Entry, piece: HTMLAnchorElement): void {
  const [figure, small] = [body.querySelector('.page-picture'), piece.querySelector('img')];
  const [image, link] = [figure?.querySelector('img'), figure?.querySelector('a')];
  const [said, words] = [figure?.querySelector('.said'), figure?.querySelector('.words')];
  if (image == null || link == null || said == null || words == null || small === null) return;
  image.src = small.src;
  image.alt = small.alt;
  for (const name of ['width', 'height']) {
    const value = small.getAttribute(name);
    if (value === null) image.removeAttribute(name);
    else image.setAttribute(name, value);
  }
  image.removeAttribute('style');
  delete image.dataset.size;
  delete image.dataset.turned;
  link.href = piece.href;
  link.textContent = piece.dataset.path ?? '';
  said.textContent = `${small.alt}.`;
  words.textContent = piece.dataset.words ?? '';
  for (const other of body.querySelectorAll('.thumbnail')) other.removeAttribute('aria-current');
  piece.setAttribute('aria-current', 'true');
}

/** The keys of the page picture of the finding that is chosen: larger, smaller, turned, the page before and behind; a click on a piece of film shows its page. */
export function startPictures(chosen: () => Entry | null): Keys {
  const of = (act: (image: HTMLImageElement) => void) => (): void => {
    const image = pictureIn(chosen());
    if (image !== null) act(image);
  };
  const step = (by: 1 | -1) => (): void => {
    const entry = chosen();
    const image = pictureIn(entry);
    if (entry === null || image === null) return;
    const pieces = [...entry.body.querySelectorAll<HTMLAnchorElement>('.thumbnail')];
    // Several frames may have one file, a PDF of a whole issue for instance: which of them is shown is told by its mark, once there is one.
    const marked = pieces.findIndex((piece) => piece.hasAttribute('aria-current'));
    const here = marked >= 0 ? marked : pieces.findIndex((piece) => piece.querySelector('img')?.src === image.src);
    const next = pieces[here + by];
    if (next !== undefined) show(entry, next);
  };
  document.getElementById('pane')?.addEventListener('click', (event) => {
    const piece = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>('.thumbnail') : null;
    const entry = chosen();
    if (piece === null || entry === null || pictureIn(entry) === null || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    show(entry, piece);
  });
  return new Map([
    [
      '+',
      of((image) => {
        enlarge(image, STEP);
      }),
    ],
    [
      '-',
      of((image) => {
        enlarge(image, 1 / STEP);
      }),
    ],
    ['t', of(turn)],
    [',', step(-1)],
    ['.', step(1)],
  ]);
}
