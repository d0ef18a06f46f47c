import { createHash } from 'node:crypto';
import type { WrittenFile } from './files.js';
import type { WriteStyle } from './style.js';

/** The files of a batch as they lie in its folder: as they are, below `data`, or as the payload of a bag with its tag files (RFC 8493). */
export function* wrapped(files: Iterable<WrittenFile>, style: WriteStyle): Generator<WrittenFile> {
  if (style.wrapping === 'none') {
    yield* files;
    return;
  }
  const lines: string[] = [];
  let octets = 0;
  for (const { path, text } of files) {
    const payload = { path: `data/${path}`, text };
    lines.push(lineOf(payload));
    octets += Buffer.byteLength(text);
    yield payload;
  }
  if (style.wrapping === 'payload') return;
  const tags: readonly WrittenFile[] = [
    { path: 'bagit.txt', text: 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n' },
    { path: 'bag-info.txt', text: `Bagging-Date: 2031-03-05\nPayload-Oxum: ${octets}.${lines.length}\n` },
    { path: 'manifest-sha256.txt', text: lines.sort().join('') },
  ];
  yield* tags;
  yield { path: 'tagmanifest-sha256.txt', text: tags.map(lineOf).join('') };
}

function lineOf({ path, text }: WrittenFile): string {
  return `${createHash('sha256').update(text).digest('hex')}  ${path}\n`;
}
