import type { Finding, Findings, ResultFrame } from '../model/findings.js';
import { notAsked } from './agreed.js';
import { type FactsAt, namesOne } from './facts.js';
import { type FilmMap, spotsOf } from './film-map.js';
import { absencesDiffer, filesChanged, recordDiffersAt } from './record-change.js';

/** What became of an earlier finding that is gone. */
export type Fate =
  | { readonly is: 'corrected'; readonly changed: NonNullable<Finding['changed']> }
  | { readonly is: 'pending'; readonly why: string; readonly required: boolean };

/** Two results of one batch laid beside each other. */
export interface Comparison {
  readonly earlier: Findings;
  readonly now: Pick<Findings, 'run' | 'agreement' | 'reels' | 'findings' | 'unchecked'>;
  readonly was: FilmMap;
  readonly is: FilmMap;
  /** Frames of this result's findings by their id, and of the earlier findings that they were. */
  readonly here: ReadonlyMap<string, ReadonlySet<string>>;
  readonly there: ReadonlyMap<string, ReadonlySet<string>>;
  /** Codes of this result by their group. */
  readonly groupOf: (code: string) => string;
  /** What differs now at each frame. */
  readonly facts: FactsAt;
  readonly textRead: boolean;
}

const pending = (why: string, required: boolean): Fate => ({ is: 'pending', why, required });

/** Decides what became of an earlier finding that is gone: corrected only where all its frames were compared again and it cannot be among what is wrong there now. */
export function fateOf(finding: Finding, both: Comparison): Fate {
  const unasked = notAsked(finding, both.earlier, both.now, both.textRead);
  if (unasked !== null) return pending(unasked.why, unasked.required);
  const spots = [...new Set([...spotsOf(finding, both.was), ...spotsOf(finding, both.is)])];
  const onFilm = spots.filter((key) => !key.endsWith('\n'));
  if (onFilm.length > 0 && !onFilm.some((key) => both.is.frames.has(key)))
    return pending('The record has none of its frames any more.', false);
  const unseen = notSeen(finding, spots, both);
  if (unseen !== null) return pending(unseen, true);
  const still = stillThere(finding, spots, both);
  if (still !== null) return pending(still, false);
  return { is: 'corrected', changed: changedSide(finding, spots, both) };
}

const NOWHERE: ReadonlySet<string> = new Set();
/** Whether something was seen to be wrong with a frame that came, or for which the return has a place. */
const otherThanOrdered = (frame: ResultFrame | undefined): boolean =>
  frame !== undefined &&
  (frame.returned !== null || frame.returnedKind !== null) &&
  frame.state !== 'agrees' &&
  (frame.state !== 'not-compared' || frame.findings.length > 0);
const reelOf = (key: string): string => key.slice(0, key.indexOf('\n'));

/** Why the frames of the finding, or the document in which it stood, were not seen again; null where they were. */
function notSeen(finding: Finding, spots: readonly string[], both: Comparison): string | null {
  const { is, now } = both;
  const reels = finding.reel === null || !is.order.has(finding.reel) ? [...is.order.keys()] : [finding.reel];
  if (!reels.some((reel) => is.compared.has(reel))) return 'Nothing of its reel was compared this time.';
  const unseen = spots.filter((key) => {
    const frame = is.frames.get(key);
    if (frame === undefined) return false;
    // At the end of a reel nothing tells of a frame that is held back; that nothing came for it is what was ordered.
    if (!frame.deliver) return frame.state === 'not-compared' && !is.compared.has(reelOf(key));
    // Where the page did not come before either, what is known of that may still be so; where it came, something hides it now.
    return frame.returnedKind === null && (both.was.frames.get(key)?.returnedKind != null || !knownThere(key, both));
  });
  if (unseen.length > 0) return 'Its frames did not come, or could not be compared again.';
  const silent = spots.length === 0 || spots.some((key) => is.frames.get(key)?.returnedKind == null);
  const lost = now.findings.find((one) => hides(one, finding, spots, silent, both.here.get(one.id) ?? NOWHERE));
  if (lost !== undefined) return `A document in which it may stand did not come or could not be read (${lost.id}).`;
  const issue = silent && finding.date !== null ? pagesOf(finding, is) : [];
  return issue.length > 0 && issue.every((frame) => frame.returnedKind === null) ? 'No page of its issue came this time.' : null;
}

function pagesOf({ title, date, edition }: Finding, is: FilmMap): readonly ResultFrame[] {
  return [...is.frames.values()].filter(
    (frame) => frame.deliver && frame.title === title && frame.date === date && frame.edition === edition,
  );
}

/** Whether a finding that was there before, and still is, accounts for the frame. */
function knownThere(key: string, { here, there }: Comparison): boolean {
  return [...there].some(([id, spots]) => spots.has(key) && here.get(id)?.has(key) === true);
}

/** Whether an unread document may hold what the finding was about: it is the same document, of the same frames or issue, or of nobody knows what. */
function hides(lost: Finding, finding: Finding, spots: readonly string[], silent: boolean, taken: ReadonlySet<string>): boolean {
  if ((lost.code !== 'document-unreadable' && lost.code !== 'file-missing') || lost.field === 'file') return false;
  const documents = new Set(finding.places.flatMap(({ document }) => document ?? []));
  if (lost.places.some(({ document }) => document !== undefined && documents.has(document))) return true;
  if (spots.some((key) => taken.has(key))) return true;
  if (!silent) return false;
  if (lost.date === null || finding.date === null) return taken.size === 0;
  return lost.date === finding.date && (lost.title === null || finding.title === null || lost.title === finding.title);
}

/** What is wrong now at the frames of the finding and may be the same thing under another name; null where nothing is. */
function stillThere(finding: Finding, spots: readonly string[], both: Comparison): string | null {
  const { is, now, facts } = both;
  const group = both.groupOf(finding.code);
  const suspects = new Set<string>();
  const explained = new Set<string>();
  for (const one of now.findings) {
    const here = both.here.get(one.id) ?? NOWHERE;
    const there = both.there.get(one.id) ?? NOWHERE;
    for (const key of spots.filter((each) => here.has(each))) {
      explained.add(key);
      const another = there.has(key) && one.field !== finding.field;
      if (!another && (both.groupOf(one.code) === group || namesOne(finding.field, facts.get(key)))) suspects.add(one.id);
    }
  }
  if (suspects.size > 0) return `Its frames do not agree yet; what differs there is now ${[...suspects].sort().join(', ')}.`;
  // A frame that another finding touches without standing there: what matters is whether this fact is among what differs.
  const open = spots.some((key) => {
    if (explained.has(key)) return false;
    if ((is.surplus.get(key) ?? []).length > 0) return finding.field === null || group === 'sequence' || group === 'presence';
    return finding.field === null ? otherThanOrdered(is.frames.get(key)) : namesOne(finding.field, facts.get(key));
  });
  return open ? 'Its frames do not agree yet.' : null;
}

/** Which side was changed where the finding was, as far as two results can tell. */
function changedSide(finding: Finding, spots: readonly string[], { earlier, now, was, is }: Comparison): NonNullable<Finding['changed']> {
  const record = filesChanged(earlier, now, 'collation');
  const batch = filesChanged(earlier, now, 'batch');
  if (record === false) return batch === false ? 'unclear' : 'return';
  if (batch === false) return record === true ? 'record' : 'unclear';
  if (recordDiffersAt(spots, was, is)) return 'record';
  if (finding.field === 'absence') return absencesDiffer(finding.date, earlier.reels, now.reels) ? 'record' : 'return';
  // Facts that a saved result does not repeat, such as the printed date, may have been changed in either.
  const repeated = ['deliver', 'page', 'order', 'section', 'title', 'date', 'edition', 'frame', 'number', 'file', 'document', 'image'];
  return repeated.includes(finding.field ?? '') ? 'return' : 'unclear';
}
