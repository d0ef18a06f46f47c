import type { CurvePoint, SavedSample } from '../model/sample.js';
import { table, wrap } from './text/wrap.js';
import { short } from './visible.js';
import { counted } from './words.js';
import { questionHead } from './worksheet/questions.js';

/** What there is to say of a lot before anything is drawn from it. */
export interface PlannedLot {
  /** What the lot is, in words. */
  readonly name: string;
  readonly unit: string;
  /** The plan in a sentence, then what it protects against. */
  readonly plan: string;
  readonly protection: readonly string[];
  /** What can be learned in the time there is; empty where nobody asked. */
  readonly time: readonly string[];
  readonly curve: readonly CurvePoint[];
  readonly listSha256: string;
  /** Units to look at for a reason. */
  readonly extras: number;
}

const percent = (share: number): string => `${(share * 100).toFixed(2)} %`;
const bullets = (sentences: readonly string[], width: number): readonly string[] =>
  sentences.flatMap((sentence) => wrap(short(sentence, 2000), width, '  - ', '    '));

/** The plan for a lot: what it protects against, as sentences and as an operating curve, and the hash that fixes the list. */
export function plannedText({ name, unit, plan, protection, time, curve, listSha256, extras }: PlannedLot, width: number): string {
  const rows = curve.map(({ wrong, share, passes }) => [String(wrong), percent(share), percent(passes)]);
  const lines = [
    ...wrap(short(name, 200), width),
    '',
    ...wrap(plan, width),
    '',
    'What this protects against',
    '',
    ...bullets(protection, width),
    '',
    ...(time.length === 0 ? [] : ['What can be learned in the time there is', '', ...bullets(time, width), '']),
    ...table([[`${unit}s wrong in the lot`, 'that is', 'chance that it passes'], ...rows], new Set([0, 1, 2])),
    '',
    ...wrap(`List of the lot, SHA-256: ${listSha256}`, width, '', '  '),
    ...(extras === 0 ? [] : wrap(`Beside the random ones, for a reason and not counted: ${counted(extras, unit)}.`, width, '', '  ')),
  ];
  return `${lines.join('\n')}\n`;
}

/** What came of a spot check: the outcome first, the figures in sentences, then every unit that is not as ordered. */
export function sampleText(sample: SavedSample, width: number): string {
  const { lot, batch, delivery, outcome, readers } = sample;
  const by = readers.flatMap((reader) => (reader.by === '' ? [] : [reader.by])).join(', ');
  const failing = sample.byQuestion.filter(({ wrong }) => wrong > 0);
  const lines = [
    outcome === 'rejected' ? 'LOT REJECTED' : 'LOT ACCEPTED',
    '',
    ...wrap(
      short(
        `${lot.by === 'reel' ? 'Reel' : 'Batch'} ${lot.name}, delivery ${String(delivery)} of ${batch}${by === '' ? '' : `; looked at by ${by}`}.`,
        400,
      ),
      width,
    ),
    '',
    ...bullets(sample.says, width),
    ...(failing.length === 0
      ? []
      : [
          '',
          'Wrong by question',
          '',
          ...table(
            failing.map(({ question, wrong }) => [questionHead(question), String(wrong)]),
            new Set([1]),
          ),
        ]),
    ...(sample.disagree.length === 0 ? [] : ['', 'Readers disagree', '', ...disagreeLines(sample, width)]),
    ...(sample.wrongOnes.length === 0 ? [] : ['', 'Not as ordered', '', ...wrongLines(sample, width)]),
  ];
  return `${lines.join('\n')}\n`;
}

function disagreeLines({ disagree }: SavedSample, width: number): readonly string[] {
  const who = (names: readonly string[]): string => names.map((name) => (name === '' ? 'somebody without a name' : name)).join(', ');
  return disagree.flatMap(({ id, question, yes, no }) =>
    wrap(short(`${id}, ${questionHead(question)}: yes by ${who(yes)}; no by ${who(no)}.`, 700), width, '  - ', '    '),
  );
}

function wrongLines({ wrongOnes }: SavedSample, width: number): readonly string[] {
  return wrongOnes.flatMap(({ id, issue, random, questions, note }) => {
    const where = issue === id ? id : `${id} (${issue})`;
    const said = note === '' ? '' : ` Note: ${note}`;
    return wrap(
      short(`${where}: ${questions.map(questionHead).join(', ')}${random ? '' : '; looked at for a reason'}.${said}`, 700),
      width,
      '  - ',
      '    ',
    );
  });
}
