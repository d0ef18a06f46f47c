/** Marks and words that mean "as the cell above": common practice, no source. */
const MARKS = "[\"\\u201d\\u201c\\u201e\\u3003\\u00bb\\u00ab]{1,2}|[\\u00ab\\u201e]\\s?[\\u00bb\\u201c]|''|\\u2019\\u2019|,,|[/\\\\]{2}";
const WORDS =
  'do|ditto|dto|dito|dgl|desgl|desgleichen|ebd|ebenda|ibid|ib|id|idem|same|same as above|as above|see above|as before|wie oben|wie vor|wie vorher|wie zuvor|s\\.? ?o|w\\.? ?o|w\\.? ?v|siehe oben|comme ci-dessus|ci-dessus|comme dessus|même|le même|la même|v\\. supra|ut supra';
const DASH = '[-\\u2013\\u2014]{0,2}';

const DITTO = new RegExp(`^(?:${DASH}\\s?(?:${MARKS})\\s?${DASH}|${DASH}\\s?(?:${WORDS})\\.?\\s?${DASH})$`, 'i');

/** True for a ditto mark. */
export function isDitto(text: string): boolean {
  return DITTO.test(text.trim());
}
