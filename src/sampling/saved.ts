import type {
  Draw,
  JudgedSample,
  LotName,
  SampleQuestion,
  SavedAnswers,
  SavedDraw,
  SavedSample,
  SavedWorksheet,
  Series,
  SharedFacts,
  SourceFile,
  Standing,
  WrongUnit,
} from '../model/sample.js';
import { designEffect } from './clusters.js';
import { rateInterval } from './interval.js';
import { nextInspection } from './switching.js';

/** Facts that stand or fall for a whole issue. */
const SHARED: readonly SampleQuestion[] = ['right-date', 'right-issue'];

/** What a draw was made from. */
export interface DrawOrigin {
  readonly batch: string;
  readonly delivery: number;
  readonly lot: LotName;
  readonly findings: SourceFile;
  readonly series: Series | null;
}

/** A draw with what it was made from, its fields in the order of the format. */
export function savedDraw(draw: Draw, { batch, delivery, lot, findings, series }: DrawOrigin): SavedDraw {
  const { format, unit, plan, seed, listSha256, drawn, lastCounter, extras } = draw;
  return { format, batch, delivery, lot, findings, unit, plan, series, seed, listSha256, drawn, lastCounter, extras };
}

/** How the next lot of a series is inspected by the switching rules; a series starts on normal. */
export function standingAfter({ lots, reducedAgreed }: Series): Standing {
  return nextInspection(lots, { wanted: reducedAgreed, steady: reducedAgreed, limitNumbersDropped: reducedAgreed });
}

/** A judged sample with the units that failed, what to widen to and how the next lot is inspected; `sheet` must be the one that was judged. */
export function savedSample(judged: JudgedSample, draw: SavedDraw, sheet: SavedWorksheet, inputs: SavedSample['inputs']): SavedSample {
  const { batch, delivery, lot } = draw;
  const wrongOnes = wrongUnits(draw, sheet.rows);
  const rejected = judged.outcome === 'rejected';
  const widenTo = rejected ? [...new Set(wrongOnes.filter(({ random }) => random).map(({ issue }) => issue))] : [];
  const shared = draw.unit === 'page' ? sharedFacts(draw, wrongOnes) : null;
  const next = nextStanding(draw, judged);
  const { format, draw: drawFacts, drawn, wrong, outcome, byQuestion, issues, rate, interval, atMost, endless, extras } = judged;
  // the last sentence of a rejected lot says what to do, and stays beside what else there is to do
  const toDo = rejected ? -1 : judged.says.length;
  return {
    format,
    batch,
    delivery,
    lot,
    by: sheet.by,
    draw: drawFacts,
    drawn,
    wrong,
    outcome,
    byQuestion,
    issues,
    rate,
    interval,
    atMost,
    endless,
    extras,
    wrongUnits: judged.wrongUnits,
    wrongOnes,
    shared,
    widenTo,
    next,
    says: [...judged.says.slice(0, toDo), ...sharedWords(shared, draw), ...judged.says.slice(toDo), ...furtherWords(widenTo, draw, next)],
    inputs,
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
      return questions.length === 0 ? [] : [{ id, issue, random, questions, note: row?.note ?? '' }];
    });
}

/** Pages of one issue share its date, so for such a fact they are no more looks than there are issues (`1 + (size - 1) * 1`, see clusters.ts). */
function sharedFacts(draw: Draw, wrongOnes: readonly WrongUnit[]): SharedFacts | null {
  const issues = new Set(draw.drawn.map(({ issue }) => issue)).size;
  if (issues === 0) return null;
  const failing = wrongOnes.filter(({ random, questions }) => random && questions.some((question) => SHARED.includes(question)));
  const wrong = new Set(failing.map(({ issue }) => issue)).size;
  return {
    questions: SHARED,
    issues,
    wrong,
    designEffect: designEffect(draw.drawn.length / issues, 1),
    endless: rateInterval(issues, wrong, 0.05),
  };
}

function nextStanding({ plan, series }: SavedDraw, { outcome }: JudgedSample): Standing | null {
  if (plan.kind !== 'acceptance-quality-limit' || series === null) return null;
  // a lot that was drawn after inspection had stopped is the one with which it was taken up again
  const resumed = standingAfter(series).severity === 'discontinued';
  const lot = { accepted: outcome !== 'rejected', betweenNumbers: outcome === 'accepted-back-to-normal', resumed };
  return standingAfter({ ...series, lots: [...series.lots, lot] });
}

function sharedWords(shared: SharedFacts | null, draw: SavedDraw): readonly string[] {
  if (shared === null) return [];
  const { issues, wrong, designEffect: effect, endless } = shared;
  return [
    `For the facts that an issue shares (${shared.questions.join(', ')}) the ${draw.drawn.length} pages are worth ${issues} looks, one for each issue seen (design effect ${effect.toFixed(2)}): ${wrong} of ${issues} issues ${wrong === 1 ? 'is' : 'are'} wrong there, a rate between ${percent(endless.low)} and ${percent(endless.high)} (95 %, Clopper-Pearson); issues with many pages are seen more often.`,
  ];
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

function percent(rate: number): string {
  return `${(rate * 100).toFixed(2)} %`;
}
