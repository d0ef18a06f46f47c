import type { BookFacts, TypedCell } from '../model/written-sheet.js';
import { readDayCell } from './day-cell.js';

/** What was probably typed into a cell for text, where a spreadsheet program has made a number or a day of it; null for no good guess. */
export function typedLabel(cell: TypedCell, book: BookFacts): string | null {
  if (cell.kind === 'date') return fromDay(cell, book);
  return cell.kind === 'number' ? fromNumber(cell) : null;
}

function fromDay(cell: TypedCell, book: BookFacts): string | null {
  const { day, time } = readDayCell(cell, book);
  if (day === null || time !== null) return time === null ? null : `"${String(time.hours)}:${String(time.minutes)}"`;
  const [year = '', month = '', date = ''] = day.split('-');
  const [m, d] = [String(Number(month)), String(Number(date))];
  const shown = cell.format.replace(/"[^"]{0,100}"|\[[^\]]{0,100}\]/g, '').toLowerCase();
  // `12-88` and `Jan-1` become the first day of a month, shown without it.
  if (!shown.includes('d') && shown.includes('y')) return `"${m}-${year.slice(2)}" or "${m}/${year.slice(2)}"`;
  return m === d ? `"${m}-${d}" or "${m}/${d}"` : `"${m}-${d}" or "${d}-${m}"`;
}

function fromNumber({ value, format }: TypedCell): string | null {
  const number = Number(value);
  if (value === '' || !Number.isFinite(number)) return null;
  const [positive = ''] = format.split(';');
  if (positive.includes('%')) return `"${String(Number((number * 100).toPrecision(12)))}%"`;
  if (/E[+-]/i.test(positive) && Number.isInteger(number)) return scientific(value);
  if (positive.includes('?/')) return fraction(number);
  const whole = /^\d{1,15}$/.test(value);
  if (/^0{2,15}$/.test(positive) && whole) return `"${value.padStart(positive.length, '0')}"`;
  if (/^#,##0$/.test(positive) && whole && value.length > 3) return `"${value.replace(/\B(?=(\d{3})+$)/g, ',')}"`;
  if (/^-\d{1,15}$/.test(value)) return `"(${value.slice(1)})" or "${value}"`;
  const power = scientific(value);
  if (whole) return power === null ? `"${value}"` : `"${value}" or ${power}`;
  return /^-?\d{1,15}\.\d{1,15}$/.test(value) && value.length <= 10 ? `"${value}"` : null;
}

/** `3E1` for 30, `12E5` for 1200000. */
function scientific(digits: string): string | null {
  const match = /^(\d{0,3}[1-9])(0{1,15})$/.exec(digits);
  return match === null ? null : `"${match[1] ?? ''}E${String((match[2] ?? '').length)}"`;
}

/** `1/2` for 0.5, `1 1/2` for 1.5. */
function fraction(number: number): string | null {
  const whole = Math.floor(number);
  for (let below = 2; below < 100; below += 1) {
    const above = (number - whole) * below;
    if (Math.abs(above - Math.round(above)) < 1e-6 && Math.round(above) > 0)
      return `"${whole === 0 ? '' : `${String(whole)} `}${String(Math.round(above))}/${String(below)}"`;
  }
  return null;
}
