import { isDay } from './civil.js';

/**
 * The day that a text means in such a shape, `YYYY-MM-DD`; null where it is not written so or is no real day. In a shape `YYYY`, `MM` and `DD` stand
 * for so many digits and `M` and `D` for one or two; what stands between them stands in the text as well: `1.4.1814` in the shape `D.M.YYYY`.
 */
export function readShapedDay(text: string, shape: string): string | null {
  const parts = new Map<string, string>();
  let at = 0;
  for (const piece of shape.split(/(Y+|M+|D+)/)) {
    if (piece === '') continue;
    if (!/^[YMD]/.test(piece)) {
      if (!text.startsWith(piece, at)) return null;
      at += piece.length;
      continue;
    }
    const most = piece.length === 1 ? 2 : piece.length;
    let end = at;
    while (end < text.length && end - at < most && isDigit(text.charAt(end))) end += 1;
    if (end - at < piece.length) return null;
    parts.set(piece.charAt(0), text.slice(at, end));
    at = end;
  }
  if (at !== text.length) return null;
  const day = [parts.get('Y') ?? '', (parts.get('M') ?? '').padStart(2, '0'), (parts.get('D') ?? '').padStart(2, '0')].join('-');
  return isDay(day) ? day : null;
}

function isDigit(letter: string): boolean {
  return letter >= '0' && letter <= '9';
}

/** The orders in which day, month and year are written, and what stands between them. */
const ORDERS: readonly (readonly string[])[] = [
  ['D', 'M', 'YYYY'],
  ['M', 'D', 'YYYY'],
  ['YYYY', 'M', 'D'],
  ['YYYY', 'D', 'M'],
];
const BETWEEN: readonly string[] = ['.', '/', '-', ' ', '. ', '_'];

/** Every shape in which all of these texts are days: `D.M.YYYY` for `13.4.1887`, that and `M.D.YYYY` for `4.3.1887` alone. */
export function fittingShapes(texts: readonly string[]): readonly string[] {
  const shapes = [...ORDERS.flatMap((parts) => BETWEEN.map((between) => parts.join(between))), 'DDMMYYYY', 'MMDDYYYY', 'YYYYDDMM'];
  return texts.length === 0 ? [] : shapes.filter((shape) => texts.every((text) => readShapedDay(text.trim(), shape) !== null));
}
