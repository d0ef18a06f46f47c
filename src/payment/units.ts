import type { UnitState } from '../model/account.js';
import type { PriceClass } from '../model/agreement.js';
import type { ClassCount, Finding, Findings, ResultFrame } from '../model/findings.js';

/** One frame, reel or batch as a class counts it in one delivery. */
export interface Unit {
  readonly reel: string;
  /** The record's frame number; `+` and the return's number for a surplus page; `reel` or `batch`. One that stands twice on a reel has `#2` behind it. */
  readonly frame: string;
  readonly state: UnitState;
  readonly ordered: boolean;
  readonly findings: readonly string[];
}

/** What of a result says how many units a class has. */
export type Counted = Pick<Findings, 'reels' | 'findings'>;

/** Codes that say of a frame held back that it was not scanned. */
const NOT_SCANNED: ReadonlySet<string> = new Set(['frame-not-scanned', 'frame-number-gap']);

/**
 * True for a finding that is open and counts: film and notes do not, what was ruled accepted or the record's slip no longer does, and what rests
 * on facts that the record leaves in doubt is held against nobody before it is ruled.
 */
export function isOpen({ ruling, cause, severity, doubts }: Pick<Finding, 'ruling' | 'cause' | 'severity' | 'doubts'>): boolean {
  if (severity === 'note') return false;
  return ruling === null ? cause !== 'film' && doubts === undefined : ruling.decision === 'vendor-corrects';
}

/** True for a finding that keeps frames from being accepted. */
function disputes(finding: Finding): boolean {
  const { severity, billable, rescan } = finding;
  return isOpen(finding) && (severity === 'critical' || severity === 'major' || billable.length > 0 || rescan === 'yes');
}

/** True for a finding that only makes later frame numbers wrong: one renumbering mends them all, so that only the frame where it begins is in dispute. */
function isShift({ repair, billable, rescan }: Finding): boolean {
  return billable.length === 0 && rescan === 'no' && repair.some((step) => step.do === 'renumber');
}

/** Every unit of a class in one delivery, reel by reel in film order. A frame is in one class of a charge: the one in which it came. */
export function unitsOf(entry: PriceClass, result: Counted): readonly Unit[] {
  const open = new Map(result.findings.filter((finding) => disputes(finding)).map((finding) => [finding.id, finding]));
  const gaps = new Set(result.findings.filter((finding) => isOpen(finding) && NOT_SCANNED.has(finding.code)).map(({ id }) => id));
  const named = new Set(result.findings.filter(({ cause }) => cause !== 'film').map(({ id }) => id));
  const perReel = result.reels.map((reel) => ({ number: reel.number, units: unitsOnReel(entry, reel, { open, gaps, named }) }));
  if (entry.per === 'reel') return perReel.flatMap(({ number, units }) => wholeOf(units, number, 'reel'));
  if (entry.per === 'batch')
    return wholeOf(
      perReel.flatMap(({ units }) => units),
      '',
      'batch',
    );
  return perReel.flatMap(({ units }) => units);
}

/** A reel or the batch as one unit: accepted as soon as its first frame is. */
function wholeOf(units: readonly Unit[], reel: string, frame: 'reel' | 'batch'): readonly Unit[] {
  if (units.length === 0) return [];
  const states = new Set(units.map(({ state }) => state));
  const state = states.has('accepted') ? 'accepted' : states.has('disputed') ? 'disputed' : 'wanting';
  const findings = state === 'accepted' ? [] : [...new Set(units.flatMap((unit) => unit.findings))];
  return [{ reel, frame, state, ordered: units.some(({ ordered }) => ordered), findings }];
}

interface Bearing {
  readonly open: ReadonlyMap<string, Finding>;
  readonly gaps: ReadonlySet<string>;
  readonly named: ReadonlySet<string>;
}

function unitsOnReel(entry: PriceClass, reel: Findings['reels'][number], bearing: Bearing): readonly Unit[] {
  const seen = new Map<string, number>();
  return reel.frames.flatMap((frame): readonly Unit[] => {
    const name = frame.frame ?? `+${frame.returned ?? ''}`;
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    const ordered = isOrdered(entry, frame);
    const came = cameIn(entry, frame);
    if (!came && !ordered) return [];
    const by = came ? disputedBy(entry, frame, bearing) : missedBy(frame, bearing);
    const state = !came ? 'wanting' : by.length > 0 ? 'disputed' : 'accepted';
    return [{ reel: reel.number, frame: count === 1 ? name : `${name}#${String(count)}`, state, ordered, findings: by }];
  });
}

function isOrdered(entry: PriceClass, frame: ResultFrame): boolean {
  return frame.state !== 'return-only' && isInClass(entry, frame);
}

/** Whether a class pays for a frame as the record has it. */
export function isInClass(
  entry: PriceClass,
  { kind, deliver, duplicateOf }: { readonly kind: string; readonly deliver: boolean; readonly duplicateOf: unknown },
): boolean {
  return (
    deliver === entry.deliver &&
    entry.kind.some((one) => one === kind) &&
    (deliver || duplicateOf === null || entry.includes === 'duplicates')
  );
}

/** A page came where it shows as one. A frame that is held back shows in no page: it came, unless its reel is not in this batch; a finding that it was not scanned disputes it. */
function cameIn(entry: PriceClass, frame: ResultFrame): boolean {
  if (frame.returnedKind === 'page') return entry.deliver && entry.kind.includes('page');
  if (!isOrdered(entry, frame) || frame.state === 'not-compared') return false;
  return entry.deliver ? frame.returnedKind !== null : true;
}

function disputedBy(entry: PriceClass, frame: ResultFrame, { open, gaps }: Bearing): readonly string[] {
  return frame.findings.filter((id) => {
    const finding = open.get(id);
    if (finding === undefined) return !entry.deliver && gaps.has(id);
    return !isShift(finding) || finding.at === frame.frame;
  });
}

/** Why a unit did not come: what disputes it where it is, else whatever is said of it. */
function missedBy(frame: ResultFrame, { open, named }: Bearing): readonly string[] {
  const known = frame.findings.filter((id) => named.has(id));
  const nearer = known.filter((id) => {
    const finding = open.get(id);
    return finding !== undefined && (!isShift(finding) || finding.at === frame.frame);
  });
  return nearer.length > 0 ? nearer : known;
}

/** A class in which each frame is a unit of its own, paid for its scan. */
const paysFrames = ({ charge, per }: PriceClass): boolean => (charge ?? 'scan') === 'scan' && per !== 'reel' && per !== 'batch';

/** Frames of the record that no class of a scan pays for; null where every frame has a class, or the agreement has none for frames. */
function unpriced(classes: readonly PriceClass[], { reels }: Pick<Counted, 'reels'>): Findings['counts']['unpriced'] | null {
  const scans = classes.filter(paysFrames);
  const free = reels
    .flatMap(({ frames }) => frames)
    .filter((frame) => frame.state !== 'return-only' && !scans.some((entry) => isInClass(entry, frame)));
  if (scans.length === 0 || free.length === 0) return null;
  const duplicates = free.filter(({ deliver, duplicateOf }) => !deliver && duplicateOf !== null).length;
  return { duplicates, others: free.length - duplicates };
}

/** The counts of the classes, and what is in none of them. */
export function priceCounts(classes: readonly PriceClass[], result: Counted): Pick<Findings['counts'], 'classes' | 'unpriced'> {
  const free = unpriced(classes, result);
  return { classes: classCounts(classes, result), ...(free == null ? {} : { unpriced: free }) };
}

/** The counts of every class of an agreement in one result. */
export function classCounts(classes: readonly PriceClass[], result: Counted): readonly ClassCount[] {
  return classes.map((entry) => {
    const asPages =
      paysFrames(entry) && !(entry.deliver && entry.kind.includes('page'))
        ? result.reels.flatMap(({ frames }) => frames).filter((frame) => isOrdered(entry, frame) && frame.returnedKind === 'page').length
        : 0;
    const units = unitsOf(entry, result);
    const count = (belongs: (unit: Unit) => boolean): number => units.filter(belongs).length;
    return {
      class: entry.class,
      charge: entry.charge ?? 'scan',
      record: count(({ ordered }) => ordered),
      returned: count(({ state }) => state !== 'wanting'),
      accepted: count(({ state }) => state === 'accepted'),
      disputed: count(({ state }) => state === 'disputed'),
      ...(asPages > 0 ? { asPages } : {}),
    };
  });
}
