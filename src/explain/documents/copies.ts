import type { DifferenceField } from '../../model/difference.js';
import type { Reading } from '../../model/expected.js';
import type { Copy } from '../../model/film.js';
import { type FindingDraft, inSeries } from '../draft.js';
import { factName } from '../facts/fact-names.js';
import { idsOf } from '../runs.js';
import { pairOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** The difference that a copy of a fact belongs to. */
const FIELD: Readonly<Record<string, DifferenceField>> = {
  frame: 'number',
  reel: 'reel',
  order: 'order',
  page: 'page',
  date: 'date',
  edition: 'edition',
  title: 'title',
  editionLabel: 'editionLabel',
  datePrinted: 'datePrinted',
  volume: 'volume',
  issueNumber: 'issueNumber',
  section: 'section',
};

/** A finding that tells of a fact, and the readings that are right there; none where they cannot be named. */
interface Held {
  readonly index: number;
  readonly right: readonly Reading[];
}

/**
 * What a file name, a folder or the manifest says of a fact that is wrong in the document itself is no fault of its own: it goes with the finding that
 * tells the document's, whether it still says the right thing or a third one. What was taken up is removed from `remaining`.
 */
export function withFollowingCopies(scene: Scene, chosen: readonly FindingDraft[], remaining: Set<number>): FindingDraft[] {
  const copies = scene.differences.filter((difference) => difference.field === 'copy' && remaining.has(difference.id));
  if (copies.length === 0) return [...chosen];
  const holder = heldFacts(
    scene,
    chosen.map(({ explains }) => explains),
  );
  const extra = new Map<number, WordedDifference[]>();
  const third = new Set<WordedDifference>();
  for (const copy of copies) {
    const held = holder.get(copyKey(copy));
    if (held === undefined) continue;
    remaining.delete(copy.id);
    if (!isRight(copy, held)) third.add(copy);
    extra.set(held.index, [...(extra.get(held.index) ?? []), copy]);
  }
  return chosen.map((finding, index) => {
    const own = extra.get(index);
    if (own === undefined) return finding;
    const sources = new Set(own.filter((copy) => !third.has(copy)).map(sourceOf));
    const others = new Set(
      own.filter((copy) => third.has(copy)).map((copy) => `the ${factName(factOf(copy) as Copy['fact'])} in the ${sourceOf(copy)}`),
    );
    const also = others.size === 0 ? '' : ` Correct ${inSeries([...others])} as well, which is neither of the two.`;
    return {
      ...finding,
      explains: [...finding.explains, ...idsOf(own)],
      evidence: [...finding.evidence, ...[...sources].map((source) => `The return's own ${source} does not share this reading.`)],
      instruction: finding.instruction === null ? null : `${finding.instruction}${also}`,
    };
  });
}

/**
 * What must stand in a copy of a fact, of those that one finding explains: the right reading where the document's own is told wrong there, null where it stands
 * there already. Undefined where the finding tells of the copy alone.
 */
export function rightCopies(scene: Scene, explains: readonly number[]): (copy: WordedDifference) => string | null | undefined {
  const holder = heldFacts(scene, [explains]);
  return (copy) => {
    const held = holder.get(copyKey(copy));
    return held === undefined ? undefined : isRight(copy, held) ? null : (held.right[0]?.text ?? null);
  };
}

/** What each difference among those explained tells of, as copies name it. */
function heldFacts(scene: Scene, explained: readonly (readonly number[])[]): ReadonlyMap<string, Held> {
  const holder = new Map<string, Held>();
  explained.forEach((ids, index) => {
    const differences = ids.flatMap((id) => scene.differences[id] ?? []);
    const isConstant = hasOneNumber(differences);
    for (const difference of differences)
      if (difference.field !== 'copy')
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
function isRight(copy: WordedDifference, { right }: Held): boolean {
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
