import type { Severity } from '../model/findings.js';
import type {
  Ledger,
  LedgerBatch,
  LedgerDelivery,
  LedgerInput,
  LedgerItem,
  LedgerLot,
  LedgerSample,
  LedgerVendor,
} from '../model/ledger.js';
import { faultsOf, isOpen, sumFaults } from './faults.js';
import { groupBy } from './group.js';
import { type Result, type ResultsOfBatch, resultsByBatch } from './ledger-batches.js';

const SEVERITIES: readonly Severity[] = ['critical', 'major', 'minor', 'note'];

/** Makes the ledger of these results, samples and decisions; of one vendor alone where its name is given. `ledgerMistakes` has nothing to say of the input. */
export function ledgerOf(input: LedgerInput, vendor: string | null): Ledger {
  const batches = resultsByBatch(input.results);
  const wanted = vendor === null ? batches : batches.filter((batch) => batch.vendor === vendor);
  const vendors = [...groupBy(wanted, (batch) => batch.vendor)].map(([name, group]) => vendorOf(name, group, input));
  vendors.sort((a, b) => (a.vendor < b.vendor ? -1 : 1));
  const [only] = vendors;
  return {
    format: 'reeltally/ledger/1',
    files: [...input.results, ...input.samples, ...input.decisions].map(({ name, sha256, format }) => ({ name, sha256, format })),
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
  return { vendor, batches, pages, faults, lots: lotHistory(batches) };
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

function deliveryOf(result: Result, input: LedgerInput): LedgerDelivery {
  const { run, findings, corrected, pending = [], counts, verdict } = result.value;
  const here = (of: { readonly batch: string; readonly delivery: number }): boolean =>
    of.batch === run.batch && of.delivery === run.delivery;
  const decision = input.decisions.find(({ value }) => here(value))?.value ?? null;
  const status = (wanted: string): number => findings.filter((finding) => finding.status === wanted).length;
  const held = corrected.length + pending.length + status('open') + status('new') > 0 || run.inputs.some(({ role }) => role === 'earlier');
  return {
    batch: run.batch,
    delivery: run.delivery,
    file: result.name,
    verifiedAt: run.at,
    received: run.received,
    pages: counts.pagesReturned,
    severities: Object.fromEntries(
      SEVERITIES.map((severity) => [severity, findings.filter((finding) => finding.severity === severity).length]),
    ) as Record<Severity, number>,
    since: held ? { corrected: corrected.length, open: status('open'), new: status('new'), pending: pending.length } : null,
    faults: faultsOf(result.value),
    verdict: verdict.decision,
    decision: decision === null ? null : { decision: decision.decision, by: decision.by, on: decision.on },
    review: decision?.review ?? result.review,
    samples: oncePerDraw([...input.samples.map(({ value }) => value), ...(decision?.samples ?? [])].filter(here)),
  };
}

/** A decision repeats the samples that it rests on. */
function oncePerDraw(samples: readonly LedgerSample[]): readonly LedgerSample[] {
  return samples.filter((sample, at) => samples.findIndex((other) => other.draw === sample.draw) === at);
}

/** What is not settled after the last delivery, worst first, with the delivery since which it is known. */
function itemsOf(results: readonly Result[]): readonly LedgerItem[] {
  const last = results.at(-1);
  if (last === undefined) return [];
  const since = (id: string): number => {
    let first = last.value.run.delivery;
    for (const { value } of results.slice(0, -1).toReversed()) {
      if (![...value.findings, ...(value.pending ?? [])].some((finding) => finding.id === id)) break;
      first = value.run.delivery;
    }
    return first;
  };
  const items = (findings: readonly Result['value']['findings'][number][], state: LedgerItem['state']): readonly LedgerItem[] =>
    findings
      .filter(isOpen)
      .map(({ id, code, severity, reel, at, says }) => ({ id, code, severity, reel, at, says, since: since(id), state }));
  return [...items(last.value.findings, 'open'), ...items(last.value.pending ?? [], 'pending')];
}

/** Samples and decisions of which no result was given: they are not lost in silence. */
function leftOver(input: LedgerInput, batches: readonly ResultsOfBatch[]): readonly string[] {
  const known = new Set(batches.flatMap(({ results }) => results.map(({ value }) => `${value.run.batch}\n${String(value.run.delivery)}`)));
  const decided = new Map<string, string>();
  const twice = input.decisions.flatMap(({ name, value }) => {
    const key = `${value.batch}\n${String(value.delivery)}`;
    const before = decided.get(key);
    decided.set(key, before ?? name);
    return before === undefined
      ? []
      : [`${name} is left out: ${before} has a decision on delivery ${String(value.delivery)} of ${value.batch} already.`];
  });
  const lone = [...input.samples, ...input.decisions].flatMap(({ name, value }) =>
    known.has(`${value.batch}\n${String(value.delivery)}`)
      ? []
      : [
          `${name} is left out: it is about delivery ${String(value.delivery)} of ${value.batch}, and no result of that delivery was given.`,
        ],
  );
  return [...lone, ...twice];
}
