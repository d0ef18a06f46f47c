import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICIES } from '../../src/catalogue/agreement.js';
import { instructionsFor, recordToSend } from '../../src/collation/instructions/index.js';
import { expectedReturn } from '../../src/expect/index.js';
import type { Policies } from '../../src/model/agreement.js';
import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../../src/model/collation-record.js';
import type { InstructedReel } from '../../src/model/instructions.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { readRecord } from '../../src/read/record.js';
import { understoodRecord } from '../../src/reading/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { recordOf } from '../forge/record/record-of.js';

const PRINTED: Partial<Policies> = { pageNumber: 'printed', unnumberedPage: 'omit' };

/** What the vendor is told of a record. */
function told(written: CollationRecord, own: Partial<Policies> = PRINTED): readonly InstructedReel[] {
  const { record, side, problems } = normaliseRecord({ records: [{ name: 'r.json', record: written }], sheets: [] });
  expect(problems).toEqual([]);
  const policies = { ...DEFAULT_POLICIES, ...own };
  return instructionsFor(record, side, expectedReturn(side, policies, {}), policies, [], []);
}

/** A record of the invented Tarn Valley Post with these frames on one reel. */
function reelOf(frames: readonly FrameEntry[], absent: readonly AbsentEntry[] = [], facts: Partial<ReelEntry> = {}): CollationRecord {
  const titles = [{ id: 'tv1', name: 'Tarn Valley Post', language: 'eng' }];
  return {
    format: 'reeltally/collation-record/2',
    titles,
    reels: [{ number: '14', ...facts, frames, ...(absent.length > 0 ? { absent } : {}) }],
  };
}

/** An issue of so many pages, from a frame on. */
function issue(date: string, from: number, pages = 4, facts: Partial<FrameEntry> = {}): FrameEntry[] {
  return Array.from({ length: pages }, (_, at) => ({ frame: String(from + at), date, page: String(at + 1), order: at + 1, ...facts }));
}

/** Sentences with their frames in front. */
function sentences(record: CollationRecord, own?: Partial<Policies>): readonly string[] {
  return told(record, own).flatMap(({ instructions }) =>
    instructions.map(({ frames, says }) => (frames === null ? says : `${frames}: ${says}`)),
  );
}

describe('instructions to the vendor', () => {
  it('say nothing of a reel on which all pages lie in order', () => {
    expect(sentences(reelOf([{ frame: '1', kind: 'target' }, ...issue('1899-01-05', 2), { frame: '6', kind: 'blank' }]))).toEqual([]);
  });

  it('say where the numbers of the record pass over a frame', () => {
    const frames = [...issue('1899-01-05', 2), ...issue('1899-01-12', 7), ...issue('1899-01-19', 15)];
    expect(sentences(reelOf([{ frame: '1', kind: 'target' }, ...frames]))).toEqual([
      'frame 7: follows frame 5, and the record has no frame 6: number the frames as they are counted here.',
      'frame 15: follows frame 10, and the record has no frames 11 to 14: number the frames as they are counted here.',
    ]);
  });

  it('begin with what the reel is', () => {
    const frames = [
      { frame: '1', kind: 'target' as const },
      ...issue('1899-01-05', 2, 4, { sourceReel: '12a' }),
      ...issue('1899-01-12', 6, 4, { sourceReel: '12b' }).map((frame, at) => (at === 1 ? { ...frame, reduction: '18x' } : frame)),
    ];
    const [reel] = told(reelOf(frames, [], { boxLabel: 'Post 1899', position: '1A', polarity: 'b', reduction: '15x' }));
    expect(reel?.facts.map(({ name, text }) => `${name}: ${text}`)).toEqual([
      'Box label: Post 1899',
      'Title: Tarn Valley Post (tv1), 1899-01-05 to 1899-01-12, 2 issues',
      'Position: 1A',
      'Polarity: negative',
      'Reduction: 15x; 18x from frame 7 on',
      'Splices: no source reel noted: frame 1; reel 12a: frames 2 to 5; reel 12b: frames 6 to 9; every page carries the number 14',
      'Reading direction: left to right',
      'Frames: 9 (1 to 9)',
      'To deliver: 8 pages',
      'Held back: 1: 1 target (frame 1)',
    ]);
  });

  it.each<[string, CollationRecord, readonly string[], Partial<Policies>?]>([
    [
      'misdated',
      reelOf(issue('1900-01-04', 1, 4, { datePrinted: '1899-01-04', weekdayPrinted: 'Thursday' })),
      ['frames 1 to 4: the paper prints “Thursday, 1899-01-04”; the issue is that of 1900-01-04, a Thursday: give both dates.'],
    ],
    [
      'misdated, the printed date not wanted',
      reelOf(issue('1900-01-04', 1, 1, { datePrinted: '1899-01-04' })),
      ['frame 1: the paper prints “1899-01-04”; the issue is that of 1900-01-04, a Thursday: give the true date alone.'],
      { printedDate: 'never' },
    ],
    [
      'two days',
      reelOf(issue('1899-07-03', 1, 2, { combinedWith: '1899-07-04' })),
      ['frames 1 and 2: one issue for two days, 1899-07-03 and 1899-07-04: date it 1899-07-03; the second day may be given with it.'],
    ],
    [
      'mispaged, a run',
      reelOf(issue('1899-01-05', 1, 4).map((frame, at) => (at < 2 ? frame : { ...frame, pagePrinted: String(at + 7) }))),
      ['frames 3 and 4: printed 9 and 10, are pages 3 and 4: give 9 and 10, as printed.'],
    ],
    [
      'mispaged, the label wanted',
      reelOf(issue('1899-01-05', 1, 3).map((frame, at) => (at === 2 ? { ...frame, pagePrinted: '9' } : frame))),
      ['frame 3: printed 9, is page 3: give 3.'],
      { pageNumber: 'intended' },
    ],
    [
      'misordered',
      reelOf(issue('1899-01-05', 1).map((frame, at) => ({ ...frame, page: ['1', '3', '2', '4'][at] ?? '', order: [1, 3, 2, 4][at] ?? 0 }))),
      ['frames 1 to 4: the pages lie out of order; in their order they are frames 1, 3, 2 and 4.'],
    ],
    [
      'repeated and held back',
      reelOf([
        ...issue('1899-01-05', 1),
        ...issue('1899-01-05', 5).map((f, at) => ({ ...f, deliver: false, duplicateOf: String(at + 1) })),
      ]),
      ['frames 5 to 8: pages 1 to 4 are also on frames 1 to 4: deliver frames 1 to 4 and hold these back.'],
    ],
    [
      'a retake that is the one to deliver',
      reelOf([
        ...issue('1899-01-05', 1).map((f, at) => (at === 2 ? { ...f, deliver: false, condition: ['blurred'] } : f)),
        { frame: '5', date: '1899-01-05', page: '3', order: 3, retakeOf: '3' },
      ]),
      [
        'frames 1, 2, 4 and 5: the pages lie out of order; in their order they are frames 1, 2, 5 and 4.',
        'frame 3: page 3 (blurred) is also on frame 5: deliver frame 5 and hold this one back.',
      ],
    ],
    [
      'held back without a twin',
      reelOf([...issue('1899-01-05', 1), ...issue('1899-01-12', 5, 2, { deliver: false })]),
      ['frames 5 and 6: the whole issue: scan and count, but do not deliver.'],
    ],
    [
      'kept both',
      reelOf([...issue('1899-01-05', 1, 2), { frame: '3', date: '1899-01-05', page: '2', order: 3, duplicateOf: '2' }]),
      ['frames 2 and 3: both show page 2: deliver both, as places 2 and 3 of the issue.'],
    ],
    [
      'not on the film',
      reelOf(issue('1899-01-05', 1, 3), [
        { date: '1899-01-05', page: '4', order: 4, published: 'yes' },
        { date: '1899-01-12', published: 'no' },
        { date: '1899-01-19', published: 'yes' },
        { date: '1899-01-26', published: 'yes' },
      ]),
      [
        'the issues of 1899-01-19 and 1899-01-26 are not on the film (wanting): they need not be named.',
        'page 4 of 1899-01-05 is not on the film (wanting): name it as missing and published.',
        'the issue of 1899-01-12 is not on the film (not published): it need not be named.',
      ],
    ],
    [
      'split',
      reelOf([
        { frame: '1', date: '1899-01-05', page: '1', order: 1 },
        ...['2A', '2B', '3A', '3B'].map((frame, at) => ({ frame, date: '1899-01-05', page: String(at + 2), order: at + 2 })),
      ]),
      [
        'frames 2A to 3B: each exposure holds two pages: cut it in two and number the halves A and B; A is the left half.',
        'frame 1: one page fills the whole exposure: do not cut it.',
      ],
    ],
    [
      'edition filmed before the first',
      reelOf([...issue('1899-01-05', 1, 2, { edition: 2, editionLabel: 'Extra' }), ...issue('1899-01-05', 3, 2)]),
      ['frames 1 and 2: edition 2 of that day (“Extra”), filmed before edition 1: send it as an issue of its own, edition 2.'],
    ],
    [
      'supplement filmed inside',
      reelOf(
        [1, 2, 5, 6, 3, 4].map((order, at) => ({
          frame: String(at + 1),
          date: '1899-01-05',
          order,
          ...(order > 4 ? { page: `S${String(order - 4)}`, supplement: true } : { page: String(order) }),
        })),
      ),
      ['frames 3 and 4: a supplement of the issue, pages S1 and S2, filmed before page 3: put it behind page 4, as places 5 and 6.'],
    ],
    [
      'issue number',
      reelOf(issue('1899-01-05', 1, 2, { issueNumber: '19', issueNumberIntended: '18' })),
      ['frames 1 and 2: the issue is numbered 19, which should be 18: give 19, as printed.'],
    ],
    [
      'another title on the paper',
      reelOf(issue('1899-01-05', 1, 2, { titlePrinted: 'Tarn Post' })),
      ['frames 1 and 2: the paper prints the title “Tarn Post”: give the title Tarn Valley Post (tv1).'],
    ],
  ])('tell what is %s', (_, record, says, own) => {
    expect(sentences(record, { ...PRINTED, ...own })).toEqual(says);
  });

  it('tell first pages without a number once, with what does not follow the rule', () => {
    const days = ['1899-01-05', '1899-01-12', '1899-01-19', '1899-01-26', '1899-02-02'];
    const frames = days.flatMap((date, nth) =>
      issue(date, nth * 4 + 1).map((frame, at) => (at === 0 && nth !== 2 ? { ...frame, pagePrinted: '-' } : frame)),
    );
    expect(sentences(reelOf(frames))).toEqual(['no page number is printed on the first page of an issue, but for frame 9: give none.']);
    expect(sentences(reelOf(frames), { unnumberedPage: 'supply' })).toEqual([
      'no page number is printed on the first page of an issue, but for frame 9: give 1.',
    ]);
    expect(sentences(reelOf(frames), { unnumberedPage: 'either' })).toEqual([]);
  });

  it('name both reels of an issue that goes over', () => {
    const [first, second] = [
      issue('1899-01-05', 811, 2),
      issue('1899-01-05', 1, 2).map((f, at) => ({ ...f, page: String(at + 3), order: at + 3 })),
    ];
    const record = reelOf(first);
    const reels = [...record.reels, { number: '15', frames: second }];
    expect(sentences({ ...record, reels })).toEqual([
      'frames 811 and 812: pages 1 and 2 of an issue that has pages 3 and 4 on reel 15: one issue, not two.',
      'frames 1 and 2: pages 3 and 4 of an issue that has pages 1 and 2 on reel 14: one issue, not two.',
    ]);
  });

  it('leave notes and names of people at home, in the sheet and in the record that goes with it', () => {
    const secret = 'owner wants 900 for it';
    const record = reelOf(
      issue('1900-01-04', 1, 2, { datePrinted: '1899-01-04', datePrintedJudged: 'wrong', judgedBy: secret, note: secret }),
      [{ date: '1900-01-11', published: 'yes', note: secret }],
      { notes: secret },
    );
    expect(JSON.stringify(told(record))).not.toContain(secret);
    expect(JSON.stringify(recordToSend(record))).not.toContain(secret);
    expect(recordToSend(record).reels[0]?.frames[0]).toEqual({
      frame: '1',
      date: '1900-01-04',
      page: '1',
      order: 1,
      datePrinted: '1899-01-04',
      datePrintedJudged: 'wrong',
    });
  });

  it('have a whole sentence for every case of forged films and fixtures', { timeout: 240_000 }, async () => {
    const films = Array.from({ length: 60 }, (_, seed) =>
      recordOf(makeFilm({ seed: seed + 1, pages: 60, oddPerMille: 450, ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}) })),
    );
    const root = new URL('../../fixtures/differs/', import.meta.url).pathname;
    const kept: CollationRecord[] = [];
    for (const name of readdirSync(root)) kept.push(understoodRecord(await readRecord([join(root, name, 'record')])).record);
    const all = [...films, ...kept].flatMap((record) => told(record).flatMap(({ instructions }) => instructions));
    expect(new Set(all.map(({ kind }) => kind)).size).toBeGreaterThan(10);
    const odd = all
      .map(({ frames, says }) => `${frames ?? ''} ${says}`)
      .filter((text) => /undefined|null|NaN|Infinity|\s\s|\.\.|: :|\( ?\)| \.$/.test(text) || !/\.$/.test(text));
    expect(odd).toEqual([]);
  });
});
