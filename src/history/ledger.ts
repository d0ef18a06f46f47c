import type {
  Ledger,
  LedgerBatch,
  LedgerDecision,
  LedgerDelivery,
  LedgerFinding,
  LedgerInput,
  LedgerItem,
  LedgerLot,
  LedgerSample,
  LedgerVendor,
} from '../model/ledger.js';
import { sumFaults } from './faults.js';
import { groupBy } from './group.js';
import { type Result, type ResultsOfBatch, resultsByBatch } from './ledger-batches.js';
import { moneyOf } from './ledger-money.js';

/** Makes the ledger of these results, samples and decisions; of one vendor alone where its name is given. `ledgerMistakes` has nothing to say of the input. */
export function ledgerOf(input: LedgerInput, vendor: string | null): Ledger {
  const batches = resultsByBatch(input.results);
  const wanted = vendor === null ? batches : batches.filter((batch) => batch.vendor === vendor);
  const vendors = [...groupBy(wanted, (batch) => batch.vendor)].map(([name, group]) => vendorOf(name, group, input));
  vendors.sort((a, b) => (a.vendor < b.vendor ? -1 : 1));
  const [only] = vendors;
  return {
    format: 'reeltally/ledger/2',
    on: input.on,
    files: [...input.results, ...input.samples, ...input.decisions, ...input.accounts].map(({ name, sha256, format }) => ({
      name,
      sha256,
      format,
    })),
    vendors,
    ...(vendors.length === 1 && only !== undefined ? { lots: only.lots } : {}),
    remarks: leftOver(input, batches),
  };
}

function vendorOf(vendor: string, group: readonly ResultsOfBatch[], input: LedgerInput): LedgerVendor {
  const batches = group.map((batch) => batchOf(batch, input));
  const firsts = batches.flatMap(({ deliveries }) => deliveries[0] ?? []).filter(({ delivery }) => delivery === 1);
  const pages = firsts.reduce((sum, delivery) => sum + delivery.pages, 0);
  const faults = sumFaults(
    firsts.map((delivery) => delivery.faults),
    pages,
  );
  const accounts = input.accounts.flatMap(({ value }) => (value.vendor === vendor ? [value] : []));
  return { vendor, batches, pages, faults, lots: lotHistory(batches), money: moneyOf(accounts) };
}

/** The lots of a series, in order, as the switching rules of sampling need them: those of first deliveries, for a lot sent in again after rework does not count. */
export function lotHistory(batches: readonly LedgerBatch[]): readonly LedgerLot[] {
  return batches.flatMap(({ batch, deliveries }) =>
    deliveries
      .filter(({ delivery }) => delivery === 1)
      .flatMap(({ samples }) => samples.map(({ lot, accepted, betweenNumbers }) => ({ batch, lot, accepted, betweenNumbers }))),
  );
}

function batchOf({ batch, results }: ResultsOfBatch, input: LedgerInput): LedgerBatch {
  return { batch, deliveries: results.map((result) => deliveryOf(result, input)), items: itemsOf(results) };
}

function deliveryOf({ name, value }: Result, input: LedgerInput): LedgerDelivery {
  const { batch, delivery, at, received, pages, severities, since, faults, verdict, review } = value;
  const here = (of: { readonly batch: string; readonly delivery: number }): boolean => of.batch === batch && of.delivery === delivery;
  const decision = lastDecision(input, here);
  return {
    ...{ batch, delivery, file: name, verifiedAt: at, received, pages, severities, since, faults, verdict },
    decision: decision === null ? null : { decision: decision.decision, by: decision.by, on: decision.on },
    review: decision?.review ?? review,
    samples: oncePerDraw([...input.samples.map((one) => one.value), ...(decision?.samples ?? [])].filter(here)),
  };
}

/** Of several decisions about one delivery, such as two payments, the latest. */
function lastDecision({ decisions }: LedgerInput, here: (of: LedgerDecision) => boolean): LedgerDecision | null {
  let last: LedgerDecision | null = null;
  for (const { value } of decisions) if (here(value) && (last === null || value.on >= last.on)) last = value;
  return last;
}

/** A decision repeats the samples that it rests on. */
function oncePerDraw(samples: readonly LedgerSample[]): readonly LedgerSample[] {
  return samples.filter((sample, at) => samples.findIndex((other) => other.draw === sample.draw) === at);
}

/** What is not settled after the last delivery, worst first, with the delivery since which it is known. */
function itemsOf(results: readonly Result[]): readonly LedgerItem[] {
  const last = results.at(-1)?.value;
  if (last === undefined) return [];
  const since = (id: string): number => {
    let first = last.delivery;
    for (const { value } of results.slice(0, -1).toReversed()) {
      if (!value.ids.includes(id)) break;
      first = value.delivery;
    }
    return first;
  };
  const items = (findings: readonly LedgerFinding[], state: LedgerItem['state']): readonly LedgerItem[] =>
    findings.map((finding) => ({ ...finding, since: since(finding.id), state }));
  return [...items(last.open, 'open'), ...items(last.pending, 'pending')];
}

/** Samples, decisions and accounts of which no result was given: they are not lost in silence. */
function leftOver(input: LedgerInput, batches: readonly ResultsOfBatch[]): readonly string[] {
  const all = batches.flatMap(({ results }) => results.map(({ value }) => value));
  const known = new Set(all.map(({ batch, delivery }) => `${batch}\n${String(delivery)}`));
  const lone = [...input.samples, ...input.decisions].flatMap(({ name, value }) =>
    known.has(`${value.batch}\n${String(value.delivery)}`)
      ? []
      : [
          `${name} is left out: it is about delivery ${String(value.delivery)} of ${value.batch}, and no result of that delivery was given.`,
        ],
  );
  const vendors = new Set(all.map(({ vendor }) => vendor));
  const strange = input.accounts.flatMap(({ name, value }) =>
    vendors.has(value.vendor)
      ? []
      : [`${name} is left out: no result of ${value.vendor === '' ? 'a vendor without a name' : value.vendor} was given.`],
  );
  return [...lone, ...strange];
}
