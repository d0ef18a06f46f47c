import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { Draw } from '../../src/model/sample.js';
import { type DrawWish, drawNumbers, drawSample, listHash, numberAt, seedRemark } from '../../src/sampling/draw.js';
import { limitingQualityPlan } from '../../src/sampling/limiting-quality.js';
import { computed, transcript, withReplacement } from './draw-vectors.js';

describe('the counter scheme', () => {
  it.each(withReplacement)('seed $seed, 1 to $total: the published numbers', ({ seed, total, numbers }) => {
    expect(numbers.map((_, index) => numberAt(seed, index + 1, total))).toEqual(numbers);
  });

  it('gives the published transcript without repeats; counter 32 is passed over', () => {
    const picks = drawNumbers(transcript.seed, transcript.total, transcript.numbers.length);
    expect(picks.map(({ number }) => number)).toEqual(transcript.numbers);
    expect(picks.at(-1)?.counter).toBe(transcript.lastCounter);
    expect(picks.map(({ counter }) => counter)).not.toContain(32);
    expect(numberAt(transcript.seed, 32, transcript.total)).toBe(611);
  });

  it.each(computed)('seed $seed, 1 to $total: as computed in another language', ({ seed, total, numbers, lastCounter }) => {
    const picks = drawNumbers(seed, total, numbers.length);
    expect(picks.map(({ number }) => number)).toEqual(numbers);
    expect(picks.at(-1)?.counter).toBe(lastCounter);
  });
});

const pages = Array.from({ length: 400 }, (_, index) => ({
  id: `0007:${index + 1}`,
  issue: `issue ${Math.floor(index / 4) + 1}`,
  pages: 4,
}));
const seed = '314159265358979323846264';

function wish(changes: Partial<DrawWish> = {}): DrawWish {
  const plan = limitingQualityPlan({ lot: pages.length, limit: '5', risk: '0.05', accept: 0 });
  if ('refused' in plan) throw new Error(plan.refused.join(' '));
  return { unit: 'page', plan, seed, list: pages, extras: [], ...changes };
}

function drawn(changes: Partial<DrawWish> = {}): Draw {
  const draw = drawSample(wish(changes));
  if ('refused' in draw) throw new Error(draw.refused.join(' '));
  return draw;
}

describe('a draw', () => {
  it('is the same every time, has no unit twice, and names each by its place in the list', () => {
    const draw = drawn();
    expect(drawn()).toEqual(draw);
    expect(new Set(draw.drawn.map(({ id }) => id)).size).toBe(draw.plan.size);
    for (const { id, number } of draw.drawn) expect(pages[number - 1]?.id).toBe(id);
  });

  it('fixes its list by SHA-256 of the names, each with a line feed', () => {
    expect(listHash(['a', 'b'])).toBe(createHash('sha256').update('a\nb\n').digest('hex'));
    expect(listHash(['ab'])).not.toBe(listHash(['a', 'b']));
    expect(drawn().listSha256).not.toBe(drawn({ list: [...pages].reverse() }).listSha256);
  });

  it('of a larger sample begins with the smaller one', () => {
    const small = drawn();
    const large = drawn({ plan: { ...small.plan, size: small.plan.size + 40 } });
    expect(large.drawn.slice(0, small.drawn.length)).toEqual(small.drawn);
  });

  it('keeps extras beside the random ones, once each, with all their reasons', () => {
    const random = drawn().drawn[0]?.id ?? '';
    const outside = pages.find(({ id }) => !drawn().drawn.some((unit) => unit.id === id))?.id ?? '';
    const draw = drawn({
      extras: [
        { id: outside, reason: 'torn, says the record' },
        { id: random, reason: 'end of the reel' },
        { id: outside, reason: 'beside a splice' },
      ],
    });
    expect(draw.drawn).toEqual(drawn().drawn);
    expect(draw.extras.map(({ id, reasons }) => ({ id, reasons }))).toEqual([
      { id: outside, reasons: ['torn, says the record', 'beside a splice'] },
    ]);
  });

  it('takes all in order where the plan takes the whole lot', () => {
    const draw = drawn({ plan: { ...drawn().plan, size: pages.length } });
    expect(draw.drawn.map(({ number }) => number)).toEqual(pages.map((_, index) => index + 1));
    expect(draw.lastCounter).toBe(0);
  });

  it('refuses lists and seeds that cannot be drawn from, in sentences', () => {
    expect(drawSample(wish({ list: pages.slice(1) }))).toEqual({
      refused: ['The plan is for a lot of 400, but the list has 399 units. Make the plan again from this list.'],
    });
    const twice = [...pages.slice(0, 399), pages[0] ?? { id: '', issue: '', pages: 1 }];
    expect(drawSample(wish({ list: twice }))).toEqual({
      refused: ['Units 1 and 400 of the list are both called "0007:1". Each unit needs a name of its own.'],
    });
    expect(drawSample(wish({ seed: ' ', extras: [{ id: '0009:1', reason: 'x' }] }))).toMatchObject({
      refused: [expect.stringContaining('seed is empty'), 'The extra unit "0009:1" is not in the list of this lot.'],
    });
    const broken = [{ id: 'a\nb', issue: '', pages: 1 }, ...pages.slice(1)];
    expect(drawSample(wish({ list: broken }))).toMatchObject({ refused: [expect.stringContaining('Unit 1 of the list')] });
  });

  it('remarks on a seed that could be guessed', () => {
    expect(seedRemark(seed)).toBeNull();
    for (const weak of ['1', '000000000000000000000000', 'reel-0001']) expect(seedRemark(weak)).toContain(weak);
  });
});

describe('what a draw keeps of its list', () => {
  it('is how many issues there are of each size, by rising size, and the number of the last counter', () => {
    const list = [
      { id: 'a', issue: 'I', pages: 12 },
      { id: 'b', issue: 'II', pages: 4 },
      { id: 'c', issue: 'II', pages: 4 },
      { id: 'd', issue: 'III', pages: 4 },
    ];
    const plan = { ...(limitingQualityPlan({ lot: 4, limit: '50', risk: '0.5', accept: 0 }) as DrawWish['plan']), size: 2 };
    const draw = drawSample({ unit: 'page', plan, seed: '1', list, extras: [] }) as Draw;
    expect(draw.issues).toEqual([
      { pages: 4, issues: 2 },
      { pages: 12, issues: 1 },
    ]);
    expect(draw.lastCounter).toBe(draw.drawn[1]?.counter);
    const whole = drawSample({ unit: 'page', plan: { ...plan, size: 4 }, seed: '1', list, extras: [] }) as Draw;
    expect([whole.lastCounter, whole.drawn.map(({ number, counter }) => [number, counter])]).toEqual([
      0,
      [1, 2, 3, 4].map((number) => [number, null]),
    ]);
  });

  it('is no unit without a name', () => {
    const plan = limitingQualityPlan({ lot: 2, limit: '50', risk: '0.5', accept: 0 }) as DrawWish['plan'];
    const list = ['a', ''].map((id) => ({ id, issue: 'I', pages: 2 }));
    expect(drawSample({ unit: 'page', plan, seed: '1', list, extras: [] })).toEqual({
      refused: ['Unit 2 of the list has a name that is empty or runs over a line. Give it one line.'],
    });
  });
});
