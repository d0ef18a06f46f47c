import { isUtf8 } from 'node:buffer';

/**
 * The characters of windows-1252 from 0x80 to 0x9F, empty where the code page has none (unicode.org, MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT).
 * Kept here because Node 20 decodes this range as ISO-8859-1 (nodejs/node issue 56542).
 */
const HIGH =
  '\u20ac \u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152 \u017d  \u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153 \u017e\u0178';

/** Decodes windows-1252; answers the offset of the first byte that stands for no character instead, where there is one. */
export function decodeWindows1252(bytes: Buffer): string | { readonly offset: number } {
  const text = bytes.toString('latin1');
  const offset = text.search(/[\u0081\u008d\u008f\u0090\u009d]/);
  if (offset >= 0) return { offset };
  return text.replace(/[\u0080-\u009f]/g, (character) => HIGH.charAt(character.charCodeAt(0) - 0x80));
}

/** The byte of each character of windows-1252 that is not the byte of the same number. */
const BYTES = new Map(Array.from(HIGH, (character, at): [string, number] => [character, 0x80 + at]));

/**
 * What a text was before somebody took its UTF-8 for windows-1252, such as `Größe` for `GrÃ¶ÃŸe`; null for any other text. A text of more than one byte to a
 * character comes back as valid UTF-8 by chance next to never. Bytes without a character are what programs make of them: the control character of that number.
 */
export function misreadUtf8(text: string): string | null {
  if (!/[\u00c2-\u00f4]/.test(text)) return null;
  const bytes = Array.from(text, (character) => (character === ' ' ? 0x20 : (BYTES.get(character) ?? character.charCodeAt(0))));
  if (bytes.some((byte) => byte > 0xff)) return null;
  const whole = Buffer.from(bytes);
  return isUtf8(whole) ? whole.toString('utf8') : null;
}
