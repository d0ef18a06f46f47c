import type { Policies } from '../model/agreement.js';
import type { Alignment, Pair } from '../model/alignment.js';
import type { DifferenceField, PairRef } from '../model/difference.js';
import type { ExpectedFrame, ExpectedReturn } from '../model/expected.js';
import type { Frame, Issue, Reel, Side } from '../model/film.js';
import type { Elsewhere } from './documents/elsewhere.js';
import { pairKey } from './runs.js';
import type { WordedDifference } from './worded.js';

/** The pages that one issue of the record and one document of the return have in common. */
interface Meeting {
  readonly recordIssue: number;
  readonly returnIssue: number;
  readonly pairs: readonly PairRef[];
}

/** Everything a cause may look at. */
export interface Scene {
  readonly record: Side;
  readonly returned: Side;
  readonly alignments: readonly Alignment[];
  readonly differences: readonly WordedDifference[];
  /** Differences that are explained already, for whose causes the scene stands as if they agreed. */
  readonly told: readonly WordedDifference[];
  readonly meetings: readonly Meeting[];
  readonly policies: Policies;
  /** The return that would be right. */
  readonly expected: ExpectedReturn;
  /** What other batches delivered too. */
  readonly elsewhere: Elsewhere;
  /** Differences by pair, `alignment:pair`. */
  readonly atPair: ReadonlyMap<string, readonly WordedDifference[]>;
  readonly ofField: ReadonlyMap<DifferenceField, readonly WordedDifference[]>;
  /** Differences of issue facts by `recordIssue:returnIssue`. */
  readonly ofMeeting: ReadonlyMap<string, readonly WordedDifference[]>;
  /** Pairs of each issue of the record, in film order. */
  readonly pairsOfRecordIssue: ReadonlyMap<number, readonly PairRef[]>;
  /** Pairs of each document of the return, in film order. */
  readonly pairsOfReturnIssue: ReadonlyMap<number, readonly PairRef[]>;
  /** Days of a title, as `dayKey` has them, of which a side knows a second edition. */
  readonly daysOfEditions: Readonly<Record<'record' | 'return', ReadonlySet<string>>>;
}

/** A day of a title, whatever its edition. */
export const dayKey = ({ title, date }: Pick<Issue, 'title' | 'date'>): string => `${title ?? ''}\n${date?.text ?? ''}`;

export function setScene(
  given: Pick<Scene, 'record' | 'returned' | 'alignments' | 'differences' | 'told' | 'meetings' | 'policies' | 'expected' | 'elsewhere'>,
): Scene {
  const base = { ...given, returned: asWritten(given.returned) };
  const atPair = new Map<string, WordedDifference[]>();
  const ofField = new Map<DifferenceField, WordedDifference[]>();
  const ofMeeting = new Map<string, WordedDifference[]>();
  for (const difference of base.differences) {
    push(ofField, difference.field, difference);
    if (isIssueFact(difference.field)) push(ofMeeting, `${String(difference.recordIssue)}:${String(difference.returnIssue)}`, difference);
    else for (const ref of difference.pairs) push(atPair, pairKey(ref), difference);
  }
  const pairsOfRecordIssue = new Map<number, PairRef[]>();
  const pairsOfReturnIssue = new Map<number, PairRef[]>();
  base.alignments.forEach((alignment, a) => {
    const reel = alignment.recordReel === null ? undefined : base.record.reels[alignment.recordReel];
    alignment.pairs.forEach((pair, p) => {
      const mine = pair.record === null ? undefined : reel?.frames[pair.record];
      const theirs = pair.returned === null ? undefined : base.returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
      if (mine?.issue != null) push(pairsOfRecordIssue, mine.issue, { alignment: a, pair: p });
      if (theirs?.issue != null) push(pairsOfReturnIssue, theirs.issue, { alignment: a, pair: p });
    });
  });
  const editionsOf = (issues: readonly Issue[]): ReadonlySet<string> =>
    new Set(issues.filter(({ edition }) => (edition ?? 1) > 1).map(dayKey));
  const daysOfEditions = { record: editionsOf(base.record.issues), return: editionsOf(base.returned.issues) };
  return { ...base, atPair, ofField, ofMeeting, pairsOfRecordIssue, pairsOfReturnIssue, daysOfEditions };
}

/** The scene with those differences only that are not explained; what is explained is for its causes as if it agreed. */
export function without(scene: Scene, explained: ReadonlySet<number>): Scene {
  const [told, differences] = [true, false].map((is) => scene.differences.filter(({ id }) => explained.has(id) === is));
  return setScene({ ...scene, differences: differences ?? [], told: [...scene.told, ...(told ?? [])] });
}

/** The return without the frame numbers that nobody wrote: no sentence may name one. */
function asWritten(returned: Side): Side {
  const reels = returned.reels.map((reel) => ({
    ...reel,
    frames: reel.frames.map((frame) => (frame.frame?.inferred === true ? { ...frame, frame: null } : frame)),
  }));
  return { ...returned, reels };
}

/** Facts that belong to an issue as a whole. */
export function isIssueFact(field: DifferenceField): boolean {
  return ['title', 'date', 'datePrinted', 'edition', 'editionLabel', 'volume', 'issueNumber'].includes(field);
}

export function pairOf(scene: Scene, ref: PairRef): Pair {
  const pair = scene.alignments[ref.alignment]?.pairs[ref.pair];
  if (pair === undefined) throw new RangeError(`no pair ${pairKey(ref)}`);
  return pair;
}

export function recordReelOf(scene: Scene, ref: PairRef): Reel | undefined {
  const index = scene.alignments[ref.alignment]?.recordReel ?? null;
  return index === null ? undefined : scene.record.reels[index];
}

/** A reel by its normalised number as it stands on the box: in the record's words where the record has it, else in the return's. */
export function reelInWords(scene: Pick<Scene, 'record' | 'returned'>, number: string | null): string | null {
  if (number === null) return null;
  const known = scene.returned.reels.find((reel) => reel.number === number);
  const names = [number, ...(known?.alsoKnownAs ?? [])];
  return scene.record.reels.find((reel) => names.includes(reel.number))?.text ?? known?.text ?? number;
}

/** The record's frame of a pair; undefined where it has none, or no such pair lies beside the first or the last one. */
export function recordFrame(scene: Scene, ref: PairRef): Frame | undefined {
  const index = scene.alignments[ref.alignment]?.pairs[ref.pair]?.record ?? null;
  return index === null ? undefined : recordReelOf(scene, ref)?.frames[index];
}

/** The record's frame of a pair as the right return shows it; undefined as there. */
export function expectedFrame(scene: Scene, ref: PairRef): ExpectedFrame | undefined {
  const { recordReel, pairs } = scene.alignments[ref.alignment] ?? {};
  return scene.expected.reels[recordReel ?? -1]?.frames[pairs?.[ref.pair]?.record ?? -1];
}

/** The return's frame of a pair; undefined where it has none, or no such pair lies beside the first or the last one. */
export function returnFrame(scene: Scene, ref: PairRef): Frame | undefined {
  const at = scene.alignments[ref.alignment]?.pairs[ref.pair]?.returned ?? null;
  return at === null ? undefined : scene.returned.reels[at.reel]?.frames[at.frame];
}

export function recordIssueOf(scene: Scene, index: number | null): Issue | undefined {
  return index === null ? undefined : scene.record.issues[index];
}

export function returnIssueOf(scene: Scene, index: number | null): Issue | undefined {
  return index === null ? undefined : scene.returned.issues[index];
}

/** Differences of one field, in their order. */
export function fieldOf(scene: Scene, field: DifferenceField): readonly WordedDifference[] {
  return scene.ofField.get(field) ?? [];
}

/** Differences of one pair, of the given fields or all. */
export function differencesAt(scene: Scene, ref: PairRef, ...fields: DifferenceField[]): readonly WordedDifference[] {
  const all = scene.atPair.get(pairKey(ref)) ?? [];
  return fields.length === 0 ? all : all.filter((difference) => fields.includes(difference.field));
}

/** Differences of an issue's facts where it met a document. */
export function factsOf(scene: Scene, recordIssue: number, returnIssue: number, ...fields: DifferenceField[]): readonly WordedDifference[] {
  const all = scene.ofMeeting.get(`${String(recordIssue)}:${String(returnIssue)}`) ?? [];
  return fields.length === 0 ? all : all.filter((difference) => fields.includes(difference.field));
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}
