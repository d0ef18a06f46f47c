import { lstat, readdir, realpath, stat } from 'node:fs/promises';
import { join, resolve, sep } from 'node:path';
import type { HiddenPicture, PicturesFile, ShownPicture } from '../model/pictures.js';
import type { ExpectedPage, Worksheet } from '../model/worksheet.js';
import { makePictures, NO_FILE } from '../pictures/index.js';
import { type ResultFile, writeResults } from './outputs/results-folder.js';
import type { Surroundings } from './surroundings.js';

/** Folder of the pictures beside a worksheet, and the file that says what they are of. */
export const PICTURES_FOLDER = 'pictures';
export const PICTURES_FILE = 'pictures.json';

type PageFile = ExpectedPage['files'][number];

/** What was made, and the pictures as files of their folder. */
export interface PicturesMade {
  readonly made: PicturesFile;
  readonly files: readonly ResultFile[];
}

/** Uses of a file, best first: the master shows most, the one for readers is what was made of it. */
const BEST = [/master|archiv|preserv/i, /service|access|deriv/i];
/** The name of a picture that was made here. */
const SMALL_PICTURE = /^\d{4,}\.webp$/;
/** Files that hold a picture, by their names: only these are tried. */
const MAY_SHOW = /\.(jpe?g|png|tiff?|webp|jp2|jpx|j2k|pdf)$/i;

/** Makes a picture of each page from the best of its files that are in the batch; says how far it is, and how many could not be made. Null where none of the files is in this copy of the batch. */
export async function picturesOf(
  pages: readonly { readonly files: readonly PageFile[] }[],
  batch: string,
  { say, signal }: Pick<Surroundings, 'say' | 'signal'>,
): Promise<PicturesMade | null> {
  const root = await realpath(batch);
  const best = await Promise.all(pages.map(async ({ files }) => bestThere(root, files)));
  const wanted = new Map(best.flatMap((file) => file ?? []).map((file) => [file.path, file]));
  const chosen = [...wanted.values()];
  const found = await Promise.all(chosen.map(({ path }) => fileIn(root, path)));
  const paths = found.flatMap((one) => ('file' in one ? one.file : []));
  const small = await makePictures(paths, {
    signal,
    onDone: (done) => say(`pictures: ${String(done)} of ${String(paths.length)}`, 'progress'),
  });
  if (small.every((one) => 'why' in one && one.why === NO_FILE)) return null;
  const files: ResultFile[] = [];
  const pictures = chosen.map(({ path, use }, at): ShownPicture | HiddenPicture => {
    const one = found[at];
    const picture = one !== undefined && 'file' in one ? small[paths.indexOf(one.file)] : one;
    if (picture === undefined || 'why' in picture) return hidden(path, use, picture?.why);
    const { bytes, width, height, kind, full } = picture.drawn;
    const name = `${String(files.length + 1).padStart(4, '0')}.webp`;
    files.push({ name, content: bytes });
    return {
      path,
      use,
      picture: `${PICTURES_FOLDER}/${name}`,
      width,
      height,
      kind,
      full,
    };
  });
  const without = pictures.filter((one) => 'why' in one);
  const [first] = without;
  if (first !== undefined)
    say(
      `${String(without.length)} of ${String(pictures.length)} pictures could not be made; the page says why in the place of each. The first is ${first.path}: ${first.why}.`,
      'remark',
    );
  return { made: { format: 'reeltally/pictures/1', pictures }, files };
}

function hidden(path: string, use: string, why = 'it was not tried'): HiddenPicture {
  return { path, use, why, ...(why === NO_FILE ? { gone: true } : {}) };
}

/** The place of a file of the batch, which is what the drive shows and no link to another place; what is not there is for the reader to say. */
async function fileIn(root: string, path: string): Promise<{ readonly file: string } | { readonly why: string }> {
  const file = resolve(root, path);
  if (!file.startsWith(root + sep)) return { why: 'it lies outside the batch and was not opened' };
  const real = await realpath(file).catch(() => null);
  if (real === null) return { file };
  if (real !== file) return { why: 'it is a link, and links are not followed' };
  return (await stat(file)).isFile() ? { file } : { why: 'it is not a regular file' };
}

/** The best file of a page that this copy of the batch holds: often the masters are left behind. Where it holds none, the best that is named. */
async function bestThere(root: string, files: readonly PageFile[]): Promise<PageFile | undefined> {
  const ranked = bestFirst(files);
  for (const file of ranked) if (await isThere(resolve(root, file.path))) return file;
  return ranked[0];
}

/** True where something lies at a place, be it a link or a folder, which is told when it is opened. */
const isThere = async (path: string): Promise<boolean> =>
  lstat(path).then(
    () => true,
    () => false,
  );

function bestFirst(files: readonly PageFile[]): readonly PageFile[] {
  const shown = files.filter(({ path }) => MAY_SHOW.test(path));
  const rank = ({ use }: PageFile): number => {
    const at = BEST.findIndex((one) => one.test(use));
    return at < 0 ? BEST.length : at;
  };
  return shown.toSorted((one, other) => rank(one) - rank(other));
}

/** The pages of a worksheet. */
export const pagesOf = (worksheet: Worksheet): readonly ExpectedPage[] =>
  worksheet.lots.flatMap(({ units }) => units.flatMap((unit) => unit.pages));

/** Writes pictures into their folder below `out`; with `replace` those of an earlier run go. Throws UserMistake. */
export async function writePictures(out: string, files: readonly ResultFile[], replace: boolean): Promise<void> {
  const folder = join(out, PICTURES_FOLDER);
  const there = await readdir(folder).catch(() => []);
  const ours = [...there.filter((name) => SMALL_PICTURE.test(name)), ...files.map(({ name }) => name)];
  await writeResults(folder, files, replace, new Set(ours));
}
