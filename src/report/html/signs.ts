import type { Finding, Findings, ResultFrame, Severity } from '../../model/findings.js';
import { SEVERITIES, stillCounts } from '../words.js';

/** What a frame of the film is drawn as: what came of comparing it. */
export type Sign = ResultFrame['state'];

/** How a sign looks and reads: class in the style sheet, character, words for one frame and for several, and the sentence of the legend. */
export interface SignText {
  readonly css: string;
  readonly glyph: string;
  readonly one: string;
  readonly many: string;
  readonly means: string;
}

/** The signs, the heaviest first: where a group of frames is one sign, it is the first of them that any of its frames has. */
export const SIGNS: readonly (readonly [sign: Sign, text: SignText])[] = [
  [
    'not-delivered',
    {
      css: 'sg',
      glyph: '\u2212',
      one: 'not delivered',
      many: 'not delivered',
      means: 'Not delivered: the page was to come and did not.',
    },
  ],
  [
    'delivered-though-held-back',
    {
      css: 'sh',
      glyph: '!',
      one: 'delivered though held back',
      many: 'delivered though held back',
      means: 'Delivered though held back: the frame was to stay behind and came as a page.',
    },
  ],
  [
    'return-only',
    {
      css: 'sp',
      glyph: '+',
      one: 'surplus',
      many: 'surplus',
      means: 'Surplus: the return has, or counts, a frame here that the record does not have.',
    },
  ],
  [
    'differs',
    {
      css: 'sd',
      glyph: '\u2260',
      one: 'differs',
      many: 'differ',
      means: 'Differs: it came, and the return says something of it that the record does not.',
    },
  ],
  [
    'record-only',
    {
      css: 'sm',
      glyph: '\u2205',
      one: 'left without a number',
      many: 'left without a number',
      means: 'Left without a number: the frame is held back, and the return does not count it.',
    },
  ],
  [
    'number-differs',
    {
      css: 'sn',
      glyph: '#',
      one: 'only the number differs',
      many: 'differ in the number alone',
      means: "Only the number differs: the frame is right, and the vendor's number for it is another.",
    },
  ],
  [
    'not-compared',
    {
      css: 'sq',
      glyph: '?',
      one: 'not compared',
      many: 'not compared',
      means: 'Not compared: what came for it cannot be read, or nothing shows whether it came.',
    },
  ],
  [
    'agrees',
    { css: 'sa', glyph: '', one: 'agrees', many: 'agree', means: 'No sign: it agrees. Nothing came for a frame held back, as ordered.' },
  ],
];

const TEXTS = new Map(SIGNS);

/** The look and the words of a sign. */
export function signText(sign: Sign): SignText {
  const text = TEXTS.get(sign);
  if (text === undefined) throw new Error(`No such sign: ${sign}`);
  return text;
}

/** The findings of a result by their ids. */
export type Told = ReadonlyMap<string, Finding>;

/** Gathers that once for a result. */
export const toldOf = ({ findings }: Pick<Findings, 'findings'>): Told => new Map(findings.map((finding) => [finding.id, finding]));

/** The findings that say something of a frame: those that stand there, then those of which it is a consequence. */
export function findingsAt(frame: ResultFrame, told: Told): readonly Finding[] {
  return [...frame.findings, ...(frame.follows ?? [])].flatMap((id) => told.get(id) ?? []);
}

/** True for a finding about the numbers of frames alone. */
export const ofNumber = ({ field }: Finding): boolean => field === 'frame' || field === 'number';

/** The worst severity of what still counts at a frame; null where nothing does. */
export function weightAt(frame: ResultFrame, told: Told): Severity | null {
  const counting = findingsAt(frame, told).filter(stillCounts);
  return SEVERITIES.find((severity) => counting.some((finding) => finding.severity === severity)) ?? null;
}

/** The heaviest of several signs. */
export function heaviest(signs: readonly Sign[]): Sign {
  return SIGNS.find(([sign]) => signs.includes(sign))?.[0] ?? 'agrees';
}

/** How many frames have each sign, in words: `4 differ, 1 not delivered`; of frames that all agree `agree`. */
export function signsInWords(signs: readonly Sign[]): string {
  return SIGNS.toReversed()
    .flatMap(([sign, { one, many }]) => {
      const count = signs.filter((other) => other === sign).length;
      if (count === 0) return [];
      const words = count === 1 ? one : many;
      return [count === signs.length ? words : `${String(count)} ${words}`];
    })
    .join(', ');
}
