import type { DecisionRecord } from '../../model/decision.js';
import { counted, DECISION_WORDS } from '../words.js';

/** A part of a decision as it is read: a head, and sentences under it. */
export interface DecisionPart {
  readonly head: string;
  readonly sentences: readonly string[];
}

/** The journal of the dossier as it was when the decision was made: the number of its last line, and that line's SHA-256. */
export interface Seal {
  readonly line: number;
  readonly sha256: string;
}

/** What the decision is, in one line. */
export function decisionTitle({ decision }: DecisionRecord): string {
  return DECISION_WORDS[decision];
}

/** Who decided about what, in one sentence. */
export function decisionSentence({ library, vendor, batch, delivery, by, on }: DecisionRecord): string {
  const sender = vendor === '' ? '' : `, sent by ${vendor},`;
  return `Delivery ${String(delivery)} of the batch ${batch}${sender} was decided on ${on} by ${by}${library === '' ? '' : ` for ${library}`}.`;
}

/** Everything that the decision rests on, part by part; parts with nothing in them are left out. `seal` ties the printed page to the journal of its dossier. */
export function decisionParts(record: DecisionRecord, seal: Seal | null): readonly DecisionPart[] {
  const { reasons, verdict, samples, rulings, unruled, invoice, inputs, decision } = record;
  const parts: readonly DecisionPart[] = [
    { head: 'Why', sentences: reasons },
    {
      head: 'The comparison alone',
      sentences:
        verdict.decision === decision ? [] : [`By itself the comparison advises: ${DECISION_WORDS[verdict.decision].toLowerCase()}.`],
    },
    { head: 'Time for the answer', sentences: [reviewSentence(record)] },
    {
      head: 'Spot checks',
      sentences: samples.flatMap(({ plan, seed, listSha256, says }) => [
        plan,
        ...says,
        `Seed ${seed}; list of the lot, SHA-256 ${listSha256}.`,
      ]),
    },
    {
      head: 'Rulings',
      sentences: [
        ...rulings.map(
          ({ id, says, ruling }) =>
            `${id}: ${ruling.decision}${ruling.by === '' ? '' : ` by ${ruling.by}`}${ruling.on === '' ? '' : ` on ${ruling.on}`}. ${says}${ruling.note === '' ? '' : ` Note: ${ruling.note}`}`,
        ),
        ...(unruled === 0 ? [] : [`${counted(unruled, 'finding')} without a ruling.`]),
      ],
    },
    { head: 'Invoice', sentences: invoice === null ? [] : invoiceSentences(invoice) },
    {
      head: 'Files that this rests on',
      sentences: inputs.map(({ role, name, sha256 }) => `${role}: ${name}${sha256 === '' ? '' : `, SHA-256 ${sha256}`}`),
    },
    {
      head: 'Journal',
      sentences:
        seal === null
          ? []
          : [`With this decision the journal of the dossier ends in line ${String(seal.line)}, whose SHA-256 is ${seal.sha256}.`],
    },
  ];
  return parts.filter(({ sentences }) => sentences.length > 0);
}

function reviewSentence({ review, on }: DecisionRecord): string {
  const { received, days, dayKind, due, inTime } = review;
  if (received === null || due === null)
    return `The agreement gives ${String(days)} ${dayKind} days; the result does not say when the delivery was received.`;
  return `Received on ${received}; ${String(days)} ${dayKind} days lead to ${due}. The decision of ${on} is ${inTime === true ? 'in time' : 'late'}.`;
}

function invoiceSentences(invoice: NonNullable<DecisionRecord['invoice']>): readonly string[] {
  const { number, currency, billed, due, difference, differences } = invoice;
  const money = currency === '' ? '' : ` ${currency}`;
  return [
    `${number === '' ? 'The invoice' : `Invoice ${number}`} asks for ${billed}${money}; ${due}${money} are due. Billed less due: ${difference}${money}.`,
    ...differences.map(
      ({ effect, says, findings }) => `${effect}${money}: ${says}${findings.length === 0 ? '' : ` (${findings.join(', ')})`}`,
    ),
  ];
}
