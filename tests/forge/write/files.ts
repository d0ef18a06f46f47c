import { createHash } from 'node:crypto';
import { moved } from '../film/frame-text.js';
import type { Capture } from '../plan.js';
import { altoOf } from './alto.js';
import { padded, type WriteStyle } from './style.js';
import { writeXml } from './xml.js';

/** One file of a return: its path inside the batch folder, and its text. Images are stand-ins of a few bytes, and these are text too. */
export interface WrittenFile {
  readonly path: string;
  readonly text: string;
}

/** What a file of a page is for. */
export type Use = 'master' | 'service' | 'derivative' | 'ocr';

/** The files of a page with their extensions and their kinds as PREMIS names them. */
export const USES: readonly { readonly use: Use; readonly extension: string; readonly format: string }[] = [
  { use: 'master', extension: 'tif', format: 'image/tiff' },
  { use: 'service', extension: 'jp2', format: 'image/jp2' },
  { use: 'derivative', extension: 'pdf', format: 'application/pdf' },
  { use: 'ocr', extension: 'xml', format: 'text/xml' },
];

/** What lies in the file: a stand-in that is the same for the same image, or the text of the page. `name` is the file's, without its extension. */
export function contentOf(capture: Capture, use: Use, name: string, style: WriteStyle): string {
  return use === 'ocr' ? writeXml(altoOf(capture, `${name}.tif`), style.xml) : `stand-in for the ${use} image ${capture.image}\n`;
}

/** SHA-1 of a text as 40 hexadecimal digits. */
export function sha1(text: string): string {
  return createHash('sha1').update(text).digest('hex');
}

/** Names for the files of captures that lie in one folder: the frame number or the one they are named after, or where two have the same one the next that none of them has. */
export function fileNames(captures: readonly Capture[]): ReadonlyMap<Capture, string> {
  const taken = new Set<string>();
  const names = new Map<Capture, string>();
  const twice: Capture[] = [];
  for (const capture of captures) {
    const name = capture.named ?? capture.frame;
    if (taken.has(name)) twice.push(capture);
    else names.set(capture, name);
    taken.add(name);
  }
  for (const capture of twice) {
    let name = capture.named ?? capture.frame;
    while (taken.has(name)) name = moved(name, 1);
    taken.add(name);
    names.set(capture, name);
  }
  return new Map([...names].map(([capture, name]) => [capture, padded(name, 4)]));
}
