import { describe, expect, it } from 'vitest';
import type { Repair } from '../../src/model/findings.js';
import { repairInWords } from '../../src/report/repair.js';

const step = (frame: string | null, more: Partial<Repair> = {}): Repair => ({
  do: 'set',
  document: 'a/1879090201.xml',
  element: 'pageModsBib1',
  frame,
  field: 'date',
  from: '1874-09-02',
  to: '1879-09-02',
  ...more,
});

describe("what to mend in the vendor's files, in words", () => {
  it.each<[string, readonly Repair[], readonly string[], string]>([
    [
      'frames that are to get the same stand together, each once',
      [step('24'), step('24'), step('25'), step('27')],
      ['a/1879090201.xml'],
      'frames 24 to 25, 27: date 1874-09-02 becomes 1879-09-02',
    ],
    [
      'a document that the row does not show is named whole',
      [step('24')],
      [],
      'a/1879090201.xml, frame 24: date 1874-09-02 becomes 1879-09-02',
    ],
    [
      'of several documents that the row shows each is called by its last name',
      [step('24'), step('30', { document: 'b/1879090401.xml' })],
      ['a/1879090201.xml', 'b/1879090401.xml'],
      '1879090201.xml, frame 24: date 1874-09-02 becomes 1879-09-02 | 1879090401.xml, frame 30: date 1874-09-02 becomes 1879-09-02',
    ],
    [
      'a place without a frame is named by its element',
      [step(null)],
      ['a/1879090201.xml'],
      'pageModsBib1: date 1874-09-02 becomes 1879-09-02',
    ],
    [
      'a run is several frames',
      [step('20 to 119', { do: 'renumber', document: null, element: null, field: null, from: null, to: '+1' })],
      [],
      'frames 20 to 119: number +1',
    ],
    [
      'a run is several files, whose names say the number again',
      [step('20 to 119', { do: 'renumber', document: null, element: null, field: 'frame file name', from: null, to: '+1' })],
      [],
      'frames 20 to 119: number in the file name +1',
    ],
    [
      'a frame that is held back is counted, and nothing is scanned',
      [step('20', { do: 'add', document: null, element: null, numberedBy: 'record', field: 'frame', from: null, to: null })],
      [],
      'frame 20 of the record: count the frame',
    ],
    [
      'a page that did not come is called by the number of the record, which another frame may bear in the return',
      [step('115', { do: 'add', element: null, numberedBy: 'record', field: null, from: null, to: '1' })],
      ['a/1879090201.xml'],
      'frame 115 of the record: put in as page 1',
    ],
    [
      "what lies there and needs a file is called by the vendor's number",
      [step('114', { do: 'add', element: null, field: 'file', from: null, to: '0114.jp2' })],
      ['a/1879090201.xml'],
      'frame 114: put in the file 0114.jp2',
    ],
    [
      'another place that states a fact is named with it',
      [step(null, { element: null, field: 'date LABEL', from: '1874-09-02', to: '1879-09-02' })],
      ['a/1879090201.xml'],
      'date in the LABEL 1874-09-02 becomes 1879-09-02',
    ],
    [
      'what is not on the film is stated',
      [step(null, { do: 'add', element: null, field: 'absence', from: null, to: 'page 3 absent, published' })],
      ['a/1879090201.xml'],
      'state: page 3 absent, published',
    ],
    [
      'what is too much for a row is counted',
      ['1', '2', '3', '4', '5'].map((to, at) => step(String(at), { field: 'order', from: '9', to })),
      ['a/1879090201.xml'],
      'frame 0: order 9 becomes 1 | frame 1: order 9 becomes 2 | frame 2: order 9 becomes 3 | and 2 more on another sheet',
    ],
  ])('%s', (_, steps, shown, words) => {
    expect(repairInWords(steps, 3, shown, 'on another sheet')).toBe(words);
  });
});
