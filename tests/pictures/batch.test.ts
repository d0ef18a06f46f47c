import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import type * as acts from '../../src/acts/pictures.js';
import { quietly } from '../../src/acts/surroundings.js';
import { page } from './files.js';

// Pictures are drawn by processes that are started from the compiled program.
const { picturesOf } = (await import(pathToFileURL('dist/acts/pictures.js').href)) as typeof acts;
const root = mkdtempSync(join(tmpdir(), 'reeltally-pictures-'));
afterAll(() => rmSync(root, { recursive: true }));
const batch = join(root, 'batch');
mkdirSync(join(batch, 'folder.png'), { recursive: true });
writeFileSync(join(root, 'private.png'), await page().png().toBuffer());
writeFileSync(join(batch, '1.png'), await page().png().toBuffer());
symlinkSync(join(root, 'private.png'), join(batch, 'link.png'));
symlinkSync(root, join(batch, 'elsewhere'));

const pages = (...paths: readonly string[]) => paths.map((path) => ({ files: [{ use: 'master', path }] }));

describe('pictures of a batch that is not to be trusted', { timeout: 120_000 }, () => {
  it('are made of the files of the batch alone: nothing outside, no links, no folders', async () => {
    const made = await picturesOf(
      pages('1.png', '../private.png', 'link.png', 'elsewhere/private.png', 'folder.png', 'gone.png'),
      batch,
      quietly('2031-03-01'),
    );
    expect(made?.made.pictures.map((one) => ('picture' in one ? one.picture : one.why))).toEqual([
      'pictures/0001.webp',
      'it lies outside the batch and was not opened',
      'it is a link, and links are not followed',
      'it is a link, and links are not followed',
      'it is not a regular file',
      'it is not in this copy of the batch',
    ]);
    expect(made?.made.pictures.flatMap((one) => ('gone' in one ? one.path : []))).toEqual(['gone.png']);
    expect(made?.files.map(({ name }) => name)).toEqual(['0001.webp']);
  });

  it('are made of the best file of a page that is there: a copy of the batch often has no masters', async () => {
    const files = [
      { use: 'master', path: 'gone.tif' },
      { use: 'derivative', path: '1.png' },
      { use: 'service', path: 'gone.jp2' },
    ];
    const made = await picturesOf([{ files }], batch, quietly('2031-03-01'));
    expect(made?.made.pictures).toEqual([expect.objectContaining({ path: '1.png', use: 'derivative', picture: 'pictures/0001.webp' })]);
    const none = await picturesOf(
      [{ files: files.filter(({ path }) => path !== '1.png') }, ...pages('1.png')],
      batch,
      quietly('2031-03-01'),
    );
    expect(none?.made.pictures[0]).toMatchObject({ path: 'gone.tif', gone: true });
  });

  it('are none where the copy of the batch holds no file of a picture', async () => {
    expect(await picturesOf(pages('gone.png', 'gone.tif'), batch, quietly('2031-03-01'))).toBeNull();
  });
});
