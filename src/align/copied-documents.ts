import type { Pair, ReturnRef } from '../model/alignment.js';
import type { Side } from '../model/film.js';
import { contentKey } from './keys.js';
import { frameOf } from './sequences.js';

/** So large a share of a document's frame numbers must stand in another one of the same day for it to be its copy. */
const SAME_NUMBERS = 0.8;

/**
 * Frames of documents that describe the same frames once more: the same title and day, and the same numbers, or where nothing is numbered the
 * same pages. They show no further frame of the film. Of the two the one is kept that names an issue of the record, else the first.
 */
export function copiedDocuments(
  refs: readonly ReturnRef[],
  record: Side,
  returned: Side,
  by: 'number' | 'content',
): ReadonlyMap<ReturnRef, number> {
  const numbers = new Map<number, Set<string>>();
  for (const ref of refs) {
    const frame = frameOf(returned, ref);
    const name = by === 'number' ? (frame.frame?.text ?? null) : contentKey(frame, returned);
    if (frame.issue === null || name === null) continue;
    const set = numbers.get(frame.issue) ?? new Set<string>();
    numbers.set(frame.issue, set.add(name));
  }
  const days = new Map<string, number[]>();
  for (const issue of numbers.keys()) {
    const { title, date } = returned.issues[issue] ?? { title: null, date: null };
    if (date?.day == null) continue;
    const key = `${title ?? ''}|${date.day}`;
    days.set(key, [...(days.get(key) ?? []), issue]);
  }
  const copies = new Map<number, number>();
  for (const list of days.values()) {
    if (list.length < 2) continue;
    // without numbers two editions of one day that both call themselves the first look like copies: as many as the record has are none
    let surplus = list.length - (by === 'number' ? 0 : issuesOfDay(list[0], record, returned));
    const inRecord = [...list].sort((a, b) => Number(isInRecord(b, record, returned)) - Number(isInRecord(a, record, returned)) || a - b);
    inRecord.forEach((issue, at) => {
      const mine = numbers.get(issue) ?? new Set();
      const original = inRecord
        .slice(0, at)
        .find((other) => !copies.has(other) && shared(mine, numbers.get(other)) >= mine.size * SAME_NUMBERS);
      if (original === undefined || mine.size < 2 || surplus < 1) return;
      copies.set(issue, original);
      surplus--;
    });
  }
  const result = new Map<ReturnRef, number>();
  for (const ref of refs) {
    const original = copies.get(frameOf(returned, ref).issue ?? -1);
    if (original !== undefined) result.set(ref, original);
  }
  return result;
}

/** Puts the frames of copies behind the last page of the document that they repeat, as frames that the film does not have. */
export function withCopies(pairs: readonly Pair[], copies: ReadonlyMap<ReturnRef, number>, returned: Side): Pair[] {
  const result = [...pairs];
  const groups = new Map<number, ReturnRef[]>();
  for (const [ref, original] of copies) groups.set(original, [...(groups.get(original) ?? []), ref]);
  for (const [original, refs] of groups) {
    const last = result.findLastIndex((pair) => pair.returned !== null && frameOf(returned, pair.returned).issue === original);
    const surplus = refs.map(
      (ref): Pair => ({ record: null, returned: ref, slot: true, exposure: frameOf(returned, ref).frame?.exposure ?? null, how: 'order' }),
    );
    result.splice(last < 0 ? result.length : last + 1, 0, ...surplus);
  }
  return result;
}

function shared(mine: ReadonlySet<string>, theirs: ReadonlySet<string> | undefined): number {
  return [...mine].filter((number) => theirs?.has(number) === true).length;
}

function isInRecord(issue: number, record: Side, returned: Side): boolean {
  const mine = returned.issues[issue];
  if (mine === undefined) return false;
  return record.issues.some(
    (other) => other.title === mine.title && other.date?.day === mine.date?.day && (other.edition ?? 1) === (mine.edition ?? 1),
  );
}

/** How many issues the record has of the title and day of a document. */
function issuesOfDay(issue: number | undefined, record: Side, returned: Side): number {
  const mine = returned.issues[issue ?? -1];
  return record.issues.filter((other) => other.present && other.title === mine?.title && other.date?.day === mine.date?.day).length;
}
