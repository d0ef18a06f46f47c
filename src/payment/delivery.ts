import { reviewDue } from '../calendar/review-days.js';
import type { AccountDelivery, AccountRescan, AccountUnits, NamedFile } from '../model/account.js';
import type { PriceClass } from '../model/agreement.js';
import type { Finding, Findings, ResultFrame } from '../model/findings.js';
import { classCounts, type Unit, unitsOf } from './units.js';

/** What a result says of one delivery, as the account keeps it. No person has decided about it yet. */
export function accountDelivery(result: Findings, file: NamedFile): AccountDelivery {
  const { run, agreement, verdict, reels } = result;
  const units = agreement.terms.classes.flatMap((entry) => groupedUnits(entry, unitsOf(entry, result)));
  const rescans = result.corrected.flatMap((finding) => rescanOf(finding, reels));
  const told = new Set([...units.flatMap((group) => group.findings)]);
  return {
    batch: run.batch,
    delivery: run.delivery,
    received: run.received,
    reviewDay: run.received === null ? null : (run.reviewDay ?? reviewDue(run.received, agreement.terms)),
    verifiedAt: run.at,
    result: file,
    verdict: verdict.decision,
    decision: null,
    reels: reels.filter(({ frames }) => frames.some(({ state }) => state !== 'not-compared')).map(({ number }) => number),
    units,
    rescans,
    heldBack: heldBackGroups(reels.flatMap(({ frames }) => frames)),
    findings: result.findings.filter(({ id }) => told.has(id)).map(({ id, says }) => ({ id, says })),
  };
}

/** What keeps a result from being taken into an account, in a sentence: its counts are not those of its frames. */
export function resultMistake(result: Findings, name: string): string | null {
  const counted = new Map(result.counts.classes.map((entry) => [entry.class, entry]));
  const wrong = classCounts(result.agreement.terms.classes, result).find((made) => {
    const said = counted.get(made.class);
    return said === undefined || said.accepted !== made.accepted || said.disputed !== made.disputed;
  });
  return wrong === undefined
    ? null
    : `${name}: the result counts ${String(counted.get(wrong.class)?.accepted ?? 0)} accepted in the class "${wrong.class}", and its frames show ${String(wrong.accepted)}; it was changed by hand or made by another version. Verify again.`;
}

/** Units that stand alike, in one entry for each reel. */
function groupedUnits(entry: PriceClass, units: readonly Unit[]): readonly AccountUnits[] {
  const groups = new Map<string, { readonly like: Unit; readonly frames: string[] }>();
  for (const unit of units) {
    const key = JSON.stringify([unit.reel, unit.state, unit.ordered, unit.findings]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { like: unit, frames: [unit.frame] });
    else group.frames.push(unit.frame);
  }
  return [...groups.values()].map(({ like: { reel, state, ordered, findings }, frames }) => ({
    class: entry.class,
    reel,
    state,
    ordered,
    findings,
    frames,
  }));
}

/** The frames that a corrected finding had scanned again, and at whose cost. Renumbering what follows a lost frame is no rescan. */
function rescanOf(finding: Finding, reels: Findings['reels']): readonly AccountRescan[] {
  if (finding.rescan !== 'yes' || finding.repair.some((step) => step.do === 'renumber')) return [];
  const { id, says, ruling, cause } = finding;
  const cost =
    ruling?.decision === 'collation-wrong' || (ruling === null && (cause === 'film' || cause === 'collation')) ? 'library' : 'vendor';
  return namedFrames(finding, reels).map(({ reel, frames }) => ({ finding: id, says, reel, frames, cost }));
}

/** The frames of a finding by reel, in film order. */
function namedFrames(
  { frames, reel, at }: Finding,
  reels: Findings['reels'],
): readonly { readonly reel: string; readonly frames: readonly string[] }[] {
  const here = reels.find(({ number }) => number === reel);
  const list = frames?.list ?? (frames === null ? (at === null ? [] : [at]) : between(here?.frames ?? [], frames.from, frames.to));
  const found = new Map<string, string[]>();
  for (const name of list) {
    const colon = name.lastIndexOf(':');
    const on = colon < 0 ? (reel ?? '') : name.slice(0, colon);
    found.set(on, [...(found.get(on) ?? []), name.slice(colon + 1)]);
  }
  return [...found].map(([on, names]) => ({ reel: on, frames: names }));
}

function between(frames: readonly ResultFrame[], from: string, to: string): readonly string[] {
  const numbers = frames.flatMap(({ frame }) => (frame === null ? [] : [frame]));
  const [first, last] = [numbers.indexOf(from), numbers.lastIndexOf(to)];
  return first < 0 || last < first ? [from] : numbers.slice(first, last + 1);
}

/** Groups of frames that are counted on the reels and not delivered, the narrow ones first; a vendor sometimes bills one of them all the same. */
function heldBackGroups(frames: readonly ResultFrame[]): AccountDelivery['heldBack'] {
  const held = frames.filter((frame) => frame.state !== 'return-only' && !frame.deliver && frame.returnedKind !== 'page');
  const groups: readonly (readonly [string, (frame: ResultFrame) => boolean])[] = [
    ['duplicate pages that were rightly held back', (frame) => frame.kind === 'page' && frame.duplicateOf !== null],
    ['pages that were rightly held back', (frame) => frame.kind === 'page'],
    ['blanks', (frame) => frame.kind === 'blank'],
    ['targets', (frame) => frame.kind === 'target'],
    ['voids', (frame) => frame.kind === 'void'],
    ['frames that are not pages', (frame) => frame.kind !== 'page'],
    ['frames that were rightly held back', () => true],
  ];
  return groups.map(([words, belongs]) => ({ words, count: held.filter(belongs).length })).filter(({ count }) => count > 0);
}
