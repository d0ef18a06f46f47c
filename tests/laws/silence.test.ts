import { describe, expect, it } from 'vitest';
import { expectedReturn } from '../../src/expect/index.js';
import type { Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import { type Case, caseOf, judged, rightOnes } from './sides.js';
import { FRAME_FACTS, ISSUE_FACTS, type Silenced, withoutFrameFact, withoutIssueFact } from './silent.js';

const heavy = ({ findings }: Findings): readonly string[] => findings.filter(({ severity }) => severity !== 'note').map(({ says }) => says);

/** Everything that a right return can leave out of what it must state, on one page, in one issue and everywhere. */
function silenced({ returned }: Case): readonly (readonly [string, Silenced])[] {
  const pages = FRAME_FACTS.flatMap((fact) =>
    (['page', 'issue', 'everywhere'] as const).map((reach) => [`${fact} ${reach}`, withoutFrameFact(returned, fact, reach)] as const),
  );
  const issues = ISSUE_FACTS.flatMap((fact) =>
    (['issue', 'everywhere'] as const).map((reach) => [`${fact} ${reach}`, withoutIssueFact(returned, fact, reach)] as const),
  );
  return [...pages, ...issues].filter(([, { times }]) => times > 0);
}

describe('silence is never agreement', () => {
  it.each(rightOnes)('%s: what must be stated and is left out is one finding, however often it is, and never accepted', async (name) => {
    const one = await caseOf(name);
    const said = silenced(one).map(([what, { side }]) => {
      const result = judged(one, side);
      return { what, findings: heavy(result).length, accepted: result.verdict.decision === 'accept', says: heavy(result) };
    });
    expect(said.length).toBeGreaterThan(0);
    expect(said.filter(({ findings, accepted }) => findings !== 1 || accepted)).toEqual([]);
  });

  it('leaves a fact that the programme need not state alone where it is left out', async () => {
    const one = await caseOf(rightOnes[0] ?? '');
    const { side } = withoutIssueFact(one.returned, 'edition', 'everywhere');
    expect(heavy(judged(one, side))).toHaveLength(1);
    expect(heavy(judged(one, side, { edition: 'may' }))).toEqual([]);
  });

  it('states in the expected return of every fixture only what the return then states', async () => {
    let musts = 0;
    for (const name of rightOnes.slice(0, 12)) {
      const one = await caseOf(name);
      expect(heavy(judged(one))).toEqual([]);
      const expected = expectedReturn(one.record, one.agreement.policies, {});
      musts += expected.issues.flatMap((issue) => Object.values(issue)).filter(({ needs }) => needs === 'must').length;
    }
    expect(musts).toBeGreaterThan(100);
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
