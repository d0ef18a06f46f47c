import { cs, de, enGB, es, fi, fr, it as italian, nl, pl, pt } from 'date-fns/locale';
import { describe, expect, it } from 'vitest';
import type { Profile } from '../../src/model/profile.js';
import { examples, sourceWords, unfoundWords, wayToRead } from '../../src/normalise/profile-words.js';
import { dateDamage, isDaySlip, labelDamage } from '../../src/normalise/sheet-damage.js';
import { typedLabel } from '../../src/normalise/typed-guess.js';
import { PROFILES } from '../../src/profiles/index.js';

/** The short names of the months as date-fns has them, which takes them from the CLDR; without the point behind them. */
const LANGUAGES = { enGB, de, fr, es, it: italian, pt, nl, cs, pl, fi };
const MONTHS = Object.entries(LANGUAGES).flatMap(([language, { localize }]) =>
  Array.from({ length: 12 }, (_, at) => {
    const name = localize.month(at as Parameters<typeof localize.month>[0], { width: 'abbreviated' });
    return { language, month: at + 1, name: name.replace(/\.$/, '') };
  }),
);
/** Longer ones are shown by no program as a part of a day. */
const isShort = ({ name }: { readonly name: string }): boolean => /^\p{L}{3,6}$/u.test(name);

describe('a label that became a date', () => {
  it.each(MONTHS.filter(isShort))('is told in $language: $name', ({ name, month }) => {
    const guess = month === 2 ? '2-2 or 2-2' : `${String(month)}-2 or 2-${String(month)}`;
    expect([labelDamage(`2-${name}`)?.guess, labelDamage(`02. ${name}. 24`)?.guess]).toEqual([guess, guess]);
    expect(labelDamage(`${name} 88`)?.guess).toBe(`${String(month)}-88`);
  });

  it('is none where the word is no month, or a page is called so', () => {
    for (const label of ['2-abc', 'A-2', 'B 12', '12', '1-2', 'iv', 'mars', '2-ma', '123-jan', 'x2-jan'])
      expect(labelDamage(label)).toBeNull();
  });

  it.each([
    ['1/2/1899', 'turned into a date'],
    ['1.2.99', 'turned into a date'],
    ['1899-01-02', 'turned into a date'],
    ['3E+1', 'turned into a number'],
    ['1.2E-10', 'turned into a number'],
    ['-3', 'a negative number'],
    ['#REF!', 'cannot compute or show'],
    ['####', 'cannot compute or show'],
    ['12.0', 'a decimal point that a program added'],
  ])('or something else: %s', (text, says) => {
    expect(labelDamage(text)?.says).toContain(says);
  });

  it('and what only looks like it is left alone', () => {
    for (const label of ['1/2.99', '1/2/3', 'x1/2/1899', '33E+1', '3E1', '12.5', 'a-3', '#1', '12.', 'x1899-01-02'])
      expect(labelDamage(label)).toBeNull();
    expect(labelDamage('12.00')?.guess).toBe('12');
  });
});

describe('what stands in place of a day', () => {
  it.each([
    ['1900-02-29', 'some spreadsheet programs count it as one'],
    ['1899-02-30', 'a day that never was; write the real day here'],
    ['4.1.1899', 'looks like a date as a spreadsheet program shows it'],
    ['4-Jan-99', 'looks like a date as a spreadsheet program shows it'],
    ['January 4, 1899', 'looks like a date as a spreadsheet program shows it'],
    ['4 January', 'looks like a date as a spreadsheet program shows it'],
    ['36526', 'the number by which a spreadsheet program counts days'],
    ['-12.5', 'the number by which a spreadsheet program counts days'],
    ['unknown', 'is not a date; write YYYY-MM-DD'],
    ['1234567', 'is not a date; write YYYY-MM-DD'],
  ])('is told: %s', (text, says) => {
    expect(dateDamage(text)).toContain(says);
    const isSlip = text.endsWith('-29') || text.endsWith('-30');
    expect(isDaySlip({ file: '', sheet: '', row: 1, column: 'date', says: dateDamage(text) })).toBe(isSlip);
  });
});

describe('what was typed into a cell that became a number or a day', () => {
  const cell = (kind: 'number' | 'date' | 'text', value: string, format: string) =>
    typedLabel({ row: 1, column: 1, address: 'B1', kind, value, format, formula: null }, { date1904: false, program: null });

  // What programs show for a number in a format: ECMA-376 part 1, section 18.8.31. 46024 is 2026-01-02 and 46084 2026-03-03.
  it.each([
    ['1234567', '#,##0', '"1,234,567"'],
    ['123', '#,##0', '"123"'],
    ['7', '000', '"007"'],
    ['0.5', '0%', '"50%"'],
    ['0.5', '# ?/?', '"1/2"'],
    ['1.5', '# ?/?', '"1 1/2"'],
    ['0.333333333', '# ??/??', '"1/3"'],
    ['30', 'General', '"30" or "3E1"'],
    ['1000000', '0.00E+00', '"1E6"'],
    ['-3', 'General', '"(3)" or "-3"'],
    ['12.5', 'General', '"12.5"'],
    ['12.123456789', 'General', null],
    ['', 'General', null],
    ['x', 'General', null],
  ])('%s in the format %s', (value, format, label) => {
    expect(cell('number', value, format)).toBe(label);
  });

  it('as a day, a month of a year, or a time', () => {
    expect([cell('date', '46024', 'd-mmm'), cell('date', '46084', 'd-mmm'), cell('date', '46024', 'mmm-yy')]).toEqual([
      '"1-2" or "2-1"',
      '"3-3" or "3/3"',
      '"1-26" or "1/26"',
    ]);
    expect(cell('date', '46024', 'yyyy"d"')).toBe('"1-26" or "1/26"');
    expect([cell('date', '0.5', 'h:mm'), cell('date', '46024.25', 'd h:mm'), cell('text', '1', 'General')]).toEqual([
      '"12:0"',
      '"6:0"',
      null,
    ]);
  });
});

describe('what a library’s own profile did not find', () => {
  const profile: Profile = { ...PROFILES[0]!, name: 'own' };
  const of = (facts: Partial<Parameters<typeof unfoundWords>[0]>, parts: number): string =>
    unfoundWords({ part: 'issue', fact: 'date', missing: 0, texts: [], ...facts }, parts, profile);

  it('is told with how many lack it', () => {
    expect(of({ missing: 3 }, 3)).toContain(
      ' Nothing stands there in any of 3 issues. Either the profile looks in the wrong place, or the vendor gives no date:',
    );
    expect(of({ missing: 2 }, 3)).toContain(' Nothing stands there in 2 of 3 issues.');
    expect(of({ missing: 1 }, 1)).toContain(' Nothing stands there in any of 1 issue.');
    expect(of({ texts: ['4 Jan'] }, 3)).toMatch(
      / In 1 of 3 issues stands something that this profile does not read as date: "4 Jan"\..* Correct the profile if/,
    );
    expect(of({}, 3)).not.toContain('Nothing stands there');
  });

  it('is told with three examples, and the shapes that would fit', () => {
    expect([examples(['a', 'b', 'a', 'c']), examples(['a', 'b', 'c', 'd', 'e'])]).toEqual(['"a", "b", "c"', '"a", "b", "c" and 2 more']);
    expect(wayToRead('page', ['x'], profile)).toBe('');
    expect(wayToRead('present', ['x'], { ...profile, present: [] })).toBe(' Its words stand under "present": none.');
    expect(wayToRead('present', ['x'], { ...profile, present: [{ text: 'a' }, { text: 'b' }] as unknown as Profile['present'] })).toBe(
      ' Its words stand under "present": "a", "b".',
    );
    const bare: Profile = { ...profile, facts: { ...profile.facts, issue: { date: { sources: [] } } } };
    expect(wayToRead('date', ['unknown'], bare)).toBe(' It reads days written YYYY-MM-DD or YYYYMMDD.');
    expect(wayToRead('date', ['31.12.1899'], bare)).toMatch(
      /^ It reads days written YYYY-MM-DD or YYYYMMDD; the shape "[^"]+" would fit\.$/,
    );
    expect(wayToRead('date', ['01.02.1899'], bare)).toMatch(/; one of the shapes "[^"]+", "[^"]+"(, "[^"]+")* would fit\.$/);
    expect(unfoundWords({ part: 'issue', fact: 'date', missing: 1, texts: [] }, 1, bare)).toContain('looks for it in nowhere.');
  });

  it('is told with the place in the words of the profile', () => {
    const source = (facts: object): string => sourceWords(facts as Parameters<typeof sourceWords>[0]);
    expect(sourceWords('of the page')).toBe('section of the page');
    expect(source({ in: 'folder', up: 2, pattern: 'a' })).toBe('folder, 2 up with a');
    expect(source({ in: 'constant', text: 'x"y' })).toBe('constant "x\\"y"');
    expect(source({ in: 'file-name', pattern: ['a', 'b'] })).toBe('file-name with a or b');
    expect(source({ in: 'count' })).toBe('count');
    expect(source({ in: 'mods', path: 'titleInfo/title' })).toBe('mods titleInfo/title');
  });
});
