/** The parts of phrases in notes, as texts of regular expressions: common practice, no source. */

/** What a note states in words, as far as the record has a field for it. */
export type StatedFact =
  | { readonly is: 'condition'; readonly text: string }
  | { readonly is: 'absent'; readonly published: 'yes' | 'no' }
  /** `of` is null where the note does not say which frame. */
  | { readonly is: 'duplicate'; readonly of: string | null }
  | { readonly is: 'retake'; readonly of: string | null }
  | { readonly is: 'held back' }
  /** `-` where nothing is printed. */
  | { readonly is: 'page printed'; readonly label: string }
  /** What is said of the row as a whole, by our columns. */
  | { readonly is: 'says'; readonly facts: readonly (readonly [field: string, text: string])[] }
  | { readonly is: 'issue number'; readonly printed: string }
  /** How many pages a supplement has, or which, as the notation writes them. */
  | { readonly is: 'supplement'; readonly pages: { readonly count: number } | { readonly labels: string } }
  /** A day by one of our columns; its year, or all but its year, may go without saying. */
  | { readonly is: 'day'; readonly field: 'date printed' | 'combined with'; readonly text: string };

/** Phrases in notes that state a fact: common practice, no source. `key` is what a reading file calls the phrase. */
export interface Phrase {
  readonly key: string;
  readonly pattern: RegExp;
  /** Whether the words say it only where the clause says nothing else: `skip` is no order in "the numbers skip from 4 to 6". */
  readonly alone?: boolean;
  readonly fact: (match: RegExpExecArray) => StatedFact;
  readonly means: string;
}

export const FRAME = String.raw`(?:fr(?:ame)?\.? ?|exp(?:osure)?\.? ?|image ?|bild ?|aufnahme ?|vue ?|#)?(\d{1,6}[A-Z]?)\b`;
/** A label, and neither the day of a month nor the first of several. */
export const LABEL = String.raw`["\u201c\u201e]?([A-Z]{0,2}\d{1,3}[a-z]?)["\u201d\u201c]?(?![\p{L}\d]|\s?[-\u2013./]\s?\d|\.? (?:jan|feb|fév|mar|mär|apr|avr|may|mai|jun|jui|jul|aug|aoû|sep|oct|okt|nov|dec|dez|déc))`;
export const PAGE = String.raw`(?:(?:pages?|pp?|Seite|S)\b\.? ?)?`;

/** A word between letters that are none: `\b` knows no accents. What is denied is not said. */
export function word(words: string): RegExp {
  return new RegExp(`(?<!\\p{L})(?<!\\b(?:not|no|never|nicht|kein|keine|non|pas) )(?:${words})(?!\\p{L})`, 'iu');
}

const MONTH = String.raw`(?:jan|feb|fév|mar|mär|mrz|apr|avr|may|mai|jun|jui|jul|aug|aoû|sep|oct|okt|nov|dec|dez|déc)\p{L}{0,7}\.?`;
const MONTH_DAY = String.raw`${MONTH} \d{1,2}(?:st|nd|rd|th)?`;
const DAY_MONTH = String.raw`\d{1,2}(?:st|nd|rd|th|er|\.)? ${MONTH}`;
const IN_FIGURES = String.raw`\d{4}-\d{2}-\d{2}|\d{1,2}[./]\d{1,2}[./](?:\d{4}|\d{2})`;
const YEAR = String.raw`(?:1[5-9]|20)\d\d`;
/** A day, a day of a year that goes without saying, or a year. */
export const DATE = String.raw`["\u201c\u201e]?((?:\p{L}{2,10}\.?,? )?(?:(?:${MONTH_DAY}|${DAY_MONTH})(?:,? ${YEAR})?|${IN_FIGURES})|${YEAR})["\u201d\u201c]?(?![\p{L}\d])`;
export const DATED = [
  String.raw`(?:wrongly |falsely )?(?:mis-?)?dated(?: as| in error| wrongly)?`,
  String.raw`(?:masthead|nameplate|date on (?:the )?paper|date printed|printed date|paper)(?: says| reads| has| gives| is|:)`,
  String.raw`printed(?: as| date)?`,
  String.raw`(?:falsch |fälschlich |fehl)?datiert(?: auf| mit| vom)?(?: den| dem)?`,
  String.raw`datum (?:ist )?falsch(?: gedruckt)?:?`,
  String.raw`(?:kopf|titelkopf|zeitungskopf|gedrucktes datum)(?: sagt| nennt| hat| ist|:)(?: den)?`,
  String.raw`(?:mal )?datée?s?(?: par erreur)?(?: du| de)?`,
  String.raw`(?:l['’]en-tête|le titre|l['’]ours|date imprimée) ?(?:porte|dit|indique|:)(?: le| la date du)?`,
].join('|');

/** The days of the week as they are printed. */
export const WEEKDAY =
  '(?:mon|tues|wednes|thurs|fri|satur|sun)day|(?:mon|diens|donners|frei|sams|sonn)tag|mittwoch|sonnabend|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche';
