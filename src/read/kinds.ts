import { declaredEncoding } from './decode.js';
import { readFirstBytes } from './file-bytes.js';
import type { BatchFile } from './walk.js';

/** What the first element of a document says: its local name and its TYPE, empty where there is none; null where no element was seen. */
export interface RootGlance {
  readonly name: string;
  readonly type: string;
}

const GLANCE = 16 * 1024;

/** A look at the first element of a file, without reading it whole; it decides only which documents are read. */
export function glanceAtRoot(file: BatchFile): RootGlance | null {
  const bytes = file.kind === 'file' ? readFirstBytes(file.location, GLANCE) : null;
  if (bytes === null) return null;
  const { mark, markLength } = declaredEncoding(bytes);
  const body = bytes.subarray(markLength);
  // Names and TYPE are ASCII in practice; in UTF-16 every second byte of them is zero.
  const text = body.toString('latin1');
  return rootOf(mark === 'utf-16le' || mark === 'utf-16be' ? text.replaceAll('\0', '') : text);
}

function rootOf(text: string): RootGlance | null {
  let at = 0;
  for (let skipped = 0; skipped < 100; skipped += 1) {
    while (at < text.length && ' \t\r\n'.includes(text.charAt(at))) at += 1;
    const end = text.startsWith('<?', at) ? '?>' : text.startsWith('<!--', at) ? '-->' : null;
    if (end === null) break;
    const close = text.indexOf(end, at + 2);
    if (close < 0) return null;
    at = close + end.length;
  }
  const name = /^<(?:[\w.-]{1,60}:)?([A-Za-z_][\w.-]{0,60})(?=[\s/>])/.exec(text.slice(at, at + 200));
  if (name === null) return null;
  const tag = text.slice(at, text.indexOf('>', at) < 0 ? text.length : text.indexOf('>', at));
  const type = /[ \t\r\n]TYPE[ \t\r\n]{0,9}=[ \t\r\n]{0,9}(?:"([^"]{0,200})"|'([^']{0,200})')/.exec(tag);
  return { name: name[1] ?? '', type: type?.[1] ?? type?.[2] ?? '' };
}

/** The last part of a TYPE such as `urn:x:mets:newspaper:issue` or `np:page`, in lower case. */
export function typeTail(type: string): string {
  return type
    .slice(type.lastIndexOf(':') + 1)
    .trim()
    .toLowerCase();
}
