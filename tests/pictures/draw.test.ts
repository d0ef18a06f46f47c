import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { codestreamOf, halvings } from '../../src/pictures/codestream.js';
import { drawPicture } from '../../src/pictures/draw.js';
import { pictureKind } from '../../src/pictures/kind.js';
import { codestream, jp2, PAGE, page, pdf, WHOLE_PAGE } from './files.js';

const HEIGHT = 800;
const files = new Map<string, Buffer>();
const of = (name: string): Buffer => files.get(name) ?? Buffer.alloc(0);

beforeAll(async () => {
  const stream = await codestream();
  const jpeg = await page().jpeg().toBuffer();
  files.set('JPEG', jpeg);
  files.set('PNG', await page().png().toBuffer());
  files.set('WebP', await page().webp().toBuffer());
  files.set('TIFF, LZW', await page().tiff({ compression: 'lzw' }).toBuffer());
  files.set('TIFF, fax group 4', await page().toColourspace('b-w').threshold().tiff({ compression: 'ccittfax4', bitdepth: 1 }).toBuffer());
  files.set('TIFF, 16 bits', await page().toColourspace('rgb16').tiff({ compression: 'deflate', predictor: 'horizontal' }).toBuffer());
  files.set('TIFF, big', await page().tiff({ compression: 'none', bigtiff: true }).toBuffer());
  files.set('JPEG 2000, bare', stream);
  files.set('JPEG 2000', jp2(stream));
  files.set('PDF of an image', pdf(WHOLE_PAGE, jpeg));
});

/** Mean brightness, 0 to 255, of a part of the picture given in hundredths of its size. */
async function brightness(bytes: Uint8Array, left: number, top: number): Promise<number> {
  const { data, info } = await sharp(bytes).greyscale().raw().toBuffer({ resolveWithObject: true });
  const [x, y] = [Math.round((info.width * left) / 100), Math.round((info.height * top) / 100)];
  return data[(y * info.width + x) * info.channels] ?? -1;
}

describe('a picture of a page', { timeout: 120_000 }, () => {
  it.each([
    'JPEG',
    'PNG',
    'WebP',
    'TIFF, LZW',
    'TIFF, fax group 4',
    'TIFF, 16 bits',
    'TIFF, big',
    'JPEG 2000',
    'JPEG 2000, bare',
    'PDF of an image',
  ])('is made of %s: smaller, in grey, and what is dark there is dark here', async (name) => {
    const drawn = await drawPicture(of(name), HEIGHT);
    expect([drawn.height, Math.abs(drawn.width - (HEIGHT * PAGE.width) / PAGE.height) <= 1]).toEqual([HEIGHT, true]);
    expect(drawn.full).toEqual(PAGE);
    expect(pictureKind(drawn.bytes)).toBe('WebP');
    expect(await brightness(drawn.bytes, 25, 18)).toBeLessThan(70);
    expect(await brightness(drawn.bytes, 75, 75)).toBeGreaterThan(190);
  });

  it('is drawn of a PDF without an image', async () => {
    const drawn = await drawPicture(pdf('0 0 0 rg 60 600 240 180 re f'), HEIGHT);
    expect([drawn.kind, drawn.full, drawn.height]).toEqual(['PDF', null, HEIGHT]);
    expect(await brightness(drawn.bytes, 25, 22)).toBeLessThan(70);
  });

  it('stands upright where the file says how it was turned (TIFF 6.0, tag 274)', async () => {
    const drawn = await drawPicture(await page().withMetadata({ orientation: 6 }).jpeg().toBuffer(), HEIGHT);
    expect(drawn.full).toEqual({ width: PAGE.height, height: PAGE.width });
    expect(drawn.width).toBeGreaterThan(drawn.height);
    expect(await brightness(drawn.bytes, 82, 25)).toBeLessThan(70);
  });

  it('is never larger than its file', async () => {
    const drawn = await drawPicture(await page().resize({ height: 300 }).png().toBuffer(), HEIGHT);
    expect(drawn.height).toBe(300);
  });

  it.each<[string, () => Promise<Buffer> | Buffer, RegExp]>([
    ['an empty file', () => Buffer.alloc(0), /the file is empty/],
    ['a text', () => Buffer.from('<html>'), /not a picture of a kind that is known here/],
    [
      'half a JPEG',
      () => of('JPEG').subarray(0, of('JPEG').length >> 1),
      /begins as JPEG and cannot be decoded: it is damaged or cut short at [\d,]+ bytes/,
    ],
    ['half a TIFF', () => of('TIFF, LZW').subarray(0, of('TIFF, LZW').length >> 1), /begins as TIFF and cannot be decoded/],
    ['a JPEG 2000 file of which the head alone is there', () => of('JPEG 2000').subarray(0, 100), /what it says of its size is damaged/],
    [
      'a JPEG 2000 file without its pixels',
      () => of('JPEG 2000').subarray(0, 260),
      /begins as JPEG 2000 and cannot be decoded: it is damaged or cut short at 260 bytes, and says 1,500 x 2,250 pixels/,
    ],
    ['a PDF of an image that is cut off', () => pdf(WHOLE_PAGE, of('JPEG').subarray(0, 600)), /begins as JPEG and cannot be decoded/],
    ['half a PDF', () => of('PDF of an image').subarray(0, 40), /cannot be opened as a PDF/],
    ['a PDF with nothing on its page', () => pdf(' '), /nothing is drawn on its first page/],
  ])('is not made of %s', async (_, bytes, reason) => {
    await expect(drawPicture(await bytes(), HEIGHT)).rejects.toThrow(reason);
  });
});

describe('the head of a JPEG 2000 file', () => {
  it('says size and levels', () => {
    for (const name of ['JPEG 2000', 'JPEG 2000, bare']) expect(codestreamOf(of(name))).toEqual({ ...PAGE, components: 1, levels: 5 });
  });

  it('is halved as often as the height allows', () => {
    const stream = { width: 6540, height: 9092, components: 3, levels: 6 };
    expect([400, 1600, 2273, 2274, 9092, 20_000].map((height) => halvings(stream, height))).toEqual([4, 2, 2, 1, 0, 0]);
    expect(halvings({ ...stream, levels: 1 }, 400)).toBe(1);
  });
});
