import type { Cell, Sheet } from './workbook.fods.js';

/** An invented workbook of two reels with all that people put around their data: titles, grouped and merged heads, ditto marks, days of every kind, a formula, sums, a legend, a calendar, a hidden list. */
export const WORKBOOK: readonly Sheet[] = [
  {
    name: 'Reel 14',
    rows: [
      [{ text: 'Tarn Valley papers: collation of the film', wide: 9 }],
      ['Collated by Ada Pell, spring 2031'],
      [],
      ['Exp.', 'Paper', { text: 'Date', wide: 2 }, null, 'Vol./No.', { text: 'Page', wide: 2 }, null, 'What', 'Remarks'],
      [null, null, 'real', 'printed', null, 'label', 'printed', null, null],
      [1, 'Beacon', null, null, null, null, null, 'start target', null],
      [2, 'Beacon', { text: '13/1/1899', high: 2 }, null, '8/283', '1', null, 'page', null],
      [{ number: 3, formula: 'of:=[.A7]+1' }, '"', null, null, null, '2', null, 'page', 'torn at the top'],
      [4, '"', '13/1/1899', null, null, '3 i.e. 4', null, 'page', null],
      ['continued on the next sheet of paper'],
      [5, 'Beacon', '20/1/1899', null, '8/284', '1', null, 'page', null],
      [6, 'do.', '20/1/1899', '20/1/1898', null, '2', '-', 'page', null],
      ['Total', { number: 6, formula: 'of:=COUNT([.A6:.A12])' }],
    ],
  },
  {
    name: 'Reel 15',
    rows: [
      ['Exp.', 'Paper', 'Date real', 'Date printed', 'Vol./No.', 'Page label', 'Page printed', 'What', 'Remarks'],
      [1, 'Mercury', { day: '1901-03-07' } satisfies Cell, null, 'Vol. 2, No. 12', 1, null, 'page', null],
      [2, 'Mercury', { day: '1901-03-07' } satisfies Cell, null, null, 2, null, 'page', null],
      [3, 'Mercury', '14 March 1901', null, 'Vol. 2, No. 13', 1, null, 'page', null],
      [4, null, null, null, null, null, null, 'bad frame', null],
      [null, 'Mercury', '21 March 1901', null, null, null, null, 'missing', 'wanting'],
    ],
  },
  {
    name: 'Legend',
    rows: [
      ['start target', 'what the camera operator put in front'],
      ['bad frame', 'spoilt'],
    ],
  },
  {
    name: '1901',
    rows: [
      ['Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa', 'Su'],
      [null, 1, 2, 3, 4, 5, 6],
      [7, 8, 9, 10, 11, 12, 13],
    ],
  },
  {
    name: 'titles',
    hidden: true,
    rows: [
      ['LCCN', 'Title name', 'language'],
      ['sn90000001', 'Tarn Valley Beacon', 'eng'],
      ['sn90000002', 'Upper Tarn Mercury', 'eng'],
    ],
  },
];

/** What the film holds: reel, frame, kind, title, date, page, page printed, volume and issue number. */
export const FRAMES: readonly (readonly (string | undefined)[])[] = [
  ['14', '1', 'target', 'sn90000001', undefined, undefined, undefined, undefined],
  ['14', '2', 'page', 'sn90000001', '1899-01-13', '1', undefined, '8/283'],
  ['14', '3', 'page', 'sn90000001', '1899-01-13', '2', undefined, undefined],
  ['14', '4', 'page', 'sn90000001', '1899-01-13', '4', '3', undefined],
  ['14', '5', 'page', 'sn90000001', '1899-01-20', '1', undefined, '8/284'],
  ['14', '6', 'page', 'sn90000001', '1899-01-20', '2', '-', undefined],
  ['15', '1', 'page', 'sn90000002', '1901-03-07', '1', undefined, '2/12'],
  ['15', '2', 'page', 'sn90000002', '1901-03-07', '2', undefined, undefined],
  ['15', '3', 'page', 'sn90000002', '1901-03-14', '1', undefined, '2/13'],
  ['15', '4', 'void', undefined, undefined, undefined, undefined, undefined],
];
