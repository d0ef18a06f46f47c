import { describe, expect, it } from 'vitest';
import type { Sampling } from '../../src/model/agreement.js';
import type {
  FixedPlan,
  ListedUnit,
  MergedReadings,
  SamplePlan,
  SampleQuestion,
  SampleUnit,
  SavedDraw,
  SavedSample,
  SeriesLot,
} from '../../src/model/sample.js';
import { planAgain } from '../../src/sampling/again.js';
import { isAgreedPlan } from '../../src/sampling/agreed.js';
import { drawSample } from '../../src/sampling/draw.js';
import { judgeSample } from '../../src/sampling/judge.js';
import { limitingQualityPlan } from '../../src/sampling/limiting-quality.js';
import { questions } from '../../src/sampling/questions.js';
import { mergedReadings } from '../../src/sampling/readers.js';
import { savedDraw, savedSample, standingAfter } from '../../src/sampling/saved.js';
import { sharePlan } from '../../src/sampling/share-plan.js';
import { tablePlan } from '../../src/sampling/table-plan.js';

function sure<T>(made: T | { readonly refused: readonly string[] }): T {
  if (typeof made === 'object' && made !== null && 'refused' in made) throw new Error(made.refused.join(' '));
  return made;
}

const origin: Omit<FixedPlan, 'fixed'> & Pick<SavedDraw, 'fixed' | 'thrown'> = {
  format: 'reeltally/plan/1',
  batch: 'batch_vzx_tolmouth',
  delivery: 2,
  lot: { by: 'reel', name: '55901' },
  findings: { name: 'findings.json', sha256: 'f'.repeat(64) },
  unit: 'page',
  plan: sure(sharePlan({ lot: 20, percent: '50', atLeast: 1, accept: 0, stated: '1' })),
  series: null,
  agreed: true,
  before: 0,
  reason: '',
  listSha256: '',
  beside: [],
  fixed: { at: '2031-04-01T09:00:00Z', by: 'teo' },
  thrown: { at: '2031-04-01T10:00:00Z', by: 'teo' },
};

/** Ten issues: two pages in each of the first five, six in each of the others. */
const pages: readonly ListedUnit[] = Array.from({ length: 10 }, (_, issue) =>
  Array.from({ length: issue < 5 ? 2 : 6 }, (__, page) => ({
    id: `p${String(issue)}.${String(page)}`,
    issue: `i${String(issue)}`,
    pages: issue < 5 ? 2 : 6,
  })),
).flat();
const issues: readonly ListedUnit[] = [...new Map(pages.map((unit) => [unit.issue, { ...unit, id: unit.issue }])).values()];

function drawn(
  plan: SamplePlan,
  list: readonly ListedUnit[],
  unit: SampleUnit = 'page',
  changes: Partial<typeof origin> = {},
  extras: readonly string[] = [],
): SavedDraw {
  const wish = { unit, plan, seed: '271828182845904523536028', list, extras: extras.map((id) => ({ id, reason: 'end of the reel' })) };
  return savedDraw(sure(drawSample(wish)), { ...origin, unit, plan, ...changes });
}

const everything = (lot: number, accept = 0): SamplePlan => sure(sharePlan({ lot, percent: '100', atLeast: 1, accept, stated: '1' }));

/** What one person answers: yes to everything but what is named by unit. */
function answered(draw: SavedDraw, wrong: Readonly<Record<string, readonly SampleQuestion[]>>, by = 'Ada') {
  const rows = [...draw.drawn, ...draw.extras].map(({ number, id }) => ({
    draw: 'code',
    number,
    id,
    answers: questions[draw.unit].map((question) => ({
      question,
      answer: wrong[id]?.includes(question) === true ? ('no' as const) : ('yes' as const),
    })),
    note: wrong[id] === undefined ? '' : `seen in ${id}`,
  }));
  return { by, file: `${by}.csv`, rows };
}

function saved(draw: SavedDraw, ...all: readonly ReturnType<typeof answered>[]): SavedSample {
  const answers: MergedReadings = sure(mergedReadings(draw, 'code', all));
  return savedSample(judgeSample(draw, answers), draw, answers, { by: 'Teo Anselm', inputs: [] });
}

describe('a saved sample', () => {
  it('names the wrong units in the order of the list, with what is wrong and its codes, each once', () => {
    const draw = drawn(everything(40), pages);
    const sample = saved(draw, answered(draw, { 'p7.1': ['right-date', 'right-page', 'legible'], 'p0.1': ['complete'] }));
    expect(sample.wrongOnes).toEqual([
      { id: 'p0.1', issue: 'i0', random: true, questions: ['complete'], codes: ['image-incomplete'], note: 'seen in p0.1' },
      {
        id: 'p7.1',
        issue: 'i7',
        random: true,
        questions: ['right-date', 'right-page', 'legible'],
        codes: ['image-wrong-page', 'image-illegible'],
        note: 'seen in p7.1',
      },
    ]);
    expect(sample).toMatchObject({
      format: 'reeltally/sample/2',
      outcome: 'rejected',
      by: 'Teo Anselm',
      widenTo: ['i0', 'i7'],
      delivery: 2,
      next: null,
    });
    expect(sample.fixed).toEqual(origin.fixed);
  });

  it('says what to do about a rejected lot beside the last sentence, and where to begin', () => {
    const draw = drawn(everything(40), pages);
    const { says } = saved(draw, answered(draw, { 'p0.1': ['complete'] }));
    expect(says.slice(-2)).toEqual([
      'The whole lot was looked at: send it back for rework.',
      'Begin with every page of the issue that failed: i0.',
    ]);
    expect(says[0]).toContain('1 of 40 pages looked at is wrong (2.50 %); the lot is rejected.');
    const each = Object.fromEntries(Array.from({ length: 8 }, (_, issue) => [`p${String(issue)}.0`, ['legible'] as const]));
    expect(saved(draw, answered(draw, each)).says.at(-1)).toBe(
      'Begin with every page of the 8 issues that failed: i0; i1; i2; i3; i4; i5; and 2 more.',
    );
    const six = Object.fromEntries(Object.entries(each).slice(0, 6));
    expect(saved(draw, answered(draw, six)).says.at(-1)).toMatch(/the 6 issues that failed: i0; i1; i2; i3; i4; i5\.$/);
  });

  it('widens to nothing where the lot passes, and leaves out what was looked at for a reason', () => {
    const few = drawn(sure(sharePlan({ lot: 40, percent: '20', atLeast: 1, accept: 0, stated: '1' })), pages, 'page', {}, [
      'p9.5',
      'p9.4',
      'p0.0',
    ]);
    const [extra] = few.extras;
    const passed = saved(few, answered(few, { [extra!.id]: ['legible', 'right-date'] }));
    expect(passed).toMatchObject({ outcome: 'accepted', widenTo: [], wrongOnes: [{ id: extra!.id, random: false }] });
    expect(passed.shared.pages.wrong).toBe(0);
    expect(passed.says.join(' ')).not.toContain('Begin with');
    expect(passed.says.join(' ')).toContain(`Beside the random ones ${String(few.extras.length)} page`);
    const failed = saved(few, answered(few, { [extra!.id]: ['legible'], [few.drawn[0]!.id]: ['legible'] }));
    expect(failed.widenTo).toEqual([few.drawn[0]!.issue]);
    expect(failed.says.join(' ')).toContain('Widen to the rest of the lot, 32 pages, or send the lot back for rework.');
    const none = drawn(everything(40), pages);
    expect(saved(none, answered(none, {})).says.join(' ')).not.toContain('Beside the random ones');
  });

  it('says what came out if readers who disagree agreed on yes', () => {
    const draw = drawn(everything(40, 1), pages);
    const ada = answered(draw, { 'p0.0': ['legible'], 'p1.0': ['complete', 'legible'] });
    const bo = answered(draw, { 'p1.0': ['complete'] }, 'Bo');
    const { says, disagree, twice } = saved(draw, ada, bo);
    expect([disagree.length, twice]).toEqual([2, 40]);
    expect(says).toContain('Looked at by Ada (40), Bo (40); 40 by more than one of them.');
    expect(says).toContain(
      'About 2 of these the readers disagree: a question that one of them answers no counts as no until they agree. If all such questions were answered yes, 1 would be wrong and the lot accepted.',
    );
    const strict = drawn(everything(40, 0), pages);
    expect(saved(strict, ada, { ...bo, by: '' }).says).toContainEqual(
      expect.stringMatching(/^About 2 of these .* 1 would be wrong and the lot rejected\.$/),
    );
    expect(saved(strict, ada, { ...bo, by: '' }).says).toContain(
      'Looked at by Ada (40), somebody without a name (40); 40 by more than one of them.',
    );
    expect(saved(strict, ada).says.join(' ')).not.toContain('Looked at by');
    expect(saved(strict, ada, { ...ada, by: 'Bo' }).says.join(' ')).not.toContain('disagree');
  });

  it('says what speaks against the draw', () => {
    const says = (changes: Partial<typeof origin>): string => {
      const draw = drawn(everything(40), pages, 'page', changes);
      return saved(draw, answered(draw, {})).says.join(' ');
    };
    expect(says({})).not.toMatch(/agreement names|drawn from|Nothing shows/);
    expect(says({ agreed: false })).toContain('This is not the plan that the agreement names. No reason was given.');
    expect(says({ before: 1, reason: 'The first sheet was lost.' })).toContain(
      'The list was drawn from once before. The reason given: The first sheet was lost.',
    );
    expect(says({ before: 2 })).toContain('The list was drawn from 2 times before.');
    expect(says({ fixed: null })).toContain('Nothing shows that list and plan were fixed before the seed was thrown.');
  });
});

describe('facts that an issue shares', () => {
  it('make its issue wrong where one drawn page is, counted by the sizes of the issues', () => {
    const draw = drawn(everything(40), pages);
    const { shared } = saved(draw, answered(draw, { 'p0.1': ['right-date'], 'p7.1': ['right-issue'], 'p8.0': ['legible'] }));
    // all was seen: nothing is left to chance; two issues of 2 and 6 pages are wrong
    expect(shared).toEqual({
      questions: ['right-date', 'right-issue'],
      drawn: 'page',
      pages: { lot: 40, seen: 40, wrong: 8, interval: { low: 8, high: 8 } },
      issues: { lot: 10, seen: 10, wrong: 2, interval: { low: 2, high: 2 } },
    });
    const clean = saved(draw, answered(draw, {})).shared;
    expect([clean.pages.interval, clean.issues.interval]).toEqual([
      { low: 0, high: 0 },
      { low: 0, high: 0 },
    ]);
  });

  it('are counted in whole issues where issues were drawn, and those are worth fewer pages drawn singly', () => {
    const draw = drawn(everything(10), issues, 'issue');
    const { shared, says } = saved(draw, answered(draw, { i0: ['right-date'], i7: ['complete'] }));
    expect(shared).toMatchObject({
      drawn: 'issue',
      pages: { lot: 40, seen: 40, wrong: 2, interval: { low: 2, high: 2 } },
      issues: { lot: 10, seen: 10, wrong: 1, interval: { low: 1, high: 1 } },
    });
    // L. Kish, 1965: 1 + (m - 1) with m = (5 * 2^2 + 5 * 6^2) / 40 = 5, all pages of an issue alike
    expect(says).toContain(
      'Whole issues were drawn: for these facts their 40 pages are worth about 8 pages drawn singly (design effect 5.00).',
    );
    expect(says.join(' ')).toContain('1 of 10 issues is wrong: 1 to 1 of the 10 issues of the lot may be');
    expect(saved(draw, answered(draw, { i0: ['right-date'], i7: ['right-issue'] })).says.join(' ')).toContain(
      '2 of 10 issues are wrong: 2 to 2',
    );
    const singles = issues.map((unit) => ({ ...unit, pages: 1 }));
    const single = drawn(everything(10), singles, 'issue');
    expect(saved(single, answered(single, {})).says.join(' ')).not.toContain('Whole issues were drawn');
  });
});

describe('a series of lots', () => {
  const good = (count: number): readonly SeriesLot[] => Array.from({ length: count }, () => ({ accepted: true }));
  const table = (severity: 'normal' | 'tightened' | 'reduced' = 'normal'): SamplePlan =>
    sure(tablePlan({ lot: 40, level: 'II', severity, aql: '1.0' }));
  const judged = (series: SavedDraw['series'], wrong: Readonly<Record<string, readonly SampleQuestion[]>> = {}) => {
    const draw = drawn(table(), pages, 'page', { series });
    const all = Object.fromEntries(draw.drawn.map(({ id }) => [id, wrong['*'] ?? []]));
    return saved(draw, answered(draw, wrong['*'] === undefined ? {} : all));
  };

  it('is on reduced inspection after ten good lots where that is agreed, and this lot counts', () => {
    expect(judged({ lots: good(9), reducedAgreed: true }).next?.severity).toBe('reduced');
    expect(judged({ lots: good(8), reducedAgreed: true }).next?.severity).toBe('normal');
    expect(judged({ lots: good(9), reducedAgreed: false }).next?.severity).toBe('normal');
    expect(judged({ lots: good(9), reducedAgreed: true }).says.at(-1)).toMatch(
      /^The next lot is on reduced inspection\. The ten lots before/,
    );
  });

  it('is tightened where two of five failed, and stopped after five on tightened', () => {
    const bad = { '*': ['legible'] } as const;
    const failed = { accepted: false };
    expect(judged({ lots: [failed], reducedAgreed: false }, bad).next?.severity).toBe('tightened');
    const stopped = judged({ lots: [failed, failed, failed, failed, failed, failed], reducedAgreed: false }, bad);
    expect(stopped.next?.severity).toBe('discontinued');
    expect(stopped.says.at(-1)).toMatch(/^The next lot: inspection is discontinued until the vendor has mended what was wrong\. Five lots/);
    // a lot that is drawn after that is the one with which inspection was taken up again
    expect(judged({ lots: [...Array.from({ length: 7 }, () => failed)], reducedAgreed: false }).next?.severity).toBe('tightened');
  });

  it('is not known to a draw without its lots, which says so; other plans have none', () => {
    const without = judged(null);
    expect(without.next).toBeNull();
    expect(without.says.at(-1)).toMatch(/^How the next lot is inspected follows from the lots before, which this draw does not know/);
    const draw = drawn(everything(40), pages, 'page', { series: { lots: good(9), reducedAgreed: true } });
    expect(saved(draw, answered(draw, {}))).toMatchObject({ next: null });
    expect(saved(draw, answered(draw, {})).says.join(' ')).not.toContain('next lot');
  });

  it('decides how strict the plan is that its terms give again', () => {
    const lots = Array.from({ length: 2 }, () => ({ accepted: false }));
    expect(planAgain(table(), 40, null)).toEqual(table());
    expect(planAgain(table('reduced'), 40, null)).toEqual(table('reduced'));
    expect(planAgain(table(), 40, { lots, reducedAgreed: false })).toEqual(table('tightened'));
    expect(standingAfter({ lots, reducedAgreed: false }).severity).toBe('tightened');
    const stopped = Array.from({ length: 7 }, () => ({ accepted: false }));
    expect(planAgain(table(), 40, { lots: stopped, reducedAgreed: false })).toEqual(table('tightened'));
    expect(planAgain(everything(40), 40, null)).toEqual(everything(40));
    const limit = sure(limitingQualityPlan({ lot: 40, limit: '10', risk: '0.05', accept: 0 }));
    expect(planAgain(limit, 40, null)).toEqual(limit);
    expect(planAgain({ ...limit, size: 1 }, 40, null)).toEqual(limit);
  });
});

describe('the agreed plan', () => {
  const agreed: Sampling = { plan: 'limiting-quality', level: 'II', aql: '1.0', limitingQuality: '5', risk: '0.05', unit: 'page' };
  const limit = (percent: string, risk: string, lot = 400): SamplePlan =>
    sure(limitingQualityPlan({ lot, limit: percent, risk, accept: 0 }));

  it('is of its kind and unit, and in no number weaker', () => {
    expect(isAgreedPlan(limit('5', '0.05'), 'page', false, agreed)).toBe(true);
    expect(isAgreedPlan(limit('2', '0.01'), 'page', false, agreed)).toBe(true);
    expect(isAgreedPlan(limit('5', '0.1'), 'page', false, agreed)).toBe(false);
    expect(isAgreedPlan(limit('10', '0.05'), 'page', false, agreed)).toBe(false);
    expect(isAgreedPlan(limit('5', '0.05'), 'issue', false, agreed)).toBe(false);
    expect(isAgreedPlan(everything(400), 'page', false, agreed)).toBe(false);
    expect(isAgreedPlan({ ...limit('5', '0.05'), accept: 400, reject: 401 }, 'page', false, agreed)).toBe(false);
  });

  it('of a share takes a tenth, ten at least, and lets nothing wrong pass', () => {
    const share = (percent: string, atLeast: number, accept: number): boolean =>
      isAgreedPlan(sure(sharePlan({ lot: 400, percent, atLeast, accept, stated: '1' })), 'page', false, { ...agreed, plan: 'share' });
    expect([share('10', 10, 0), share('12.5', 11, 0)]).toEqual([true, true]);
    expect([share('9.9', 10, 0), share('10', 9, 0), share('10', 10, 1)]).toEqual([false, false, false]);
  });

  it('of the tables is not reduced, unless the series says so', () => {
    const table = (severity: 'normal' | 'tightened' | 'reduced', bySeries: boolean, aql = '1.0', level: 'I' | 'II' = 'II'): boolean =>
      isAgreedPlan(sure(tablePlan({ lot: 400, level, severity, aql })), 'page', bySeries, {
        ...agreed,
        plan: 'acceptance-quality-limit',
        aql: '1',
      });
    expect([table('normal', false), table('tightened', false), table('reduced', true)]).toEqual([true, true, true]);
    expect([table('reduced', false), table('normal', true, '1.5'), table('normal', true, '1.0', 'I')]).toEqual([false, false, false]);
  });
});
