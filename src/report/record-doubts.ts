import type { Findings } from '../model/findings.js';
import type { RecordItem } from '../model/record-check.js';

/** An open problem of the record with the ids of the findings that rest on what it leaves in doubt. */
export interface RecordDoubt {
  readonly item: RecordItem;
  readonly findings: readonly string[];
}

/** The open problems of the record: those on which findings rest first, else in the order of the result. */
export function recordDoubts({ record, findings }: Findings): readonly RecordDoubt[] {
  const resting = new Map<string, string[]>();
  for (const { id, doubts = [] } of findings)
    for (const doubt of doubts) {
      const known = resting.get(doubt);
      if (known === undefined) resting.set(doubt, [id]);
      else known.push(id);
    }
  return record
    .map((item): RecordDoubt => ({ item, findings: resting.get(item.id) ?? [] }))
    .toSorted((a, b) => Number(b.findings.length > 0) - Number(a.findings.length > 0));
}

/** What the open problems mean for the verdict, in one sentence or two. */
export function doubtsInWords(doubts: readonly RecordDoubt[], { findings: all }: Findings): string {
  const ids = new Set(doubts.flatMap(({ findings }) => findings));
  const resting = ids.size;
  const ruled = all.filter(({ id, ruling }) => ids.has(id) && ruling !== null).length;
  const what =
    resting === 0
      ? 'No finding rests on them.'
      : `${resting === 1 ? 'One finding rests' : `${String(resting)} findings rest`} on them; ${chargedWith(resting, ruled)}.`;
  return `Checked by itself, the record asks for a look at these places. ${what}`;
}

/** What becomes of the findings that rest on problems of the record, of which the library has ruled on some. */
function chargedWith(resting: number, ruled: number): string {
  if (ruled === resting) return `the library has ruled on ${resting === 1 ? 'it' : 'all of these'}`;
  if (ruled === 0) return `the vendor is not charged with ${resting === 1 ? 'it' : 'these'} before the library has ruled`;
  return `the library has ruled on ${String(ruled)} of these, and the vendor is not charged with the ${resting - ruled === 1 ? 'other' : 'others'} before it has ruled`;
}

/** Where a problem lies, `reel 14, frames 3 to 8`; the day where nothing is on the film. */
export function doubtPlace({ reel, frames, date }: RecordItem): string {
  if (reel === null || frames === null) return date ?? '';
  return `reel ${reel}, frame${frames.from === frames.to ? ` ${frames.from}` : `s ${frames.from} to ${frames.to}`}`;
}
