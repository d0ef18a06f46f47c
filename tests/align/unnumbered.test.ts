import { describe, expect, it } from 'vitest';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { Frame, Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import { verify } from '../../src/verify.js';
import { FAULTS, spoil } from '../forge/faults/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { randomFrom } from '../forge/film/random.js';
import { planOf } from '../forge/plan.js';
import { recordOf } from '../forge/record/record-of.js';
import { countedOn, withFrames } from '../support/counted.js';
import { sideOfPlan, sideOfRecord } from '../support/sides.js';

function verified(record: Side, returned: Side): Findings {
  return verify({
    record,
    returned,
    others: [],
    agreement: resolveAgreement(null, { pageNumber: 'printed', unnumberedPage: 'omit' }),
    rulings: [],
    earlier: null,
    run: { at: '2000-01-01T00:00:00Z', received: null, batch: 'b', delivery: 1, profile: 'issue-mets', inputs: [], remarks: [] },
    tool: { name: 'reeltally', version: '0' },
  });
}

const films = Array.from({ length: 60 }, (_, i) =>
  makeFilm({ seed: i + 1, pages: 90, oddPerMille: 450, ...(i % 4 === 0 ? { reels: 2, titles: 1 } : {}) }),
);
const inferred = (frame: Frame): Frame =>
  frame.frame === null ? frame : { ...frame, frame: { text: '9999', exposure: 9999, half: '', inferred: true } };

describe('a right return that gives no frame numbers, for 60 films with all that is odd on them', () => {
  it('is accepted without a finding, and says once for each reel what could not be compared', () => {
    for (const film of films) {
      const result = verified(sideOfRecord(recordOf(film)), countedOn(sideOfPlan(planOf(film, { targetsListed: film.seed % 3 === 0 }))));
      expect(result.findings).toEqual([]);
      expect(result.verdict.decision).toBe('accept');
      expect(result.unchecked.filter(({ why }) => why.includes('counted on')).map(({ what, required }) => [what, required])).toEqual(
        result.reels.map(({ number }) => [`frame numbers, and what is not delivered between the pages, of reel ${number}`, false]),
      );
    }
  });

  it('shows no number that nobody wrote, and calls what lies between the pages not compared', () => {
    for (const film of films.slice(0, 10)) {
      const result = verified(sideOfRecord(recordOf(film)), countedOn(sideOfPlan(planOf(film))));
      const frames = result.reels.flatMap((reel) => reel.frames);
      expect(frames.every((frame) => frame.returned === null)).toBe(true);
      expect(new Set(frames.filter((frame) => frame.deliver).map((frame) => frame.state))).toEqual(new Set(['agrees']));
      expect(frames.filter((frame) => !frame.deliver && frame.returnedKind === null).every((frame) => frame.state === 'not-compared')).toBe(
        true,
      );
    }
  });

  it('is accepted without a reel number either: the pages of each reel are known by what they show', () => {
    for (const film of films) {
      const record = sideOfRecord(recordOf(film));
      const result = verified(record, countedOn(sideOfPlan(planOf(film)), { reels: true }));
      expect(result.findings).toEqual([]);
      expect(result.verdict.decision).toBe('accept');
      expect(result.unchecked.map(({ what }) => what)).toContain(`the reel number of reel ${record.reels[0]!.text}`);
    }
  });

  it('is accepted where only some documents give none', () => {
    for (const film of films) {
      const returned = withFrames(sideOfPlan(planOf(film)), (frame) =>
        frame.issue !== null && frame.issue % 4 === film.seed % 4 ? inferred(frame) : frame,
      );
      expect(verified(sideOfRecord(recordOf(film)), returned).findings).toEqual([]);
    }
  });

  it('is accepted where the record is of print, whatever numbers the return gives', () => {
    for (const film of films) {
      const record = withFrames(sideOfRecord(recordOf(film)), (frame) => ({ ...frame, frame: { ...frame.frame!, inferred: true } }));
      const returned = withFrames(sideOfPlan(planOf(film)), (frame) =>
        frame.frame === null ? frame : { ...frame, frame: { ...frame.frame, exposure: frame.frame.exposure + 1000, text: 'x' } },
      );
      const result = verified(record, returned);
      expect(result.findings).toEqual([]);
      expect(result.unchecked.some(({ why }) => why.includes('places in a volume'))).toBe(true);
    }
  });
});

describe('a wrong return that gives no frame numbers', () => {
  // what the numbers alone would show is not among them
  const kinds = [
    ['page-skipped', 'page-not-delivered'],
    ['page-not-delivered', 'page-not-delivered'],
    ['page-not-delivered-order-closed', 'page-not-delivered'],
    ['issue-not-delivered', 'issue-not-delivered'],
    ['absent-page-not-stated', 'absence-not-stated'],
    ['torn-page-said-missing', 'absence-stated-wrongly'],
    ['editions-merged', 'issues-merged'],
    ['issues-merged', 'issues-merged'],
    ['issue-split', 'issue-split'],
    ['boundary-late', 'issue-boundary-moved'],
    ['year-misread', 'date-differs'],
    ['date-stuck', 'date-carried-over'],
    ['edition-wrong', 'edition-differs'],
    ['issue-number-wrong', 'issue-number-differs'],
    ['page-number-misread', 'page-number-differs'],
    ['page-numbers-one-on', 'page-numbers-shifted'],
    ['section-misread', 'section-differs'],
    ['same-image-twice', 'same-image-twice'],
    ['both-takes-delivered', 'issue-delivered-twice'],
  ] as const;

  it.each(kinds)('%s is told as %s, once, without a number that nobody wrote', (kind, code) => {
    const fault = FAULTS.find((one) => one.kind === kind)!;
    let planted = 0;
    for (const film of films) {
      const spoilt = spoil(film, fault, randomFrom(film.seed));
      if (spoilt === null) continue;
      planted += 1;
      const { findings } = verified(sideOfRecord(spoilt.record), countedOn(sideOfPlan(spoilt.plan)));
      expect(findings.map((finding) => finding.code)).toEqual([code]);
      expect(findings.map(({ says, instruction }) => `${says} ${instruction ?? ''}`).join()).not.toMatch(/(?<!issue )numbers? \d|\?/);
      if (planted === 4) break;
    }
    expect(planted).toBeGreaterThan(0);
  });

  it('an issue that the record does not know is one finding', () => {
    const plain = makeFilm({ seed: 5, pages: 60, oddPerMille: 0 });
    const fault = FAULTS.find((one) => one.kind === 'issue-unknown-to-record')!;
    const spoilt = spoil(plain, fault, randomFrom(5))!;
    const { findings } = verified(sideOfRecord(spoilt.record), countedOn(sideOfPlan(spoilt.plan)));
    expect(findings.map((finding) => finding.code)).toEqual(['issue-not-in-collation']);
  });

  it('an issue that came twice is one finding', () => {
    const film = films[1]!;
    const returned = sideOfPlan(planOf(film));
    const twice = {
      ...returned,
      issues: [...returned.issues, returned.issues[0]!],
      reels: returned.reels.map((reel) => ({
        ...reel,
        frames: [
          ...reel.frames,
          ...reel.frames.filter((frame) => frame.issue === 0).map((frame) => ({ ...frame, issue: returned.issues.length, files: [] })),
        ],
      })),
    };
    const { findings } = verified(sideOfRecord(recordOf(film)), countedOn(twice));
    expect(findings.map((finding) => finding.code)).toEqual(['issue-delivered-twice']);
  });
});
