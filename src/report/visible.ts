/**
 * Characters that may steer a terminal, hide text or turn its direction: C0, DEL and C1 controls, soft hyphen, zero-width and
 * direction marks (Unicode 16 chapter 23.2 to 23.3), the byte order mark, tag characters and lone halves of surrogate pairs.
 */
const HARMFUL =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]|\p{Cs}/gu;

/** More marks than this on one letter are a heap that covers the lines above and below it. */
const MARKS = /(\p{M}{4})\p{M}+/gu;

/** The text with each harmful character written out as `\u{..}`, so that it can be seen and does nothing. */
export function visible(text: string): string {
  return text.replace(HARMFUL, writtenOut).replace(MARKS, '$1');
}

/** The text made visible, but for its line feeds, which stay: for a cell of several lines. */
export function visibleLines(text: string): string {
  return text.replace(HARMFUL, (character) => (character === '\n' ? character : writtenOut(character))).replace(MARKS, '$1');
}

function writtenOut(character: string): string {
  return `\\u{${(character.codePointAt(0) ?? 0).toString(16)}}`;
}

/** The text made visible (by `shown`) and cut after `limit` characters, with a note of how long it was. No letter is cut in half. */
export function short(text: string, limit: number, shown = visible): string {
  // The cut comes first: a vendor's text may be many megabytes, and the steps below should not have to walk it.
  const letters = Array.from(text.slice(0, 2 * limit + 2));
  if (letters.length <= limit && text.length <= 2 * limit + 2) return shown(text);
  return `${shown(letters.slice(0, limit).join(''))} … (cut, ${String(text.length)} characters)`;
}
