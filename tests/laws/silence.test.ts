import { describe, expect, it } from 'vitest';
import type { Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { caseOf, judged, rightOnes } from './sides.js';
import { silenced } from './silent.js';

const heavy = ({ findings }: Findings): readonly string[] => findings.filter(({ severity }) => severity !== 'note').map(({ says }) => says);

describe('silence is never agreement', () => {
  it.each(rightOnes)('%s: what must be stated and is left out is one finding, however often it is, and never accepted', async (name) => {
    const one = await caseOf(name);
    expect(heavy(judged(one))).toEqual([]);
    const said = silenced(one.written, one.profile, 'must').map(({ what, written }) => {
      const result = judged(one, normaliseReturn(written, one.profile));
      return { what, findings: heavy(result).length, accepted: result.verdict.decision === 'accept', says: heavy(result) };
    });
    expect(said.length).toBeGreaterThan(10);
    expect(said.filter(({ findings, accepted }) => findings !== 1 || accepted)).toEqual([]);
  });

  it('leaves alone what the programme need not state', async () => {
    let tried = 0;
    for (const name of rightOnes) {
      const one = await caseOf(name);
      for (const { what, written } of silenced(one.written, one.profile, 'may')) {
        tried += 1;
        expect([name, what, heavy(judged(one, normaliseReturn(written, one.profile)))]).toEqual([name, what, []]);
      }
    }
    expect(tried).toBeGreaterThan(0);
  });
});

/** What must not be there, put in at one place. */
const PUT_IN: readonly (readonly [string, (side: Side) => Side | null])[] = [
  [
    'a section where the record has none',
    (side) => withOnePage(side, (page) => (page.section === null ? { ...page, section: 'Q' } : null)),
  ],
  ['an edition beyond the first', (side) => withOneIssue(side, (issue) => (issue.edition === 1 ? { ...issue, edition: 7 } : null))],
  [
    'another printed date',
    (side) =>
      withOneIssue(side, (issue) =>
        issue.datePrinted === null ? { ...issue, datePrinted: { text: '1801-02-03', day: '1801-02-03', uncertain: false } } : null,
      ),
  ],
];

function withOnePage(
  side: Side,
  change: (page: Side['reels'][number]['frames'][number]) => Side['reels'][number]['frames'][number] | null,
): Side | null {
  for (const [r, reel] of side.reels.entries()) {
    for (const [f, frame] of reel.frames.entries()) {
      const changed = frame.kind === 'page' ? change(frame) : null;
      if (changed === null) continue;
      const frames = reel.frames.with(f, changed);
      return { ...side, reels: side.reels.with(r, { ...reel, frames }) };
    }
  }
  return null;
}

function withOneIssue(side: Side, change: (issue: Side['issues'][number]) => Side['issues'][number] | null): Side | null {
  for (const [at, issue] of side.issues.entries()) {
    const changed = issue.present ? change(issue) : null;
    if (changed !== null) return { ...side, issues: side.issues.with(at, changed) };
  }
  return null;
}

describe('what must not be there', () => {
  it.each(PUT_IN)('%s is one finding on every fixture that can carry it', async (_, put) => {
    const said: unknown[] = [];
    let tried = 0;
    for (const name of rightOnes) {
      const one = await caseOf(name);
      const side = put(one.returned);
      if (side === null) continue;
      tried += 1;
      const result = judged(one, side);
      if (heavy(result).length !== 1 || result.verdict.decision === 'accept') said.push({ name, says: heavy(result), ...result.verdict });
    }
    expect(tried).toBeGreaterThan(10);
    expect(said).toEqual([]);
  });
});
