import { createRequire } from 'node:module';
import { codestreamOf, halvings } from './codestream.js';
import { type PictureKind, pictureKind } from './kind.js';

/** A picture in grey, made small. */
export interface Drawn {
  /** WebP. */
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly kind: PictureKind;
  /** Size of the file's own picture in pixels; null for a page that is drawn. */
  readonly full: { readonly width: number; readonly height: number } | null;
}

/** Why a file gives no picture, in a sentence without its name. */
export class NoPicture extends Error {}

/** The reason where a file is not there. */
export const NO_FILE = 'it is not in this copy of the batch';

interface Raw {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3 | 4;
}

/** Pixels above which nothing is decoded: three times the largest page of a broadsheet at 600 dots for an inch. */
const MOST_PIXELS = 1_000_000_000;
const QUALITY = 50;

/** Draws a file as a grey WebP at most `height` pixels high. Throws NoPicture, with the reason; whatever else a decoder throws is its own reason. */
export async function drawPicture(bytes: Uint8Array, height: number): Promise<Drawn> {
  const kind = pictureKind(bytes);
  if (bytes.length === 0) throw new NoPicture('the file is empty');
  if (kind === null) throw new NoPicture('it is not a picture of a kind that is known here (JPEG, PNG, TIFF, WebP, JPEG 2000, PDF)');
  if (kind === 'JPEG 2000') return fromCodestream(bytes, height);
  if (kind === 'PDF') return fromPdf(bytes, height);
  return { ...(await fromImage(bytes, height, kind)), kind };
}

async function fromImage(bytes: Uint8Array, height: number, kind: PictureKind): Promise<Omit<Drawn, 'kind'>> {
  const sharp = await sharpPackage();
  try {
    const source = sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error', sequentialRead: true });
    const { width, height: high, orientation = 1 } = await source.metadata();
    const lying = orientation > 4;
    return { ...(await small(source.rotate(), height)), full: lying ? { width: high, height: width } : { width, height: high } };
  } catch (error) {
    const [reason = ''] = (error as Error).message.split('\n');
    throw new NoPicture(
      `it begins as ${kind} and cannot be decoded: it is damaged or cut short at ${bytes.length.toLocaleString('en')} bytes (${reason.slice(0, 200)})`,
    );
  }
}

async function fromCodestream(bytes: Uint8Array, height: number): Promise<Drawn> {
  const said = codestreamOf(bytes);
  if (said === null) throw new NoPicture('it cannot be decoded: what it says of its size is damaged or cut short');
  if (said.width * said.height > MOST_PIXELS) throw new NoPicture(`it says ${sizeInWords(said)}, which is more than is decoded here`);
  const { default: load } = await import('@cornerstonejs/codec-openjpeg/wasmjs');
  const wasm = createRequire(import.meta.url).resolve('@cornerstonejs/codec-openjpeg/wasm');
  const { J2KDecoder } = await load({ locateFile: (name) => (name.endsWith('.wasm') ? wasm : name), print: () => {}, printErr: () => {} });
  const decoder = new J2KDecoder();
  decoder.getEncodedBuffer(bytes.length).set(bytes);
  const level = halvings(said, height);
  decoder.decodeSubResolution(level, 0);
  const { width: wide, height: tall, bitsPerSample, componentCount } = decoder.getFrameInfo();
  const { width, height: high } = decoder.calculateSizeAtDecompositionLevel(level);
  const data = decoder.getDecodedBuffer();
  const samples = width * high * componentCount * (bitsPerSample > 8 ? 2 : 1);
  // the decoder throws nothing for a damaged file: it gives an empty picture, or one of another size
  if (wide !== said.width || tall !== said.height || data.length < samples || samples === 0)
    throw new NoPicture(
      `it begins as JPEG 2000 and cannot be decoded: it is damaged or cut short at ${bytes.length.toLocaleString('en')} bytes, and says ${sizeInWords(said)}`,
    );
  const channels = componentCount === 3 || componentCount === 4 ? componentCount : 1;
  const eight = bitsPerSample > 8 ? toEightBits(data, bitsPerSample) : bitsPerSample < 8 ? spread(data, bitsPerSample) : data;
  const raw: Raw = { data: eight.slice(0, width * high * channels), width, height: high, channels };
  return { ...(await fromRaw(raw, height)), kind: 'JPEG 2000', full: { width: said.width, height: said.height } };
}

/** One image that fills the page is taken as it is, because a page with a broken one is drawn white without an error; everything else is drawn. */
async function fromPdf(bytes: Uint8Array, height: number): Promise<Drawn> {
  const { PDFiumLibrary } = await import('@hyzyla/pdfium');
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(bytes).catch(() => {
    throw new NoPicture('it cannot be opened as a PDF: it is damaged, cut short, or needs a password');
  });
  if (document.getPageCount() === 0) throw new NoPicture('it has no page');
  const page = document.getPage(0);
  const objects = [...page.objects()];
  if (objects.length === 0) throw new NoPicture('nothing is drawn on its first page');
  const images = objects.filter((object) => object.type === 'image');
  const [image] = images;
  if (image !== undefined && images.length === 1) {
    const { data, filters } = await image.getImageDataRaw();
    const stream = Uint8Array.from(data);
    if (filters.at(-1) === 'DCTDecode' || filters.at(-1) === 'JPXDecode') return { ...(await drawPicture(stream, height)), kind: 'PDF' };
  }
  const { originalHeight } = page.getOriginalSize();
  const render = await page.render({ scale: height / originalHeight, render: 'bitmap' });
  return {
    ...(await fromRaw({ data: render.data, width: render.width, height: render.height, channels: 4 }, height)),
    kind: 'PDF',
    full: null,
  };
}

async function fromRaw({ data, width, height: high, channels }: Raw, height: number): Promise<Pick<Drawn, 'bytes' | 'width' | 'height'>> {
  const sharp = await sharpPackage();
  return small(sharp(data, { raw: { width, height: high, channels }, limitInputPixels: MOST_PIXELS }), height);
}

type Sharp = Awaited<ReturnType<typeof sharpPackage>>;

async function small(source: ReturnType<Sharp>, height: number): Promise<Pick<Drawn, 'bytes' | 'width' | 'height'>> {
  const { data, info } = await source
    .flatten({ background: '#ffffff' })
    .greyscale()
    .resize({ height, withoutEnlargement: true })
    .webp({ quality: QUALITY })
    .toBuffer({ resolveWithObject: true });
  return { bytes: data, width: info.width, height: info.height };
}

async function sharpPackage() {
  const { default: sharp } = await import('sharp');
  sharp.cache(false);
  sharp.concurrency(1);
  return sharp;
}

/** Samples of 9 to 16 bits, low byte first, to the highest 8 bits of each. */
function toEightBits(data: Uint8Array, bits: number): Uint8Array {
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  return Uint8Array.from({ length: data.byteLength >> 1 }, (_, at) => view.getUint16(at * 2, true) >> (bits - 8));
}

/** Samples of fewer than 8 bits to the whole range of brightness. */
function spread(data: Uint8Array, bits: number): Uint8Array {
  const most = 2 ** bits - 1;
  return data.map((sample) => Math.round((sample * 255) / most));
}

function sizeInWords({ width, height }: { readonly width: number; readonly height: number }): string {
  return `${width.toLocaleString('en')} x ${height.toLocaleString('en')} pixels`;
}
