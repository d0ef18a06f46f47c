import { describe, expect, it } from 'vitest';
import {
  compareFrameNumbers,
  compareLabels,
  frameKey,
  normaliseLccn,
  pageLabel,
  readFrameNumber,
  reelNumber,
  sameLabel,
  sectionLabel,
  titleId,
  withoutSection,
} from '../../src/normalise/labels.js';

describe('readFrameNumber', () => {
  it('reads exposure and half and keeps the text', () => {
    expect(readFrameNumber('0012A')).toEqual({ text: '0012A', exposure: 12, half: 'A' });
    expect(readFrameNumber('12 b')).toEqual({ text: '12 b', exposure: 12, half: 'B' });
    expect(readFrameNumber('683')).toEqual({ text: '683', exposure: 683, half: '' });
  });

  it.each(['', 'A', '0', '12AB', '-3', '1.5', '1e3', '12-13', '1234567890'])('refuses %j', (text) => {
    expect(readFrameNumber(text)).toBeNull();
  });

  it('orders by exposure, then by half', () => {
    const texts = ['10', '2B', '2A', '2', '9A'];
    const read = texts.map((text) => readFrameNumber(text)!);
    expect(read.sort(compareFrameNumbers).map(frameKey)).toEqual(['2', '2A', '2B', '9A', '10']);
  });
});

describe('section and page labels', () => {
  it.each([
    ['Section A', 'A'],
    ['Sektion B', 'B'],
    ['a', 'A'],
    ['Sect. 2', '2'],
    ['Section  Two', 'TWO'],
    ['Sports', 'SPORTS'],
    ['Second', 'SECOND'],
  ])('%s is section %s', (text, expected) => {
    expect(sectionLabel(text)).toBe(expected);
  });

  it('is null where nothing is written', () => {
    expect(sectionLabel('  ')).toBeNull();
    expect(pageLabel(' \u00a0 ')).toBeNull();
    expect(pageLabel(' 3 \n A ')).toBe('3 A');
  });

  it('takes the section off a page label only where it stands in front of a number', () => {
    expect(withoutSection('A3', 'A')).toBe('3');
    expect(withoutSection('a-3', 'A')).toBe('3');
    expect(withoutSection('3', 'A')).toBe('3');
    expect(withoutSection('B3', 'A')).toBe('B3');
    expect(withoutSection('AB', 'A')).toBe('AB');
    expect(withoutSection('12', '1')).toBe('12');
    expect(withoutSection('1-2', '1')).toBe('2');
    expect(withoutSection('3', null)).toBe('3');
  });

  it('compares labels without zeros in front', () => {
    expect(sameLabel('0012', '12')).toBe(true);
    expect(sameLabel('a003', 'A3')).toBe(true);
    expect(sameLabel('10', '1')).toBe(false);
    expect(['10', '2', 'B1', 'A10', 'A2', '2a'].sort(compareLabels)).toEqual(['2', '2a', '10', 'A2', 'A10', 'B1']);
  });
});

describe('identifiers', () => {
  // Worked examples of the LCCN namespace page of the Library of Congress.
  it.each([
    ['n78-890351', 'n78890351'],
    ['n78-89035', 'n78089035'],
    ['n 78890351 ', 'n78890351'],
    [' 85000002 ', '85000002'],
    ['85-2 ', '85000002'],
    ['2001-000002', '2001000002'],
    ['75-425165//r75', '75425165'],
    [' 79139101 /AC/r932', '79139101'],
    ['sn 83031896', 'sn83031896'],
  ])('LCCN %j is %s', (text, expected) => {
    expect(normaliseLccn(text)).toBe(expected);
    expect(titleId(text)).toBe(expected);
  });

  it('keeps other identifiers as they are', () => {
    expect(normaliseLccn('eksempelavis')).toBeNull();
    expect(titleId(' Eksempel  Avis ')).toBe('Eksempel Avis');
    expect(titleId('')).toBeNull();
  });

  it('compares reel numbers without zeros in front and without case', () => {
    expect(reelNumber('0051701008A')).toBe('51701008a');
    expect(reelNumber(' 14 ')).toBe('14');
    expect(reelNumber('000')).toBe('0');
    expect(reelNumber('  ')).toBeNull();
  });
});
