import { keptInMind } from '../normalise/kept.js';
import { isNotedLabel } from '../normalise/pages-notation.js';
import { PHRASES } from './phrase-list.js';
import type { Phrase, StatedFact } from './phrase-parts.js';
import { type Ways, wordKey } from './ways.js';

/** What a clause of a note states. `pages` are the labels that it names, none where it speaks of its own row. */
export interface Stated {
  readonly key: string;
  /** The phrase as it is worded, what differs from note to note left out: `printed as …`. */
  readonly wording: string;
  /** The words of the note, as they stand there. */
  readonly words: string;
  readonly pages: readonly string[];
  /** Whether the clause says nothing else. */
  readonly alone: boolean;
  /** Whether the clause may speak of some pages alone: beside the words stand others, figures, or a word for a page. */
  readonly inPart: boolean;
  readonly fact: StatedFact;
}

const PAGE_WORD = String.raw`(?:pp?|pgs?|pages?|S|Seiten?|Bl)\b\.?\s*`;
const LABEL = String.raw`[A-Z]{0,2}\d{1,3}`;
const LABELS = String.raw`${LABEL}(?:\s*[-\u2013]\s*${LABEL})?`;
const OF_PAGES = new RegExp(
  String.raw`(?<!\p{L})${PAGE_WORD}(${LABELS}(?:(?:\s*(?:,|&|\band\b|\bund\b|\bu\.|\bet\b)\s*)${LABELS}(?!\p{L}))*)`,
  'iu',
);
/** Where one clause ends: before the next page that is named, at a semicolon, at a full stop before a capital letter that is not that of `2. Ausgabe`. */
const CLAUSE = new RegExp(
  String.raw`\s*;\s*|(?<!(?<!\d)\d{1,2})\.\s+(?=\p{Lu}\p{L}{2})|(?:\s*,|\s+and|\s+und|\s+et)\s+(?=${PAGE_WORD}${LABEL})`,
  'u',
);
const LONGEST_NOTE = 1000;
/** More pages than a newspaper has are a slip. */
const MOST_PAGES = 100;

/** So many notes are kept in mind. */
const KEPT = 20_000;

/** What a note states in phrases, clause by clause. People write the same note beside many rows, and a sheet is gone through for each question. */
export const statedIn: (note: string) => readonly Stated[] = keptInMind(readNote, KEPT);

function readNote(note: string): readonly Stated[] {
  return (
    note
      .slice(0, LONGEST_NOTE)
      .replace(REFERENCE, '')
      .split(CLAUSE)
      // Why a page was filmed again is said of the exposure before.
      .map((clause) => (AGAIN.test(clause) ? clause.replace(REASON, '') : clause))
      .flatMap((clause) =>
        PHRASES.flatMap((phrase): readonly Stated[] => {
          for (const part of phrase.alone === true ? partsOf(clause) : [clause]) {
            const found = stated(phrase, part, clause);
            if (found !== null) return [found];
          }
          return [];
        }),
      )
  );
}

/** Where else to look: what is named there is not what the note is about. */
const REFERENCE =
  /[\s,;(]*(?<!\p{L})(?:see also|see|cf\.?|compare|vgl\.?|siehe auch|siehe|s\. a\.|voir aussi|voir) (?:the )?(?:p(?:p|ages?)?\b\.?|S(?:eiten?)?\b\.?|fr(?:ames?)?\b\.?|bild(?:er)?\b|vues?\b|no\b\.?|nr\b\.?) ?\d+[\p{L}]?(?:\s?[-\u2013&,]\s?\d+)*\)?/giu;

/** Why something is so, behind what is so. */
const REASON = /\s(?:because|as|since|due to|owing to|weil|wegen|da|car|parce que|pour cause de)\s.*$/iu;

const AGAIN = /re-?take|re-?film|re-?shot|neuaufnahme|nachaufnahme|wiederholungsaufnahme|reprise/iu;

/** The parts of a clause that may say something alone: a word and its reason, a remark in brackets. */
function partsOf(clause: string): readonly string[] {
  return [clause, ...clause.split(/\s*,\s*|\s+[-\u2013\u2014]\s+|\s*[()]|:\s/)].map((part) => part.replace(REASON, '').trim());
}

/** What one phrase states in a part of a clause; pages that the clause names are those of its parts. */
function stated({ key, pattern, alone: only = false, fact }: Phrase, part: string, clause: string): Stated | null {
  const match = pattern.exec(part);
  if (match === null) return null;
  // A page that the phrase itself names is what is printed, and not the page of which it is said.
  const beside = (text: string): string => text.replace(match[0], ' ');
  const named = OF_PAGES.exec(beside(part));
  const alone = !/[\p{L}\d]/u.test(beside(part).replace(named?.[0] ?? '', ''));
  if (only && !alone) return null;
  const pages = labelsIn((named ?? OF_PAGES.exec(beside(clause)))?.[1] ?? '');
  return { key, wording: wordingOf(match), words: match[0], pages, alone, inPart: isInPart(clause, match[0]), fact: fact(match) };
}

function wordingOf(match: RegExpExecArray): string {
  const parts = match.slice(1).filter((part) => (part as string | undefined) !== undefined && part !== '');
  const text = parts.reduce((rest, part) => rest.replace(part, '\u2026'), match[0]);
  // `2nd edition` and `3rd edition` are one phrase, and so are `retake` and `retake of`.
  return wordKey(text)
    .replace(/\u2026(?:st|nd|rd|th|er|re|ère|ème|de|e|\.)(?!\p{L})/gu, '\u2026')
    .replace(/ (?:of|von|de(?: la)?)$/, '');
}

/** What a reading file says of a phrase: by its wording, else by the key of all that mean the same; undefined for nothing. */
export function saidOf({ phrases }: Ways, key: string, wording: string): 'fact' | 'note' | undefined {
  return phrases.get(wording) ?? phrases.get(key);
}

/** Whether not all of the row is meant: `held back (duplicate)` is, `2 pages held back: 5, 6` is not. */
function isInPart(clause: string, words: string): boolean {
  const rest = clause.replace(words, ' ');
  const said = (text: string): boolean => /[\p{L}\d]/u.test(text.replace(WHOLE, ' '));
  return /\d/.test(rest) || A_PAGE.test(rest) || !partsOf(clause).some((part) => part.includes(words) && !said(part.replace(words, ' ')));
}

/** Words for the issue of the row, as they stand around an order: common practice, no source. */
const WHOLE =
  /(?<!\p{L})(?:(?:the|this|whole|entire|complete|all|issue|is|are|was|to be|to|die|das|dieses?|ganzes?|ganze|gesamte|ausgabe|heft|nummer|wird|ist|le|la|ce|cette|tout|toute|entière?|numéro|édition)(?!\p{L}))+/giu;
const A_PAGE = /(?<!\p{L})(?:pages?|pp?|seiten?|frames?|bild(?:er)?|vues?|supplement|beilage|supplément)(?!\p{L})/iu;

/** What is said of pages, clause by clause: `p. 3 torn, stained` of page 3. A clause that names none is said of all. */
export function saidOfPages(text: string): readonly { readonly pages: readonly string[]; readonly says: string }[] {
  return text.split(CLAUSE).map((clause) => {
    const named = OF_PAGES.exec(clause);
    const pages = labelsIn(named?.[1] ?? '');
    const says = clause.replace(named?.[0] ?? '', ' ').replace(/^[\s:,\u2013-]+|[\s:,\u2013-]+$/gu, '');
    return pages.length === 0 || says === '' || says.includes(':') ? { pages: [], says: clause.trim() } : { pages, says };
  });
}

/** Whether what a text says to be not on the film was published, where it says nothing else, `not filmed`; null for any other text. */
export function absenceSaid(text: string): 'yes' | 'no' | null {
  for (const { pattern, fact } of /\p{L}{3}/u.test(text) ? PHRASES : []) {
    const match = pattern.exec(text);
    const states = match?.[0] === text ? fact(match) : null;
    if (states?.is === 'absent') return states.published;
  }
  return null;
}

/** The labels in a text that names pages and says nothing else: `p. 5`, `3-4`. */
export function pagesNamed(text: string): readonly string[] {
  return labelsIn(OF_PAGES.exec(text)?.[1] ?? text);
}

/** `3-5, 7` as labels. */
function labelsIn(text: string): readonly string[] {
  return text
    .split(/\s*(?:[,;&]|\band\b|\bund\b|\bu\.|\bet\b)\s*/i)
    .flatMap((part) => {
      const [, prefix, from, again, to] = /^([A-Z]{0,2})(\d{1,3})(?:\s*[-\u2013]\s*([A-Z]{0,2})(\d{1,3}))?$/i.exec(part.trim()) ?? [];
      if (from === undefined || prefix === undefined) return [];
      const [first, last] = [Number(from), Number(to ?? from)];
      if (last < first || last - first >= MOST_PAGES || (again !== undefined && again !== '' && again !== prefix)) return [];
      return Array.from({ length: last - first + 1 }, (_, at) => `${prefix}${String(first + at)}`);
    })
    .filter(isNotedLabel);
}
