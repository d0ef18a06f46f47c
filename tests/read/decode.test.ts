import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstBadUtf8, toUtf8 } from '../../src/read/decode.js';
import { decodeWindows1252 } from '../../src/read/windows-1252.js';

// unicode.org, MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT, the range in which it is not ISO-8859-1.
const cp1252: readonly (readonly [number, number])[] = [
  [0x80, 0x20ac],
  [0x82, 0x201a],
  [0x83, 0x0192],
  [0x84, 0x201e],
  [0x85, 0x2026],
  [0x86, 0x2020],
  [0x87, 0x2021],
  [0x88, 0x02c6],
  [0x89, 0x2030],
  [0x8a, 0x0160],
  [0x8b, 0x2039],
  [0x8c, 0x0152],
  [0x8e, 0x017d],
  [0x91, 0x2018],
  [0x92, 0x2019],
  [0x93, 0x201c],
  [0x94, 0x201d],
  [0x95, 0x2022],
  [0x96, 0x2013],
  [0x97, 0x2014],
  [0x98, 0x02dc],
  [0x99, 0x2122],
  [0x9a, 0x0161],
  [0x9b, 0x203a],
  [0x9c, 0x0153],
  [0x9e, 0x017e],
  [0x9f, 0x0178],
];

describe('windows-1252', () => {
  it('has the characters of its published table', () => {
    for (const [byte, point] of cp1252) expect(decodeWindows1252(Buffer.from([byte]))).toBe(String.fromCodePoint(point));
    for (let byte = 0xa0; byte < 0x100; byte += 1) expect(decodeWindows1252(Buffer.from([byte]))).toBe(String.fromCodePoint(byte));
  });

  it('has five bytes that are no character, and says where one stands', () => {
    for (const byte of [0x81, 0x8d, 0x8f, 0x90, 0x9d]) expect(decodeWindows1252(Buffer.from([0x61, byte]))).toEqual({ offset: 1 });
  });
});

describe('the first byte that is not UTF-8', () => {
  it('stands behind the longest beginning that the platform can decode', () => {
    const byte = fc.oneof(fc.nat(255), fc.constantFrom(0xc0, 0xc2, 0xe0, 0xed, 0xef, 0xf0, 0xf4, 0xf5, 0x80, 0x9f, 0xa0, 0xbf, 0x41));
    fc.assert(
      fc.property(fc.array(byte, { maxLength: 24 }), (list) => {
        const bytes = Buffer.from(list);
        const at = firstBadUtf8(bytes);
        const decoder = new TextDecoder('utf-8', { fatal: true });
        const decodes = (to: number): boolean => {
          try {
            decoder.decode(bytes.subarray(0, to));
            return true;
          } catch {
            return false;
          }
        };
        expect(decodes(at)).toBe(true);
        for (let to = at + 1; to <= bytes.length; to += 1) expect(decodes(to)).toBe(false);
      }),
      { numRuns: 3000, seed: 1907 },
    );
  });
});

describe('what a document says of its encoding', () => {
  const refusal = (bytes: Buffer): string => {
    const decoded = toUtf8(bytes);
    return decoded.ok ? `read as ${decoded.encoding}` : `${String(decoded.offset)}: ${decoded.says}`;
  };
  const declared = (label: string): string => `<?xml version="1.0" encoding="${label}"?><a>`;

  it.each([
    [
      'a UTF-8 mark before another declaration',
      Buffer.from(`\ufeff${declared('ISO-8859-1')}`),
      /^0: .*mark of UTF-8, but declares "iso-8859-1"/,
    ],
    [
      'UTF-16 bytes before another declaration',
      Buffer.from(`\ufeff${declared('UTF-8')}`, 'utf16le'),
      /bytes are UTF-16, but the file declares "utf-8"/,
    ],
    ['a declaration of UTF-16 in plain bytes', Buffer.from(declared('utf-16')), /declares UTF-16, but its bytes are not/],
    ['US-ASCII with a byte above 127', Buffer.from(`${declared('US-ASCII')}é`), /^44: .*US-ASCII, but byte 44 is no/],
    ['UTF-32', Buffer.from([0xff, 0xfe, 0, 0, 0x3c, 0, 0, 0]), /UTF-32/],
    ['half a character at the end of UTF-16', Buffer.from([0xff, 0xfe, 0x3c, 0, 0x3d, 0xd8]), /byte 4 is not UTF-16/],
  ])('%s is refused', (_name, bytes, says) => {
    expect(refusal(bytes)).toMatch(says);
  });

  it('is understood with single quotes and white space about it', () => {
    const bytes = Buffer.from("<?xml version = '1.0'\n encoding = 'Windows-1252' ?><a>\u0080</a>", 'latin1');
    const decoded = toUtf8(bytes);
    expect(decoded.ok && decoded.utf8.toString().includes('<a>€</a>')).toBe(true);
  });
});
