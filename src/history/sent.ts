import type { Alignment, ReturnRef } from '../model/alignment.js';
import type { Difference, DifferenceField } from '../model/difference.js';
import type { ExpectedFact, ExpectedReturn, FrameFact, IssueFact } from '../model/expected.js';
import type { Side } from '../model/film.js';

/** A return held against one state of the record. */
export interface Held {
  readonly record: Side;
  readonly expected: ExpectedReturn;
  readonly alignments: readonly Alignment[];
  readonly differences: readonly Difference[];
}

/** A frame of a record by its places. */
interface Spot {
  readonly reel: number;
  readonly frame: number;
}

const FRAME_FACTS: ReadonlySet<string> = new Set<FrameFact>(['number', 'reel', 'page', 'order', 'section']);
const ISSUE_FACTS: ReadonlySet<string> = new Set<IssueFact>([
  'title',
  'date',
  'datePrinted',
  'edition',
  'editionLabel',
  'volume',
  'issueNumber',
]);
/** The return contradicts itself, or its files: no record can have asked for that. */
const OWN: ReadonlySet<DifferenceField> = new Set(['copy', 'digest', 'same-file', 'file', 'document', 'empty-document']);

const refKey = ({ reel, frame }: ReturnRef): string => `${String(reel)}:${String(frame)}`;

/**
 * The differences, by their ids, in which the return is as the record had it when it was sent: whoever did as he was told has made no mistake in them.
 * Both states of the record are aligned with the return by themselves, so that frames may have been added, taken out or numbered anew since.
 */
export function followedSent(now: Held, sent: Held): ReadonlySet<number> {
  const spots = new Map<string, Spot>();
  for (const { recordReel, pairs } of sent.alignments)
    for (const { record, returned } of pairs)
      if (recordReel !== null && record !== null && returned !== null) spots.set(refKey(returned), { reel: recordReel, frame: record });
  const book: Book = {
    sent,
    spots,
    twins: lonelyTwins(now, sent),
    told: new Set(sent.differences.flatMap((difference) => keysOf(difference, sent))),
  };
  return new Set(now.differences.filter((difference) => isFollowed(difference, now, book)).map(({ id }) => id));
}

interface Book {
  readonly sent: Held;
  /** The frame that the record had, as sent, for each frame of the return. */
  readonly spots: ReadonlyMap<string, Spot>;
  /** For frames of the record, `alignment:pair`, for which nothing came: those of the record as sent, in the same form. */
  readonly twins: ReadonlyMap<string, string>;
  /** What the return does not have as the record was sent. */
  readonly told: ReadonlySet<string>;
}

function isFollowed(difference: Difference, now: Held, { sent, spots, twins, told }: Book): boolean {
  const { field, pairs, given } = difference;
  if (OWN.has(field)) return false;
  const refs = pairs.map(({ alignment, pair }) => now.alignments[alignment]?.pairs[pair]?.returned ?? null);
  if (FRAME_FACTS.has(field) || ISSUE_FACTS.has(field)) {
    if (refs.length === 0) return false;
    return refs.every((ref) => {
      const spot = ref === null ? undefined : spots.get(refKey(ref));
      const fact = spot === undefined ? undefined : factAt(sent, spot, field);
      if (fact === undefined) return false;
      if (given === null) return fact.needs !== 'must';
      // of an uncertain day the record asks for some date, whichever it is
      return fact.right.some(({ key }) => key === given.key) || (fact.needs === 'must' && fact.right.length === 0);
    });
  }
  if (pairs.length > 0 && refs.every((ref) => ref === null))
    return pairs.every(({ alignment, pair }) => {
      const twin = twins.get(`${String(alignment)}:${String(pair)}`);
      return twin === undefined
        ? field !== 'empty-number' || !keysOf(difference, now).some((key) => told.has(key))
        : !told.has(`${field} ${twin}`);
    });
  if (field === 'surplus' || field === 'delivered')
    return refs.every(
      (ref) => ref !== null && spots.has(refKey(ref)) && !told.has(`surplus ${refKey(ref)}`) && !told.has(`delivered ${refKey(ref)}`),
    );
  return keysOf(difference, now).every((key) => !told.has(key));
}

function factAt({ record, expected }: Held, { reel, frame }: Spot, field: DifferenceField): ExpectedFact | undefined {
  if (FRAME_FACTS.has(field)) return expected.reels[reel]?.frames[frame]?.facts[field as FrameFact];
  const issue = record.reels[reel]?.frames[frame]?.issue ?? null;
  return issue === null ? undefined : expected.issues[issue]?.[field as IssueFact];
}

/** Names of what a difference is about that are the same for both states of the record. */
function keysOf(
  { field, pairs, ref, returnIssue, absence, otherAbsence, about, given, expected }: Difference,
  held: Held,
): readonly string[] {
  if (field === 'absence-missing') return [`${field} ${absenceKey(held.record, absence)}`];
  if (field === 'absence-extra') return [`absence ${String(absence)}`];
  if (field === 'absence-published') return [`absence ${String(otherAbsence)}`];
  if (field === 'empty-number') return [`${field} ${given?.key ?? ''}`];
  if (field === 'extra-document') return [`${field} ${String(returnIssue)}`];
  if (pairs.length === 0) return [JSON.stringify([field, about, ref, returnIssue, given?.key ?? null, expected.length])];
  return pairs.map((place) => {
    const returned = held.alignments[place.alignment]?.pairs[place.pair]?.returned ?? null;
    return `${field} ${returned === null ? `alone ${String(place.alignment)}:${String(place.pair)}` : refKey(returned)}`;
  });
}

function absenceKey(record: Side, index: number | null): string {
  const one = index === null ? undefined : record.absences[index];
  return JSON.stringify([one?.title, one?.date?.text, one?.edition, one?.section, one?.page, one?.order]);
}

/** A frame of the record for which nothing came: where it lies in the alignment, and what it shows. */
interface Lonely {
  readonly at: string;
  readonly shows: string;
}

/** Frames for which nothing came, told from one state of the record to the other by the frames of the return between which they lie, and by what they show. */
function lonelyTwins(now: Held, sent: Held): ReadonlyMap<string, string> {
  const before = lonely(sent);
  const twins = new Map<string, string>();
  for (const [gap, list] of lonely(now)) {
    const left = [...(before.get(gap) ?? [])];
    const unmatched: Lonely[] = [];
    for (const one of list) {
      const at = left.findIndex(({ shows }) => shows === one.shows);
      if (at < 0) unmatched.push(one);
      else twins.set(one.at, `alone ${left.splice(at, 1)[0]?.at ?? ''}`);
    }
    // As many on both sides: what they show was changed.
    if (unmatched.length === left.length) unmatched.forEach((one, at) => twins.set(one.at, `alone ${left[at]?.at ?? ''}`));
  }
  return twins;
}

function lonely({ record, alignments }: Held): ReadonlyMap<string, readonly Lonely[]> {
  const gaps = new Map<string, Lonely[]>();
  alignments.forEach(({ recordReel, returnReels, pairs }, a) => {
    let behind = `start ${returnReels.join(',')}`;
    pairs.forEach(({ record: index, returned }, p) => {
      if (returned !== null) behind = refKey(returned);
      const frame = recordReel === null || index === null || returned !== null ? undefined : record.reels[recordReel]?.frames[index];
      if (frame === undefined) return;
      const date = frame.issue === null ? null : (record.issues[frame.issue]?.date?.text ?? null);
      const shows = JSON.stringify([frame.kind, date, frame.section, frame.pageKey, frame.order]);
      const list = gaps.get(behind) ?? [];
      gaps.set(behind, [...list, { at: `${String(a)}:${String(p)}`, shows }]);
    });
  });
  return gaps;
}
