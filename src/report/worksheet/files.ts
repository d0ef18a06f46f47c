import type { PicturesFile, ShownPicture } from '../../model/pictures.js';
import type { ExpectedPage } from '../../model/worksheet.js';
import { pictureInWords } from '../picture-words.js';
import { labelOf, placeOf } from './facts.js';
import { fileLink, htmlText } from './html-text.js';

/** Where the files of a page are shown from. */
export interface FilesShown {
  /** The way from the page to the batch, encoded and ending in `/`; null where files are only named. */
  readonly base: string | null;
  /** What was made of the files to be looked at; null where nothing was. */
  readonly pictures: PicturesFile | null;
}

/** Kinds of image that browsers show, those that all of them do first; a browser that cannot says so in its place. */
const SHOWN = [/\.(jpe?g|png|gif|webp|avif)$/i, /\.(jp2|jpx|j2k)$/i, /\.tiff?$/i];

/** The files of a page with a link to each, and the picture of one of them: the one that was made, else the file itself where browsers may show it. */
export function filesAndPicture(shown: ExpectedPage, several: boolean, { base, pictures }: FilesShown): string {
  const what = `${several ? `page ${labelOf(shown)}, ` : ''}${placeOf(shown)}`;
  if (shown.files.length === 0) return `<p>The return names no file for ${htmlText(what)}.</p>`;
  const links = shown.files.map(({ use, path }) => ({ use, path, href: base === null ? null : fileLink(base, path) }));
  const items = links.map(({ use, path, href }) =>
    href === null
      ? `<li>${htmlText(use)}: ${htmlText(path)}</li>`
      : `<li>${htmlText(use)}: <a href="${htmlText(href)}">${htmlText(path)}</a></li>`,
  );
  const list = `<ul aria-label="${htmlText(`Files of ${what}`)}">\n${items.join('\n')}\n</ul>`;
  const paths = new Set(shown.files.map(({ path }) => path));
  const made = pictures?.pictures.find(({ path }) => paths.has(path));
  if (made !== undefined && 'picture' in made) return `${list}${smallPicture(made, what)}`;
  if (made !== undefined)
    return `${list}<p class="none">No picture of ${htmlText(made.path)}: ${htmlText(made.why)}.${made.gone === true ? '' : ' Open it with the link above; if your viewer cannot show it either, answer that it cannot be read.'}</p>`;
  const image = SHOWN.flatMap((kind) => links.find(({ path, href }) => href !== null && kind.test(path)) ?? [])[0];
  return image?.href == null
    ? list
    : `${list}${figure(image.href, what, '', `This browser cannot show ${image.path}, or the file is not there. Open it with the link above.`)}`;
}

function smallPicture(made: ShownPicture, what: string): string {
  return figure(
    made.picture,
    what,
    `<figcaption>${htmlText(pictureInWords(made))}</figcaption>`,
    `The picture of ${made.path} is not beside this page any more: keep the folder "pictures" where it is.`,
    ` width="${String(made.width)}" height="${String(made.height)}"`,
  );
}

function figure(source: string, what: string, caption: string, unable: string, size = ''): string {
  return `<figure><div class="sheet" tabindex="0" aria-label="${htmlText(`Picture of ${what}, to be moved about when it is enlarged`)}" role="group"><img loading="lazy" src="${htmlText(source)}"${size} alt="${htmlText(`Image of ${what}`)}"><p hidden>${htmlText(unable)}</p></div>${caption}</figure>`;
}
