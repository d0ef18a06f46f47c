/** Which mark stands before the decimals. */
export type DecimalMark = 'point' | 'comma';

/** A figure as it was read: decimal text with a point, or why it is none; `unclear` where the mark could part thousands or decimals. */
export type Figure = { readonly text: string } | { readonly text: null; readonly why: 'no figure' | 'unclear' };

/** Signs and letters of currencies that people write beside an amount. */
const CURRENCY = /(?:[€£$¥₣₤₩₹]|\b(?:EUR|GBP|USD|CHF|CAD|AUD|NZD|SEK|NOK|DKK|PLN|CZK|HUF|JPY|INR|ZAR|Fr|kr|Euro)\b\.?)/giu;
/** Blanks of every width and the apostrophes that Swiss figures are grouped with. */
const GROUPING = /[\s\u00a0\u2007\u2009\u202f'’]/gu;
const MINUS = /[-\u2212\u2013]/u;

/** The figure without currency, blanks and sign: digits and marks, and whether it is negative; null where anything else stands there. */
function bare(text: string): { readonly digits: string; readonly negative: boolean } | null {
  let rest = text.replace(CURRENCY, ' ').trim();
  let negative = false;
  const bracketed = /^\((.*)\)$/u.exec(rest);
  if (bracketed !== null) {
    negative = true;
    rest = (bracketed[1] ?? '').trim();
  }
  const sign = /^([+\-\u2212\u2013])?\s*(.*?)\s*([+\-\u2212\u2013])?$/u.exec(rest);
  if (sign === null) return null;
  const [, before = '', middle = '', behind = ''] = sign;
  if ((before !== '' && behind !== '') || (bracketed !== null && MINUS.test(before + behind))) return null;
  if (MINUS.test(before + behind)) negative = true;
  const grouped = /^\d{1,3}(?:[\s\u00a0\u2007\u2009\u202f'’]\d{3})+(?:[.,]\d+)?$/u.test(middle);
  const digits = grouped ? middle.replace(GROUPING, '') : middle;
  return /^\d[\d.,]*$/.test(digits) ? { digits, negative } : null;
}

/** The mark that a figure shows beyond doubt; null where it shows none. */
export function markShown(text: string): DecimalMark | null {
  const found = bare(text);
  if (found === null) return null;
  const { digits } = found;
  const [points, commas] = [digits.split('.').length - 1, digits.split(',').length - 1];
  if (points > 0 && commas > 0) return digits.lastIndexOf('.') > digits.lastIndexOf(',') ? 'point' : 'comma';
  if (points > 1) return 'comma';
  if (commas > 1) return 'point';
  const [whole = '', decimals = ''] = digits.split(/[.,]/);
  if (points + commas === 0 || (decimals.length === 3 && whole.length <= 3 && !/^0/.test(whole))) return null;
  return points === 1 ? 'point' : 'comma';
}

/** Reads `1.234,56`, `1 234`, `(1.00)`, `€ 1,234.50`, `12,-`: with the mark for the decimals that the sheet uses; null where that is not known. */
export function readFigure(text: string, mark: DecimalMark | null): Figure {
  // what merchants write for no cents
  const found = bare(
    text
      .trim()
      .replace(/([.,])(?:[-\u2013\u2014]{1,2})$/u, '')
      .trim(),
  );
  if (found === null) return { text: null, why: 'no figure' };
  const own = markShown(text) ?? mark;
  const { digits, negative } = found;
  const marked = /[.,]/.test(digits);
  if (marked && own === null) return { text: null, why: 'unclear' };
  const [decimal, group] = own === 'comma' ? [',', '.'] : ['.', ','];
  const [whole = '', decimals, ...more] = digits.split(decimal);
  if (more.length > 0) return { text: null, why: 'no figure' };
  if (whole.includes(group) && !new RegExp(`^\\d{1,3}(?:\\${group}\\d{3})+$`).test(whole)) return { text: null, why: 'no figure' };
  if (decimals?.includes(group) === true) return { text: null, why: 'no figure' };
  const plain = `${whole.replaceAll(group, '')}${decimals === undefined || decimals === '' ? '' : `.${decimals}`}`;
  return { text: negative && !/^[0.]+$/.test(plain) ? `-${plain}` : plain };
}

/** The text of a figure in plain form; null where there is none or it cannot be read. */
export const figureText = (figure: Figure | null): string | null => figure?.text ?? null;
