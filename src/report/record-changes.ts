import type { Correction, Finding, Findings, Repair, ResultFrame } from '../model/findings.js';

/** What the record would need if it is the record that is wrong: the changes, or the reason why none can be named. */
export type RecordChange =
  | { readonly corrections: readonly [Correction, ...Correction[]]; readonly why: null }
  | { readonly corrections: readonly []; readonly why: string };

/** A frame of a finding with its reel, and the record's frame before it on the film. */
interface Spot {
  readonly reel: string;
  readonly frame: ResultFrame;
  readonly before: string;
}

/** Facts of a frame or its issue that a record writes in a column of its own, as repairs name them. */
const COLUMNS: ReadonlySet<string> = new Set(
  'title date datePrinted edition editionLabel volume issueNumber section page order supplement combinedWith'.split(' '),
);

/**
 * What to change in the record where the library rules that it was wrong. Diagnosis names it where it thinks so itself; else it is
 * the repair of the return turned round: what the vendor would have to undo is what the record would have to say.
 */
export function recordChange(finding: Finding, { reels }: Pick<Findings, 'reels'>): RecordChange {
  const all = finding.corrections.length > 0 ? finding.corrections : turnedRound(finding, spotsOf(finding.id, reels));
  const [first, ...more] = new Map(all.map((one) => [JSON.stringify(one), one])).values();
  return first === undefined ? { corrections: [], why: whyNone(finding) } : { corrections: [first, ...more], why: null };
}

function spotsOf(id: string, reels: Findings['reels']): readonly Spot[] {
  return reels.flatMap(({ number, frames }) => {
    let before = '';
    return frames.flatMap((frame) => {
      const spot = { reel: number, frame, before };
      before = frame.frame ?? before;
      return frame.findings.includes(id) || frame.follows?.includes(id) === true ? [spot] : [];
    });
  });
}

function turnedRound(finding: Finding, spots: readonly Spot[]): readonly Correction[] {
  const { field, repair } = finding;
  const own = spots.filter(({ frame }) => frame.findings.includes(finding.id));
  if (field === 'deliver') return calledAbsent(repair) ? [] : own.flatMap(otherwiseDelivered);
  if (field === 'frame' || field === 'number') return [...own.flatMap(addedOrRemoved), ...spots.flatMap(renumbered)];
  // Where pages would have to be moved, a fact changed here and there would be half of it. What must not be given at all is ordered so, whatever the record says.
  if (repair.some((step) => step.do !== 'set' || step.to === null)) return [];
  const facts = repair.filter((step) => step.field === field && COLUMNS.has(field ?? ''));
  return facts.flatMap((step) => setBack(step, facts, spots));
}

/** The return says of the page that it is not on the film: then it is no frame that is held back, but an absence. */
const calledAbsent = (repair: readonly Repair[]): boolean => repair.some((step) => step.do === 'remove' && step.field === 'absence');

function otherwiseDelivered({ reel, frame }: Spot): readonly Correction[] {
  const came = frame.returnedKind === 'page' || frame.returnedKind === 'target';
  if (frame.frame === null || came === frame.deliver) return [];
  const [from, to] = frame.deliver ? ['yes', 'no'] : ['no', 'yes'];
  return [{ reel, frame: frame.frame, action: 'set', field: 'deliver', from, to }];
}

function addedOrRemoved({ reel, frame, before }: Spot): readonly Correction[] {
  const uncounted = (frame.state === 'record-only' || frame.state === 'not-delivered') && frame.returned === null;
  if (uncounted && frame.frame !== null) return [{ reel, frame: frame.frame, action: 'remove', field: 'frame', from: frame.frame, to: '' }];
  if (frame.state !== 'return-only') return [];
  const page = frame.page !== null;
  return [{ reel, frame: before, action: 'insert-after', field: page ? 'page' : 'frame', from: '', to: frame.page ?? frame.kind }];
}

function renumbered({ reel, frame: { frame, returned } }: Spot): readonly Correction[] {
  return frame === null || returned === null || frame === returned
    ? []
    : [{ reel, frame, action: 'renumber', field: 'frame', from: frame, to: returned }];
}

/** A fact set in the return, as the record would have to have it instead: on the frame that is named, else on every frame of the issue that is meant. */
function setBack(step: Repair, all: readonly Repair[], spots: readonly Spot[]): readonly Correction[] {
  const field = step.field ?? '';
  const meant = spots.filter(({ frame }) => {
    if (frame.frame === null || frame.returnedKind === null) return false;
    if (step.frame !== null) return frame.returned === step.frame;
    if (field === 'date' || field === 'title') return frame[field] === step.to;
    if (field === 'edition') return String(frame.edition) === step.to;
    return all.every(({ from, to }) => from === step.from && to === step.to);
  });
  return meant.map(({ reel, frame }) => ({
    reel,
    frame: frame.frame ?? '',
    action: 'set',
    // Where the return was to give what is printed, that is what the record has wrong.
    field: field === 'page' && frame.page !== step.to ? 'pagePrinted' : field,
    from: step.to ?? '',
    to: step.from ?? '',
  }));
}

function whyNone({ field, frames, repair }: Finding): string {
  if (field === 'absence' || calledAbsent(repair))
    return 'An absence stands on no frame: change, add or take out its row in the sheet by hand.';
  if (field === 'reel') return 'The number of a reel stands with the reel and not with its frames: change it there by hand.';
  const onFrames = field === 'frame' || field === 'number' || field === 'deliver';
  if (!onFrames && !COLUMNS.has(field ?? '')) return 'The record says nothing of this: there is nothing in it to change.';
  if (repair.length > 0 && repair.every(({ to }) => to === null) && !onFrames) {
    return 'The agreement leaves this out, whatever the record says: there is nothing in the record to change.';
  }
  return frames === null
    ? 'It concerns no frame of the record: change the record by hand.'
    : 'The return does not show what the record should say instead: look at the film and change the record by hand.';
}
