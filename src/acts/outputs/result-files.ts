import { isAbsolute, relative, resolve, sep } from 'node:path';
import type { Findings } from '../../model/findings.js';
import {
  CORRECTIONS_FILE,
  FORMATS,
  type FormatName,
  type RenderOptions,
  RULINGS_FILE,
  render,
  renderCorrections,
  renderRulings,
} from '../../report/index.js';
import type { KeptRuling } from '../../report/rulings-sheet.js';
import type { ResultFile } from './results-folder.js';

/** The address of the batch as a link in a file of a folder writes it: relative, so that the two can be moved together and no path of this machine is told. */
export function linksTo(batch: string | undefined, folder: string): { readonly batch?: string } {
  if (batch === undefined) return {};
  const way = relative(resolve(folder), resolve(batch));
  // From one drive to another there is no relative path.
  if (isAbsolute(way)) return {};
  return { batch: `./${way.split(sep).map(encodeURIComponent).join('/')}` };
}

/** The files of a result in these formats for a folder, with the corrections that its rulings ask for and the rulings to fill in, where `kept` stands again; `shown` what the report links to and shows, as a file of that folder writes it. */
export async function resultFiles(
  result: Findings,
  formats: readonly FormatName[],
  shown: Pick<RenderOptions, 'batch' | 'pictures'>,
  kept: readonly KeptRuling[],
): Promise<readonly ResultFile[]> {
  const files: ResultFile[] = [];
  for (const { name, file } of FORMATS) {
    if (formats.includes(name)) files.push({ name: file, content: await render(result, name, shown) });
  }
  if (formats.includes('xlsx')) files.push({ name: RULINGS_FILE, content: await renderRulings(result, kept) });
  const corrections = renderCorrections(result);
  if (corrections !== null) files.push({ name: CORRECTIONS_FILE, content: corrections });
  return files;
}
