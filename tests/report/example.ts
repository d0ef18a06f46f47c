import { CODES } from '../../src/catalogue/codes.js';
import type { Finding, Findings, ResultFrame } from '../../src/model/findings.js';

/** A finding with everything that a test does not care about filled in. */
export function finding(facts: Partial<Finding> & Pick<Finding, 'id' | 'code' | 'severity' | 'says'>): Finding {
  return {
    cause: 'vendor-metadata',
    reel: '00417',
    at: null,
    frames: null,
    count: 1,
    title: 'vz90000001',
    date: null,
    edition: 1,
    page: null,
    field: null,
    collation: null,
    return: null,
    instruction: null,
    evidence: [],
    scope: 'page',
    alternatives: [],
    repair: [],
    corrections: [],
    places: [],
    rescan: 'no',
    billable: [],
    ruling: null,
    answer: null,
    ...facts,
  };
}

/** A page that agrees. */
export const frame = (number: string, facts: Partial<ResultFrame> = {}): ResultFrame => ({
  frame: number,
  returned: number,
  returnedKind: 'page',
  state: 'agrees',
  kind: 'page',
  deliver: true,
  title: 'vz90000001',
  date: '1899-01-05',
  edition: 1,
  section: null,
  page: '1',
  order: 1,
  condition: [],
  sourceReel: null,
  duplicateOf: null,
  files: [{ use: 'master', path: 'vz90000001/00417/1899010501/0001.jp2' }],
  findings: [],
  ...facts,
});

const missedBlank = finding({
  id: 'frame-not-scanned:00417:41',
  code: 'frame-not-scanned',
  severity: 'major',
  cause: 'vendor-image',
  at: '41',
  frames: { from: '42', to: '812' },
  count: 771,
  date: '1899-01-12',
  field: 'frame',
  collation: '42',
  return: '41',
  says: 'Frame 41, a blank between two issues, was left out, and every later frame carries a number one too low.',
  instruction: 'Renumber frames 42 to 812 by +1; no rescan is needed.',
  evidence: ['All pages and dates after it agree.', 'The number stays one too low to the end of the reel.'],
  alternatives: [
    {
      says: 'The record counts a blank that is not on the film.',
      cause: 'collation',
      instruction: 'Look at the film between frames 40 and 42.',
    },
  ],
  corrections: [{ reel: '00417', frame: '41', action: 'remove', field: 'frame', from: '41', to: '' }],
  places: [
    { document: 'vz90000001/00417/1899011201/1899011201.xml', element: 'mods[2]', line: 88 },
    { sheet: 'frames', row: 42 },
  ],
  status: 'open',
});

const twoReels = finding({
  id: 'issue-split:vz90000001:1899-03-04',
  code: 'issue-split',
  severity: 'critical',
  reel: '00417',
  at: '811',
  frames: { from: '811', to: '2', list: ['00417:811', '00417:812', '00418:1', '00418:2'] },
  count: 4,
  date: '1899-03-04',
  says: 'One issue that begins on reel 00417 and ends on reel 00418 was delivered as two issues of the same day.',
  instruction: 'Deliver pages 1 to 4 of 4 March 1899 as one issue, edition 1.',
  billable: [{ class: 'page', change: 0 }],
});

const oldYear = finding({
  id: 'date-differs:vz90000001:1900-01-04:00417:600',
  code: 'date-differs',
  severity: 'critical',
  at: '600',
  frames: { from: '600', to: '603' },
  count: 4,
  date: '1900-01-04',
  field: 'date',
  collation: '1900-01-04',
  return: '1899-01-04',
  says: 'The issue is dated 1899-01-04, which was a Wednesday; the paper prints Thursday.',
  instruction: 'Set the date of this issue to 1900-01-04 and keep 1899-01-04 as the printed date.',
  evidence: ['4 January 1900 was a Thursday.', 'The issues before and after are of 28 December 1899 and 11 January 1900.'],
});

const recordLikelier = finding({
  id: 'page-not-in-collation:00417:after-300',
  code: 'page-not-in-collation',
  severity: 'major',
  cause: 'collation',
  at: '300',
  date: '1899-06-01',
  page: '5',
  says: 'A page 5 was delivered after page 4; the record ends the issue with page 4.',
  instruction: 'Look at the film after frame 300.',
  corrections: [{ reel: '00417', frame: '300', action: 'insert-after', field: 'page', from: '', to: '5' }],
});

const asPrinted = finding({
  id: 'issue-number-differs:vz90000001:1899-02-02',
  code: 'issue-number-differs',
  severity: 'minor',
  at: '101',
  frames: { from: '101', to: '104' },
  count: 4,
  date: '1899-02-02',
  field: 'issueNumber',
  collation: '0019',
  return: '020',
  says: 'The issue number was corrected; the paper prints 0019.',
  instruction: 'Transcribe the issue number as printed: 0019.',
  ruling: { decision: 'accept-as-is', note: 'Both numbers are found in our index.', by: 'Ada Pell', on: '1926-01-10' },
  answer: { text: 'We read it from page 2.', on: '1926-01-08' },
});

/** A realistic saved result of an invented paper, with one of everything that a report has to show. */
export const EXAMPLE: Findings = {
  format: 'reeltally/findings/2',
  tool: { name: 'reeltally', version: '0.1.0' },
  run: {
    at: '1926-01-12T09:30:00Z',
    received: '1926-01-05',
    batch: 'batch_vzx_pilot',
    delivery: 2,
    profile: 'issue-mets',
    inputs: [{ role: 'collation', name: 'reel-00417.csv', sha256: '5'.repeat(64) }],
    remarks: ['The layout was recognised as issue-mets.'],
  },
  agreement: {
    format: 'reeltally/agreement/2',
    library: 'Verrin Coast Record Library, Tolmouth',
    vendor: 'Quillhaven Imaging',
    policies: {
      pageNumber: 'intended',
      unnumberedPage: 'either',
      printedDate: 'required',
      absentPages: 'stated',
      absentIssues: 'either',
      frameNumbers: 'gaps-allowed',
      targets: 'either',
      editionOrder: 'intended',
      splitExposures: 'lettered',
      reelNumber: 'carrier',
      files: 'if-present',
      redelivery: 'whole',
    },
    tolerances: { majorShare: 0.01, minorShare: 0.001 },
    severities: {},
    required: ['pairing', 'deliver', 'title', 'date', 'edition', 'page', 'order'],
    terms: { reviewDays: 21, reviewDayKind: 'calendar', holidays: [], currency: '', payOn: 'accepted', rounding: 'half-up', classes: [] },
    sampling: { plan: 'limiting-quality', level: 'II', aql: '0.65', limitingQuality: '2', risk: '0.1', unit: 'page' },
  },
  verdict: {
    decision: 'return-for-rework',
    reasons: [
      '2 findings are critical and their cause lies with the vendor.',
      'Frame 41 was not scanned, which moves the numbers of 771 frames.',
    ],
  },
  counts: {
    reels: [
      {
        reel: '00417',
        frames: 812,
        kinds: [
          { kind: 'page', deliver: true, count: 640 },
          { kind: 'page', deliver: false, count: 12 },
          { kind: 'blank', deliver: false, count: 160 },
        ],
        absent: 3,
        returned: 811,
        matched: 811,
        unmatched: 1,
      },
    ],
    pagesReturned: 641,
    pagesMatched: 640,
    pagesUnmatched: 1,
    differences: 779,
    findings: 5,
    received: {
      folders: { came: 82, compared: 81, found: 0, unchecked: 1 },
      documents: { came: 82, compared: 82, found: 0, unchecked: 0 },
      sections: { came: 802, compared: 802, found: 0, unchecked: 0 },
      files: { came: 725, compared: 721, found: 1, unchecked: 3 },
    },
    classes: [{ class: 'page', charge: 'scan', record: 640, returned: 641, accepted: 637, disputed: 4 }],
  },
  titles: [{ id: 'vz90000001', name: 'The Tolmouth Lantern', patterns: [{ days: ['thu'] }] }],
  reels: [
    {
      number: '00417',
      absent: [{ title: 'vz90000001', date: '1899-05-11', edition: 1, page: null, published: 'yes' }],
      frames: [
        frame('1'),
        frame('2', { page: '2', order: 2 }),
        frame('41', {
          kind: 'blank',
          deliver: false,
          returned: null,
          returnedKind: null,
          state: 'record-only',
          files: [],
          findings: [missedBlank.id],
        }),
      ],
    },
  ],
  findings: [missedBlank, oldYear, twoReels, recordLikelier, asPrinted],
  record: [],
  corrected: [
    finding({
      id: 'title-differs:1',
      code: 'title-differs',
      severity: 'critical',
      at: '350',
      frames: { from: '350', to: '351' },
      count: 2,
      says: 'Another title.',
    }),
  ],
  unchecked: [{ what: 'Image files', why: 'there are no image files in this copy.', frames: null, places: [], count: 1, required: false }],
  catalogue: CODES.filter((entry) =>
    ['frame-not-scanned', 'date-differs', 'issue-split', 'page-not-in-collation', 'issue-number-differs', 'title-differs'].includes(
      entry.code,
    ),
  ),
};
