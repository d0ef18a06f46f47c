import type { LedgerInput } from '../model/ledger.js';

/** A saved result among those that the ledger is made from. */
export type Result = LedgerInput['results'][number];

/** The results of one batch, by delivery. */
export interface ResultsOfBatch {
  readonly batch: string;
  readonly vendor: string;
  readonly results: readonly Result[];
}

/** What keeps these results from being one ledger, in sentences: two of the same delivery. The same file given twice is no mistake. */
export function ledgerMistakes(input: LedgerInput): readonly string[] {
  const mistakes: string[] = [];
  for (const { results, batch } of resultsByBatch(input.results)) {
    results.forEach((result, at) => {
      const before = results[at - 1];
      if (before !== undefined && before.value.delivery === result.value.delivery)
        mistakes.push(
          `${before.name} (of ${before.value.at}) and ${result.name} (of ${result.value.at}) are both results of delivery ${String(result.value.delivery)} of ${batch}. Give only the one that counts.`,
        );
    });
  }
  return mistakes;
}

/**
 * Puts the results of each batch together, in the order in which the batches came. A batch is known by its name, and where a delivery came
 * under another name by the earlier result that it was held against.
 */
export function resultsByBatch(all: readonly Result[]): readonly ResultsOfBatch[] {
  const files = new Map(all.map((result) => [result.sha256, result]));
  const parents = new Map<string, string>();
  const rootOf = (name: string): string => {
    const parent = parents.get(name);
    return parent === undefined ? name : rootOf(parent);
  };
  const unique = [...files.values()];
  for (const { value } of unique) {
    for (const sha256 of value.earlier) {
      const earlier = files.get(sha256)?.value.batch;
      if (earlier !== undefined && rootOf(earlier) !== rootOf(value.batch)) parents.set(rootOf(value.batch), rootOf(earlier));
    }
  }
  const batches = new Map<string, Result[]>();
  for (const result of unique) {
    const root = rootOf(result.value.batch);
    batches.set(root, [...(batches.get(root) ?? []), result]);
  }
  return [...batches]
    .map(([batch, results]) => {
      const ordered = results.sort((a, b) => a.value.delivery - b.value.delivery || order(a.value.at, b.value.at));
      return { batch, vendor: ordered.map(({ value }) => value.vendor).find((name) => name !== '') ?? '', results: ordered };
    })
    .sort((a, b) => order(arrival(a), arrival(b)) || order(a.batch, b.batch));
}

/** The day on which a batch first came, or on which it was first verified. */
function arrival({ results }: ResultsOfBatch): string {
  const first = results[0]?.value;
  return first === undefined ? '' : (first.received ?? first.at.slice(0, 10));
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
