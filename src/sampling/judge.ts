import type { SampleSummary } from '../model/decision.js';
import type { AnsweredUnit, Draw, JudgedSample, MergedReadings, SampleQuestion } from '../model/sample.js';
import { drawNumbers } from './draw.js';
import { countInterval, highestCount, rateInterval } from './interval.js';
import { questions } from './questions.js';
import { judgedInWords, planInWords } from './words.js';

const ALPHA = { top: 1n, bottom: 20n };

/**
 * Judges the answers to a draw: a unit is wrong where any question is answered no; the random units decide by the plan, the
 * extras are counted beside them. The draw must be sound (`drawMistakes`).
 */
export function judgeSample(draw: Draw, answers: Pick<MergedReadings, 'rows'>): JudgedSample {
  const rows = new Map(answers.rows.map((row) => [row.number, row] as const));
  const isWrong = ({ number }: { readonly number: number }): boolean =>
    rows.get(number)?.answers.some(({ answer }) => answer === 'no') ?? false;
  const wrongUnits = draw.drawn.filter(isWrong);
  const { plan } = draw;
  const wrong = wrongUnits.length;
  const drawn = draw.drawn.length;
  const seen = { lot: plan.lot, sample: drawn, wrong };
  const result: Omit<JudgedSample, 'says'> = {
    draw: { unit: draw.unit, plan, seed: draw.seed, listSha256: draw.listSha256 },
    drawn,
    wrong,
    outcome: outcomeOf(plan, wrong),
    byQuestion: questions[draw.unit].map((question) => ({
      question,
      wrong: draw.drawn.filter(({ number }) => answerTo(rows.get(number), question) === 'no').length,
    })),
    issues: { seen: new Set(draw.drawn.map(({ issue }) => issue)).size, wrong: new Set(wrongUnits.map(({ issue }) => issue)).size },
    rate: drawn === 0 ? 0 : wrong / drawn,
    interval: countInterval(seen, ALPHA),
    atMost: highestCount(seen, ALPHA),
    endless: rateInterval(drawn, wrong, 0.05),
    extras: { seen: draw.extras.length, wrong: draw.extras.filter(isWrong).length },
    wrongUnits: wrongUnits.map(({ id }) => id),
  };
  return { ...result, says: judgedInWords(result) };
}

/** What a plan decides with so many wrong units. */
export function outcomeOf({ accept, reject }: Draw['plan'], wrong: number): JudgedSample['outcome'] {
  return wrong <= accept ? 'accepted' : wrong >= reject ? 'rejected' : 'accepted-back-to-normal';
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

/** What shows that a draw was changed, in sentences: its numbers follow from its seed and plan alone. */
export function drawMistakes({ plan, seed, drawn }: Draw): readonly string[] {
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
