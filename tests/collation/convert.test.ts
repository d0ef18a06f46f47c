import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convertRecord, convertToWorkbook, type RecordForm } from '../../src/collation/convert.js';
import { settledRecord } from '../../src/collation/settled.js';
import type { AbsentEntry, CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import { type NormalisedRecord, normaliseRecord } from '../../src/normalise/record.js';
import { parseJson } from '../../src/read/json.js';
import { readCsv } from '../../src/read/sheet-csv.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { demoRecord } from '../forge/demonstration.js';
import { makeFilm } from '../forge/film/make-film.js';
import { recordOf } from '../forge/record/record-of.js';

/** The record as the program understands it. */
function understood(record: CollationRecord): NormalisedRecord {
  return normaliseRecord({ records: [{ name: 'r.json', record }], sheets: [] });
}

/** Files of a conversion, read from their bytes. */
function readBack(files: readonly { readonly name: string; readonly text: string }[]): NormalisedRecord {
  const json = files.filter(({ name }) => name.endsWith('.json'));
  const csv = files.filter(({ name }) => name.endsWith('.csv'));
  return normaliseRecord({
    records: json.map(({ name, text }) => ({ name, record: parseJson(text, name, 'collation-record') })),
    sheets: csv.map(({ name, text }) => readCsv(Buffer.from(text, 'utf8'), name)),
  });
}

/** A record of the invented Tarn Valley with these frames and absences on one reel. */
function recordWith(frames: readonly FrameEntry[], absent: readonly AbsentEntry[] = []): CollationRecord {
  return {
    format: 'reeltally/collation-record/2',
    titles: [{ id: 'tv1' }],
    reels: [{ number: '14', frames, ...(absent.length > 0 ? { absent } : {}) }],
  };
}

const text = fc
  .string({ unit: fc.constantFrom(...Array.from('abÀß 0123456789-=+@\'",;:/()[]#.\n\t')), minLength: 1, maxLength: 12 })
  .filter((value) => value.trim() !== '');
const day = fc
  .integer({ min: 0, max: 20_000 })
  .map((number) => new Date(Date.UTC(1850, 0, 1) + number * 86_400_000).toISOString().slice(0, 10));
const uncertain = fc.constantFrom('1899-01-XX', '1899-01-04?', '1899');
const half = fc.constantFrom('', 'A', 'B');

/** Leaves some of the fields away. */
const some = <T extends object>(fields: { [K in keyof T]: fc.Arbitrary<T[K]> }): fc.Arbitrary<Partial<T>> =>
  fc.record(fields, { requiredKeys: [] }) as fc.Arbitrary<Partial<T>>;

/** The second day of a combined issue lies behind the first. */
const withSecondDay = fc.tuple(fc.oneof({ weight: 9, arbitrary: day }, uncertain), fc.boolean()).map(([date, combined]) => ({
  date,
  ...(combined && /^\d{4}-\d\d-\d\d$/.test(date) ? { combinedWith: `${String(Number(date.slice(0, 4)) + 1)}-01-01` } : {}),
}));

const anyFrame = fc.tuple(
  fc.tuple(withSecondDay, fc.constantFrom('tv1', 'sn 99-2')).map(([dates, title]) => ({ ...dates, title })),
  some<Omit<FrameEntry, 'frame'>>({
    kind: fc.constantFrom('page', 'page', 'blank', 'target', 'void', 'other'),
    deliver: fc.boolean(),
    datePrinted: text,
    datePrintedJudged: fc.constantFrom('right', 'wrong', 'unclear'),
    judgedBy: text,
    weekdayPrinted: text,
    titlePrinted: text,
    edition: fc.integer({ min: 1, max: 999 }),
    editionLabel: text,
    volume: text,
    issueNumber: text,
    issueNumberIntended: text,
    section: text,
    supplement: fc.boolean(),
    page: text,
    pagePrinted: fc.oneof(text, fc.constant('-')),
    order: fc.integer({ min: 1, max: 9999 }),
    duplicateOf: fc.constantFrom('1', '0012A', '15:3'),
    retakeOf: fc.constantFrom('2', '15:4B'),
    sourceReel: text,
    position: fc.constantFrom('1A', '2B'),
    reduction: text,
    condition: fc.array(fc.constantFrom('torn', 'creased', 'out of focus'), { minLength: 1, maxLength: 3 }),
    note: text,
  }),
  half,
);

const anyAbsence = fc.record(
  {
    date: day,
    title: fc.constantFrom('tv1', 'sn 99-2'),
    edition: fc.integer({ min: 1, max: 9 }),
    section: text,
    page: text,
    order: fc.integer({ min: 1, max: 9999 }),
    published: fc.constantFrom('yes' as const, 'no' as const, 'unknown' as const),
    note: text,
  },
  { requiredKeys: ['date', 'title'] },
);

const anyRecord: fc.Arbitrary<CollationRecord> = fc
  .array(fc.tuple(fc.array(anyFrame, { minLength: 1, maxLength: 6 }), fc.array(anyAbsence, { maxLength: 3 })), {
    minLength: 1,
    maxLength: 3,
  })
  .map((reels) => ({
    format: 'reeltally/collation-record/2' as const,
    titles: [
      {
        id: 'tv1',
        name: 'Tarn Valley Beacon',
        language: 'eng',
        calendar: 'julian-until 1752-09-02',
        patterns: [
          { days: ['thu' as const], omitted: ['12-25', '1899-07-04'], usualPages: [4, 8], frequency: 'w' },
          { from: '1900-01-01', days: [], frequency: 'm', regularity: 'om01,07' },
        ],
      },
      { id: 'sn 99-2', readingDirection: 'rtl' as const },
    ],
    reels: reels.map(([frames, absent], reel) => ({
      number: `00${String(reel + 1)}`,
      carrier: reel === 1 ? ('print' as const) : ('film' as const),
      position: '2B' as const,
      boxLabel: `0${String(reel)} / TARN`,
      notes: 'boxed; damp',
      frames: frames.map(([issue, fields, letter], at) => ({ ...issue, ...fields, frame: `${String(at + 1)}${letter}` })),
      ...(absent.length > 0 ? { absent } : {}),
    })),
  }));

describe('conversion', () => {
  it.each<RecordForm>(['json', 'frame-sheet'])('into %s brings back any record that can be used, or says why not', (form) => {
    let kept = 0;
    fc.assert(
      fc.property(anyRecord, (written) => {
        const { record, problems } = understood(written);
        if (problems.length > 0) return;
        const { files, refusals } = convertRecord(record, form);
        if (form === 'json') expect(refusals).toEqual([]);
        if (files.length === 0) {
          expect(refusals.length).toBeGreaterThan(0);
          return;
        }
        kept += 1;
        const back = readBack(files);
        expect(back.problems).toEqual([]);
        expect(back.record).toEqual(record);
      }),
      { numRuns: 300 },
    );
    expect(kept).toBeGreaterThan(100);
  });

  it('into a workbook brings back any record that can be used, or says why not', async () => {
    let kept = 0;
    await fc.assert(
      fc.asyncProperty(anyRecord, async (written) => {
        const { record, problems } = understood(written);
        if (problems.length > 0) return;
        const { sheets, refusals } = convertToWorkbook(record, 'frame-sheet');
        // Nothing is lost without a word, and never both.
        expect(sheets.length > 0).toBe(refusals.length === 0);
        if (sheets.length === 0) return;
        kept += 1;
        const bytes = Buffer.from(await writeTables(sheets));
        const back = normaliseRecord({ sheets: readXlsx(bytes, 'record.xlsx'), records: [] });
        expect(back.problems).toEqual([]);
        expect(back.record).toEqual(record);
      }),
      { numRuns: 120 },
    );
    expect(kept).toBeGreaterThan(40);
  });

  it('into a workbook names a text that is too long for a cell', () => {
    const { record: long } = understood(
      recordWith([{ frame: '1', title: 'tv1', date: '1900-01-04', page: '1', note: 'x'.repeat(32_768) }]),
    );
    expect(convertToWorkbook(long, 'frame-sheet')).toEqual({
      sheets: [],
      refusals: ['frames, row 2, column note: the text has 32768 characters; a cell of a workbook holds at most 32767.'],
    });
    expect(convertRecord(long, 'frame-sheet').refusals).toEqual([]);
  });

  it.each<RecordForm>(['json', 'frame-sheet', 'issue-sheet'])(
    'into %s brings back the demonstration and twenty invented films, or says why not',
    (form) => {
      const records = [demoRecord(), ...Array.from({ length: 20 }, (_, seed) => recordOf(makeFilm({ seed: seed + 1, pages: 40 })))];
      for (const written of records) {
        const { record } = understood(written);
        const { files, refusals } = convertRecord(record, form);
        if (files.length === 0) {
          expect(form).toBe('issue-sheet');
          expect(refusals.every((says) => /^(reel|title) /.test(says))).toBe(true);
          continue;
        }
        const back = readBack(files);
        expect(back.problems).toEqual([]);
        expect(settledRecord(back.record)).toEqual(settledRecord(record));
      }
    },
  );
});

/** Issues as they lie on film: pages in some order, duplicates held back, pages wanting, blanks between, halves. */
const issueFilm = fc
  .array(
    fc.record({
      day: fc.integer({ min: 1, max: 28 }),
      edition: fc.integer({ min: 1, max: 2 }),
      facts: some<Omit<FrameEntry, 'frame'>>({ datePrinted: text, editionLabel: text, volume: text, issueNumber: text, note: text }),
      section: fc.constantFrom('', 'A', 'B'),
      pages: fc.array(
        fc.record({
          number: fc.integer({ min: 1, max: 9 }),
          held: fc.boolean(),
          again: fc.boolean(),
          printed: fc.constantFrom(undefined, undefined, '-', '8 bis', '1,2'),
        }),
        { minLength: 1, maxLength: 6 },
      ),
      before: fc.array(fc.constantFrom('blank' as const, 'target' as const, 'void' as const), { maxLength: 3 }),
      jump: fc.integer({ min: 0, max: 2 }),
      halves: fc.boolean(),
    }),
    { minLength: 1, maxLength: 5 },
  )
  .map((issues): CollationRecord => {
    const frames: FrameEntry[] = [];
    let exposure = 0;
    for (const { day: date, edition, facts, section, pages, before, jump, halves } of issues) {
      exposure += jump;
      for (const kind of before) frames.push({ frame: String((exposure += 1)), kind });
      const { note, ...rest } = facts;
      for (const [at, { number, held, again, printed }] of pages.entries()) {
        if (!halves || at % 2 === 0) exposure += 1;
        frames.push({
          frame: `${String(exposure)}${halves ? (at % 2 === 0 ? 'A' : 'B') : ''}`,
          title: 'tv1',
          date: `1900-01-${String(date).padStart(2, '0')}`,
          edition,
          ...rest,
          ...(section === '' ? {} : { section }),
          page: `${section}${String(number)}`,
          ...(printed === undefined ? {} : { pagePrinted: printed }),
          ...(held ? { deliver: false } : {}),
          ...(held || again ? { duplicateOf: '15:1' } : {}),
          ...(at === 0 && note !== undefined ? { note } : {}),
        });
      }
    }
    return recordWith(frames);
  });

describe('conversion into an issue sheet', () => {
  it('brings back any film of issues', () => {
    let kept = 0;
    fc.assert(
      fc.property(issueFilm, (written) => {
        const { record, problems } = understood(written);
        if (problems.length > 0) return;
        const { files, refusals } = convertRecord(record, 'issue-sheet');
        // Texts that a sheet of any form would change are refused; everything else has to fit.
        if (files.length === 0) {
          expect(refusals.join('\n')).toMatch(/is probably a label|is a number with a decimal point|is what a spreadsheet program shows/);
          return;
        }
        kept += 1;
        const back = readBack(files);
        expect(back.problems).toEqual([]);
        expect(settledRecord(back.record)).toEqual(settledRecord(record));
      }),
      { numRuns: 500 },
    );
    expect(kept).toBeGreaterThan(300);
  });

  it('writes what a coordinator would write', () => {
    const issue = { title: 'tv1', date: '1900-01-04', volume: '3', issueNumber: '12' };
    const frames: FrameEntry[] = [
      { frame: '1', kind: 'target' },
      { frame: '2', kind: 'blank' },
      { frame: '3', ...issue, page: '1' },
      { frame: '4', ...issue, page: '2', condition: ['torn', 'out of focus'] },
      { frame: '5', ...issue, page: '3' },
      { frame: '6', ...issue, page: '3', deliver: false, duplicateOf: '5' },
      { frame: '7', kind: 'void' },
      { frame: '8', ...issue, page: '5', pagePrinted: '6', condition: ['torn'] },
      { frame: '9', ...issue, page: '6' },
      { frame: '10A', ...issue, page: '7', pagePrinted: '-' },
      { frame: '10B', ...issue, page: '8', pagePrinted: '-' },
      { frame: '12', ...issue, date: '1900-01-11', section: 'A', page: 'A1', note: 'late' },
      { frame: '13', ...issue, date: '1900-01-11', section: 'A', page: 'A2' },
      { frame: '14', ...issue, date: '1900-01-11', section: 'A', page: 'A2', duplicateOf: '13' },
      { frame: '15', ...issue, date: '1900-01-11', section: 'A', page: 'A2', deliver: false, duplicateOf: '13' },
    ];
    const absent: AbsentEntry[] = [
      { title: 'tv1', date: '1900-01-04', page: '4', published: 'yes' },
      { title: 'tv1', date: '1900-01-18', published: 'no', note: 'strike' },
      { title: 'tv1', date: '1900-01-25', page: '3', published: 'unknown' },
      { title: 'tv1', date: '1900-01-25', page: '4', published: 'unknown' },
    ];
    const { files, refusals } = convertRecord(understood(recordWith(frames, absent)).record, 'issue-sheet');
    expect(refusals).toEqual([]);
    expect(files.map(({ name }) => name)).toEqual(['issues.csv', 'titles.csv', 'reels.csv']);
    expect(files[0]?.text.split('\r\n')).toEqual([
      '\ufeffreel,first frame,title,date,combined with,date to,date printed,date printed judged,judged by,weekday printed,title printed,edition,edition label,volume,issue number,issue number intended,source reel,supplement,pages,condition,published,note',
      '14,,,,,,,,,,,,,,,,,,"t,_",,,',
      '14,3,tv1,\'1900-01-04,,,,,,,,1,,3,12,,,,"1-3,x3,v,[4],5(6),6,@10A,7-8(-)","2: torn, out of focus; 5: torn",,',
      '14,12,tv1,\'1900-01-11,,,,,,,,1,,3,12,,,,"A1-A2,dA2,xA2",,,late',
      "14,,tv1,'1900-01-25,,,,,,,,1,,,,,,,[3-4?],,,",
      "14,,tv1,'1900-01-18,,,,,,,,1,,,,,,,,,no,strike",
      '',
    ]);
  });

  const page: FrameEntry = { frame: '1', date: '1900-01-04', page: '1' };
  it.each<[string, readonly FrameEntry[], readonly AbsentEntry[], string]>([
    [
      'damage in words of a list',
      [{ ...page, condition: ['a: torn'] }],
      [],
      'cannot hold a condition with a colon, comma or semicolon in it',
    ],
    ['a retake', [{ ...page, retakeOf: '9' }], [], 'an issue sheet cannot hold the retake of of a page.'],
    ['a new position of the image', [{ ...page, position: '2A' }], [], 'an issue sheet cannot hold the position of a page.'],
    ['a new reduction', [{ ...page, reduction: '18x' }], [], 'an issue sheet cannot hold the reduction of a page.'],
    ['a section that is not in the label', [{ ...page, section: 'A' }], [], 'cannot hold page "1" of section "A"'],
    ['a letter that is not a section', [{ ...page, page: 'S1' }], [], 'an issue sheet reads page "S1" as one of section S'],
    ['a label that is a sign', [{ ...page, page: 't' }], [], 'cannot hold the page label "t"'],
    ['a label that begins as if held back', [{ ...page, page: 'xi' }], [], 'cannot hold the page label "xi"'],
    ['a label that begins as if it were a duplicate', [{ ...page, page: 'd1' }], [], 'cannot hold the page label "d1"'],
    ['a label that is a range', [{ ...page, page: '1-2' }], [], 'cannot hold the page label "1-2"'],
    ['a page without a label', [{ frame: '1', date: '1900-01-04' }], [], 'cannot hold a page without a label'],
    ['brackets in what is printed', [{ ...page, pagePrinted: '(1)' }], [], 'cannot hold brackets in what is printed'],
    ['an order of its own', [{ ...page, order: 5 }], [], 'reel 14, frame 1: the order 5 would come back as 1.'],
    [
      'a duplicate without its partner',
      [page, { ...page, frame: '2', deliver: false }],
      [],
      'reel 14, frame 2: the duplicate of that is left out would come back as "1".',
    ],
    ['another kind of frame', [page, { frame: '2', kind: 'other' }], [], 'has no sign for the kind "other"'],
    ['a target that is delivered', [page, { frame: '2', kind: 'target', deliver: true }], [], 'not a page and is delivered'],
    [
      'a target with a date',
      [page, { frame: '2', kind: 'target', date: '1900-01-04' }],
      [],
      'cannot hold the date of a frame that is not a page',
    ],
    ['a third half', [{ ...page, frame: '1C' }], [], 'only the halves A and B'],
    [
      'a note about an absent page',
      [page],
      [{ date: '1900-01-04', page: '2', note: 'clipped' }],
      'absence of 1900-01-04: an issue sheet cannot hold a note',
    ],
    ['an absence without a label', [page], [{ date: '1900-01-04', order: 2 }], 'cannot hold the order of an absence without a page label'],
  ])('refuses %s by name', (_, frames, absent, says) => {
    const { record, problems } = understood(recordWith(frames, absent));
    expect(problems).toEqual([]);
    const { files, refusals } = convertRecord(record, 'issue-sheet');
    expect(files).toEqual([]);
    expect(refusals.join('\n')).toContain(says);
  });
});

describe('conversion into a frame sheet', () => {
  it('refuses a condition that a list cannot hold, by name', () => {
    const { record } = understood(recordWith([{ frame: '1', date: '1900-01-04', page: '1', condition: ['torn, taped'] }]));
    expect(convertRecord(record, 'frame-sheet')).toEqual({
      files: [],
      refusals: ['reel 14, frame 1: the condition ["torn, taped"] would come back as ["torn","taped"].'],
    });
  });

  it('guards what a spreadsheet program would change', () => {
    const { record } = understood(recordWith([{ frame: '0001', date: '1900-01-04', page: '1', pagePrinted: '1-2', note: '=1+1' }]));
    const { files } = convertRecord(record, 'frame-sheet');
    expect(files[0]?.text).toContain("14,'0001,,,,'1900-01-04,,");
    expect(files[0]?.text).toContain(",'1-2,");
    expect(files[0]?.text).toContain(",'=1+1\r\n");
    expect(readBack(files).record).toEqual(record);
  });
});
