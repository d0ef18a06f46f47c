import { daysBetween } from '../calendar/civil.js';
import type { DeliveryState, DossierState, NextMove } from '../model/dossier.js';

/** What is to be done, by hand and by which command. */
type Step = Pick<NextMove, 'first' | 'command'>;

/** Tells from how an order stands whose move it is, and what that move is. */
export function nextMove(state: DossierState): NextMove {
  const newest = state.deliveries.at(-1);
  if (newest === undefined) return beforeDelivery(state);
  const { decision, due } = newest;
  if (decision === null || decision.decision === 'put-off' || decision.decision === 'cannot-decide') {
    const overdue = Math.max(0, daysBetween(due, state.today));
    return { move: 'library', by: due, overdue, ...answerStep(newest, state.today) };
  }
  if (decision.decision === 'accept') return afterAcceptance(state);
  const next = String(newest.delivery + 1);
  return {
    move: 'vendor',
    by: null,
    overdue: 0,
    first: `Send the vendor discrepancies.xlsx from ${newest.folder}; delivery ${next} must come.`,
    command: 'reeltally verify --batch DIR',
  };
}

function beforeDelivery({ record }: DossierState): NextMove {
  return record
    ? {
        move: 'vendor',
        by: null,
        overdue: 0,
        first: 'When the drive has come, connect it and name its folder.',
        command: 'reeltally verify --batch DIR',
      }
    : {
        move: 'library',
        by: null,
        overdue: 0,
        first: 'Put the collation record into the folder record.',
        command: 'reeltally collation check',
      };
}

function afterAcceptance({ money, today }: DossierState): NextMove {
  const base = { by: null, overdue: 0 };
  if (money !== null && money.credit !== '')
    return {
      ...base,
      move: 'vendor',
      first: `A credit of ${money.credit} is claimed; when its note has come, name its file.`,
      command: 'reeltally invoice FILE',
    };
  if (money !== null && money.owed !== '')
    return {
      ...base,
      move: 'library',
      first: `Pay what is due and not released: ${money.owed}${money.currency === '' ? '' : ` ${money.currency}`}.`,
      command: `reeltally decide --delivery-decision accept --release ${money.owed} --by NAME --on ${today}`,
    };
  return money === null
    ? { ...base, move: 'vendor', first: 'When the invoice has come, name its file.', command: 'reeltally invoice FILE' }
    : { ...base, move: 'nobody', first: 'Everything that is due is paid. Keep the dossier with the film.', command: 'reeltally audit' };
}

/** What the library does next about a delivery that is not decided. */
function answerStep({ folder, delivery, advice, unread, toRule, spot }: DeliveryState, today: string): Step {
  const [changed] = unread;
  if (changed !== undefined) return { first: `Take in what is new or changed: ${unread.join(', ')}.`, command: 'reeltally verify' };
  if (advice === 'cannot-decide')
    return {
      first:
        toRule > 0
          ? `Look at the film, decide in ${folder}/report.html, and save rulings.json into delivery-${String(delivery)}.`
          : `Supply what the required checks need: ${folder}/summary.txt names them under "Not checked".`,
      command: 'reeltally verify',
    };
  const decide = `reeltally decide --delivery-decision ${spot.rejected > 0 ? 'return-for-rework' : advice} --by NAME --on ${today}`;
  if (advice === 'return-for-rework' || spot.rejected > 0) return { first: `Read ${folder}/report.html.`, command: decide };
  if (spot.fixed) return { first: 'Throw dice for at least 24 digits.', command: 'reeltally sample draw --seed DIGITS' };
  if (spot.drawn < spot.lots) return { first: '', command: 'reeltally sample draw --fix' };
  if (spot.judged < spot.drawn)
    return {
      first: `Look at the pages and fill in a worksheet in delivery-${String(delivery)}/spot.`,
      command: 'reeltally sample judge --by NAME',
    };
  return { first: '', command: decide };
}
