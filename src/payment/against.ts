import type { DecisionInput } from '../model/decision.js';
import type { Decision } from '../model/findings.js';
import { type Money, secondOf } from './decided-money.js';

/** Why this decision needs a reason and a second name. */
export function againstOf(
  input: DecisionInput,
  advice: Decision,
  notLookedAt: readonly string[],
  { amount, due, named, decided }: Money,
): readonly string[] {
  const { delivery } = input;
  const against: string[] = [];
  if (delivery !== 'put-off' && delivery !== advice)
    against.push(
      advice === 'cannot-decide'
        ? 'The program could not advise anything.'
        : `The advice is to ${IN_WORDS[advice]}, and the decision is to ${IN_WORDS[delivery]}.`,
    );
  const pays = delivery === 'accept' || delivery === 'accept-with-corrections' || amount > 0n;
  if (pays && notLookedAt.length > 0)
    against.push(
      `Nobody looked at the agreed sample of ${notLookedAt.length === 1 ? `the lot ${notLookedAt[0] ?? ''}` : `${String(notLookedAt.length)} lots (${notLookedAt.slice(0, 5).join(', ')}${notLookedAt.length > 5 ? ' and more' : ''})`}.`,
    );
  if (pays)
    against.push(
      ...input.openDraws.map(
        ({ place, lots }) =>
          `A sample of ${lots.join(', ')} was drawn and never judged: ${place}. No other draw from the list stands for it.`,
      ),
    );
  if (amount > due && decided !== null) {
    const most = named > 0n && amount <= due + named;
    against.push(
      `${decided.amount} ${decided.currency} are released and ${decided.due} are due${most ? '; the rest is for lines that the agreement does not know' : ''}.`.replace(
        '  ',
        ' ',
      ),
    );
  }
  return against;
}

const IN_WORDS: Readonly<Record<Decision | 'put-off', string>> = {
  accept: 'accept',
  'accept-with-corrections': 'accept with corrections',
  'return-for-rework': 'return for rework',
  'cannot-decide': 'decide nothing',
  'put-off': 'put it off',
};

/** What is still to be said before this can be decided, in sentences. */
export function lackingIn(input: DecisionInput, against: readonly string[], { amount, due, decided }: Money): readonly string[] {
  const lacking: string[] = [];
  const reason = input.reason.trim() !== '';
  const second = secondOf(input) !== null;
  if (against.length > 0 && (!reason || !second)) {
    const needs = [...(reason ? [] : ['a reason (--reason TEXT)']), ...(second ? [] : ['a second name (--second NAME)'])].join(' and ');
    lacking.push(...against, `This needs ${needs}.`);
  } else if (input.release !== null && amount < due && !reason)
    lacking.push(`${decided?.amount ?? ''} is less than the ${decided?.due ?? ''} that are due; say why with --reason.`);
  return lacking;
}
