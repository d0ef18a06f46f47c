import type {
  Draw,
  FixedPlan,
  JudgedSample,
  MergedReadings,
  SavedAnswers,
  SavedDraw,
  SavedSample,
  Series,
  Standing,
  WrongUnit,
} from '../model/sample.js';
import { outcomeOf } from './judge.js';
import { CODES } from './questions.js';
import { sharedFacts, sharedInWords } from './shared-facts.js';
import { nextInspection } from './switching.js';
import { readersInWords, standingInWords } from './words.js';

/** A draw with what it was made from, its fields in the order of the format. */
export function savedDraw(draw: Draw, origin: Omit<FixedPlan, 'fixed'> & Pick<SavedDraw, 'fixed' | 'thrown'>): SavedDraw {
  const { batch, delivery, lot, findings, series, agreed, before, reason, fixed, thrown } = origin;
  const { unit, plan, seed, listSha256, issues, drawn, lastCounter, extras } = draw;
  const from = { format: 'reeltally/draw/2' as const, batch, delivery, lot, findings, unit, plan, series, agreed, before, reason };
  return { ...from, listSha256, fixed, seed, thrown, issues, drawn, lastCounter, extras };
}

/** How the next lot of a series is inspected by the switching rules; a series starts on normal. */
export function standingAfter({ lots, reducedAgreed }: Series): Standing {
  return nextInspection(lots, { wanted: reducedAgreed, steady: reducedAgreed, limitNumbersDropped: reducedAgreed });
}

/** A judged sample with the units that failed, who looked, what to widen to and how the next lot is inspected; `answers` must be those that were judged, `by` the name for those that name nobody. */
export function savedSample(
  judged: JudgedSample,
  draw: SavedDraw,
  answers: MergedReadings,
  { by, inputs }: Pick<SavedSample, 'by' | 'inputs'>,
): SavedSample {
  const { batch, delivery, lot, agreed, before, reason, fixed, thrown } = draw;
  const wrongOnes = wrongUnits(draw, answers.rows);
  const rejected = judged.outcome === 'rejected';
  const widenTo = rejected ? [...new Set(wrongOnes.filter(({ random }) => random).map(({ issue }) => issue))] : [];
  const shared = sharedFacts(draw, wrongOnes);
  const next = nextStanding(draw, judged);
  const { readers, twice, disagree } = answers;
  const { draw: drawFacts, drawn, wrong, outcome, byQuestion, issues, rate, interval, atMost, endless, extras, wrongUnits: names } = judged;
  // the last sentence of a rejected lot says what to do, and stays beside what else there is to do
  const toDo = rejected ? -1 : judged.says.length;
  const says = [
    ...judged.says.slice(0, toDo),
    ...sharedInWords(shared, draw),
    ...readersInWords(answers, outcomeWithout(draw, wrongOnes, answers)),
    ...standingInWords(draw),
    ...judged.says.slice(toDo),
    ...furtherWords(widenTo, draw, next),
  ];
  return {
    ...{ format: 'reeltally/sample/2', batch, delivery, lot, by, draw: drawFacts, agreed, before, reason, fixed, thrown },
    ...{ drawn, wrong, outcome, byQuestion, issues, rate, interval, atMost, endless, extras, wrongUnits: names },
    ...{ readers, twice, disagree, wrongOnes, shared, widenTo, next, says, inputs },
  };
}

function wrongUnits(draw: Draw, rows: readonly SavedAnswers[]): readonly WrongUnit[] {
  const answers = new Map(rows.map((row) => [row.number, row] as const));
  const units = [...draw.drawn.map((unit) => ({ ...unit, random: true })), ...draw.extras.map((unit) => ({ ...unit, random: false }))];
  return units
    .toSorted((a, b) => a.number - b.number)
    .flatMap(({ number, id, issue, random }) => {
      const row = answers.get(number);
      const questions = row?.answers.filter(({ answer }) => answer === 'no').map(({ question }) => question) ?? [];
      const codes = [...new Set(questions.map((question) => CODES[question]))];
      return questions.length === 0 ? [] : [{ id, issue, random, questions, codes, note: row?.note ?? '' }];
    });
}

/** Wrong units and outcome if every question on which readers disagree were answered yes. */
function outcomeWithout(
  { plan }: Draw,
  wrongOnes: readonly WrongUnit[],
  { disagree }: MergedReadings,
): { readonly wrong: number; readonly outcome: JudgedSample['outcome'] } {
  const open = new Set(disagree.map(({ id, question }) => `${id}\n${question}`));
  const wrong = wrongOnes.filter(
    ({ id, random, questions }) => random && questions.some((question) => !open.has(`${id}\n${question}`)),
  ).length;
  return { wrong, outcome: outcomeOf(plan, wrong) };
}

function nextStanding({ plan, series }: SavedDraw, { outcome }: JudgedSample): Standing | null {
  if (plan.kind !== 'acceptance-quality-limit' || series === null) return null;
  // a lot that was drawn after inspection had stopped is the one with which it was taken up again
  const resumed = standingAfter(series).severity === 'discontinued';
  const lot = { accepted: outcome !== 'rejected', betweenNumbers: outcome === 'accepted-back-to-normal', resumed };
  return standingAfter({ ...series, lots: [...series.lots, lot] });
}

function furtherWords(widenTo: readonly string[], draw: SavedDraw, next: Standing | null): readonly string[] {
  const says: string[] = [];
  if (widenTo.length > 0)
    says.push(
      `Begin with every page of ${widenTo.length === 1 ? 'the issue' : `the ${widenTo.length} issues`} that failed: ${named(widenTo)}.`,
    );
  if (next !== null)
    says.push(
      next.severity === 'discontinued'
        ? `The next lot: inspection is discontinued until the vendor has mended what was wrong. ${next.because}`
        : `The next lot is on ${next.severity} inspection. ${next.because}`,
    );
  else if (draw.plan.kind === 'acceptance-quality-limit')
    says.push(
      'How the next lot is inspected follows from the lots before, which this draw does not know; draw with the ledger of the lots to have it said.',
    );
  return says;
}

function named(issues: readonly string[]): string {
  const told = issues.slice(0, 6).join('; ');
  return issues.length > 6 ? `${told}; and ${issues.length - 6} more` : told;
}
