import type { Archive } from './archive.js';
import { isTrue, readPart } from './part-events.js';

/** Number formats that a workbook need not write out (ECMA-376 part 1, section 18.8.30). Those of East Asian languages are left out. */
const BUILT_IN: ReadonlyMap<number, string> = new Map([
  [0, 'General'],
  [1, '0'],
  [2, '0.00'],
  [3, '#,##0'],
  [4, '#,##0.00'],
  [9, '0%'],
  [10, '0.00%'],
  [11, '0.00E+00'],
  [12, '# ?/?'],
  [13, '# ??/??'],
  [14, 'mm-dd-yy'],
  [15, 'd-mmm-yy'],
  [16, 'd-mmm'],
  [17, 'mmm-yy'],
  [18, 'h:mm AM/PM'],
  [19, 'h:mm:ss AM/PM'],
  [20, 'h:mm'],
  [21, 'h:mm:ss'],
  [22, 'm/d/yy h:mm'],
  [37, '#,##0 ;(#,##0)'],
  [38, '#,##0 ;[Red](#,##0)'],
  [39, '#,##0.00;(#,##0.00)'],
  [40, '#,##0.00;[Red](#,##0.00)'],
  [45, 'mm:ss'],
  [46, '[h]:mm:ss'],
  [47, 'mmss.0'],
  [48, '##0.0E+0'],
  [49, '@'],
]);
/** 27 to 36 and 50 to 58 are dates of East Asian languages. */
const ASIAN_DATE = 'yyyy/mm/dd';

/** What a cell style says of the cells that have it. */
export interface CellStyle {
  readonly format: string;
  /** Colour of the cell: six hexadecimal digits, or the theme's colour by its number; null for none. */
  readonly colour: string | null;
  readonly ink: string | null;
  readonly struck: boolean;
}

/** The number format, colours and strike of each cell style, in the order of the styles. */
export function readCellStyles(archive: Archive, part: string | null): readonly CellStyle[] {
  const bytes = part === null ? null : archive.part(part);
  if (bytes === null) return [];
  const own = new Map<number, string>();
  const fills: (string | null)[] = [];
  const fonts: { ink: string | null; struck: boolean }[] = [];
  const styles: { readonly format: number; readonly fill: number; readonly font: number }[] = [];
  readPart(bytes, `${archive.file}, part ${part ?? ''}`, {
    open: ({ name, attribute }, path) => {
      if (name === 'numFmt') own.set(Number(attribute('numFmtId')), attribute('formatCode') ?? '');
      if (name === 'fill' && path.at(-2) === 'fills') fills.push(null);
      // A pattern that is not solid shades the cell all the same; `none` has no colour.
      if (name === 'fgColor' && path.at(-2) === 'patternFill') fills[fills.length - 1] = colourOf(attribute);
      if (name === 'font' && path.at(-2) === 'fonts') fonts.push({ ink: null, struck: false });
      const font = path.at(-3) === 'fonts' ? fonts.at(-1) : undefined;
      if (name === 'color' && font !== undefined) font.ink = inkOf(attribute);
      // An element without a value says that it is so (ECMA-376 part 1, section 18.8).
      if (name === 'strike' && font !== undefined) font.struck = !/^(?:0|false)$/.test(attribute('val') ?? '1');
      if (name === 'xf' && path.at(-2) === 'cellXfs')
        styles.push({
          format: Number(attribute('numFmtId') ?? '0'),
          fill: Number(attribute('fillId') ?? '0'),
          font: Number(attribute('fontId') ?? '0'),
        });
    },
  });
  return styles.map(({ format, fill, font }) => ({
    format:
      own.get(format) ??
      BUILT_IN.get(format) ??
      ((format >= 27 && format <= 36) || (format >= 50 && format <= 58) ? ASIAN_DATE : 'General'),
    colour: fills[fill] ?? null,
    ink: fonts[font]?.ink ?? null,
    struck: fonts[font]?.struck ?? false,
  }));
}

/** The colour of a font; null for black and what else the program takes for text: its automatic colour, and the theme's second. */
function inkOf(attribute: (name: string) => string | undefined): string | null {
  if (isTrue(attribute('auto')) || attribute('theme') === '1' || ['8', '64'].includes(attribute('indexed') ?? '')) return null;
  const colour = colourOf(attribute);
  return colour === '000000' ? null : colour;
}

function colourOf(attribute: (name: string) => string | undefined): string | null {
  const rgb = /^(?:[0-9A-F]{2})?([0-9A-F]{6})$/i.exec(attribute('rgb') ?? '')?.[1]?.toUpperCase();
  if (rgb !== undefined) return rgb === 'FFFFFF' ? null : rgb;
  const theme = attribute('theme');
  // The theme's first colour is that of the paper.
  if (theme !== undefined)
    return theme === '0' ? null : `theme ${theme}${attribute('tint') === undefined ? '' : ` ${attribute('tint')?.slice(0, 5) ?? ''}`}`;
  const indexed = attribute('indexed');
  return indexed === undefined || indexed === '64' || indexed === '9' ? null : `colour ${indexed}`;
}

/** True for a format that shows a number as a day or a time: one with a letter for them outside quotation marks, brackets and escapes. */
export function isDateFormat(format: string): boolean {
  const known = dateFormats.get(format);
  if (known !== undefined) return known;
  const found = showsTime(format);
  if (dateFormats.size >= MOST_FORMATS) dateFormats.clear();
  dateFormats.set(format, found);
  return found;
}

/** Many cells have the same format. */
const dateFormats = new Map<string, boolean>();
const MOST_FORMATS = 1000;

function showsTime(format: string): boolean {
  const bare = format.slice(0, 500).replace(/"[^"]{0,500}"|\\.|_.|\*./g, '');
  // Elapsed time stands in brackets itself; colours, conditions and languages do too and have no such letters alone.
  if (/\[(h{1,4}|m{1,4}|s{1,4})\]/i.test(bare)) return true;
  const [positive = ''] = bare.replace(/\[[^\]]{0,100}\]/g, '').split(';');
  return !/general/i.test(positive) && /[dmyhsge]/i.test(positive.replace(/e[+-]/gi, '').replace(/am\/pm|a\/p/gi, 'h'));
}
