import type { SampleSummary } from '../model/decision.js';
import type { AnsweredSheet, AnsweredUnit, Draw, JudgedSample, Refused, SampleQuestion, SampleUnit } from '../model/sample.js';
import { drawNumbers } from './draw.js';
import { countInterval, highestCount, rateInterval } from './interval.js';
import { judgedInWords, planInWords } from './words.js';

/** What is asked of each unit. An issue is asked only what all its pages share. */
export const questions: Readonly<Record<SampleUnit, readonly SampleQuestion[]>> = {
  page: ['right-date', 'right-issue', 'right-page', 'right-order', 'complete', 'legible'],
  issue: ['right-date', 'right-issue', 'complete'],
};

const ALPHA = 0.05;

/**
 * Judges the answered worksheet of a draw: a unit is wrong where any question is answered no; the random units decide by the plan, the
 * extras are counted beside them. Refused by name: a worksheet of another draw, rows that changed, are missing or are there twice, open answers.
 */
export function judgeSample(draw: Draw, sheet: AnsweredSheet): JudgedSample | Refused {
  const refused = [...drawMistakes(draw), ...sheetMistakes(draw, sheet)];
  if (refused.length > 0) return { refused };
  const rows = new Map(sheet.rows.map((row) => [row.number, row] as const));
  const isWrong = ({ number }: { readonly number: number }): boolean =>
    rows.get(number)?.answers.some(({ answer }) => answer === 'no') ?? false;
  const wrongUnits = draw.drawn.filter(isWrong);
  const { plan } = draw;
  const wrong = wrongUnits.length;
  const drawn = draw.drawn.length;
  const seen = { lot: plan.lot, sample: drawn, wrong };
  const result: Omit<JudgedSample, 'says'> = {
    format: 'reeltally/sample/1',
    draw: { unit: draw.unit, plan, seed: draw.seed, listSha256: draw.listSha256 },
    drawn,
    wrong,
    outcome: wrong <= plan.accept ? 'accepted' : wrong >= plan.reject ? 'rejected' : 'accepted-back-to-normal',
    byQuestion: questions[draw.unit].map((question) => ({
      question,
      wrong: draw.drawn.filter(({ number }) => answerTo(rows.get(number), question) === 'no').length,
    })),
    issues: { seen: new Set(draw.drawn.map(({ issue }) => issue)).size, wrong: new Set(wrongUnits.map(({ issue }) => issue)).size },
    rate: drawn === 0 ? 0 : wrong / drawn,
    interval: countInterval(seen, ALPHA),
    atMost: highestCount(seen, ALPHA),
    endless: rateInterval(drawn, wrong, ALPHA),
    extras: { seen: draw.extras.length, wrong: draw.extras.filter(isWrong).length },
    wrongUnits: wrongUnits.map(({ id }) => id),
  };
  return { ...result, says: judgedInWords(result) };
}

/** What the decision about a batch needs to know of a judged sample. */
export function sampleSummary(judged: JudgedSample, batch: string, delivery: number): SampleSummary {
  const { unit, plan, seed, listSha256 } = judged.draw;
  return {
    batch,
    delivery,
    plan: planInWords(plan, unit),
    seed,
    listSha256,
    unit,
    lotSize: plan.lot,
    drawn: judged.drawn,
    nonconforming: judged.wrong,
    accepted: judged.outcome !== 'rejected',
    says: judged.says,
  };
}

function answerTo(row: AnsweredUnit | undefined, question: SampleQuestion): 'yes' | 'no' | null {
  return row?.answers.find((entry) => entry.question === question)?.answer ?? null;
}

/** The numbers of a draw follow from its seed and plan alone, so a draw that was changed afterwards shows itself. */
function drawMistakes({ plan, seed, drawn }: Draw): readonly string[] {
  const sound = plan.size >= 0 && plan.size <= plan.lot;
  const numbers = !sound || plan.size === plan.lot ? null : drawNumbers(seed, plan.lot, plan.size).map(({ number }) => number);
  const follows =
    drawn.length === plan.size && drawn.every(({ number }, index) => number === (numbers === null ? index + 1 : numbers[index]));
  return sound && follows
    ? []
    : [
        'The units of this draw do not follow from its seed and plan: the file of the draw was changed. Bring the file as it was written, or draw again.',
      ];
}

function sheetMistakes(draw: Draw, sheet: AnsweredSheet): readonly string[] {
  if (sheet.listSha256 !== draw.listSha256 || sheet.seed !== draw.seed)
    return [
      'This worksheet belongs to another draw: its seed or the hash of its list is not the same. Bring the worksheet that was written with this draw.',
    ];
  const expected = new Map([...draw.drawn, ...draw.extras].map(({ number, id }) => [number, id] as const));
  const seen = new Set<number>();
  const mistakes: string[] = [];
  for (const row of sheet.rows) {
    const id = expected.get(row.number);
    if (id === undefined) mistakes.push(`Unit ${row.number} ("${row.id}") was not drawn. Take its row out.`);
    else if (id !== row.id)
      mistakes.push(`Unit ${row.number} is called "${row.id}" in the worksheet, but "${id}" was drawn. Put the name back.`);
    else if (seen.has(row.number)) mistakes.push(`Unit ${row.number} ("${id}") stands in the worksheet twice. Keep one row.`);
    else mistakes.push(...answerMistakes(draw.unit, row));
    seen.add(row.number);
  }
  for (const [number, id] of expected)
    if (!seen.has(number)) mistakes.push(`Unit ${number} ("${id}") was drawn but has no row. Put it back and answer it.`);
  return mistakes;
}

function answerMistakes(unit: SampleUnit, row: AnsweredUnit): readonly string[] {
  const open = questions[unit].filter((question) => answerTo(row, question) === null);
  const asked = row.answers.map(({ question }) => question);
  const mistakes = open.length > 0 ? [`Unit ${row.number} ("${row.id}") has no answer to ${open.join(', ')}. Answer yes or no.`] : [];
  const strange = asked.filter((question, index) => !questions[unit].includes(question) || asked.indexOf(question) !== index);
  if (strange.length > 0)
    mistakes.push(`Unit ${row.number} ("${row.id}") answers ${strange.join(', ')}, which was not asked or is answered already.`);
  return mistakes;
}
