import { isAscii, isUtf8 } from 'node:buffer';
import { decodeWindows1252 } from './windows-1252.js';

/** A document as UTF-8 without byte order mark, or where and why its bytes cannot be read in the encoding that it declares. */
export type Decoded =
  | { readonly ok: true; readonly utf8: Buffer; readonly encoding: string }
  | { readonly ok: false; readonly says: string; readonly offset: number };

const DECLARATION =
  /^<\?xml[ \t\r\n]{1,20}version[ \t\r\n]{0,20}=[ \t\r\n]{0,20}["'][^"'<>]{0,20}["'][ \t\r\n]{1,20}encoding[ \t\r\n]{0,20}=[ \t\r\n]{0,20}["']([A-Za-z][A-Za-z0-9._-]{0,39})["']/;

/** The text of bytes that are known to be UTF-8, without a byte order mark before it. */
export function utf8Text(bytes: Buffer): string {
  const marked = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const body = marked ? bytes.subarray(3) : bytes;
  // Most files are ASCII, of which each byte is a character.
  return isAscii(body) ? body.toString('latin1') : body.toString('utf8');
}

/** How the first bytes say that a document is encoded: mark at the start, pattern of the first two bytes, declaration (XML 1.0, appendix F). */
export function declaredEncoding(bytes: Buffer): {
  readonly mark: string | null;
  readonly markLength: number;
  readonly declared: string | null;
} {
  const mark = byteOrderMark(bytes);
  const wide = mark.name === 'utf-16le' || mark.name === 'utf-16be' ? mark.name : null;
  const head = bytes.subarray(mark.length, mark.length + (wide === null ? 400 : 800));
  const start =
    wide === null ? head.toString('latin1') : wide === 'utf-16le' ? head.toString('utf16le') : swapped(head).toString('utf16le');
  return { mark: mark.name, markLength: mark.length, declared: DECLARATION.exec(start)?.[1]?.toLowerCase() ?? null };
}

/** Brings a document into UTF-8, strictly: what it says of its encoding must agree with its bytes, and every byte must stand for a character. */
export function toUtf8(bytes: Buffer): Decoded {
  const { mark, markLength, declared } = declaredEncoding(bytes);
  if (mark === 'utf-32') return refused('The file is encoded in UTF-32, which XML readers need not know. Send it in UTF-8.', 0);
  const wide = mark === 'utf-16le' || mark === 'utf-16be';
  if (wide && declared !== null && !declared.startsWith('utf-16'))
    return refused(`The bytes are UTF-16, but the file declares "${declared}".`, markLength);
  if (!wide && declared !== null && declared.startsWith('utf-16'))
    return refused('The file declares UTF-16, but its bytes are not UTF-16.', markLength);
  if (mark === 'utf-8' && declared !== null && declared !== 'utf-8' && declared !== 'utf8')
    return refused(`The file begins with the mark of UTF-8, but declares "${declared}".`, 0);
  const encoding = wide ? mark : (declared ?? 'utf-8');
  const body = bytes.subarray(markLength);
  if (encoding === 'utf-8' || encoding === 'utf8') {
    // As nearly all documents are: a look at the bytes, no copy of them.
    return isUtf8(body) ? { ok: true, utf8: body, encoding: 'utf-8' } : notInEncoding('utf-8', markLength + firstBadUtf8(body));
  }
  const text = decodeAs(body, encoding);
  if (text === null) return refused(`The file declares the encoding "${encoding}", which is not known. Send it in UTF-8.`, markLength);
  if (typeof text !== 'string') return notInEncoding(encoding, markLength + text.offset);
  return { ok: true, utf8: Buffer.from(text, 'utf8'), encoding };
}

function notInEncoding(encoding: string, at: number): Decoded {
  const name = encoding.toUpperCase();
  return refused(`The file says that it is encoded in ${name}, but byte ${String(at)} is not ${name}.`, at);
}

function refused(says: string, offset: number): Decoded {
  return { ok: false, says, offset };
}

function byteOrderMark(bytes: Buffer): { readonly name: string | null; readonly length: number } {
  const [a, b, c, d] = [bytes[0], bytes[1], bytes[2], bytes[3]];
  if ((a === 0xff && b === 0xfe && c === 0 && d === 0) || (a === 0 && b === 0 && c === 0xfe && d === 0xff))
    return { name: 'utf-32', length: 4 };
  if (a === 0xef && b === 0xbb && c === 0xbf) return { name: 'utf-8', length: 3 };
  if (a === 0xff && b === 0xfe) return { name: 'utf-16le', length: 2 };
  if (a === 0xfe && b === 0xff) return { name: 'utf-16be', length: 2 };
  // No mark, but `<` and a zero byte: UTF-16 all the same.
  if (a === 0x3c && b === 0 && c !== 0) return { name: 'utf-16le', length: 0 };
  if (a === 0 && b === 0x3c) return { name: 'utf-16be', length: 0 };
  return { name: null, length: 0 };
}

function decodeAs(bytes: Buffer, encoding: string): string | { readonly offset: number } | null {
  if (encoding === 'utf-16' || encoding === 'utf-16le' || encoding === 'utf-16be')
    return fatally(bytes, encoding === 'utf-16be' ? 'utf-16be' : 'utf-16le') ?? { offset: firstBadUtf16(bytes, encoding === 'utf-16be') };
  if (encoding === 'us-ascii' || encoding === 'ascii') {
    const offset = bytes.findIndex((byte) => byte > 0x7f);
    return offset < 0 ? bytes.toString('latin1') : { offset };
  }
  if (encoding === 'iso-8859-1' || encoding === 'iso_8859-1' || encoding === 'latin1') return bytes.toString('latin1');
  if (encoding === 'windows-1252' || encoding === 'cp1252') return decodeWindows1252(bytes);
  // Other single-byte and East Asian encodings: the platform's table, where it has one.
  try {
    return fatally(bytes, encoding) ?? { offset: 0 };
  } catch {
    return null;
  }
}

/** Null where a byte stands for no character; throws for an unknown label. */
function fatally(bytes: Buffer, label: string): string | null {
  const decoder = new TextDecoder(label, { fatal: true, ignoreBOM: true });
  try {
    return decoder.decode(bytes);
  } catch {
    return null;
  }
}

/** Offset of the first byte that breaks UTF-8: overlong forms, surrogates and values above U+10FFFF included (RFC 3629). */
export function firstBadUtf8(bytes: Buffer): number {
  let at = 0;
  while (at < bytes.length) {
    const lead = bytes[at] ?? 0;
    const length =
      lead < 0x80 ? 1 : lead >= 0xc2 && lead <= 0xdf ? 2 : lead >= 0xe0 && lead <= 0xef ? 3 : lead >= 0xf0 && lead <= 0xf4 ? 4 : 0;
    if (length === 0) return at;
    for (let next = 1; next < length; next += 1) {
      const byte = bytes[at + next] ?? 0;
      const low = next === 1 ? (lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80) : 0x80;
      const high = next === 1 ? (lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf) : 0xbf;
      if (byte < low || byte > high) return at;
    }
    at += length;
  }
  return at;
}

function firstBadUtf16(bytes: Buffer, bigEndian: boolean): number {
  const unit = (at: number): number => (bigEndian ? bytes.readUInt16BE(at) : bytes.readUInt16LE(at));
  let at = 0;
  while (at + 1 < bytes.length) {
    const first = unit(at);
    if (first >= 0xdc00 && first <= 0xdfff) return at;
    if (first >= 0xd800 && first <= 0xdbff) {
      const second = at + 3 < bytes.length ? unit(at + 2) : 0;
      if (second < 0xdc00 || second > 0xdfff) return at;
      at += 2;
    }
    at += 2;
  }
  return at;
}

function swapped(bytes: Buffer): Buffer {
  return Buffer.from(bytes.subarray(0, bytes.length - (bytes.length % 2))).swap16();
}

/** Signs that a text was decoded rightly by the letter and is wrong all the same. The bytes are known to be UTF-8. */
export function textWarnings(utf8: Buffer): readonly string[] {
  const warnings: string[] = [];
  if (isAscii(utf8)) return warnings;
  if (holdsPair(utf8, 0xc2, (at) => (utf8[at + 1] ?? 0) < 0xa0))
    warnings.push('holds control characters from U+0080 to U+009F; it was probably written in windows-1252');
  if (holdsTwiceEncoded(utf8)) warnings.push('holds letters that look encoded twice, such as "Ã©" for "é"');
  if (utf8.includes('\ufffd')) warnings.push('holds U+FFFD, the mark of characters that were lost before');
  return warnings;
}

/** U+00C2 or U+00C3 before U+0080 to U+00BF, which all begin with the byte C2, or U+00E2 before U+20AC. */
function holdsTwiceEncoded(utf8: Buffer): boolean {
  return (
    holdsPair(utf8, 0xc3, (at) => (utf8[at + 1] === 0x82 || utf8[at + 1] === 0x83) && utf8[at + 2] === 0xc2) ||
    utf8.includes('\u00e2\u20ac')
  );
}

/** Whether the test holds at any place of a byte. */
function holdsPair(utf8: Buffer, byte: number, test: (at: number) => boolean): boolean {
  for (let at = utf8.indexOf(byte); at >= 0; at = utf8.indexOf(byte, at + 1)) if (test(at)) return true;
  return false;
}
