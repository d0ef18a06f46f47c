import { createRequire } from 'node:module';
import sharp, { type Sharp } from 'sharp';

/** Size of the page of which every file here is a picture. */
export const PAGE = { width: 1500, height: 2250 };

const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${String(PAGE.width)}" height="${String(PAGE.height)}"><rect width="100%" height="100%" fill="#eeeeee"/><rect x="100" y="200" width="600" height="400" fill="#202020"/></svg>`;
/** A light page with a dark block in its upper left part. */
export const page = (): Sharp => sharp(Buffer.from(svg)).flatten({ background: '#ffffff' });

/** A JPEG 2000 codestream of the page (written by OpenJPEG). */
export async function codestream(): Promise<Buffer> {
  const { default: load } = (await import('@cornerstonejs/codec-openjpeg/wasmjs')) as unknown as {
    default: (options: object) => Promise<Codec>;
  };
  const wasm = createRequire(import.meta.url).resolve('@cornerstonejs/codec-openjpeg/wasm');
  const { J2KEncoder } = await load({ locateFile: (name: string) => (name.endsWith('.wasm') ? wasm : name) });
  const { data, info } = await page().greyscale().raw().toBuffer({ resolveWithObject: true });
  const encoder = new J2KEncoder();
  const pixels = encoder.getDecodedBuffer({ bitsPerSample: 8, componentCount: 1, ...PAGE, isSigned: false });
  pixels.set(data.filter((_, at) => at % info.channels === 0));
  encoder.setDecompositions(5);
  encoder.encode();
  return Buffer.from(encoder.getEncodedBuffer());
}

interface Codec {
  readonly J2KEncoder: new () => {
    getDecodedBuffer(info: object): Uint8Array;
    getEncodedBuffer(): Uint8Array;
    setDecompositions(count: number): void;
    encode(): void;
  };
}

const box = (type: string, ...parts: readonly Buffer[]): Buffer => {
  const content = Buffer.concat(parts);
  const head = Buffer.alloc(8);
  head.writeUInt32BE(content.length + 8);
  head.write(type, 4, 'latin1');
  return Buffer.concat([head, content]);
};

/** A JP2 file around a codestream: ISO/IEC 15444-1 annex I.5 (from memory). */
export function jp2(stream: Buffer): Buffer {
  const header = Buffer.alloc(14);
  header.writeUInt32BE(PAGE.height, 0);
  header.writeUInt32BE(PAGE.width, 4);
  header.writeUInt16BE(1, 8);
  header.set([7, 7], 10);
  return Buffer.concat([
    box('jP  ', Buffer.from([0x0d, 0x0a, 0x87, 0x0a])),
    box('ftyp', Buffer.from('jp2 \0\0\0\0jp2 ', 'latin1')),
    box('jp2h', box('ihdr', header), box('colr', Buffer.from([1, 0, 0, 0, 0, 0, 17]))),
    box('jp2c', stream),
  ]);
}

/** A PDF of one page, 600 x 900 points: ISO 32000-1 7.5. `image` is a JPEG that the content may draw as /I. */
export function pdf(content: string, image?: Buffer): Buffer {
  const parts: Buffer[] = [Buffer.from('%PDF-1.4\n')];
  const offsets: number[] = [];
  const add = (bytes: Buffer): number => parts.push(bytes);
  const object = (...bytes: readonly Buffer[]): void => {
    offsets.push(Buffer.concat(parts).length);
    add(Buffer.concat([Buffer.from(`${String(offsets.length)} 0 obj\n`), ...bytes, Buffer.from('\nendobj\n')]));
  };
  const text = (words: string): void => object(Buffer.from(words));
  text('<</Type/Catalog/Pages 2 0 R>>');
  text('<</Type/Pages/Kids[3 0 R]/Count 1>>');
  text('<</Type/Page/Parent 2 0 R/MediaBox[0 0 600 900]/Contents 4 0 R/Resources<</XObject<</I 5 0 R>>>>>>');
  text(`<</Length ${String(content.length)}>>stream\n${content}\nendstream`);
  const { width, height } = PAGE;
  const jpeg = image ?? Buffer.alloc(0);
  object(
    Buffer.from(
      `<</Type/XObject/Subtype/Image/Width ${String(width)}/Height ${String(height)}/ColorSpace/DeviceRGB/BitsPerComponent 8/Filter/DCTDecode/Length ${String(jpeg.length)}>>stream\n`,
    ),
    jpeg,
    Buffer.from('\nendstream'),
  );
  const start = Buffer.concat(parts).length;
  const rows = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
  add(
    Buffer.from(
      `xref\n0 ${String(offsets.length + 1)}\n0000000000 65535 f \n${rows}trailer<</Size ${String(offsets.length + 1)}/Root 1 0 R>>\nstartxref\n${String(start)}\n%%EOF`,
    ),
  );
  return Buffer.concat(parts);
}

/** Draws the image over the whole page. */
export const WHOLE_PAGE = 'q 600 0 0 900 0 0 cm /I Do Q';
