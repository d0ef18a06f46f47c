import type { Locale } from 'date-fns';
import { cs } from 'date-fns/locale/cs';
import { da } from 'date-fns/locale/da';
import { de } from 'date-fns/locale/de';
import { enUS } from 'date-fns/locale/en-US';
import { es } from 'date-fns/locale/es';
import { fr } from 'date-fns/locale/fr';
import { it } from 'date-fns/locale/it';
import { nb } from 'date-fns/locale/nb';
import { nl } from 'date-fns/locale/nl';
import { pl } from 'date-fns/locale/pl';
import { pt } from 'date-fns/locale/pt';
import { sv } from 'date-fns/locale/sv';
import type { Weekday } from '../model/collation-record.js';
import { readDay, WEEKDAYS, weekday } from './civil.js';

/** Spellings that a library of today's words lacks, Monday first; old spellings and short forms are from memory. */
type Spellings = readonly [string, string, string, string, string, string, string];

interface Language {
  /** Language codes, ISO 639-2/B first, then /T and ISO 639-1. */
  readonly codes: readonly string[];
  readonly locale: Locale | null;
  readonly others: readonly Spellings[];
}

// Only names are taken from date-fns, never its arithmetic: that works on local instants.
const LANGUAGES: readonly Language[] = [
  {
    codes: ['eng', 'en'],
    locale: enUS,
    others: [
      ['', 'tues', 'weds', 'thurs', '', '', ''],
      ['', 'tu', 'wednes', 'thur', '', 'satur', ''],
    ],
  },
  {
    codes: ['ger', 'deu', 'de', 'gsw', 'nds'],
    locale: de,
    others: [
      ['', '', '', '', '', 'sonnabend', ''],
      ['', '', '', '', '', 'sonnab', ''],
    ],
  },
  {
    codes: ['dut', 'nld', 'nl'],
    locale: nl,
    others: [
      ['', 'dingsdag', '', '', 'vrydag', 'saturdag', ''],
      ['', '', '', 'donderd', '', 'zaturdag', ''],
    ],
  },
  { codes: ['fre', 'fra', 'fr'], locale: fr, others: [] },
  {
    codes: ['dan', 'da'],
    locale: da,
    others: [
      ['', 'thirsdag', '', 'thorsdag', '', 'løverdag', ''],
      ['', 'tirs', '', 'tors', '', '', ''],
    ],
  },
  { codes: ['swe', 'sv'], locale: sv, others: [['', '', '', 'thorsdag', '', 'lögerdag', '']] },
  {
    codes: ['nor', 'no', 'nob', 'nb', 'nno', 'nn'],
    locale: nb,
    others: [
      ['måndag', 'tysdag', '', 'thorsdag', '', 'laurdag', 'sundag'],
      ['', 'thirsdag', '', '', '', 'løverdag', ''],
    ],
  },
  { codes: ['spa', 'es'], locale: es, others: [] },
  { codes: ['ita', 'it'], locale: it, others: [] },
  { codes: ['por', 'pt'], locale: pt, others: [] },
  { codes: ['pol', 'pl'], locale: pl, others: [] },
  { codes: ['cze', 'ces', 'cs'], locale: cs, others: [] },
  {
    codes: ['haw'],
    locale: null,
    others: [
      ['Poʻakahi', 'Poʻalua', 'Poʻakolu', 'Poʻahā', 'Poʻalima', 'Poʻaono', 'Lāpule'],
      ['', '', '', '', '', '', 'Sabati'],
    ],
  },
];

/** The languages whose names are taken from a library, for their other words. */
export const LOCALES: readonly Locale[] = LANGUAGES.flatMap(({ locale }) => locale ?? []);

/** Longest printed text that is looked at for a weekday. */
const LONGEST = 200;

const MONTHS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11] as const;
const SUNDAY_FIRST = [1, 2, 3, 4, 5, 6, 0] as const;

const BY_LANGUAGE = buildIndex();

/** Codes of the languages whose printed weekdays are understood: ISO 639-2 and 639-1. */
export function weekdayLanguages(): readonly string[] {
  return LANGUAGES.flatMap((language) => language.codes);
}

/**
 * Reads a printed weekday such as `Thursday`, `Thurs.` or `Donnerstag, den 4.`; null when it is not understood. Without a
 * language the word counts only where every language that has it means the same day.
 */
export function readWeekday(text: string, language?: string): Weekday | null {
  const folded = fold(text.slice(0, LONGEST));
  // A nameplate often prints more than the day: `Thursday Morning`, `Thursday, January 4`.
  const first = folded.split(/[ ,]/)[0] ?? '';
  const tables = language === undefined || language === '' ? [...new Set(BY_LANGUAGE.values())] : [BY_LANGUAGE.get(language.toLowerCase())];
  for (const word of [folded, first]) {
    const found = new Set(tables.flatMap((table) => table?.get(word) ?? []));
    if (found.size === 1) return [...found][0] ?? null;
  }
  return null;
}

/** The English name of a weekday, such as `Thursday`. */
export function weekdayName(day: Weekday): string {
  return enUS.localize.day(localeDay(WEEKDAYS.indexOf(day)), { width: 'wide' });
}

/** A day as an English reader says it, `Thursday 4 January 1900`; text that is no day is given back as it is. */
export function dayInWords(day: string): string {
  const civil = readDay(day);
  if (civil === null) return day;
  const month = enUS.localize.month(MONTHS[civil.month - 1] ?? 0, { width: 'wide' });
  return `${weekdayName(weekday(day))} ${String(civil.day)} ${month} ${String(civil.year)}`;
}

/** From our Monday-first place to the Sunday-first number that the locales count by. */
function localeDay(index: number): 0 | 1 | 2 | 3 | 4 | 5 | 6 {
  return SUNDAY_FIRST[index] ?? 0;
}

function buildIndex(): ReadonlyMap<string, ReadonlyMap<string, Weekday>> {
  const index = new Map<string, ReadonlyMap<string, Weekday>>();
  for (const { codes, locale, others } of LANGUAGES) {
    const table = new Map<string, Weekday>();
    for (const [at, day] of WEEKDAYS.entries()) {
      const widths =
        locale === null ? [] : (['wide', 'abbreviated'] as const).map((width) => locale.localize.day(localeDay(at), { width }));
      const words = [...widths, ...others.map((spelling) => spelling[at] ?? '')].map(fold);
      for (const word of words) if (word !== '') table.set(word, day);
      // Portuguese papers leave the second half away: `Terça` for `Terça-feira`.
      for (const word of words) if (word.endsWith('feira')) table.set(word.replace(/-?feira$/, ''), day).set(word.replace('-', ' '), day);
    }
    for (const code of codes) index.set(code, table);
  }
  return index;
}

/** Without case, accents, the Hawaiian okina and full stops: how a compositor's founts and a typist's keys differ. */
function fold(text: string): string {
  return text
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[\u0300-\u036f.'’‘ʻ`]/g, '')
    .replaceAll('ø', 'o')
    .replaceAll('ł', 'l')
    .replace(/\s+/g, ' ')
    .trim();
}
