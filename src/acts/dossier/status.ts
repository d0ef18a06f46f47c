import { join } from 'node:path';
import { reviewDue } from '../../calendar/review-days.js';
import { nextMove } from '../../dossier/next-move.js';
import type { DeliveryState, DossierState, MoneyState, NextMove } from '../../model/dossier.js';
import type { SavedSample } from '../../model/sample.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { needsRuling } from '../../report/words.js';
import { listHash } from '../../sampling/draw.js';
import { lotsOf } from '../../sampling/lots.js';
import { collationRecord } from '../inputs/collation-record.js';
import type { Surroundings } from '../surroundings.js';
import { lastAccount } from './account.js';
import { type Delivery, deliveriesOf } from './deliveries.js';
import { type OpenDossier, openDossier } from './open.js';
import { waitingPlans } from './sample-plan.js';
import { unread } from './sources.js';

/** How the order in this dossier stands today, and what comes next. Writes nothing. Throws UserMistake. */
export async function statusOfDossier(
  root: string,
  { now }: Surroundings,
): Promise<{ readonly state: DossierState; readonly next: NextMove }> {
  const dossier = await openDossier(root);
  const deliveries = await deliveriesOf(dossier);
  const agreement = deliveries.at(-1)?.result.agreement ?? (await agreementIn(dossier));
  const states: DeliveryState[] = [];
  for (const delivery of deliveries) states.push(await stateOf(dossier, delivery, deliveries));
  const state: DossierState = {
    order: dossier.file.order,
    library: agreement?.library ?? '',
    vendor: agreement?.vendor ?? '',
    today: now.slice(0, 10),
    record: await recordState(dossier, deliveries.length > 0),
    sent: dossier.layout.sent.length > 0,
    deliveries: states,
    money: await moneyOf(dossier),
  };
  return { state, next: nextMove(state) };
}

/** What the last account says of the money; null before the first invoice. */
async function moneyOf(dossier: OpenDossier): Promise<MoneyState | null> {
  const name = lastAccount(dossier);
  const account = name === null ? null : (await readJsonFile(join(dossier.root, name), 'account')).value;
  if (account === null || account.invoices.length === 0) return null;
  const { billed, released, open } = account.sums;
  const owes = open.startsWith('-');
  const nothing = /^[0.]+$/.test(open);
  return { currency: account.currency, billed, released, owed: owes || nothing ? '' : open, credit: owes ? open.slice(1) : '' };
}

/** A record that a delivery was held against was understood. */
async function recordState({ root, layout }: OpenDossier, wasUsed: boolean): Promise<DossierState['record']> {
  if (layout.record.length === 0) return 'none';
  if (wasUsed) return 'understood';
  return collationRecord([join(root, 'record')], { daySlips: true }).then(
    () => 'understood',
    (error: unknown) => {
      if (error instanceof UserMistake) return 'not understood';
      throw error;
    },
  );
}

async function agreementIn({ root, layout }: OpenDossier): Promise<{ readonly library?: string; readonly vendor?: string } | null> {
  return layout.agreement ? (await readJsonFile(join(root, 'agreement.json'), 'agreement')).value : null;
}

async function stateOf(
  dossier: OpenDossier,
  { place, run, result, file, decision }: Delivery,
  all: readonly Delivery[],
): Promise<DeliveryState> {
  const { terms } = result.agreement;
  const counting = result.findings.filter(
    ({ ruling, severity, cause }) => (ruling === null || ruling.decision === 'vendor-corrects') && severity !== 'note' && cause !== 'film',
  );
  return {
    delivery: place.delivery,
    batch: result.run.batch,
    received: file.received,
    due: reviewDue(file.received, terms),
    days: terms.reviewDays,
    dayKind: terms.reviewDayKind,
    advice: result.verdict.decision,
    folder: run.folder,
    open: counting.length,
    toRule: counting.filter(needsRuling).length,
    unmade: result.unchecked.filter(({ required }) => required).length,
    spot: await spotOf(dossier, { place, result }),
    unread: await unread(dossier, file, all),
    decision: decision === null ? null : { decision: decision.delivery, by: decision.by, on: decision.on },
  };
}

/** The lots of the sample as they were drawn; each reel is one where nothing was drawn yet. A draw from another list than the result gives now counts no more. */
async function spotOf(dossier: OpenDossier, { place, result }: Pick<Delivery, 'place' | 'result'>): Promise<DeliveryState['spot']> {
  const { root } = dossier;
  const drawn = new Map<string, SavedSample | null>();
  let by: 'reel' | 'batch' = 'reel';
  for (const { folder, judged } of place.draws) {
    const { value: draw } = await readJsonFile(join(root, folder, 'draw.json'), 'draw');
    const lots = lotsOf(result, draw.unit, draw.lot.by).filter(({ name }) => name === draw.lot.name);
    if (!lots.some(({ list }) => listHash(list.map(({ id }) => id)) === draw.listSha256)) continue;
    by = draw.lot.by;
    const sample = judged ? (await readJsonFile(join(root, folder, 'sample.json'), 'sample')).value : null;
    const before = drawn.get(draw.lot.name);
    // of several draws from one lot the one that is still open tells, then one that rejected
    if (before === undefined || (before !== null && (sample === null || before.outcome !== 'rejected'))) drawn.set(draw.lot.name, sample);
  }
  const samples = [...drawn.values()].filter((sample) => sample !== null);
  return {
    lots: lotsOf(result, result.agreement.sampling.unit, by).length,
    fixed: (await waitingPlans(dossier, place)).length > 0,
    drawn: drawn.size,
    judged: samples.length,
    rejected: samples.filter(({ outcome }) => outcome === 'rejected').length,
  };
}
