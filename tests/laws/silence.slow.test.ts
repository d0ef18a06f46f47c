import { describe, expect, it } from 'vitest';
import type { Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import type { FactName } from '../../src/model/profile.js';
import type { WrittenIssue, WrittenReturn } from '../../src/model/written-return.js';
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

/** Whether no page or issue at all states a fact any more, those that are said to be missing included. */
const isNowhere = (what: string, written: WrittenReturn): boolean => {
  const fact = (what.split(' ')[0] ?? '') as FactName;
  const parts = what.includes('of the issues') ? written.issues : written.issues.flatMap(({ pages }) => pages);
  return parts.every(({ facts }) => facts[fact] === undefined);
};

describe('what a profile of the library finds nowhere', () => {
  it.each(rightOnes)('%s: it is asked once of the profile, and held against nobody', async (name) => {
    const one = await caseOf(name);
    const own = { ...one, profile: { ...one.profile, own: true as const } };
    const said = silenced(one.written, one.profile, 'must').map(({ what, written }) => {
      const result = judged(own, normaliseReturn(written, own.profile));
      const asked = result.unchecked.filter(({ required }) => required);
      return { what, nowhere: isNowhere(what, written), says: heavy(result), asked: asked.length, decision: result.verdict.decision };
    });
    const nowhere = said.filter((each) => each.nowhere);
    expect(nowhere.length).toBeGreaterThan(2);
    expect(nowhere.filter(({ says, asked, decision }) => says.length > 0 || asked !== 1 || decision !== 'cannot-decide')).toEqual([]);
    // left out on one page of many it is the vendor's, as it is with a built-in profile
    const others = said.filter((each) => !each.nowhere);
    expect(others.filter(({ says, asked, decision }) => says.length + asked !== 1 || decision === 'accept')).toEqual([]);
  });

  it.each(rightOnes)('%s: nor is a date that it cannot read', async (name) => {
    const one = await caseOf(name);
    const profile = { ...one.profile, own: true as const };
    const german = (text: string): string =>
      text.replace(/^(\d{4})-(\d\d)-(\d\d)$/, (_, y: string, m: string, d: string) => `${Number(d)}.${Number(m)}.${y}`);
    const issues = one.written.issues.map((issue) => ({
      ...issue,
      facts: issue.facts.date === undefined ? issue.facts : { ...issue.facts, date: german(issue.facts.date) },
    }));
    const result = judged({ ...one, profile }, normaliseReturn({ ...one.written, issues }, profile));
    expect(heavy(result)).toEqual([]);
    expect(result.verdict.decision).toBe('cannot-decide');
    expect(result.verdict.reasons.join(' ')).toMatch(/the date of the issues .*"D\.M\.YYYY"/);
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

describe('an absence in words that are not agreed', () => {
  it('is one finding that quotes them, for a page and for an issue', async () => {
    let tried = 0;
    for (const name of rightOnes) {
      const one = await caseOf(name);
      for (const written of inOtherWords(one.written)) {
        tried += 1;
        const { findings } = judged(one, normaliseReturn(written, one.profile));
        expect([
          name,
          findings.filter(({ severity }) => severity !== 'note').map(({ code, says }) => [code, says.includes('"fehlt"')]),
        ]).toEqual([name, [['vocabulary-unknown', true]]]);
      }
    }
    expect(tried).toBeGreaterThan(5);
  });
});

/** The return with one of its absences in other words: of a page, and of an issue. */
function inOtherWords(written: WrittenReturn): readonly WrittenReturn[] {
  const said = <T extends { readonly facts: WrittenReturn['issues'][number]['facts'] }>(part: T): T => ({
    ...part,
    facts: { ...part.facts, present: 'fehlt' },
  });
  const changed = (change: (issue: WrittenIssue) => WrittenIssue | null): readonly WrittenReturn[] => {
    const at = written.issues.findIndex((issue) => change(issue) !== null);
    const issue = written.issues[at];
    const other = issue === undefined ? null : change(issue);
    return other === null ? [] : [{ ...written, issues: written.issues.with(at, other) }];
  };
  return [
    ...changed((issue) => {
      const page = issue.pages.findIndex(({ facts }) => facts.frame === undefined && facts.present !== undefined);
      const found = issue.pages[page];
      return found === undefined ? null : { ...issue, pages: issue.pages.with(page, said(found)) };
    }),
    ...changed((issue) => (issue.pages.length === 0 && issue.facts.present !== undefined ? said(issue) : null)),
  ];
}
