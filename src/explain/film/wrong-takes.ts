import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, framesByName, framesInWords, issueName, rangeOf } from '../draft.js';
import { sidedBy } from '../facts/sided.js';
import { groupBy, idsOf, inFilmOrder, pairKey } from '../runs.js';
import { differencesAt, factsOf, fieldOf, recordFrame, returnFrame, type Scene } from '../scene.js';
import { betterTake, type Couple } from './better-take.js';
import { heldBackDelivered, notDelivered, twinsOf } from './held-back.js';

/** Held-back pages that came in place of those to be delivered. */
export function wrongTakes(scene: Scene): Candidate[] {
  // at the end of a reel no number shows whether a page that did not come was scanned
  const wanting = [...notDelivered(scene), ...fieldOf(scene, 'not-scanned').flatMap((difference) => difference.pairs)];
  const couples = heldBackDelivered(scene).flatMap((held) => {
    const right = twinsOf(scene, held, wanting);
    return right === undefined ? [] : [{ held, right }];
  });
  const groups = groupBy(couples, ({ right }) => `${String(right.alignment)}:${String(recordFrame(scene, right)?.issue ?? '')}`);
  return asFarAsAll(scene, [...groups.values()]).map((group) => {
    const right = inFilmOrder(group.map((couple) => couple.right));
    const held = inFilmOrder(group.map((couple) => couple.held));
    const all = [...right, ...held];
    const rightWords = framesInWords(rangeOf(scene, right).frames);
    const heldWords = framesInWords(rangeOf(scene, held).frames);
    const issue = right[0] === undefined ? null : (recordFrame(scene, right[0])?.issue ?? null);
    const issues = new Set(right.map((ref) => recordFrame(scene, ref)?.issue)).size;
    const name = issues > 1 ? counted(issues, 'issue') : issueName(scene, issue);
    const { cause, evidence } = betterTake(scene, group);
    const told = draft(scene, {
      code: 'wrong-take-delivered',
      cause: 'vendor-metadata',
      about: right,
      explains: [
        ...idsOf(all.flatMap((ref) => differencesAt(scene, ref, 'delivered', 'not-delivered', 'not-scanned', 'order'))),
        ...ownFacts(scene, held),
      ],
      field: 'deliver',
      collation: `deliver ${rightWords}`,
      return: `delivered ${heldWords}`,
      says: `Of ${name}, the take to be held back (${heldWords}) was delivered, and the one to be delivered (${rightWords}) was not.`,
      instruction: `Replace ${framesByName(rangeOf(scene, held).frames)} by ${framesByName(rangeOf(scene, right).frames)}, and hold the former back.`,
      evidence: [
        `The record holds ${heldWords} back as ${group.length === 1 ? 'a duplicate' : 'duplicates'} of ${rightWords}.`,
        ...evidence,
      ],
      rescan: 'no',
    });
    return candidate(sidedBy(cause, `${heldWords} and ${rightWords}`, told, 'both takes'));
  });
}

/** The couples of the whole batch or of a reel together, where every page that was filmed twice came in the wrong take: one choice, made wrongly once. */
function asFarAsAll(scene: Scene, groups: readonly (readonly Couple[])[]): readonly (readonly Couple[])[] {
  if (groups.length < 2) return groups;
  const twice = pagesTwice(scene);
  if (groups.flat().length === twice.length) return [groups.flat()];
  return [...groupBy(groups, (group) => group[0]?.right.alignment)].flatMap(([alignment, list]) => {
    const all = twice.filter((ref) => ref.alignment === alignment).length;
    return list.length > 1 && list.flat().length === all ? [list.flat()] : neighbours(scene, list);
  });
}

/** Held-back pages of which the record has another take that is to be delivered. */
function pagesTwice(scene: Scene): readonly PairRef[] {
  return [...scene.pairsOfRecordIssue.values()].flatMap((refs) => {
    const delivered = refs.filter((ref) => recordFrame(scene, ref)?.deliver === true);
    return refs.filter((ref) => {
      const frame = recordFrame(scene, ref);
      return frame?.deliver === false && frame.kind === 'page' && twinsOf(scene, ref, delivered) !== undefined;
    });
  });
}

/** Issues that follow one another and of each of which every page came in the wrong take: one choice, made wrongly once. */
function neighbours(scene: Scene, groups: readonly (readonly Couple[])[]): Couple[][] {
  const result: Couple[][] = [];
  let open = false;
  for (const group of groups) {
    const issue = group[0] === undefined ? null : (recordFrame(scene, group[0].right)?.issue ?? null);
    const pages =
      issue === null ? [] : (scene.pairsOfRecordIssue.get(issue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    const whole = pages.length === group.length && pages.length > 1;
    const last = result.at(-1);
    const before = last?.at(-1)?.right;
    const follows = before !== undefined && before.alignment === group[0]?.right.alignment && nothingBetween(scene, before, group[0].right);
    if (whole && open && last !== undefined && follows) last.push(...group);
    else result.push([...group]);
    open = whole;
  }
  return result;
}

/** True when no other page that came lies between two pairs of a reel. */
function nothingBetween(scene: Scene, a: PairRef, b: PairRef): boolean {
  for (let pair = a.pair + 1; pair < b.pair; pair++) {
    const ref = { alignment: a.alignment, pair };
    if (recordFrame(scene, ref)?.deliver === true && returnFrame(scene, ref) !== undefined) return false;
  }
  return b.pair > a.pair;
}

/** Facts of issues that only arise because these pages were delivered at all. */
export function ownFacts(scene: Scene, refs: readonly PairRef[]): number[] {
  const keys = new Set(
    refs.map((ref) => `${String(recordFrame(scene, ref)?.issue ?? '')} ${String(returnFrame(scene, ref)?.issue ?? '')}`),
  );
  const here = new Set(refs.map((ref) => pairKey(ref)));
  return scene.meetings
    .filter((meeting) => keys.has(`${String(meeting.recordIssue)} ${String(meeting.returnIssue)}`))
    .filter((meeting) => meeting.pairs.every((ref) => here.has(pairKey(ref))))
    .flatMap((meeting) => idsOf(factsOf(scene, meeting.recordIssue, meeting.returnIssue)));
}

/** Issues in which every frame that can be delivered or held back got the opposite of what the record says; neighbours are one finding. */
export function inverted(scene: Scene): Candidate[] {
  const groups: { issues: number[]; refs: PairRef[]; held: PairRef[]; lacking: PairRef[] }[] = [];
  const order = [...scene.pairsOfRecordIssue].sort(
    ([, a], [, b]) => (a[0]?.alignment ?? 0) - (b[0]?.alignment ?? 0) || (a[0]?.pair ?? 0) - (b[0]?.pair ?? 0),
  );
  let open = false;
  for (const [issue, refs] of order) {
    const held = refs.filter((ref) => recordFrame(scene, ref)?.deliver === false);
    const lacking = refs.filter((ref) => recordFrame(scene, ref)?.deliver === true);
    const turned =
      held.length > 0 &&
      lacking.length > 0 &&
      held.every((ref) => differencesAt(scene, ref, 'delivered').length > 0) &&
      lacking.every((ref) => differencesAt(scene, ref, 'not-delivered', 'not-scanned').length > 0);
    const last = groups.at(-1);
    if (turned && open && last !== undefined) {
      last.issues.push(issue);
      last.refs.push(...refs);
      last.held.push(...held);
      last.lacking.push(...lacking);
    } else if (turned) {
      groups.push({ issues: [issue], refs: [...refs], held, lacking });
    }
    open = turned;
  }
  // where each page held back has its twin delivered, the wrong take was chosen and nothing more
  return groups
    .filter(({ held, lacking }) => lacking.some((ref) => !held.some((other) => twinsOf(scene, other, [ref]) !== undefined)))
    .map(({ refs, held, lacking }) => invertedRun(scene, inFilmOrder(refs), held, lacking));
}

function invertedRun(scene: Scene, run: readonly PairRef[], held: readonly PairRef[], lacking: readonly PairRef[]): Candidate {
  const words = framesInWords(rangeOf(scene, run).frames);
  return candidate(
    draft(scene, {
      code: 'delivery-inverted',
      cause: 'vendor-metadata',
      about: run,
      explains: [
        ...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'delivered', 'not-delivered', 'not-scanned', 'order', 'page'))),
        ...ownFacts(scene, held),
      ],
      field: 'deliver',
      collation: `${counted(lacking.length, 'frame')} to be delivered, ${String(held.length)} to be held back`,
      return: 'the opposite',
      says: `On ${words}, what was to be delivered was held back and what was to be held back was delivered.`,
      instruction: `Turn the choice round on ${words}: deliver ${counted(lacking.length, 'frame')}, hold back ${String(held.length)}.`,
      billable: [{ class: 'page', change: lacking.length - held.length }],
    }),
    1,
  );
}
