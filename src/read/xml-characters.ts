// Character classes of XML 1.0 (fifth edition), section 2.2 and 2.3, over the bytes of UTF-8.

/** What a byte can be in running text: 0 needs no look, anything else ends the quick run over it. */
export const inText = bytesThat((byte) => byte === 0x3c || byte === 0x26 || byte === 0x5d || isSuspect(byte));
/** The same inside an attribute value. */
export const inValue = bytesThat((byte) => byte === 0x3c || byte === 0x26 || byte === 0x22 || byte === 0x27 || isSuspect(byte));
/** The same inside a comment, a processing instruction or CDATA. */
export const inMarkup = bytesThat((byte) => byte === 0x2d || byte === 0x3f || byte === 0x5d || isSuspect(byte));
/** 1 for ASCII characters that may stand in a name, 2 for bytes of longer characters. */
export const inName = Uint8Array.from({ length: 256 }, (_, byte) => (byte > 0x7f ? 2 : isAsciiNameCharacter(byte) ? 1 : 0));
/** 1 for white space. */
export const isSpace = bytesThat((byte) => byte === 0x20 || byte === 0x09 || byte === 0x0a || byte === 0x0d);

/** Control characters, and the byte with which U+FFFE and U+FFFF begin. */
function isSuspect(byte: number): boolean {
  return (byte < 0x20 && byte !== 0x09 && byte !== 0x0a && byte !== 0x0d) || byte === 0xef;
}

function bytesThat(test: (byte: number) => boolean): Uint8Array {
  return Uint8Array.from({ length: 256 }, (_, byte) => (test(byte) ? 1 : 0));
}

function isAsciiNameCharacter(byte: number): boolean {
  const letter = byte | 0x20;
  return (letter >= 0x61 && letter <= 0x7a) || (byte >= 0x30 && byte <= 0x3a) || byte === 0x2d || byte === 0x2e || byte === 0x5f;
}

/** True where the suspect byte at this place is a character that XML does not allow; the bytes are known to be UTF-8. */
export function isIllegal(bytes: Uint8Array, at: number): boolean {
  if (bytes[at] !== 0xef) return true;
  return bytes[at + 1] === 0xbf && (bytes[at + 2] === 0xbe || bytes[at + 2] === 0xbf);
}

/** True for a number that a character reference may give (section 2.2, Char). */
export function isLegalCodePoint(point: number): boolean {
  if (point < 0x20) return point === 0x09 || point === 0x0a || point === 0x0d;
  return point <= 0xd7ff || (point >= 0xe000 && point <= 0xfffd) || (point >= 0x10000 && point <= 0x10ffff);
}

const NAME_START =
  /^[:A-Z_a-z\u00c0-\u00d6\u00d8-\u00f6\u00f8-\u02ff\u0370-\u037d\u037f-\u1fff\u200c\u200d\u2070-\u218f\u2c00-\u2fef\u3001-\ud7ff\uf900-\ufdcf\ufdf0-\ufffd\u{10000}-\u{effff}]/u;
const NAME =
  /^[:A-Z_a-z\u00c0-\u00d6\u00d8-\u00f6\u00f8-\u02ff\u0370-\u037d\u037f-\u1fff\u200c\u200d\u2070-\u218f\u2c00-\u2fef\u3001-\ud7ff\uf900-\ufdcf\ufdf0-\ufffd\u{10000}-\u{effff}\-.0-9\u00b7\u0300-\u036f\u203f\u2040]*$/u;

/** True for text that is a Name (section 2.3, productions 4 to 5). */
export function isName(text: string): boolean {
  return NAME_START.test(text) && NAME.test(text);
}

/** True for a Name without a colon (Namespaces in XML 1.0, production 4). */
export function isPlainName(text: string): boolean {
  return !text.includes(':') && isName(text);
}
