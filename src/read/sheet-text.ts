import { isUtf8 } from 'node:buffer';
import { utf8Text } from './decode.js';
import { UserMistake } from './mistake.js';
import { decodeWindows1252 } from './windows-1252.js';

/** First bytes of files that are often given the name of a CSV file, and what to do about it. */
const OTHERS: readonly (readonly [readonly number[], string])[] = [
  [
    [0x50, 0x4b, 3, 4],
    'this is a packed workbook under the name of a text file; save the sheet as CSV (UTF-8), or give the workbook its own ending back.',
  ],
  [[0xd0, 0xcf, 0x11, 0xe0], 'this is a workbook of an old spreadsheet format (.xls); save the sheet as CSV (UTF-8).'],
  [[0x25, 0x50, 0x44, 0x46], 'this is a PDF document; save the sheet as CSV (UTF-8).'],
];

/** The text of a CSV file and how it is encoded: UTF-8, UTF-16 as "Unicode text" is saved, else Windows-1252. Throws UserMistake. */
export function sheetText(bytes: Buffer, file: string): { readonly text: string; readonly encoding: 'UTF-8' | 'UTF-16' | 'Windows-1252' } {
  for (const [start, says] of OTHERS) {
    if (bytes.subarray(0, start.length).equals(Buffer.from(start))) throw new UserMistake(`${file}: ${says}`);
  }
  const wide = wideEncoding(bytes);
  const read = wide === null ? narrowText(bytes, file) : wideText(bytes, wide, file);
  const nothing = read.text.indexOf('\0');
  if (nothing < 0) return read;
  throw new UserMistake(
    `${file}, line ${lineOf(read.text.slice(0, nothing))}: a NUL character stands there, so this is not text; save the sheet again as CSV (UTF-8).`,
  );
}

function wideText(bytes: Buffer, encoding: string, file: string): { readonly text: string; readonly encoding: 'UTF-16' } {
  try {
    return { text: new TextDecoder(encoding, { fatal: true }).decode(bytes), encoding: 'UTF-16' };
  } catch {
    throw new UserMistake(`${file}: the file begins as UTF-16 text, but is none; save it again as "CSV UTF-8".`);
  }
}

/** Text that is no UTF-8 is what spreadsheet programs of western languages save by default. */
function narrowText(bytes: Buffer, file: string): { readonly text: string; readonly encoding: 'UTF-8' | 'Windows-1252' } {
  if (isUtf8(bytes)) return { text: utf8Text(bytes), encoding: 'UTF-8' };
  const text = decodeWindows1252(bytes);
  if (typeof text === 'string') return { text, encoding: 'Windows-1252' };
  const line = lineOf(bytes.subarray(0, text.offset).toString('latin1'));
  throw new UserMistake(
    `${file}, line ${line}: the file is neither UTF-8 nor Windows-1252 text (byte ${String(text.offset)}); save it again as "CSV UTF-8".`,
  );
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
