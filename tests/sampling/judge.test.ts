import { describe, expect, it } from 'vitest';
import type { Draw, Refused, SamplePlan, SampleQuestion, SampleUnit, SavedAnswers } from '../../src/model/sample.js';
import { drawSample } from '../../src/sampling/draw.js';
import { drawMistakes, judgeSample, sampleSummary } from '../../src/sampling/judge.js';
import { limitingQualityPlan } from '../../src/sampling/limiting-quality.js';
import { questions } from '../../src/sampling/questions.js';
import { tablePlan } from '../../src/sampling/table-plan.js';

/** A reel of `lot` pages in issues of four, or of `lot` issues. */
function drawn(plan: SamplePlan | Refused, unit: SampleUnit = 'page', extraNumbers: readonly number[] = []): Draw {
  if ('refused' in plan) throw new Error(plan.refused.join(' '));
  const list = Array.from({ length: plan.lot }, (_, index) => ({
    id: `${unit} ${index + 1}`,
    issue: unit === 'issue' ? `issue ${index + 1}` : `issue ${Math.floor(index / 4) + 1}`,
    pages: 4,
  }));
  const extras = extraNumbers.map((number) => ({ id: `${unit} ${number}`, reason: 'end of the reel' }));
  const draw = drawSample({ unit, plan, seed: '271828182845904523536028', list, extras });
  if ('refused' in draw) throw new Error(draw.refused.join(' '));
  return draw;
}

/** A worksheet with yes everywhere but for the rows whose number is named. */
function answered(draw: Draw, wrong: ReadonlyMap<number, SampleQuestion> = new Map()): { readonly rows: readonly SavedAnswers[] } {
  const rows = [...draw.drawn, ...draw.extras].map(({ number, id }) => ({
    draw: 'code',
    number,
    id,
    answers: questions[draw.unit].map((question) => ({
      question,
      answer: wrong.get(number) === question ? ('no' as const) : ('yes' as const),
    })),
    note: '',
  }));
  return { rows };
}

const lq = limitingQualityPlan({ lot: 850, limit: '3.5', risk: '0.05', accept: 0 });

describe('judging a sample', () => {
  it('accepts a clean one and says what the lot may still hold', () => {
    const draw = drawn({ ...(lq as Exclude<typeof lq, Refused>), size: 80 });
    const result = judgeSample(draw, answered(draw));
    expect(result).toMatchObject({
      outcome: 'accepted',
      wrong: 0,
      drawn: 80,
      rate: 0,
      interval: { low: 0, high: 36 },
      atMost: 29,
      wrongUnits: [],
    });
    // Clopper and Pearson, 1934: where none of n is wrong the upper end is 1 - (alpha / 2) ^ (1 / n)
    expect(result.endless.low).toBe(0);
    expect(result.endless.high).toBeCloseTo(1 - 0.025 ** (1 / 80), 12);
    expect(result.says[0]).toBe('0 of 80 pages looked at are wrong (0.00 %); the lot is accepted.');
    expect(result.says[1]).toContain('0 to 36 may be wrong');
  });

  it('counts a unit once however many questions it fails, each question, and issues', () => {
    const draw = drawn(lq);
    const [first, second] = draw.drawn;
    if (first === undefined || second === undefined) throw new Error('nothing was drawn');
    const sheet = answered(
      draw,
      new Map([
        [first.number, 'legible'],
        [second.number, 'right-page'],
      ]),
    );
    const rows = sheet.rows.map((row) =>
      row.number === first.number
        ? { ...row, answers: row.answers.map((entry) => (entry.question === 'complete' ? { ...entry, answer: 'no' as const } : entry)) }
        : row,
    );
    const result = judgeSample(draw, { ...sheet, rows });
    expect(result).toMatchObject({ outcome: 'rejected', wrong: 2, wrongUnits: [first.id, second.id] });
    expect(result.byQuestion.filter(({ wrong }) => wrong > 0)).toEqual([
      { question: 'right-page', wrong: 1 },
      { question: 'complete', wrong: 1 },
      { question: 'legible', wrong: 1 },
    ]);
    expect(result.issues.wrong).toBe(new Set([first.issue, second.issue]).size);
    expect(result.says.at(-1)).toBe(`Widen to the rest of the lot, ${850 - draw.drawn.length} pages, or send the lot back for rework.`);
  });

  it('keeps extras out of the arithmetic', () => {
    const draw = drawn(lq, 'page', [1, 2, 849, 850]);
    const extra = draw.extras[0];
    if (extra === undefined) throw new Error('all extras were drawn');
    const result = judgeSample(draw, answered(draw, new Map([[extra.number, 'legible']])));
    expect(result).toMatchObject({ outcome: 'accepted', wrong: 0, extras: { seen: draw.extras.length, wrong: 1 } });
  });

  it('accepts between the numbers of reduced inspection and goes back to normal', () => {
    const draw = drawn(tablePlan({ lot: 900, level: 'II', severity: 'reduced', aql: '2.5' }));
    const wrongOnes = (count: number): ReturnType<typeof answered> =>
      answered(draw, new Map(draw.drawn.slice(0, count).map(({ number }) => [number, 'complete'] as const)));
    const outcomes = [2, 3, 4, 5].map((count) => judgeSample(draw, wrongOnes(count)).outcome);
    expect(outcomes).toEqual(['accepted', 'accepted-back-to-normal', 'accepted-back-to-normal', 'rejected']);
  });

  it('asks an issue only what its pages share, and counts issues', () => {
    const draw = drawn(limitingQualityPlan({ lot: 120, limit: '5', risk: '0.1', accept: 0 }), 'issue');
    const number = draw.drawn[3]?.number ?? 0;
    const result = judgeSample(draw, answered(draw, new Map([[number, 'right-date']])));
    expect(result).toMatchObject({ wrong: 1, outcome: 'rejected', issues: { seen: draw.drawn.length, wrong: 1 } });
    expect(result.says.join(' ')).not.toContain('drawn singly');
  });

  it('hands the decision what it needs', () => {
    const draw = drawn(lq);
    const summary = sampleSummary(judgeSample(draw, answered(draw)), 'batch_brightwater', 2);
    expect(summary).toMatchObject({
      batch: 'batch_brightwater',
      delivery: 2,
      seed: draw.seed,
      listSha256: draw.listSha256,
      unit: 'page',
      lotSize: 850,
    });
    expect(summary).toMatchObject({ drawn: draw.drawn.length, nonconforming: 0, accepted: true });
    expect(summary.plan).toContain('Limiting quality 3.5 %');
  });
});

describe('refused by name', () => {
  const draw = drawn(lq);

  it('a draw whose units were exchanged for others', () => {
    const [one, ...others] = draw.drawn;
    const free =
      Array.from({ length: 850 }, (_, index) => index + 1).find((number) => !draw.drawn.some((unit) => unit.number === number)) ?? 0;
    const strange = { id: `page ${free}`, issue: 'issue 1', pages: 4, number: free, counter: one?.counter ?? null };
    const changed = { ...draw, drawn: [strange, ...others] };
    expect(drawMistakes(draw)).toEqual([]);
    expect(drawMistakes(changed)).toEqual([expect.stringMatching(/^The units of this draw do not follow/)]);
    expect(drawMistakes({ ...draw, drawn: others }).length).toBe(1);
    expect(drawMistakes({ ...draw, plan: { ...draw.plan, size: -1 } }).length).toBe(1);
    expect(drawMistakes({ ...draw, plan: { ...draw.plan, size: draw.plan.lot + 1 } }).length).toBe(1);
  });
});
