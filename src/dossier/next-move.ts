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
  const late = newest.unread.length === 0 ? '' : ` ${newest.unread.join(', ')} will be read with it.`;
  const again = {
    first: `${listsToSend(newest)}; delivery ${String(newest.delivery + 1)} must come.${late}`,
    command: 'reeltally verify --batch DIR',
  };
  const payment = paymentDue(state, decision.decision);
  return payment === null
    ? { move: 'vendor', by: null, overdue: 0, ...again }
    : { move: 'library', by: null, overdue: 0, first: `${again.first} ${payment.first}`, command: payment.command };
}

/** What the vendor needs to know what to correct. */
function listsToSend({ folder, delivery, spot, open }: DeliveryState): string {
  const images = `images-to-correct.xlsx from the rejected lot's folder in delivery-${String(delivery)}/spot`;
  if (spot.rejected > 0 && open === 0) return `Send the vendor ${images}`;
  return `Send the vendor discrepancies.xlsx from ${folder}${spot.rejected > 0 ? `, and ${images}` : ''}`;
}

function beforeDelivery({ record, sent }: DossierState): NextMove {
  const library = { move: 'library', by: null, overdue: 0 } as const;
  if (record === 'none')
    return { ...library, first: 'Put the collation record into the folder record.', command: 'reeltally collation check' };
  if (record === 'not understood')
    return { ...library, first: 'The record cannot be read as it is yet.', command: 'reeltally collation read' };
  const before = sent
    ? ''
    : 'As long as the film is here: "reeltally collation check" and "reeltally collation instructions", which writes what goes with it. ';
  return {
    move: 'vendor',
    by: null,
    overdue: 0,
    first: `${before}When the drive has come, connect it and name its folder.`,
    command: 'reeltally verify --batch DIR',
  };
}

/** What is due and not released, to be paid with a decision like the last one; null where nothing is. */
function paymentDue({ money, today }: DossierState, decision: string): Step | null {
  if (money === null || money.owed === '') return null;
  return {
    first: `Pay what is due and not released: ${money.owed}${money.currency === '' ? '' : ` ${money.currency}`}.`,
    command: `reeltally decide --delivery-decision ${decision} --release ${money.owed} --by NAME --on ${today}`,
  };
}

function afterAcceptance(state: DossierState): NextMove {
  const { money } = state;
  const base = { by: null, overdue: 0 };
  if (money !== null && money.credit !== '')
    return {
      ...base,
      move: 'vendor',
      first: `A credit of ${money.credit} is claimed; when its note has come, name its file.`,
      command: 'reeltally invoice FILE',
    };
  const payment = paymentDue(state, 'accept');
  if (payment !== null) return { ...base, move: 'library', ...payment };
  return money === null
    ? { ...base, move: 'vendor', first: 'When the invoice has come, name its file.', command: 'reeltally invoice FILE' }
    : { ...base, move: 'nobody', first: 'Everything that is due is paid. Keep the dossier with the film.', command: 'reeltally audit' };
}

/** What is read before a return is sent back, and ruled where the record may be what is wrong. */
function readFirst({ folder, delivery, toRule }: DeliveryState): string {
  if (toRule === 0) return `Read ${folder}/report.html.`;
  const findings = toRule === 1 ? '1 finding' : `${String(toRule)} findings`;
  return `Read ${folder}/report.html, and rule first on ${findings} where the record is likelier wrong or in doubt: save rulings.json into delivery-${String(delivery)} and verify again.`;
}

/** What the library does next about a delivery that is not decided. */
function answerStep(newest: DeliveryState, today: string): Step {
  const { folder, delivery, advice, unread, toRule, spot } = newest;
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
  if (spot.rejected > 0)
    return { first: `Read sample.txt in the rejected lot's folder in delivery-${String(delivery)}/spot.`, command: decide };
  if (advice === 'return-for-rework') return { first: readFirst(newest), command: decide };
  if (spot.fixed) return { first: 'Throw dice for at least 24 digits.', command: 'reeltally sample draw --seed DIGITS' };
  if (spot.drawn < spot.lots) return { first: '', command: 'reeltally sample draw --fix' };
  if (spot.judged < spot.drawn)
    return {
      first: `Look at the pages and fill in a worksheet in delivery-${String(delivery)}/spot.`,
      command: 'reeltally sample judge --by NAME',
    };
  return { first: '', command: decide };
}
