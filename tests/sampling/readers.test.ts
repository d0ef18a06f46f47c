import { describe, expect, it } from 'vitest';
import type { Draw, MergedReadings, Reading, Refused, SampleQuestion, SavedAnswers } from '../../src/model/sample.js';
import { drawSample } from '../../src/sampling/draw.js';
import { limitingQualityPlan } from '../../src/sampling/limiting-quality.js';
import { questions } from '../../src/sampling/questions.js';
import { mergedReadings } from '../../src/sampling/readers.js';

const CODE = '0123456789abcdef';
const draw = ((): Draw => {
  const plan = limitingQualityPlan({ lot: 60, limit: '10', risk: '0.05', accept: 0 });
  if ('refused' in plan) throw new Error(plan.refused.join(' '));
  const list = Array.from({ length: 60 }, (_, at) => ({ id: `page ${at + 1}`, issue: `issue ${Math.floor(at / 4)}`, pages: 4 }));
  const made = drawSample({ unit: 'page', plan, seed: '271828182845904523536028', list, extras: [] });
  if ('refused' in made) throw new Error(made.refused.join(' '));
  return made;
})();
const [first, second, ...others] = draw.drawn.map(({ number, id }) => ({ number, id }));

/** What a person answers: yes to everything but for what is named; null leaves the row to others. */
function reading(by: string, said: (number: number) => 'yes' | 'no' | null = () => 'yes', question: SampleQuestion = 'legible'): Reading {
  const rows = draw.drawn.map(({ number, id }): SavedAnswers => {
    const answer = said(number);
    const answers = questions.page.map(
      (one) => ({ question: one, answer: answer === 'no' ? (one === question ? 'no' : 'yes') : answer }) as const,
    );
    return { draw: CODE, number, id, answers, note: answer === 'no' ? 'blurred' : '' };
  });
  return { by, file: `${by}.csv`, rows };
}
const changed = (of: Reading, change: (rows: readonly SavedAnswers[]) => readonly SavedAnswers[]): Reading => ({
  ...of,
  rows: change(of.rows),
});
const merged = (...readings: readonly Reading[]): MergedReadings => {
  const found = mergedReadings(draw, CODE, readings);
  if ('refused' in found) throw new Error(found.refused.join(' '));
  return found;
};
const refusals = (...readings: readonly Reading[]): readonly string[] => {
  const found: MergedReadings | Refused = mergedReadings(draw, CODE, readings);
  return 'refused' in found ? found.refused : [];
};

describe('several worksheets of one draw', () => {
  it('share the units: a row without an answer was left to the others', () => {
    const half = (number: number): boolean => number % 2 === 0;
    const both = merged(
      reading('Ada', (number) => (half(number) ? 'yes' : null)),
      reading('Bo', (number) => (half(number) ? null : 'no')),
    );
    const evens = draw.drawn.filter(({ number }) => half(number)).length;
    expect(both.readers).toEqual([
      { by: 'Ada', units: evens },
      { by: 'Bo', units: draw.drawn.length - evens },
    ]);
    expect([both.twice, both.disagree]).toEqual([0, []]);
    for (const { number, answers, note } of both.rows) {
      expect(answers.some(({ answer }) => answer === 'no')).toBe(!half(number));
      expect(note).toBe(half(number) ? '' : 'blurred');
    }
  });

  it('of two readers of the same units name where they disagree, and the no counts', () => {
    const both = merged(
      reading('Ada'),
      reading('Bo', (number) => (number === first?.number ? 'no' : 'yes')),
      reading('Cy', (number) => (number === second?.number ? 'yes' : null)),
    );
    expect(both.twice).toBe(draw.drawn.length);
    expect(both.disagree).toEqual([{ id: first?.id, question: 'legible', yes: ['Ada'], no: ['Bo'] }]);
    const row = both.rows.find(({ number }) => number === first?.number);
    expect(row?.answers.find(({ question }) => question === 'legible')?.answer).toBe('no');
    expect(row?.note).toBe('Bo: blurred');
  });

  it('are the same in any order', () => {
    const ada = reading('Ada', (number) => (number === second?.number ? 'no' : 'yes'));
    const bo = reading('Bo', (number) => (number === first?.number ? 'no' : 'yes'));
    const [one, other] = [merged(ada, bo), merged(bo, ada)];
    expect(one.rows.map(({ answers }) => answers)).toEqual(other.rows.map(({ answers }) => answers));
    expect(one.disagree).toEqual(other.disagree);
  });

  it('may say the same thing twice for one person, but not both', () => {
    expect(merged(reading('Ada'), reading('Ada')).readers).toEqual([{ by: 'Ada', units: draw.drawn.length }]);
    const again = { ...reading('Ada', (number) => (number === first?.number ? 'no' : 'yes')), file: 'second.csv' };
    expect(refusals(reading('Ada'), again)).toEqual([
      `Unit ${first?.number} ("${first?.id}"): Ada answers both yes and no to legible, in Ada.csv and second.csv. Let one answer stand.`,
    ]);
    const [nameless] = refusals({ ...reading(''), file: 'a.csv' }, { ...again, by: '' });
    expect(nameless).toContain('somebody without a name answers both yes and no to legible, in a.csv and second.csv.');
    expect(nameless).toContain('or write into the column by who looked');
    // a worksheet that leaves the question open is none of those in which the two answers stand
    const silent = { ...reading('Ada', (number) => (number === second?.number ? 'yes' : null)), file: 'third.csv' };
    expect(refusals(reading('Ada'), silent, again)[0]).toContain('in Ada.csv and second.csv. Let');
  });
});

describe('refused by name', () => {
  const ada = reading('Ada');

  it('a worksheet of another draw, and one row of another', () => {
    const strange = changed(ada, (rows) => rows.map((row) => ({ ...row, draw: 'ffffffffffffffff' })));
    expect(refusals(strange)).toEqual([expect.stringMatching(/^Ada\.csv: this worksheet belongs to another draw; this one is 0123/)]);
    // the rows of other lots of the same throw are none of this draw
    expect(merged(ada, { ...strange, by: 'Bo' }).readers).toEqual([{ by: 'Ada', units: draw.drawn.length }]);
    expect(refusals(changed(ada, (rows) => rows.map((row, at) => (at === 0 ? { ...row, draw: 'ffff' } : row))))).toEqual([
      expect.stringContaining('has "ffff" in the column draw'),
    ]);
  });

  it('an open answer', () => {
    const open = changed(ada, (rows) =>
      rows.map((row, at) =>
        at === 0 ? { ...row, answers: row.answers.map((one) => (one.question === 'legible' ? { ...one, answer: null } : one)) } : row,
      ),
    );
    expect(refusals(open)).toEqual([`Unit ${first?.number} ("${first?.id}") has no answer to legible. Answer yes or no.`]);
    // somebody else may have answered it
    expect(
      refusals(
        open,
        reading('Bo', (number) => (number === first?.number ? 'yes' : null)),
      ),
    ).toEqual([]);
  });

  it('open answers of many units by their numbers, not as they were drawn', () => {
    const half = reading('Ada', (number) => (number === first?.number ? 'yes' : null));
    const numbers = refusals(half).map((line) => Number(/^Unit (\d+) /.exec(line)?.[1]));
    const others = draw.drawn.map(({ number }) => number).filter((number) => number !== first?.number);
    expect(numbers).toEqual(others.toSorted((a, b) => a - b));
    expect(numbers).not.toEqual(others);
  });

  it('worksheets in which nothing is answered, in one sentence', () => {
    const one = `Nothing is answered yet: none of the ${String(draw.drawn.length)} units that were drawn has an answer. Look at them and answer each question with yes or no.`;
    const nothing = reading('Ada', () => null);
    expect(refusals(nothing)).toEqual([one]);
    expect(
      refusals(
        nothing,
        reading('Bo', () => null),
      ),
    ).toEqual([one]);
    expect(refusals(changed(nothing, () => []))).toEqual([one]);
    const single = mergedReadings({ ...draw, drawn: draw.drawn.slice(0, 1) }, CODE, []) as Refused;
    expect(single.refused[0]).toContain('Nothing is answered yet: the one unit that was drawn has an answer.');
    expect(refusals()).toEqual([one]);
  });

  it('rows that changed, are missing, are there twice, or were not drawn', () => {
    const [one, ...rest] = ada.rows;
    if (one === undefined) throw new Error('nothing was drawn');
    expect(refusals({ ...ada, rows: [{ ...one, id: 'page 9999' }, ...rest] })).toEqual([
      `Ada.csv: unit ${one.number} is called "page 9999", but "${one.id}" was drawn. Put the name back.`,
    ]);
    expect(refusals({ ...ada, rows: rest })).toEqual([
      `Unit ${one.number} ("${one.id}") was drawn but has no row. Put it back and answer it.`,
    ]);
    expect(refusals({ ...ada, rows: [...ada.rows, one] })).toEqual([
      `Ada.csv: unit ${one.number} ("${one.id}") stands there twice. Keep one row.`,
    ]);
    expect(refusals({ ...ada, rows: [...ada.rows, { ...one, number: 9999 }] })).toEqual([
      `Ada.csv: unit 9999 ("${one.id}") was not drawn. Take its row out.`,
    ]);
    expect(others.length).toBeGreaterThan(0);
  });

  it('an answer to what was not asked, or a second one', () => {
    const [one, ...rest] = ada.rows;
    if (one === undefined) throw new Error('nothing was drawn');
    const again = { ...one, answers: [...one.answers, { question: 'legible', answer: 'no' } as const] };
    expect(refusals({ ...ada, rows: [again, ...rest] })).toEqual([
      expect.stringContaining('answers legible, which was not asked or is answered already'),
    ]);
  });
});
