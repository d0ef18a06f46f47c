import type { FrameNumber } from '../model/film.js';

/** Reads `12`, `0012A` or `12 b` as a frame number: exposure and half. Null for text that is none, and for an exposure below `least`: some vendors count from 0. */
export function readFrameNumber(text: string, least = 1): FrameNumber | null {
  const trimmed = text.trim();
  let [at, exposure] = [0, 0];
  for (let code = trimmed.charCodeAt(at); code >= 0x30 && code <= 0x39; code = trimmed.charCodeAt(at)) {
    exposure = exposure * 10 + code - 0x30;
    at += 1;
  }
  if (at === 0 || at > MOST_DIGITS || exposure < least) return null;
  if (at < trimmed.length && trimmed.charCodeAt(at) === 0x20) at += 1;
  if (at === trimmed.length) return { text: trimmed, exposure, half: '' };
  // In ASCII a letter and its capital differ in one bit.
  const letter = trimmed.charCodeAt(at) & 0xdf;
  if (at + 1 < trimmed.length || trimmed.charCodeAt(at) > 0x7a || letter < 0x41 || letter > 0x5a) return null;
  return { text: trimmed, exposure, half: String.fromCharCode(letter) };
}

const MOST_DIGITS = 9;

/** Writes a frame number without zeros in front: `12`, `12A`. Equal keys mean the same place on the reel. */
export function frameKey(frame: FrameNumber): string {
  return `${String(frame.exposure)}${frame.half}`;
}

/** Orders frame numbers by exposure, then by half; below zero when the first comes first. */
export function compareFrameNumbers(a: FrameNumber, b: FrameNumber): number {
  return a.exposure - b.exposure || (a.half < b.half ? -1 : a.half > b.half ? 1 : 0);
}

/** Trims a text and turns every run of white space into one space; null when nothing is left. */
export function plainText(text: string): string | null {
  const collapsed = text.replace(/\s+/g, ' ').trim();
  return collapsed === '' ? null : collapsed;
}

/** A page label as it is compared: trimmed, runs of white space as one space; null when nothing is written. */
export function pageLabel(text: string): string | null {
  return plainText(text);
}

/** The bare label of a section: `Section A`, `Sektion A`, `SECT. a` and `A` are all `A`; null when nothing is written. */
export function sectionLabel(text: string): string | null {
  const label = plainText(text);
  if (label === null) return null;
  const match = /^(?:section|sektion|sectie|seccion|sección|sezione|secao|seção|sekcja|sekce|sect|sec)(?:\. ?| )(.+)$/iu.exec(label);
  return (match?.[1] ?? label).toUpperCase();
}

/** A page label without the section that stands in front of it: `A3`, `A-3` and `3` are all `3` in section `A`; other labels are kept. */
export function withoutSection(page: string, section: string | null): string {
  if (section === null || section === '') return page;
  if (!page.toUpperCase().startsWith(section)) return page;
  const tail = page.slice(section.length);
  const rest = tail.replace(/^[ .:-]/, '');
  // Page 12 of section 1 is not page 2: after a digit the section must be set off.
  if (!/^\d/.test(rest) || (/\d$/.test(section) && rest === tail)) return page;
  return rest;
}

/** The form in which labels count as equal: zeros in front of each number dropped, letters in upper case (`003a` is `3A`). */
export function labelKey(label: string): string {
  // Most labels are a plain number.
  if (/^[1-9]\d{0,4}$/.test(label)) return label;
  return (plainText(label) ?? '').toUpperCase().replace(/(?<!\d)0+(?=\d)/g, '');
}

/** More pages than that are not on one image. */
const WIDEST_SPREAD = 4;

/** The first and last page that one label names, `2-3` or `A2/A3`, with the letters in front; null for a label of one page, and for one that is no such run. */
export function spreadLabel(label: string): { readonly letters: string; readonly first: number; readonly last: number } | null {
  if (!/[-\u2013/+&]/.test(label)) return null;
  const [, letters = '', from, again = '', to] =
    /^([A-Z]{0,3})[. ]?(\d{1,5}) ?[-\u2013/+&] ?([A-Z]{0,3})(\d{1,5})$/.exec(labelKey(label)) ?? [];
  const [first, last] = [Number(from), Number(to)];
  if (from === undefined || to === undefined || (again !== '' && again !== letters)) return null;
  return last > first && last - first < WIDEST_SPREAD ? { letters, first, last } : null;
}

/** True when two labels mean the same, whatever their case and the zeros in front: `0012` and `12`. */
export function sameLabel(a: string, b: string): boolean {
  return labelKey(a) === labelKey(b);
}

/** Orders labels as a reader would: numbers in them by value, the rest by code unit (`2` before `10`, `A2` before `B1`). */
export function compareLabels(a: string, b: string): number {
  const left = labelKey(a).match(/\d+|\D+/g) ?? [];
  const right = labelKey(b).match(/\d+|\D+/g) ?? [];
  for (let at = 0; at < Math.max(left.length, right.length); at += 1) {
    const x = left[at];
    const y = right[at];
    if (x === undefined || y === undefined) return x === undefined ? -1 : 1;
    if (x === y) continue;
    const bothNumbers = /^\d/.test(x) && /^\d/.test(y);
    // Without zeros in front the longer run of digits is the larger number.
    if (bothNumbers && x.length !== y.length) return x.length - y.length;
    return x < y ? -1 : 1;
  }
  return 0;
}

/** A title's identifier: an LCCN in its normal form (rules of the Library of Congress `info:lccn` namespace), anything else trimmed; null when empty. */
export function titleId(text: string): string | null {
  const trimmed = plainText(text);
  return trimmed === null ? null : (normaliseLccn(trimmed) ?? trimmed);
}

/** The normal form of an LCCN, such as `sn83031896`; null for text that is no LCCN. Blanks go, `/` cuts, a hyphen pads what follows it to 6 digits. */
export function normaliseLccn(text: string): string | null {
  const bare = (text.replace(/\s+/g, '').split('/')[0] ?? '').toLowerCase();
  const hyphen = bare.indexOf('-');
  const serial = hyphen < 0 ? '' : bare.slice(hyphen + 1);
  if (hyphen >= 0 && !/^\d{1,6}$/.test(serial)) return null;
  const joined = hyphen < 0 ? bare : bare.slice(0, hyphen) + serial.padStart(6, '0');
  // Two digits of the year with up to three letters in front, or four with up to two; the serial number has six.
  return /^(?:[a-z]{0,3}\d{8}|[a-z]{0,2}\d{10})$/.test(joined) ? joined : null;
}

/** A reel number as it is compared: no zeros in front, letters in lower case, no spaces (`0051701008A` is `51701008a`); null when empty. */
export function reelNumber(text: string): string | null {
  const bare = text.replace(/\s+/g, '').toLowerCase();
  return bare === '' ? null : bare.replace(/^0+(?=.)/, '');
}
