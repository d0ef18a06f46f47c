import { describe, expect, it } from 'vitest';
import { dateBounds, readCompactDay, readDate } from '../../src/calendar/edtf.js';

describe('readDate', () => {
  it('takes a plain day as certain', () => {
    expect(readDate('1900-01-04')).toEqual({ text: '1900-01-04', day: '1900-01-04', uncertain: false });
    expect(readDate(' 1900-01-04 ')).toEqual({ text: ' 1900-01-04 ', day: '1900-01-04', uncertain: false });
  });

  // Examples of levels 0 and 1 in the EDTF specification of the Library of Congress, 2019-02-04 (ISO 8601-2:2019, annex A).
  it.each([
    '1985-04',
    '1985',
    '1964/2008',
    '2004-06/2006-08',
    '2004-02-01/2005-02-08',
    '2004-02-01/2005-02',
    '2004-02-01/2005',
    '2005/2006-02',
    'Y170000002',
    'Y-170000002',
    '2001-21',
    '1984?',
    '2004-06~',
    '2004-06-11%',
    '201X',
    '20XX',
    '2004-XX',
    '1985-04-XX',
    '1985-XX-XX',
    '1985-04-12/..',
    '1985-04/..',
    '1985/..',
    '../1985-04-12',
    '../1985-04',
    '../1985',
    '1985-04-12/',
    '1985-04/',
    '1985/',
    '/1985-04-12',
    '/1985-04',
    '/1985',
    '-1985',
  ])('takes %s as uncertain', (text) => {
    expect(readDate(text)).toEqual({ text, day: null, uncertain: true });
  });

  it.each(['1899-01-XX', '1899-01-04?', '1899-01-04~', '1899-01-04%', '1899-07/1899-08'])('takes %s as uncertain', (text) => {
    expect(readDate(text)).toEqual({ text, day: null, uncertain: true });
  });

  it.each([
    '1900-02-29',
    '1900-02-29?',
    '1899-13',
    '1899-13-XX',
    '1899-20',
    '1899-1-4',
    '18990104',
    'January 4, 1899',
    '4.1.1899',
    '1899-01-04 or 05',
    '',
    '?',
    '..',
    '../..',
    '/',
    '1899-01-04/1899-02-30',
    '1899/1900/1901',
    '1X99',
    '1899-X1',
    '1899-XX-04',
    '1899-01-04??',
    '[1899-01-04,1900-01-04]',
    '0'.repeat(100),
  ])('takes %j for no date at all', (text) => {
    expect(readDate(text)).toEqual({ text, day: null, uncertain: false });
  });
});

describe('readCompactDay', () => {
  it('reads eight digits that make a day, and nothing else', () => {
    expect(readCompactDay('18990104')).toBe('1899-01-04');
    for (const text of ['19000229', '1899014', '189901041', '1899-01-04', '1888102']) expect(readCompactDay(text)).toBeNull();
  });
});

describe('dateBounds', () => {
  it.each([
    ['1899-01-04', '1899-01-04', '1899-01-04'],
    ['1899-01-04?', '1899-01-04', '1899-01-04'],
    ['1899-02-XX', '1899-02-01', '1899-02-28'],
    ['1904-02', '1904-02-01', '1904-02-29'],
    ['1899', '1899-01-01', '1899-12-31'],
    ['189X', '1890-01-01', '1899-12-31'],
    ['1899-07/1899-08', '1899-07-01', '1899-08-31'],
  ])('spans what %s can mean', (text, from, to) => {
    expect(dateBounds(text)).toEqual({ from, to });
  });

  it.each(['1899-21', '1899/..', '', 'January', '1900-02-29', '1900/1899', '-0044', 'Y17000'])('has none for %j', (text) => {
    expect(dateBounds(text)).toBeNull();
  });
});
