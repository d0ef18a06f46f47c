import { describe, expect, it } from 'vitest';
import { verifyCase } from '../bench/in-memory.js';
import { judge } from '../bench/judge.js';
import { type Case, caseOf, near, type Planted, plant } from '../forge/algebra/case.js';
import { filmOf } from '../forge/algebra/draw.js';
import type { Edit } from '../forge/algebra/edit.js';

/** The first film of the series that has a place for all the mistakes, with them; films of two reels where `reels` says so. */
function caseWith(edits: readonly Edit[], reels: number): Case {
  for (let n = 0; n < 48; n += 1) {
    const scenery = filmOf({ seed: 33, pages: 44 }, n);
    if (scenery.film.reels.length !== reels) continue;
    const planted: Planted[] = [];
    for (const edit of edits) {
      const one = plant(scenery, edit, planted);
      if (one !== null && one.traces.length > 0) planted.push(one);
    }
    if (planted.length === edits.length) return caseOf(scenery, planted);
  }
  throw new RangeError('no film has a place for these mistakes');
}

/** How many findings each mistake has, how many have a right code, and how many findings are about none. */
async function told(edits: readonly Edit[], reels: number): Promise<unknown> {
  const one = caseWith(edits, reels);
  const { met, untrue } = judge(one, (await verifyCase(one)).findings);
  return { findings: met.map(({ findings }) => findings.length), codes: met.filter(({ code }) => code).length, untrue: untrue.length };
}

const edit = (what: Edit['what'], how: Edit['how'], scope: Edit['scope'], spot: Edit['spot'], side: Edit['side'] = 'return'): Edit => ({
  what,
  how,
  scope,
  spot,
  side,
  seed: 11,
});

// Every pair hides the film from whoever looks at one fact alone: each must still be told once. The forge shares nothing with the program but the model's types.
describe('mistakes that hide each other', () => {
  it.each([
    ['reel numbers and titles', [edit('reel', 'other', 'batch', 'all'), edit('title', 'other', 'reel', 'all')]],
    ['reel numbers and days', [edit('reel', 'other', 'batch', 'all'), edit('date', 'missing', 'reel', 'all')]],
    ['reel numbers and editions', [edit('reel', 'shifted', 'reel', 'all'), edit('edition', 'other', 'reel', 'all')]],
  ])('%s are one finding each', async (_, edits) => {
    expect(await told(edits, 2)).toEqual({ findings: [1, 1], codes: 2, untrue: 0 });
  });

  it('labels that are one too high on one page of a batch without its sections stay a finding of their own', async () => {
    const edits = [edit('section', 'other', 'batch', 'all'), edit('page', 'other', 'page', 'middle')];
    expect(await told(edits, 1)).toEqual({ findings: [1, 1], codes: 2, untrue: 0 });
  });

  it('a wrong number on a reel under a wrong number stays a finding of its own', async () => {
    const edits = [edit('reel', 'other', 'reel', 'all'), edit('number', 'other', 'page', 'middle')];
    expect(await told(edits, 1)).toEqual({ findings: [1, 1], codes: 2, untrue: 0 });
  });
});

describe('numbers that come back to what holds around them', () => {
  it.each([
    ['an issue two too high', edit('number', 'shifted', 'issue', 'middle')],
    ['an issue in which all are the same', edit('number', 'constant', 'issue', 'middle')],
  ])('are one finding: %s', async (_, one) => {
    expect(await told([one], 1)).toEqual({ findings: [1], codes: 1, untrue: 0 });
  });
});

/** The findings of every planting of an edit, on the films of a series, whose words for what was done match. */
async function eachTold(one: Edit, match: RegExp): Promise<readonly (readonly string[])[]> {
  const found: (readonly string[])[] = [];
  for (let n = 0; n < 96; n += 1) {
    const scenery = filmOf({ seed: 21, pages: 44 }, n % 48);
    const planted = plant(scenery, { ...one, seed: n });
    if (planted === null || !match.test(Object.values(planted.params).join('; '))) continue;
    found.push((await verifyCase(caseOf(scenery, [planted]))).findings.findings.map(({ says }) => says));
  }
  return found;
}

describe('readings in the place of one another', () => {
  it('are one finding where pages with and without a section change their labels', async () => {
    const told = await eachTold(edit('page', 'exchanged', 'run', 'middle'), /S\d as \d/);
    expect(told.length).toBeGreaterThan(0);
    expect(told.filter((list) => list.length !== 1)).toEqual([]);
  });

  it('are one finding where each half has the number of the half before', async () => {
    const told = await eachTold(edit('number', 'repeated', 'issue', 'head'), /frames 3 to 5A;/);
    expect(told.length).toBeGreaterThan(0);
    expect(told.filter((list) => list.length !== 1)).toEqual([]);
  });
});

describe('numbers of a few pages that took the place of a blank and left the last one empty', () => {
  it('are one finding: nothing was skipped or captured again', async () => {
    const scenery = filmOf({ seed: 21, pages: 44 }, 21);
    const planted = plant(scenery, { ...edit('number', 'repeated', 'issue', 'end'), seed: 379934 });
    expect(planted?.params['unit']).toContain('frames 58 to 61');
    const { findings } = await verifyCase(caseOf(scenery, planted === null ? [] : [planted]));
    expect(findings.findings.map(({ says }) => says)).toEqual([
      'Frames 58 to 61 are numbered 1 too low, although no frame is missing or surplus after frame 57.',
    ]);
  });
});

/** The first mistake, on so many pages at least, with the second near it, on films of a series that have a place for both: those in which one is not told once, or the second not with its side. */
async function nearTold(first: Edit, second: Edit, few: number): Promise<{ readonly cases: number; readonly wrong: readonly unknown[] }> {
  const wrong: unknown[] = [];
  let cases = 0;
  for (let n = 0; n < 48 && cases < 8; n += 1) {
    const scenery = filmOf({ seed: 21, pages: 44 }, n);
    const one = plant(scenery, { ...first, seed: n });
    const two =
      one === null ? null : plant(scenery, { ...second, seed: n }, [one], second.scope === 'page' ? near(scenery, one) : undefined);
    if (one === null || two === null || one.traces.length < few || two.traces.length === 0) continue;
    cases += 1;
    const both = caseOf(scenery, [one, two]);
    const { findings } = await verifyCase(both);
    const { met, untrue } = judge(both, findings);
    if (untrue.length > 0 || met.at(-1)?.side !== true || met.some(({ findings: list }) => list.length !== 1))
      wrong.push([n, findings.findings.map(({ cause, says }) => `${cause}: ${says}`)]);
  }
  return { cases, wrong };
}

describe('mistakes beside each other', () => {
  it.each<[string, Edit, Edit, number]>([
    ['numbers exchanged and a label among them', edit('number', 'exchanged', 'run', 'middle'), edit('page', 'other', 'page', 'middle'), 6],
    [
      'a section put in where the label of the record is wrong',
      edit('page', 'shifted', 'run', 'middle', 'record'),
      edit('section', 'other', 'page', 'middle'),
      1,
    ],
    [
      'all dates a week off and numbers of the record exchanged',
      edit('date', 'shifted', 'batch', 'all'),
      edit('number', 'exchanged', 'run', 'middle', 'record'),
      1,
    ],
  ])('are two findings: %s', async (_, first, second, few) => {
    const { cases, wrong } = await nearTold(first, second, few);
    expect(cases).toBeGreaterThan(1);
    expect(wrong).toEqual([]);
  });
});
