import type { BookCell } from '../../model/written-grid.js';

/** A cell of a table as its attributes and paragraphs say it. */
export interface OdsCell {
  readonly covered: boolean;
  /** `office:value-type`; empty for a cell that holds nothing. */
  readonly type: string;
  readonly value: string;
  readonly formula: string | null;
  readonly look: Pick<BookCell, 'colour' | 'ink' | 'struck'>;
  /** The text of the comment on it, a text for each paragraph. */
  readonly comment: string[];
  /** What is shown, a text for each paragraph. */
  readonly lines: string[];
  /** The same without the parts that are struck through. */
  readonly left: string[];
}

/** The cell as cells of other workbooks are told, without its place; null for one that holds nothing (OpenDocument 1.3, part 3, section 9.1.4). */
export function odsCell({
  covered,
  type,
  value,
  formula,
  look,
  comment,
  lines,
  left,
}: OdsCell): Omit<BookCell, 'address' | 'column'> | null {
  const shown = lines.join('\n');
  const kept = left.join('\n');
  const said = comment.join(' ').replace(/\s+/g, ' ').trim();
  if (covered || (type === '' && shown === '' && formula === null && said === '')) return null;
  const made = (kind: BookCell['kind'], text: string, format: string): Omit<BookCell, 'address' | 'column'> => ({
    kind,
    value: text,
    format,
    formula: formula === null ? null : formula.replace(/^[a-z]{1,10}:=?/, ''),
    ...look,
    ...(kept === shown ? {} : kept.trim() === '' ? { struck: true } : { unstruck: kept }),
    comment: said === '' ? null : said,
  });
  if (formula !== null && /^(#[A-Z/0!?]+|Err:\d+)$/.test(shown)) return made('error', shown, 'General');
  // A formula whose result was never stored, as other workbooks have it.
  if (formula !== null && type === '' && shown === '') return made('number', '', 'General');
  switch (type) {
    case 'float':
    case 'currency':
      return made('number', value, formatShown(value, shown));
    case 'percentage':
      return made('number', value, '0%');
    case 'date':
      return made('date', value, /\d{4}/.test(shown) ? 'yyyy-mm-dd' : 'd-mmm');
    case 'time':
      return made('date', daysOfTime(value), 'h:mm');
    case 'boolean':
      return made('boolean', value === 'true' ? 'TRUE' : 'FALSE', 'General');
    default:
      return made('text', shown === '' ? value : shown, '@');
  }
}

/** The number format that shows the value so, as far as it matters. */
function formatShown(value: string, shown: string): string {
  if (/^0\d{1,14}$/.test(shown)) return '0'.repeat(shown.length);
  if (/^\d(\.\d+)?E[+-]?\d+$/i.test(shown)) return '0.00E+00';
  if (/^\d+ \d+\/\d+$|^\d+\/\d+$/.test(shown)) return '# ?/?';
  return /^\d{1,3}([,. \u00a0\u202f]\d{3})+$/.test(shown) && /^\d+$/.test(value) ? '#,##0' : 'General';
}

/** `PT01H02M00S` as the part of a day that other workbooks store. */
function daysOfTime(text: string): string {
  const match = /^PT(\d{1,4})H(\d{1,2})M(\d{1,2})/.exec(text);
  return match === null ? text : String((Number(match[1]) * 60 + Number(match[2])) / (24 * 60));
}
