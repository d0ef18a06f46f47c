import { describe, expect, it } from 'vitest';
import { otherMistake } from '../../src/history/same-batch.js';
import type { CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import { faultOf, spoilAll } from '../forge/faults/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { randomFrom } from '../forge/film/random.js';
import type { ReturnPlan } from '../forge/plan.js';
import { delivered } from './deliveries.js';

/** The part of a return that is on one reel, as a batch of its own. */
function batchOf(plan: ReturnPlan, reel: number): ReturnPlan {
  const captures = plan.reels[reel]!.captures;
  const kept = plan.issues.flatMap((issue, at) => (issue.reel === reel || captures.some((each) => each.issue === at) ? [at] : []));
  return {
    ...plan,
    batch: `${plan.batch}_${plan.reels[reel]!.number}`,
    issues: kept.map((at) => ({ ...plan.issues[at]!, reel: 0 })),
    reels: [
      {
        ...plan.reels[reel]!,
        captures: captures.map((each) => ({ ...each, issue: each.issue === null ? null : kept.indexOf(each.issue) })),
      },
    ],
  };
}

/** The part of a record that is on one reel; `change` may rewrite its frames. */
function recordOfReel(
  record: CollationRecord,
  reel: number,
  change: (frame: FrameEntry) => FrameEntry = (frame) => frame,
): CollationRecord {
  const one = record.reels[reel]!;
  return { ...record, reels: [{ ...one, frames: one.frames.map(change) }] };
}

/** A film on which an issue stands on two reels, with the return in which the vendor delivered it from both, and the return as ordered. */
function overlap() {
  for (let seed = 1; seed < 400; seed++) {
    const film = makeFilm({ seed, pages: 90, oddPerMille: 450, reels: 2, titles: 1 });
    const random = () => randomFrom(seed + 5);
    const both = spoilAll(film, [faultOf('both-reels-delivered')], random());
    const ordered = spoilAll(film, [faultOf('both-reels-delivered')], random(), {}, new Set(['both-reels-delivered']));
    if (both !== null && ordered !== null)
      return { record: both.record, both: both.plan, ordered: ordered.plan, expected: both.expected[0]! };
  }
  throw new Error('no film with an overlap');
}

const { record, both, ordered, expected } = overlap();
const held = record.reels.findIndex((reel) => reel.number === expected.reel);
const right = 1 - held;
const [heldReel, rightReel] = [record.reels[held]!, record.reels[right]!];

/** The overlap as the record has it: the frames to be held back, and nothing that says where their pages are delivered from. */
const inOverlap = (frame: FrameEntry): boolean => frame.deliver === false && frame.duplicateOf?.startsWith(`${rightReel.number}:`) === true;
const unnamed = recordOfReel(record, held, (frame) => {
  if (!inOverlap(frame)) return frame;
  return Object.fromEntries(Object.entries(frame).filter(([key]) => key !== 'duplicateOf')) as unknown as FrameEntry;
});
const frames = heldReel.frames.filter(inOverlap).map(({ frame }) => frame);
const rightBatch = delivered(recordOfReel(record, right), batchOf(both, right));

// Scenario: the same days are on two reels, and the library wants them from one (trade practice; no source but the project's own scenarios).
describe('two batches that share some days', () => {
  it('are each as ordered where the overlap is held back, and that nothing is shared is said', () => {
    const result = delivered(recordOfReel(record, held), batchOf(ordered, held), { others: [rightBatch] });
    expect(result.findings).toEqual([]);
    expect(result.run.remarks).toContain(`No page that came now came in batch ${rightBatch.run.batch} too.`);
  });

  it('have one finding for a run that came from the reel that was to be held back, by the other batch alone', () => {
    expect(frames.length).toBeGreaterThan(0);
    const alone = delivered(unnamed, batchOf(both, held));
    expect(alone.findings.map(({ code }) => code)).not.toContain('delivered-from-both-reels');
    const result = delivered(unnamed, batchOf(both, held), { others: [rightBatch] });
    expect(result.findings.map(({ code, cause, reel, at, count }) => [code, cause, reel, at, count])).toEqual([
      ['delivered-from-both-reels', 'vendor-metadata', heldReel.number, frames[0], frames.length],
    ]);
    expect(result.findings[0]!.evidence.join(' ')).toContain(
      `The same pages came in batch ${rightBatch.run.batch} (delivery 1) from reel ${rightReel.number}, frames `,
    );
  });

  it('leave it to the other batch where this one is right', () => {
    const heldBatch = delivered(unnamed, batchOf(both, held));
    const result = delivered(recordOfReel(record, right), batchOf(both, right), { others: [heldBatch] });
    expect(result.findings).toEqual([]);
    expect(result.run.remarks.join(' ')).toContain('That is for the other batch to correct.');
  });
});

describe('two batches whose records ask for the same pages', () => {
  // The same record with the overlap to be delivered from here too.
  const places = new Map(rightReel.frames.map((frame) => [`${rightReel.number}:${frame.frame}`, frame.order]));
  const greedy = recordOfReel(record, held, (frame) => {
    if (!inOverlap(frame)) return frame;
    const { duplicateOf, ...rest } = frame;
    const order = places.get(duplicateOf!);
    return { ...rest, deliver: true, ...(order === undefined ? {} : { order }) };
  });
  const result = delivered(greedy, batchOf(both, held), { others: [rightBatch] });

  it("have one finding for the run, which is the record's and waits for a ruling", () => {
    expect(result.findings.map(({ code, cause, reel, at, count, status }) => [code, cause, reel, at, count, status])).toEqual([
      ['delivered-from-both-reels', 'collation', heldReel.number, frames[0], frames.length, undefined],
    ]);
    expect(result.verdict.decision).toBe('cannot-decide');
    expect(result.findings[0]!.corrections.map(({ frame, field, to }) => [frame, field, to])).toEqual(
      frames.map((frame) => [frame, 'deliver', 'no']),
    );
  });

  it('have none without the other batch, and none that counts after the ruling', () => {
    expect(delivered(greedy, batchOf(both, held)).findings).toEqual([]);
    const rulings = [
      { finding: result.findings[0]!.id, decision: 'collation-wrong', note: '', by: 'Ilse Marrow', on: '2031-03-05' },
    ] as const;
    expect(delivered(greedy, batchOf(both, held), { others: [rightBatch], rulings }).verdict.decision).toBe('accept');
  });
});

describe('a result named with --other', () => {
  it('is refused where it is of the same batch, or of the same frames under another name', () => {
    const now = delivered(recordOfReel(record, held), batchOf(ordered, held));
    expect(otherMistake(now, now)).toContain('the batch that is verified');
    expect(otherMistake({ ...now, run: { ...now.run, batch: 'batch_again' } }, now)).toContain('this is a result of the same film: frame ');
    expect(otherMistake(rightBatch, now)).toBeNull();
  });
});
