import type { DecisionRecord } from '../../model/decision.js';
import { wrap } from '../text/wrap.js';
import { short } from '../visible.js';
import { decisionParts, decisionSentence, decisionTitle, type Seal } from './parts.js';

const SENTENCE = 2000;

/** A decision for reading and filing: the decision first, then what it rests on. */
export function renderDecisionText(record: DecisionRecord, width: number, seal: Seal | null = null): string {
  const lines = [
    decisionTitle(record).toUpperCase(),
    '',
    ...wrap(short(decisionSentence(record), SENTENCE), width),
    ...decisionParts(record, seal).flatMap(({ head, sentences }) => [
      '',
      head,
      '',
      ...sentences.flatMap((sentence) => wrap(short(sentence, SENTENCE), width, '  - ', '    ')),
    ]),
  ];
  return `${lines.join('\n')}\n`;
}
