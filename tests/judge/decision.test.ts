import { describe, expect, it } from 'vitest';
import { resolveAgreement } from '../../src/judge/agreement.js';
import { counts, verdictOf } from '../../src/judge/verdict.js';
import type { Finding, Unchecked } from '../../src/model/findings.js';

// The four decisions in the order in which the README gives them under "The verdict".

const finding = (more: Partial<Finding> = {}): Finding =>
  ({
    severity: 'major',
    cause: 'vendor-metadata',
    rescan: 'no',
    ruling: null,
    count: 1,
    weighs: 1,
    code: 'page-number-differs',
    ...more,
  }) as unknown as Finding;
const ruled = (decision: string) => ({ ruling: { decision, note: '', by: 'Ada Pell', on: '2031-03-04' } }) as unknown as Partial<Finding>;
const unmade: Unchecked = { what: 'reel 417', why: 'nothing came.', frames: null, places: [], count: 1, required: true };

const verdict = (findings: readonly Finding[], { unchecked = [] as readonly Unchecked[], pages = 100, tolerances = {} } = {}) =>
  verdictOf(findings, unchecked, resolveAgreement({ format: 'reeltally/agreement/2', tolerances }, {}), pages);
const decision = (...findings: readonly Finding[]): string => verdict(findings).decision;

describe('return for rework', () => {
  it('is advised for one critical finding of the vendor or an unclear one', () => {
    expect(decision(finding({ severity: 'critical' }))).toBe('return-for-rework');
    expect(decision(finding({ severity: 'critical', cause: 'unclear' }))).toBe('return-for-rework');
  });

  it('is advised for what needs a rescan, unless it is a note', () => {
    expect(verdict([finding({ severity: 'minor', rescan: 'yes' })])).toEqual({
      decision: 'return-for-rework',
      reasons: ['1 finding may need a rescan: the page number differs.'],
    });
    expect(decision(finding({ severity: 'note', rescan: 'yes' }))).toBe('accept');
  });

  it('is advised for major findings on more pages than agreed, and not on as many', () => {
    const majors = (weighs: number) => verdict([finding({ weighs })], { tolerances: { majorShare: 0.03 } });
    expect(majors(4)).toEqual({
      decision: 'return-for-rework',
      reasons: ['Major findings touch 4 of 100 pages (4 %), more than the 3 % agreed.'],
    });
    expect(majors(3).decision).toBe('accept-with-corrections');
    expect(verdict([finding({ weighs: undefined, count: 4 } as never)], { tolerances: { majorShare: 0.03 } }).decision).toBe(
      'return-for-rework',
    );
    expect(verdict([finding({ weighs: 1 })], { pages: 0 }).reasons).toEqual([
      'Major findings touch 0 of 0 pages, more than the 1 % agreed.',
    ]);
  });

  it('goes before what could not be checked', () => {
    expect(verdict([finding({ severity: 'critical' })], { unchecked: [unmade] }).reasons).toHaveLength(1);
  });
});

describe('no decision', () => {
  it('can be made where a required check was not made', () => {
    expect(verdict([], { unchecked: [unmade, { ...unmade, what: 'dates', required: false }] })).toEqual({
      decision: 'cannot-decide',
      reasons: ['A required check was not made: reel 417 (nothing came).'],
    });
  });

  it.each(['critical', 'major'] as const)(
    'can be made about a %s finding that may be the mistake of the record, until there is a ruling',
    (severity) => {
      const own = finding({ severity, cause: 'collation' });
      expect(verdict([own])).toEqual({
        decision: 'cannot-decide',
        reasons: ["1 finding may be the record's own mistake and needs a ruling: the page number differs."],
      });
      expect(verdict([own, own]).reasons[0]).toMatch(/^2 findings may be the record's own mistake and need a ruling/);
      expect(decision({ ...own, ...ruled('collation-wrong') })).toBe('accept');
      expect(decision({ ...own, ...ruled('accept-as-is') })).toBe('accept');
      expect(decision({ ...own, ...ruled('vendor-corrects') })).toBe(
        severity === 'critical' ? 'return-for-rework' : 'accept-with-corrections',
      );
    },
  );

  it('can be made about what rests on a doubt of the record, whoever caused it', () => {
    const doubts = { doubts: ['d'] } as unknown as Partial<Finding>;
    const doubtful = finding({ severity: 'critical', ...doubts });
    expect(verdict([doubtful])).toEqual({
      decision: 'cannot-decide',
      reasons: ['1 finding rests on what the record itself leaves in doubt and needs a ruling: the page number differs.'],
    });
    expect(verdict([doubtful, doubtful]).reasons[0]).toMatch(/^2 findings rest on .* and need a ruling/);
    expect(verdict([finding({ cause: 'collation', ...doubts })]).reasons).toHaveLength(1);
  });

  it('needs to be put off for a minor one', () => {
    expect(decision(finding({ severity: 'minor', cause: 'collation' }))).toBe('accept');
  });
});

describe('accept', () => {
  it('with corrections for any major finding, and for minor ones on more pages than agreed', () => {
    expect(verdict([finding()])).toEqual({
      decision: 'accept-with-corrections',
      reasons: ['1 major finding to be corrected: the page number differs.'],
    });
    const minors = (weighs: number) => verdict([finding({ severity: 'minor', weighs })], { tolerances: { minorShare: 0.02 } });
    expect(minors(3).reasons).toEqual(['Minor findings touch 3 of 100 pages (3 %), more than the 2 % agreed.']);
    expect(minors(2)).toEqual({ decision: 'accept', reasons: ['1 finding within what is agreed.'] });
  });

  it('says why', () => {
    expect(verdict([]).reasons).toEqual(['The return agrees with the collation record.']);
    const notes = [finding({ severity: 'note' }), finding({ cause: 'film' })];
    expect(verdict(notes)).toEqual({ decision: 'accept', reasons: ['Nothing that counts: 2 findings for information.'] });
  });
});

describe('a finding counts', () => {
  it.each<[Partial<Finding>, boolean]>([
    [{}, true],
    [{ severity: 'note' }, false],
    [{ cause: 'film' }, false],
    [{ cause: 'film', ...ruled('vendor-corrects') }, true],
    [{ severity: 'note', ...ruled('vendor-corrects') }, false],
    [ruled('accept-as-is'), false],
    [ruled('collation-wrong'), false],
  ])('%o: %s', (more, expected) => {
    expect(counts(finding(more))).toBe(expected);
  });
});
