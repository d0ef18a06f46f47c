import { firstBadUtf8 } from './decode.js';
import { UserMistake } from './mistake.js';

/** First bytes of files that are often given the name of a CSV file, and what to do about it. */
const OTHERS: readonly (readonly [readonly number[], string])[] = [
  [
    [0x50, 0x4b, 3, 4],
    'this is a packed workbook under the name of a text file; save the sheet as CSV (UTF-8), or give the workbook its own ending back.',
  ],
  [[0xd0, 0xcf, 0x11, 0xe0], 'this is a workbook of an old spreadsheet format (.xls); save the sheet as CSV (UTF-8).'],
  [[0x25, 0x50, 0x44, 0x46], 'this is a PDF document; save the sheet as CSV (UTF-8).'],
];

/** The text of a CSV file: UTF-8 with or without byte order mark, or UTF-16 as "Unicode text" is saved. Throws UserMistake. */
export function sheetText(bytes: Buffer, file: string): string {
  for (const [start, says] of OTHERS) {
    if (bytes.subarray(0, start.length).equals(Buffer.from(start))) throw new UserMistake(`${file}: ${says}`);
  }
  const wide = wideEncoding(bytes);
  try {
    const text = new TextDecoder(wide ?? 'utf-8', { fatal: true }).decode(bytes);
    const nothing = text.indexOf('\0');
    if (nothing < 0) return text;
    throw new UserMistake(
      `${file}, line ${lineOf(text.slice(0, nothing))}: a NUL character stands there, so this is no text; save the sheet again as CSV (UTF-8).`,
    );
  } catch (error) {
    if (error instanceof UserMistake) throw error;
    if (wide !== null) throw new UserMistake(`${file}: the file begins as UTF-16 text, but is none; save it again as "CSV UTF-8".`);
    const at = firstBadUtf8(bytes);
    const line = lineOf(bytes.subarray(0, at).toString('latin1'));
    throw new UserMistake(`${file}, line ${line}: the file is not UTF-8 text (byte ${String(at)}); save it again as "CSV UTF-8".`);
  }
}

/** UTF-16 by its mark, or by a zero byte beside the first letter. */
function wideEncoding(bytes: Buffer): 'utf-16le' | 'utf-16be' | null {
  const [a, b] = bytes;
  if ((a === 0xff && b === 0xfe) || (a !== 0 && b === 0)) return 'utf-16le';
  return (a === 0xfe && b === 0xff) || (a === 0 && b !== 0 && b !== undefined) ? 'utf-16be' : null;
}

function lineOf(before: string): string {
  return String((before.match(/\r\n|\r|\n/g) ?? []).length + 1);
}
