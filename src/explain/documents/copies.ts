import type { Reading } from '../../model/expected.js';
import type { FrameNumber, Issue, Side } from '../../model/film.js';
import { type FindingDraft, inSeries } from '../draft.js';
import { factName } from '../facts/fact-names.js';
import { FIELD } from '../repair/names.js';
import { groupBy, idsOf } from '../runs.js';
import { pairOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** A finding that tells of a fact, and the readings that are right there; none where they cannot be named. */
interface Held {
  readonly index: number;
  readonly right: readonly Reading[];
}

/**
 * A file name, a folder or a manifest that still says the right thing, where the document itself is wrong, is no fault of its own: it goes with the finding
 * that tells the document's. So does one that says a third thing where another document says the same as this: no two files or folders have one name. What
 * was taken up is removed from `remaining`.
 */
export function withFollowingCopies(scene: Scene, chosen: readonly FindingDraft[], remaining: Set<number>): FindingDraft[] {
  const copies = scene.differences.filter((difference) => difference.field === 'copy' && remaining.has(difference.id));
  if (copies.length === 0) return [...chosen];
  const holder = heldFacts(scene, chosen);
  const held = copies.flatMap((copy) => {
    const by = holder.get(copyKey(copy));
    return by === undefined ? [] : [{ copy, index: by.index, third: !isRight(copy, by.right) }];
  });
  const groups = groupBy(
    held.filter(({ copy, third }) => !third || isTaken(scene, copy)),
    ({ index }) => index,
  );
  return chosen.map((finding, index) => {
    const own = groups.get(index);
    if (own === undefined) return finding;
    for (const { copy } of own) remaining.delete(copy.id);
    const sources = new Set(own.filter(({ third }) => !third).map(({ copy }) => sourceOf(copy)));
    const others = new Set(own.filter(({ third }) => third).map(({ copy }) => `the ${factName(factOf(copy))} in the ${sourceOf(copy)}`));
    const also = others.size === 0 ? '' : ` Correct ${inSeries([...others])} as well, which is neither of the two.`;
    return {
      ...finding,
      explains: [...finding.explains, ...idsOf(own.map(({ copy }) => copy))],
      evidence: [...finding.evidence, ...[...sources].map((source) => `The return's own ${source} does not share this reading.`)],
      instruction: finding.instruction === null ? null : `${finding.instruction}${also}`,
    };
  });
}

const takenNames = new WeakMap<Side, ReadonlySet<string>>();

/** True where another document, or another page, says of itself what this one does, so that a name that says it is taken. */
function isTaken({ returned }: Scene, { ref, returnIssue }: WordedDifference): boolean {
  let taken = takenNames.get(returned);
  if (taken === undefined) {
    const seen = new Set<string>();
    const twice = new Set<string>();
    const see = (name: string): void => void (seen.has(name) ? twice : seen).add(name);
    // documents that give no date do not say that they are one issue
    for (const issue of returned.issues) if (issue.date !== null) see(nameOf(issue));
    for (const [reel, { frames }] of returned.reels.entries())
      for (const { frame } of frames) if (frame !== null) see(numberOf(reel, frame));
    takenNames.set(returned, (taken = twice));
  }
  if (ref === null) {
    const issue = returned.issues[returnIssue ?? -1];
    return issue !== undefined && taken.has(nameOf(issue));
  }
  const frame = returned.reels[ref.reel]?.frames[ref.frame]?.frame ?? null;
  return frame !== null && taken.has(numberOf(ref.reel, frame));
}

const nameOf = ({ title, date, edition }: Issue): string => JSON.stringify([title, date?.text ?? null, edition ?? 1]);
const numberOf = (reel: number, { exposure, half }: FrameNumber): string => `${String(reel)} ${String(exposure)}${half}`;

const wrongFacts = new WeakMap<Scene, ReadonlyMap<string, WordedDifference>>();

/** What is wrong in the document itself of what a copy repeats; undefined where the document is right. */
export function wrongItself(scene: Scene, copy: WordedDifference): WordedDifference | undefined {
  let wrong = wrongFacts.get(scene);
  if (wrong === undefined) {
    const facts = scene.differences.filter(({ field }) => field !== 'copy');
    wrong = new Map(facts.flatMap((difference) => keysOf(scene, difference).map((key) => [key, difference] as const)));
    wrongFacts.set(scene, wrong);
  }
  return wrong.get(copyKey(copy));
}

/** What must stand in a copy: what stands in the document, or must stand there where that is wrong itself; null where it stands there already. */
export function rightCopy(scene: Scene, copy: WordedDifference): string | null {
  const own = wrongItself(scene, copy);
  if (own === undefined) return copy.collation;
  return isRight(copy, own.expected) ? null : (own.expected[0]?.text ?? null);
}

/** What each finding tells of, as copies name it. */
function heldFacts(scene: Scene, findings: readonly FindingDraft[]): ReadonlyMap<string, Held> {
  const holder = new Map<string, Held>();
  findings.forEach(({ explains }, index) => {
    const differences = explains.flatMap((id) => scene.differences[id] ?? []).filter(({ field }) => field !== 'copy');
    const isConstant = hasOneNumber(differences);
    for (const difference of differences)
      for (const key of keysOf(scene, difference)) holder.set(key, { index, right: isConstant ? [] : difference.expected });
  });
  return holder;
}

const factOf = ({ about }: WordedDifference): string => (about ?? '').split(' ')[0] ?? '';
const sourceOf = ({ about }: WordedDifference): string => (about ?? '').split(' ').slice(1).join(' ');

/** The fact of a document or a page that a copy repeats. */
function copyKey(copy: WordedDifference): string {
  const of = copy.ref === null ? String(copy.returnIssue) : `${String(copy.ref.reel)}:${String(copy.ref.frame)}`;
  return `${FIELD[factOf(copy)] ?? ''} ${of}`;
}

/** Whether a copy says what is right; a reel stands in folders in a form of its own, and what is right may not be known. */
function isRight(copy: WordedDifference, right: readonly Reading[]): boolean {
  return factOf(copy) === 'reel' || right.length === 0 || right.some(({ key }) => key === copy.given?.key);
}

/** Numbers that are all the same say nothing of how the frames were counted: whatever a file name says instead goes with them. */
function hasOneNumber(differences: readonly WordedDifference[]): boolean {
  const given = differences.flatMap(({ field, given: reading, ref }) => (field === 'number' && ref !== null ? [reading?.key ?? null] : []));
  return given.length > 2 && new Set(given).size === 1;
}

/**
 * What a difference tells of, as copies name it; of a page that the film does not have its number is told with it, and of an issue that is stated to be wanting
 * what it is known by.
 */
function keysOf(scene: Scene, difference: WordedDifference): string[] {
  if (difference.field === 'absence-extra') return ['date', 'edition', 'title'].map((name) => `${name} ${String(difference.returnIssue)}`);
  if (difference.field === 'surplus' && difference.ref !== null)
    return [`number ${String(difference.ref.reel)}:${String(difference.ref.frame)}`];
  const byIssue = difference.returnIssue === null ? [] : [`${difference.field} ${String(difference.returnIssue)}`];
  const byFrame = difference.pairs.flatMap((ref) => {
    const at = pairOf(scene, ref).returned;
    return at === null ? [] : [`${difference.field} ${String(at.reel)}:${String(at.frame)}`];
  });
  return [...byIssue, ...byFrame];
}
