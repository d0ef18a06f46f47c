import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import type * as pictures from '../../src/pictures/index.js';
import { page, pdf } from './files.js';

// Pictures are drawn by processes that are started from the compiled program.
const { makePictures } = (await import(pathToFileURL('dist/pictures/index.js').href)) as typeof pictures;
const root = mkdtempSync(join(tmpdir(), 'reeltally-pictures-'));
afterAll(() => rmSync(root, { recursive: true }));
const file = (name: string, content: string | Buffer): string => {
  writeFileSync(join(root, name), content);
  return join(root, name);
};

describe('pictures of many files', { timeout: 120_000 }, () => {
  it('come in the order of the files, whatever their names, with a reason for each that gives none', async () => {
    const paths = [
      file('a.tif', await page().jpeg().toBuffer()),
      file('b.jpg', 'hello'),
      join(root, 'gone.jp2'),
      file('c.jpg', pdf('0 0 0 rg 60 60 60 60 re f')),
      file('d.png', await page().png().toBuffer()),
    ];
    const counts: number[] = [];
    const made = await makePictures(paths, { height: 200, onDone: (done) => counts.push(done) });
    expect(made.map((one) => ('drawn' in one ? `${one.drawn.kind} ${String(one.drawn.height)}` : one.why))).toEqual([
      'JPEG 200',
      'it is not a picture of a kind that is known here (JPEG, PNG, TIFF, WebP, JPEG 2000, PDF)',
      'it is not in this copy of the batch',
      'PDF 200',
      'PNG 200',
    ]);
    expect(counts).toEqual([1, 2, 3, 4, 5]);
  });

  it('lose one file that takes too long, and go on', async () => {
    const path = file('slow.png', await page().png().toBuffer());
    const made = await makePictures([path, path, path, join(root, 'gone')], { seconds: 0.001 });
    expect(made.slice(0, 3).map((one) => 'why' in one && one.why)).toEqual(Array(3).fill('it was not decoded within 0.001 seconds'));
    expect(await makePictures([path], { height: 100 })).toMatchObject([{ drawn: { height: 100 } }]);
  });

  it('are not tried any more once the work is stopped', async () => {
    expect(await makePictures([join(root, 'a.tif')], { signal: AbortSignal.abort() })).toEqual([{ why: 'it was not tried' }]);
  });

  it('of no file are none', async () => {
    expect(await makePictures([])).toEqual([]);
  });
});
