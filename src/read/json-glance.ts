import { DEEPEST_JSON, LONGEST_JSON_TEXT } from './json-scan.js';

const [QUOTE, BACKSLASH, COLON] = [0x22, 0x5c, 0x3a];
/** Fewer digits than this make no number that loses any. */
const LONG_NUMBER = 16;
/** A name that code could take for its own, as it stands or with letters of it written by their numbers. */
const HIDDEN_NAME = /__proto__|\\u00[5-7]/i;

/**
 * Whether a JSON text, from which JSON.parse made the value, certainly has nothing that `scanJson` objects to. No field is given twice where the text has
 * as many colons outside its texts as the value has fields. False where it must be looked at piece by piece, because something is wrong or unusual.
 */
export function isUnobjectionable(text: string, value: unknown): boolean {
  if (HIDDEN_NAME.test(text)) return false;
  let [depth, colons, digits] = [0, 0, 0];
  const { length } = text;
  for (let at = 0; at < length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) {
      const from = at;
      at += 1;
      for (let inside = text.charCodeAt(at); inside !== QUOTE; inside = text.charCodeAt(at)) at += inside === BACKSLASH ? 2 : 1;
      if (at + 1 - from > LONGEST_JSON_TEXT) return false;
      digits = 0;
    } else if (code >= 0x30 && code <= 0x39) {
      digits += 1;
      if (digits === LONG_NUMBER) return false;
    } else {
      digits = 0;
      if (code === COLON) colons += 1;
      // Brackets and braces differ from each other in one bit alone, and no other piece of JSON is like them.
      else if ((code & 0xdf) === 0x5b) {
        depth += 1;
        if (depth > DEEPEST_JSON) return false;
      } else if ((code & 0xdf) === 0x5d) depth -= 1;
    }
  }
  return fieldsIn(value) === colons;
}

function fieldsIn(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  let count = 0;
  if (Array.isArray(value)) {
    for (const item of value as readonly unknown[]) if (typeof item === 'object') count += fieldsIn(item);
    return count;
  }
  for (const key in value) {
    count += 1;
    const item: unknown = (value as Readonly<Record<string, unknown>>)[key];
    if (typeof item === 'object') count += fieldsIn(item);
  }
  return count;
}
