/** What a JPEG 2000 codestream says of itself. */
export interface Codestream {
  /** Size in pixels at full resolution. */
  readonly width: number;
  readonly height: number;
  readonly components: number;
  /** How often the picture can be halved without decoding it whole. */
  readonly levels: number;
}

const SOC = 0xff4f;
const SIZ = 0xff51;
const COD = 0xff52;
const SOT = 0xff90;

/** Reads size and levels of a JPEG 2000 file or bare codestream (ISO/IEC 15444-1: boxes I.4, SIZ A.5.1, COD A.6.1); null where either is not there. */
export function codestreamOf(bytes: Uint8Array): Codestream | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const start = codestreamStart(view);
  if (start === null || start + 2 > view.byteLength || view.getUint16(start) !== SOC) return null;
  let size: { width: number; height: number; components: number } | null = null;
  let levels: number | null = null;
  for (let at = start + 2; at + 4 <= view.byteLength; ) {
    const marker = view.getUint16(at);
    if (marker === SOT || marker < 0xff00) break;
    const length = view.getUint16(at + 2);
    if (length < 2 || at + 2 + length > view.byteLength) return null;
    if (marker === SIZ && length >= 38) {
      const at32 = (offset: number): number => view.getUint32(at + offset);
      size = { width: at32(6) - at32(14), height: at32(10) - at32(18), components: view.getUint16(at + 38) };
    }
    if (marker === COD && length >= 12) levels = view.getUint8(at + 9);
    at += 2 + length;
  }
  if (size === null || levels === null || levels > 32 || size.width <= 0 || size.height <= 0) return null;
  return { ...size, levels };
}

/** Where the codestream begins: at once, or in the box `jp2c`. */
function codestreamStart(view: DataView): number | null {
  if (view.byteLength >= 2 && view.getUint16(0) === SOC) return 0;
  for (let at = 0; at + 8 <= view.byteLength; ) {
    const type = view.getUint32(at + 4);
    let length = view.getUint32(at);
    let head = 8;
    if (length === 1 && at + 16 <= view.byteLength) {
      length = view.getUint32(at + 8) * 2 ** 32 + view.getUint32(at + 12);
      head = 16;
    }
    if (type === JP2C) return at + head;
    if (length < head) return null;
    at += length;
  }
  return null;
}

/** `jp2c` */
const JP2C = 0x6a703263;

/** The fewest pixels down to which the picture may be halved so that its height is still `height`, as a number of halvings. */
export function halvings({ height: full, levels }: Codestream, height: number): number {
  let halved = 0;
  while (halved < levels && Math.ceil(full / 2 ** (halved + 1)) >= height) halved += 1;
  return halved;
}
