import { readRegularity } from '../calendar/regularity.js';
import type { PublicationPattern, ReelEntry, TitleEntry, Weekday } from '../model/collation-record.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { given, imagePosition } from './sheet-entry.js';
import { type Complaints, label, oneOf, quoted, type Row, rowsOf } from './sheet-row.js';

/** Columns of the sheet of titles, in the order in which we write them; `title` may stand for `id`. */
export const TITLE_COLUMNS = [
  'id',
  'name',
  'language',
  'reading direction',
  'calendar',
  'from',
  'to',
  'days',
  'omitted',
  'usual pages',
  'frequency',
  'regularity',
] as const;

/** Columns of the sheet of reels, in the order in which we write them; `reel` may stand for `number`. */
export const REEL_COLUMNS = [
  'number',
  'carrier',
  'position',
  'film base',
  'polarity',
  'generation',
  'reduction',
  'box label',
  'notes',
] as const;

/** What the `days` cell holds for a pattern of no weekdays, such as a monthly's. */
export const NO_DAYS = 'none';

/** What is wrong with such a text, behind it. */
export const NO_REGULARITY =
  'is not a regularity pattern of MARC 21 853 $y, such as pdtu,th,sa (published on these days) or od1225 (omitted on 25 December).';

const DAYS: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** Reads the sheet of titles: a row per title, or several rows of the same id for a title that changed its days of issue. */
export function readTitles(sheet: WrittenSheet, complaints: Complaints): readonly TitleEntry[] {
  const titles = new Map<string, TitleEntry>();
  for (const row of rowsOf(sheet, [...TITLE_COLUMNS, 'title'], complaints)) {
    const id = label(row, 'id') ?? label(row, 'title');
    if (id === undefined) {
      row.complain('id', "the title has no id; write its LCCN or the programme's own identifier.");
      continue;
    }
    const before = titles.get(id);
    const facts = { ...titleFacts(row), ...before, id };
    const patterns = [...(before?.patterns ?? []), ...patternOf(row)];
    titles.set(id, { ...facts, ...given('patterns', patterns.length === 0 ? undefined : patterns) });
  }
  return [...titles.values()];
}

function titleFacts(row: Row): Omit<TitleEntry, 'id'> {
  const language = row.text('language')?.toLowerCase();
  if (language !== undefined && !/^[a-z]{3}$/.test(language))
    row.complain('language', 'is not a language code of three letters (ISO 639-2), such as eng.', quoted(language));
  return {
    ...given('name', row.text('name')),
    ...given('language', language),
    ...given('readingDirection', oneOf(row, 'reading direction', ['ltr', 'rtl'], 'a reading direction')),
    ...given('calendar', row.text('calendar')?.toLowerCase()),
  };
}

function patternOf(row: Row): readonly PublicationPattern[] {
  const fields = ['from', 'to', 'days', 'omitted', 'usual pages', 'frequency', 'regularity'] as const;
  if (fields.every((field) => row.text(field) === undefined)) return [];
  const words = listOf(row, 'days').map((word) => word.toLowerCase());
  const days = words.flatMap((word) => DAYS.find((day) => day === word.slice(0, 3)) ?? []);
  if (days.length < words.length && words.join() !== NO_DAYS)
    row.complain(
      'days',
      `holds a word that is not a weekday; write mon tue wed thu fri sat sun, or ${NO_DAYS}.`,
      quoted(row.text('days') ?? ''),
    );
  if (new Set(days).size < days.length) row.complain('days', 'names a weekday twice.', quoted(row.text('days') ?? ''));
  if (words.length === 0)
    row.complain(
      'days',
      `the row says when the title came out, but not on which weekdays; write them, or ${NO_DAYS} where they are not fixed.`,
    );
  const pages = listOf(row, 'usual pages');
  if (!pages.every((word) => /^[1-9]\d{0,3}$/.test(word)))
    row.complain('usual pages', 'is not a list of numbers of pages, such as 4 8.', quoted(pages.join(' ')));
  const omitted = listOf(row, 'omitted');
  const frequency = row.text('frequency')?.toLowerCase();
  if (frequency !== undefined && !/^[a-z#]$/.test(frequency))
    row.complain(
      'frequency',
      'is not a frequency of MARC 21 008/18; write its letter, such as d for daily or w for weekly.',
      quoted(frequency),
    );
  const regularity = row.text('regularity');
  if (regularity !== undefined && readRegularity(regularity) === null) row.complain('regularity', NO_REGULARITY, quoted(regularity));
  return [
    {
      ...given('from', row.text('from')),
      ...given('to', row.text('to')),
      days,
      ...given('omitted', omitted.length === 0 ? undefined : omitted),
      ...given('usualPages', pages.length === 0 ? undefined : pages.map(Number)),
      ...given('frequency', frequency),
      ...given('regularity', regularity),
    },
  ];
}

function listOf(row: Row, field: string): readonly string[] {
  return (row.text(field) ?? '').split(/[\s,;]+/).filter((word) => word !== '');
}

/** Reads the sheet of reels: a row per carrier. */
export function readReels(sheet: WrittenSheet, complaints: Complaints): readonly Omit<ReelEntry, 'frames'>[] {
  return rowsOf(sheet, [...REEL_COLUMNS, 'reel'], complaints).flatMap((row) => {
    const number = label(row, 'number') ?? label(row, 'reel');
    if (number === undefined) {
      row.complain('number', 'the reel has no number; write the number of the carrier.');
      return [];
    }
    const notes = [row.text('notes'), ...row.others].filter((part) => part !== undefined).join('; ');
    return [
      {
        number,
        ...given('carrier', oneOf(row, 'carrier', ['film', 'print'], 'a carrier')),
        ...given('position', imagePosition(row)),
        ...given('filmBase', row.text('film base')),
        ...given('polarity', row.text('polarity')),
        ...given('generation', row.text('generation')),
        ...given('reduction', row.text('reduction')),
        ...given('boxLabel', label(row, 'box label')),
        ...given('notes', notes === '' ? undefined : notes),
      },
    ];
  });
}
