import type { Account } from '../../model/account.js';
import { table, wrap } from '../text/wrap.js';
import { short } from '../visible.js';
import { DECISION_WORDS } from '../words.js';

/** The account of an order for reading: deliveries with what was decided, classes by count, and the money. */
export function accountText(account: Account, width: number): string {
  const { deliveries, classes, sums, currency, releases } = account;
  const money = currency === '' ? '' : ` ${currency}`;
  const owes = sums.open.startsWith('-');
  const claims = classes.filter(({ creditClaimed }) => creditClaimed > 0);
  const beyond = classes.filter(({ billed }) => billed < 0);
  const unbilled = classes.filter(({ notBilled }) => notBilled > 0);
  const say = (text: string): readonly string[] => wrap(short(text, 600), width, '  - ', '    ');
  const lines = [
    'The account',
    '',
    ...table(
      [
        ['Batch', 'delivery', 'decided', 'answer due'],
        ...deliveries.map(({ batch, delivery, decision, reviewDay }) => [
          short(batch, 40),
          String(delivery),
          decision === null ? 'not yet' : `${DECISION_WORDS[decision.is].toLowerCase()}, ${decision.on}`,
          reviewDay ?? '',
        ]),
      ],
      new Set([1]),
    ),
    '',
    ...table(
      [
        ['Class', 'ordered', 'came', 'accepted', 'disputed', 'billed', 'due', 'released'],
        ...classes.map((one) => [
          short(one.class, 24),
          ...[one.ordered, one.came, one.accepted, one.disputed, one.billed, one.due, one.released].map(String),
        ]),
      ],
      new Set([1, 2, 3, 4, 5, 6, 7]),
    ),
    '',
    ...table(
      [
        ['Billed', `${sums.billed}${money}`],
        ['Due', `${sums.due}${money}`],
        ['Released', `${sums.released}${money}`],
        owes ? ['The vendor owes', `${sums.open.slice(1)}${money}`] : ['Due and not released', `${sums.open}${money}`],
        ...(/^-?[0.]+$/.test(sums.notAgreed) ? [] : [['Not agreed, not released', `${sums.notAgreed}${money}`]]),
      ].map((row) => row.map((text) => short(text, 60))),
      new Set([1]),
    ),
    ...(claims.length + beyond.length + unbilled.length + releases.length === 0 ? [] : ['']),
    ...claims.flatMap((one) =>
      say(`A credit is claimed for ${String(one.creditClaimed)} of the class "${one.class}": released, and no longer accepted.`),
    ),
    ...beyond.flatMap((one) =>
      say(
        `${String(-one.billed)} more of the class "${one.class}" ${one.billed === -1 ? 'is' : 'are'} credited than ${one.billed === -1 ? 'was' : 'were'} ever billed; ask the vendor what the credit is for.`,
      ),
    ),
    ...unbilled.flatMap((one) =>
      say(`${String(one.notBilled)} of the class "${one.class}" ${one.notBilled === 1 ? 'is' : 'are'} due and on no invoice yet.`),
    ),
    ...releases.flatMap(({ on, by, second, amount, batch, delivery }) =>
      say(
        `${amount}${money} released on ${on} by ${by}${second === null ? '' : ` and ${second}`}, with delivery ${String(delivery)} of ${batch}.`,
      ),
    ),
  ];
  return `${lines.join('\n')}\n`;
}
