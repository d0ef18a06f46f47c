import { describe, expect, it } from 'vitest';
import { WEEKDAYS } from '../../src/calendar/civil.js';
import { dayInWords, readWeekday, weekdayLanguages, weekdayName } from '../../src/calendar/weekday-names.js';

/** The weekdays of a language, Monday first, as Unicode CLDR has them in the runtime's own data. */
function cldrNames(language: string, weekday: 'long' | 'short'): readonly string[] {
  // 5 January 1970 was a Monday.
  return WEEKDAYS.map((_, at) => new Intl.DateTimeFormat(language, { weekday, timeZone: 'UTC' }).format(Date.UTC(1970, 0, 5 + at)));
}

describe('readWeekday', () => {
  const languages = ['en', 'de', 'nl', 'fr', 'da', 'sv', 'nb', 'nn', 'es', 'it', 'pt', 'pl', 'cs', 'haw'];

  it.each(languages)('reads the names that CLDR has for %s', (language) => {
    expect(new Intl.DateTimeFormat(language).resolvedOptions().locale).toBe(language);
    for (const [at, name] of cldrNames(language, 'long').entries()) {
      expect([name, readWeekday(name, language)]).toEqual([name, WEEKDAYS[at]]);
      expect([name, readWeekday(name.toUpperCase(), language)]).toEqual([name, WEEKDAYS[at]]);
    }
  });

  it.each(['en', 'fr', 'da', 'sv', 'es', 'it'])('reads the short forms that CLDR has for %s', (language) => {
    for (const [at, name] of cldrNames(language, 'short').entries())
      expect([name, readWeekday(name, language)]).toEqual([name, WEEKDAYS[at]]);
  });

  // Old spellings, from memory.
  it.each([
    ['Sonnabend', 'ger', 'sat'],
    ['Löverdag', 'dan', 'sat'],
    ['Løverdag', 'dan', 'sat'],
    ['Thorsdag', 'swe', 'thu'],
    ['Thirsdag', 'nor', 'tue'],
    ['Vrydag', 'dut', 'fri'],
    ['Poakahi', 'haw', 'mon'],
    ["Po'aha", 'haw', 'thu'],
    ['Lapule', 'haw', 'sun'],
    ['Thurs.', 'eng', 'thu'],
    ['Terça', 'por', 'tue'],
    ['Quinta Feira', 'por', 'thu'],
    ['MIERCOLES', 'spa', 'wed'],
    ['Samſtag', 'ger', 'sat'],
  ] as const)('reads %s in %s as %s', (text, language, expected) => {
    expect(readWeekday(text, language)).toBe(expected);
  });

  it('finds the day in front of what else a nameplate prints', () => {
    expect(readWeekday('Thursday Morning', 'eng')).toBe('thu');
    expect(readWeekday('Donnerstag, den 4. Januar', 'ger')).toBe('thu');
    expect(readWeekday('segunda-feira, 4 de janeiro', 'por')).toBe('mon');
  });

  it('reads without a language only what all languages agree on', () => {
    expect(readWeekday('Donnerstag')).toBe('thu');
    expect(readWeekday('mandag')).toBe('mon');
    // Dutch and Swedish, Danish and Norwegian mean the same; a word that means two days in two languages is not read.
    expect(readWeekday('fredag')).toBe('fri');
    for (const language of ['eng', 'ger']) expect(readWeekday('mardi', language)).toBeNull();
  });

  it.each(['', 'Extra', 'January', 'Someday', '4', '__proto__', 'constructor'])('does not read %j', (text) => {
    expect(readWeekday(text, 'eng')).toBeNull();
    expect(readWeekday(text)).toBeNull();
  });

  it('says nothing in a language that it does not know', () => {
    expect(weekdayLanguages()).not.toContain('xho');
    expect(readWeekday('Thursday', 'xho')).toBeNull();
  });
});

describe('names for people', () => {
  it('writes a day in words', () => {
    expect(WEEKDAYS.map(weekdayName)).toEqual(cldrNames('en', 'long'));
    expect(dayInWords('1900-01-04')).toBe('Thursday 4 January 1900');
    expect(dayInWords('1844-12-31')).toBe('Tuesday 31 December 1844');
    expect(dayInWords('1900-02-29')).toBe('1900-02-29');
  });
});
