import { readShapedDay } from '../calendar/date-shape.js';
import { readCompactDay, readDate, readTwoDays } from '../calendar/edtf.js';
import type { Copy, DateReading, DocumentProblem, Place } from '../model/film.js';
import type { FactName, PresentWording, Profile } from '../model/profile.js';
import type { WrittenCopy } from '../model/written-return.js';
import { frameKey, labelKey, pageLabel, plainText, readFrameNumber, reelNumber, sectionLabel, titleId, withoutSection } from './labels.js';

/** What a text says about being there, or null where the words are not in the profile's list. */
export function readPresent(text: string, wordings: readonly PresentWording[]): PresentWording | null {
  const folded = foldWording(text);
  return wordings.find((wording) => foldWording(wording.text) === folded) ?? null;
}

/** `Not digitised , Published` and `not digitized, published` are the same wording. */
function foldWording(text: string): string {
  return text
    .toLowerCase()
    .replaceAll('digitised', 'digitized')
    .replace(/[\s,;.]+/g, ' ')
    .trim();
}

/** A whole number written in full, `7` or `07`; null for anything else and for 0. */
export function readCount(text: string | undefined): number | null {
  return text !== undefined && /^\d{1,6}$/.test(text) && Number(text) > 0 ? Number(text) : null;
}

/** The place of a page in its issue, or the edition of an issue; 0 too, for some count from there. */
export function readPlace(text: string | undefined): number | null {
  return text !== undefined && /^0{1,6}$/.test(text) ? 0 : readCount(text);
}

/** A date as a document writes it. A day in the programme's own shape, and one without hyphens, is understood as well. */
export function readReturnDate(text: string | undefined, shape?: string): DateReading | null {
  if (text === undefined) return null;
  const reading = readDate(text);
  if (reading.day !== null) return reading;
  const both = readTwoDays(text);
  if (both !== null) return both;
  const shaped = shape === undefined ? null : readShapedDay(text.trim(), shape);
  // A day that is written in another way is called as everybody calls days: its text stands in sentences beside those of the record.
  if (shaped !== null) return { text: shaped, day: shaped, uncertain: false };
  const day = readCompactDay(text.trim());
  return day === null ? reading : { text, day, uncertain: false };
}

/** Whether the text of a fact can be understood: a date that is a day or calls itself uncertain, a count, a number of a frame or reel, agreed words. */
export function isReadable(fact: FactName, text: string, profile: Profile): boolean {
  switch (fact) {
    case 'date': {
      const reading = readReturnDate(text, profile.facts.issue.date?.shape);
      return reading !== null && (reading.day !== null || reading.uncertain);
    }
    case 'edition':
    case 'order':
      return readPlace(text) !== null;
    case 'frame':
      return readFrameNumber(text, 0) !== null;
    case 'reel':
      return readReel(text) !== null;
    case 'present':
      return readPresent(text, profile.present) !== null;
    default:
      return true;
  }
}

/** The record's id of a title: what the profile says that the return's name of it means, else the identifier itself. */
export function readTitle(text: string | undefined, profile: Profile): string | null {
  if (text === undefined) return null;
  const plain = plainText(text);
  const key = plain === null ? undefined : Object.entries(profile.titleKeys).find(([name]) => name === plain)?.[1];
  return titleId(key ?? text);
}

/** A reel number in the form in which it is compared; null when nothing is written. */
export function readReel(text: string | undefined): string | null {
  return text === undefined ? null : reelNumber(text);
}

/** Other numbers that mean the same reel: the number without an end that the supplier chooses. */
export function otherReelNumbers(number: string, profile: Profile): readonly string[] {
  const suffix = profile.reelNumber.supplierSuffix;
  if (suffix === null || suffix.length >= number.length) return [];
  const end = number.slice(-suffix.length);
  const fits = Array.from(suffix.toLowerCase()).every((wanted, at) =>
    wanted === '#' ? /\d/.test(end.charAt(at)) : end.charAt(at) === wanted,
  );
  return fits ? [number.slice(0, -suffix.length)] : [];
}

/** A copy with its value in the form in which the fact's main reading is compared: a day, a number, an identifier, a frame key, a reel number, a page key without its section, plain text. */
export function readCopy(copy: WrittenCopy, profile: Profile, section: string | null = null): Copy {
  const { fact, source, text, beside, place } = copy;
  const value = copyValue(copy, profile, section);
  return beside === undefined
    ? { fact, source, text, place, value }
    : { fact, source, text, place, value, beside: { text: beside, value: copyValue({ ...copy, text: beside }, profile, section) } };
}

function copyValue({ fact, text: written }: WrittenCopy, profile: Profile, section: string | null): string | null {
  // ALTO 2.1 and later write whole numbers as `5.0` as well.
  const text = written.endsWith('0') ? written.replace(/^(\d{1,9})\.0{1,9}$/, '$1') : written;
  switch (fact) {
    case 'date':
      return readReturnDate(text, profile.facts.issue.date?.shape)?.day ?? null;
    case 'datePrinted':
      return readReturnDate(text, profile.facts.issue.datePrinted?.shape)?.text ?? null;
    case 'section':
      return sectionLabel(text);
    case 'edition':
    case 'order': {
      const count = readPlace(text);
      return count === null ? null : String(count);
    }
    case 'title':
      return readTitle(text, profile);
    case 'frame': {
      const frame = readFrameNumber(text, 0);
      return frame === null ? null : frameKey(frame);
    }
    case 'exposure': {
      const frame = readFrameNumber(text, 0);
      return frame === null ? null : String(frame.exposure);
    }
    case 'reel':
      return readReel(text);
    case 'page': {
      const label = pageLabel(text);
      return label === null ? null : labelKey(withoutSection(label, section));
    }
    default:
      return plainText(text);
  }
}

/** A problem of the return's own documents, with what is known of the issue. */
export function factProblem(
  code: DocumentProblem['code'],
  says: string,
  at: { readonly title: string | null; readonly date: DateReading | null; readonly edition: number | null; readonly reel: string | null },
  field: string,
  returned: string | null,
  instruction: string | null,
  place: Place,
): DocumentProblem {
  return {
    code,
    reel: at.reel,
    title: at.title,
    date: at.date?.text ?? null,
    edition: at.edition,
    says,
    instruction,
    collation: null,
    returned,
    field,
    place,
  };
}
