import { visible, visibleLines } from '../visible.js';

/** What a cell of a spreadsheet holds (Excel specifications and limits). */
export const CELL_LIMIT = 32_767;
/** Room for the note that a text was cut. */
const NOTE = 40;

/** Characters that are none (Unicode 16, section 23.7); programs drop or refuse them. */
const NONE =
  /[\ufdd0-\ufdef\ufffe\uffff]|[\u{1fffe}\u{1ffff}\u{2fffe}\u{2ffff}\u{3fffe}\u{3ffff}\u{4fffe}\u{4ffff}\u{5fffe}\u{5ffff}\u{6fffe}\u{6ffff}\u{7fffe}\u{7ffff}\u{8fffe}\u{8ffff}\u{9fffe}\u{9ffff}\u{afffe}\u{affff}\u{bfffe}\u{bffff}\u{cfffe}\u{cffff}\u{dfffe}\u{dffff}\u{efffe}\u{effff}\u{ffffe}\u{fffff}\u{10fffe}\u{10ffff}]/gu;

/** The text as a person sees it in a cell: what could hide or harm is written out, and what is too long for a cell is cut with a note. */
export function shownText(text: string): string {
  return inCell(text, visible);
}

/** The text as `shownText` gives it, with its line breaks. */
export function shownLines(text: string): string {
  return inCell(text, visibleLines);
}

function inCell(text: string, shownAs: (text: string) => string): string {
  // Nothing becomes shorter by being written out, so that more than a cell holds need not be walked.
  const head = text.length > CELL_LIMIT + 1 ? text.slice(0, CELL_LIMIT + 1) : text;
  const shown = shownAs(head).replace(NONE, (character) => `\\u{${(character.codePointAt(0) ?? 0).toString(16)}}`);
  if (shown.length <= CELL_LIMIT && head.length === text.length) return shown;
  // No letter is cut in half.
  const cut = shown.slice(0, CELL_LIMIT - NOTE).replace(/[\ud800-\udbff]$/, '');
  return `${cut} … (cut, ${String(text.length)} characters)`;
}

/** What the writer of the package would drop, or XML 1.0 cannot hold or changes: controls but tab and line feed, halves of pairs, U+FFFD, characters that are none. */
const UNWRITABLE = new RegExp(`[\\u0000-\\u0008\\u000b-\\u001f\\u007f-\\u009f\\ufffd]|\\p{Cs}|${NONE.source}`, 'gu');

/**
 * A text as it is stored in a cell so that reading gives it back to the letter: ST_Xstring of ECMA-376 part 1, section 22.9.2.19, writes
 * a character as `_x000D_`, and so must a text that holds such a group itself.
 */
export function storedText(text: string): string {
  const escaped = text
    .replace(/_x(?=[0-9A-Fa-f]{4}_)/g, '_x005F_x')
    .replace(UNWRITABLE, (character) => Array.from({ length: character.length }, (_, at) => unit(character.charCodeAt(at))).join(''));
  // The package that writes the file keeps texts as keys of an object, where "constructor" and the like are there from the start.
  return escaped in {} ? `${unit(escaped.charCodeAt(0))}${escaped.slice(1)}` : escaped;
}

function unit(code: number): string {
  return `_x${code.toString(16).toUpperCase().padStart(4, '0')}_`;
}
