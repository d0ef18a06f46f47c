import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { resolveAgreement } from '../../src/judge/agreement.js';
import { verify } from '../../src/verify.js';
import { sideOfPlan, sideOfRecord } from '../support/sides.js';
import { demoAgreement, demoFilm, demoRecord, demoReturn } from './demonstration.js';
import { frameSheet, reelSheet, titleSheet } from './record/frame-sheet.js';

const record = demoRecord();

function verdictOf(which: 'agreeing' | 'faulty') {
  return verify({
    record: sideOfRecord(record),
    returned: sideOfPlan(demoReturn(which).plan),
    others: [],
    agreement: resolveAgreement(demoAgreement(), { pageNumber: 'printed', unnumberedPage: 'omit' }),
    rulings: [],
    earlier: null,
    run: {
      at: '2031-03-04T10:00:00Z',
      received: null,
      batch: 'batch_vzx_tolmouth',
      delivery: 1,
      profile: 'issue-mets',
      inputs: [],
      remarks: [],
    },
    tool: { name: 'reeltally', version: '0' },
  });
}

describe('the demonstration', () => {
  it('is one reel of about 120 frames with two titles and many irregularities', () => {
    const film = demoFilm();
    expect(film.reels.length).toBe(1);
    const shots = film.reels[0]!.shots;
    expect(shots.length).toBeGreaterThanOrEqual(112);
    expect(shots.length).toBeLessThanOrEqual(132);
    expect(new Set(film.issues.map((issue) => issue.title)).size).toBe(2);
    expect(new Set(shots.map((shot) => shot.kind))).toEqual(new Set(['page', 'target', 'blank']));
  });

  it('agrees where the vendor made no mistake', () => {
    const result = verdictOf('agreeing');
    expect(result.findings.map((finding) => [finding.code, finding.at])).toEqual([]);
    expect(result.verdict.decision).toBe('accept');
  });

  it('has a dozen different mistakes in the other return, none of which is lost', () => {
    const { expected } = demoReturn('faulty');
    expect(expected.length).toBeGreaterThanOrEqual(12);
    const found = verdictOf('faulty').findings;
    const missed = expected.filter((each) => !found.some((finding) => finding.code === each.code && finding.at === each.at));
    expect(missed.map((each) => [each.kind, each.at])).toEqual([]);
  });

  it('writes the same bytes every time', () => {
    expect(JSON.stringify(demoReturn('faulty').files)).toBe(JSON.stringify(demoReturn('faulty').files));
  });

  it('writes its record as sheets that a CSV reader understands', () => {
    const rows = parse<Record<string, string>>(frameSheet(record), { columns: true });
    const frames = record.reels.flatMap((reel) => reel.frames);
    const absent = record.reels.flatMap((reel) => reel.absent ?? []);
    expect(rows.length).toBe(frames.length + absent.length);
    expect(rows.slice(0, frames.length).map((row) => [row['frame'], row['page'], row['date printed']])).toEqual(
      frames.map((frame) => [frame.frame, frame.page ?? '', frame.datePrinted ?? '']),
    );
    expect(parse<Record<string, string>>(titleSheet(record), { columns: true }).map((row) => row['name'])).toEqual(
      record.titles.map((title) => title.name),
    );
    expect(parse<Record<string, string>>(reelSheet(record), { columns: true })[0]?.['number']).toBe(record.reels[0]?.number);
  });
});
