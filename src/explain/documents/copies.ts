import type { DifferenceField } from '../../model/difference.js';
import type { FindingDraft } from '../draft.js';
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

/**
 * A file name or a folder that still says the right thing, where the document itself is wrong, is no fault of its own: it goes with the
 * finding that tells the document's. What was taken up is removed from `remaining`.
 */
export function withFollowingCopies(scene: Scene, chosen: readonly FindingDraft[], remaining: Set<number>): FindingDraft[] {
  const copies = scene.differences.filter((difference) => difference.field === 'copy' && remaining.has(difference.id));
  if (copies.length === 0) return [...chosen];
  const holder = new Map<string, { readonly index: number; readonly right: readonly string[] }>();
  chosen.forEach((finding, index) => {
    const differences = finding.explains.flatMap((id) => scene.differences[id] ?? []);
    const isConstant = hasOneNumber(differences);
    for (const difference of differences)
      for (const key of keysOf(scene, difference))
        holder.set(key, { index, right: isConstant ? [] : difference.expected.map(({ key: reading }) => reading) });
  });
  const extra = new Map<number, number[]>();
  for (const copy of copies) {
    const field = FIELD[(copy.about ?? '').split(' ')[0] ?? ''];
    const key =
      copy.ref === null
        ? `${field ?? ''} ${String(copy.returnIssue)}`
        : `${field ?? ''} ${String(copy.ref.reel)}:${String(copy.ref.frame)}`;
    const held = field === undefined ? undefined : holder.get(key);
    // a reel stands in folders in a form of its own
    const follows = held !== undefined && (field === 'reel' || held.right.length === 0 || held.right.includes(copy.given?.key ?? ''));
    if (!follows) continue;
    const { index } = held;
    remaining.delete(copy.id);
    extra.set(index, [...(extra.get(index) ?? []), copy.id]);
  }
  return chosen.map((finding, index) => {
    const ids = extra.get(index);
    if (ids === undefined) return finding;
    const sources = new Set(ids.map((id) => (scene.differences[id]?.about ?? '').split(' ').slice(1).join(' ')));
    return {
      ...finding,
      explains: [...finding.explains, ...ids],
      evidence: [...finding.evidence, ...[...sources].map((source) => `The return's own ${source} does not share this reading.`)],
    };
  });
}

/** Numbers that are all the same say nothing of how the frames were counted: whatever a file name says instead goes with them. */
function hasOneNumber(differences: readonly WordedDifference[]): boolean {
  const given = differences.flatMap(({ field, given: reading, ref }) => (field === 'number' && ref !== null ? [reading?.key ?? null] : []));
  return given.length > 2 && new Set(given).size === 1;
}

/** What a difference tells of, as copies name it; of a page that the film does not have its number is told with it. */
function keysOf(scene: Scene, difference: WordedDifference): string[] {
  if (difference.field === 'surplus' && difference.ref !== null)
    return [`number ${String(difference.ref.reel)}:${String(difference.ref.frame)}`];
  const byIssue = difference.returnIssue === null ? [] : [`${difference.field} ${String(difference.returnIssue)}`];
  const byFrame = difference.pairs.flatMap((ref) => {
    const at = pairOf(scene, ref).returned;
    return at === null ? [] : [`${difference.field} ${String(at.reel)}:${String(at.frame)}`];
  });
  return [...byIssue, ...byFrame];
}
