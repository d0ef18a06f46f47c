import type { DeliveryState, DossierState, MoneyState, NextMove } from '../model/dossier.js';
import { wrap } from './text/wrap.js';
import { short } from './visible.js';
import { counted, DECISION_WORDS } from './words.js';

const LABEL = 12;
const LONGEST = 400;

/** How an order stands, in ten lines (longer ones wrapped): what it is, whose move, by which day, what is open, owed, overdue, and what comes next. */
export function statusText(state: DossierState, next: NextMove, width: number): string {
  const { order, library, vendor, deliveries, money } = state;
  const newest = deliveries.at(-1);
  const between = [library, vendor].filter((name) => name !== '').join(', with ');
  const lines: readonly (readonly [string, string])[] = [
    ['Order', `${order}${between === '' ? '' : `: ${between}`}`],
    ['Delivery', newest === undefined ? 'none yet' : `${String(newest.delivery)} of ${newest.batch}, received on ${newest.received}`],
    ['Move', moveWords(next, newest)],
    ['Advice', newest === undefined ? '–' : adviceWords(newest)],
    ['Open', newest === undefined ? '–' : openWords(newest)],
    ['Spot check', newest === undefined ? '–' : spotWords(newest)],
    ['Decided', decidedWords(deliveries)],
    ['Owed', money === null ? 'no invoice was taken in yet' : moneyWords(money)],
    ['Overdue', next.overdue === 0 ? 'nothing' : `the library's answer, by ${counted(next.overdue, 'day')}`],
    ['Next', nextInWords(next)],
  ];
  return lines
    .flatMap(([label, text]) => wrap(short(text, LONGEST), width, label.padEnd(LABEL), ' '.repeat(LABEL)))
    .map((line) => `${line}\n`)
    .join('');
}

/** What comes next: what is done by hand, then the command. */
export function nextInWords({ first, command }: NextMove): string {
  return `${first}${first === '' ? '' : ' Then: '}${command}`;
}

function moveWords({ move, by }: NextMove, newest: DeliveryState | undefined): string {
  if (move === 'nobody') return "nobody's: the order is done";
  const whose = move === 'library' ? "the library's" : "the vendor's";
  if (by === null || newest === undefined) return `${whose}; no day is set for it`;
  return `${whose}, by ${by} (${counted(newest.days, `${newest.dayKind} day`)} from the day after receipt)`;
}

function adviceWords({ advice, folder, spot }: DeliveryState): string {
  const why = `${DECISION_WORDS[advice].toLowerCase()} (${folder}/summary.txt says why)`;
  return spot.rejected > 0 && advice !== 'return-for-rework'
    ? `return for rework: ${counted(spot.rejected, 'lot')} rejected; the comparison alone: ${why}`
    : why;
}

function openWords({ open, toRule, unmade, unread }: DeliveryState): string {
  const parts = [
    counted(open, 'finding'),
    ...(toRule === 0 ? [] : [`${String(toRule)} of them ${toRule === 1 ? 'needs' : 'need'} the library's ruling`]),
    ...(unmade === 0 ? [] : [`${counted(unmade, 'required check')} not made`]),
    ...(unread.length === 0 ? [] : [`not read yet: ${unread.join(', ')}`]),
  ];
  return parts.join('; ');
}

function spotWords({ spot: { lots, fixed, drawn, judged, rejected } }: DeliveryState): string {
  if (drawn === 0) return `${fixed ? 'list and plan fixed, ' : ''}not drawn (${counted(lots, 'lot')})`;
  const rest = judged < drawn ? `, ${String(drawn - judged)} still to be judged` : '';
  return `drawn from ${String(drawn)} of ${counted(lots, 'lot')}, ${String(judged)} judged${rejected === 0 ? '' : `, ${String(rejected)} rejected`}${rest}`;
}

function decidedWords(deliveries: readonly DeliveryState[]): string {
  const told = deliveries.flatMap(({ delivery, decision }) =>
    decision === null
      ? []
      : [
          `delivery ${String(delivery)}: ${decision.decision === 'put-off' ? 'put off' : DECISION_WORDS[decision.decision].toLowerCase()}, by ${decision.by} on ${decision.on}`,
        ],
  );
  return told.length === 0 ? 'nothing yet' : told.join('; ');
}

function moneyWords({ currency, billed, released, owed, credit }: MoneyState): string {
  const money = currency === '' ? '' : ` ${currency}`;
  return [
    ...(owed === '' ? [] : [`${owed}${money} due and not released`]),
    `${billed}${money} billed, ${released}${money} released`,
    ...(credit === '' ? [] : [`a credit of ${credit}${money} is claimed`]),
  ].join('; ');
}
