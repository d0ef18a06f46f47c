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
export function decisionTitle({ delivery }: DecisionRecord): string {
  return delivery === 'put-off' ? 'Put off' : DECISION_WORDS[delivery];
}

/** Who decided about what, in one sentence. */
export function decisionSentence({ library, vendor, batch, deliveryNumber, by, second, on }: DecisionRecord): string {
  const sender = vendor === '' ? '' : `, sent by ${vendor},`;
  const who = `${by}${second === null ? '' : ` and ${second}`}`;
  return `Delivery ${String(deliveryNumber)} of the batch ${batch}${sender} was decided on ${on} by ${who}${library === '' ? '' : ` for ${library}`}.`;
}

/** Everything that the decision rests on, part by part; parts with nothing in them are left out. `seal` ties the printed page to the journal of its dossier. */
export function decisionParts(record: DecisionRecord, seal: Seal | null): readonly DecisionPart[] {
  const { advice, against, reason, samples, rulings, unruled, invoices, inputs, release, notLookedAt, notChecked } = record;
  const parts: readonly DecisionPart[] = [
    { head: 'Payment', sentences: releaseSentences(record) },
    {
      head: 'The advice',
      sentences: [`${DECISION_WORDS[advice.decision]}.`, ...advice.reasons],
    },
    { head: 'Why it was decided so', sentences: [...against, ...(reason === '' ? [] : [`Reason: ${reason}`])] },
    { head: 'Time for the answer', sentences: [reviewSentence(record)] },
    {
      head: 'Spot checks',
      sentences: samples.flatMap(({ plan, seed, listSha256, says, agreed, judgedAgain }) => [
        plan,
        ...says,
        `Seed ${seed}; list of the lot, SHA-256 ${listSha256}.`,
        ...(agreed ? [] : ['This is not the plan of the agreement.']),
        judgedAgain
          ? 'Judged again from its draw and worksheet: the same.'
          : 'Its draw and worksheet do not lie beside it, so it could not be judged again and does not count.',
      ]),
    },
    {
      head: 'Not looked at and not checked',
      sentences: [
        ...notLookedAt.map((lot) => `The agreed sample of the lot ${lot}.`),
        ...notChecked.map(({ what, why, required }) => `${what}${required ? ' (required)' : ''}: ${why}`),
      ],
    },
    {
      head: 'Rulings',
      sentences: [
        ...rulings.map(
          ({ id, says, ruling, money }) =>
            `${id}: ${ruling.decision} by ${ruling.by} on ${ruling.on}${money === null ? '' : `, worth ${money}${release === null || release.currency === '' ? '' : ` ${release.currency}`} before tax`}. ${says}${ruling.note === '' ? '' : ` Note: ${ruling.note}`}`,
        ),
        ...(unruled === 0 ? [] : [`${counted(unruled, 'finding')} without a ruling.`]),
      ],
    },
    { head: 'Invoices', sentences: invoices.flatMap((invoice) => invoiceSentences(invoice, release?.currency ?? '')) },
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

function releaseSentences({ release }: DecisionRecord): readonly string[] {
  if (release === null) return ['No account was given: nothing is released.'];
  const money = release.currency === '' ? '' : ` ${release.currency}`;
  const owes = release.left.startsWith('-');
  return [
    `Released: ${release.amount}${money}. Due before this decision's release: ${release.due}${money}.`,
    ...release.parts.map(({ invoice, amount }) =>
      invoice === null ? `${amount}${money} goes beyond all that is due.` : `${amount}${money} on invoice ${invoice}.`,
    ),
    ...release.named.map(
      ({ invoice, line, text, amount }) =>
        `Named: "${text}" (invoice ${invoice}, line ${line}), ${amount}${money} before tax, which the agreement does not know.`,
    ),
    owes ? `The vendor owes ${release.left.slice(1)}${money}.` : `Due and not released: ${release.left}${money}.`,
  ];
}

function reviewSentence({ review, on }: DecisionRecord): string {
  const { received, days, dayKind, due, inTime } = review;
  if (received === null || due === null)
    return `The agreement gives ${String(days)} ${dayKind} days; the result does not say when the delivery was received.`;
  return `Received on ${received}; ${String(days)} ${dayKind} days lead to ${due}. The decision of ${on} is ${inTime === true ? 'in time' : 'late'}.`;
}

function invoiceSentences(
  { number, billed, due, difference, released, differences }: DecisionRecord['invoices'][number],
  currency: string,
): readonly string[] {
  const money = currency === '' ? '' : ` ${currency}`;
  return [
    `Invoice ${number} asks for ${billed}${money}; ${due}${money} are due, ${released}${money} are released. Billed less due: ${difference}${money}.`,
    ...differences.map(
      ({ effect, says, findings }) => `${effect}${money}: ${says}${findings.length === 0 ? '' : ` (${findings.join(', ')})`}`,
    ),
  ];
}
