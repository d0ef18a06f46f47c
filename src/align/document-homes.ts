import type { ReturnRef } from '../model/alignment.js';
import type { Frame, Issue, Side } from '../model/film.js';
import { inNumberOrder, type ReelMatch } from './reels.js';
import { frameOf, numberOf } from './sequences.js';

/** What each thing that a document and an issue have in common says of their being the same; of numbers and labels the share that is common. */
const SAME = { day: 3, numbers: 3, issueNumber: 2, title: 1, edition: 1, labels: 1 } as const;
/** Less than that is no more than two papers of the same days and sizes have in common: then it may be another film, and each reel stays what it says it is. */
const ENOUGH = 6.5;
/** So many issues that share one fact are looked at for a document; a fact that more have says nothing. */
const MOST = 48;

/** An issue on one reel of the record. */
interface Place {
  readonly reel: number;
  readonly issue: number;
  readonly numbers: Set<string>;
  readonly labels: Set<string>;
}

/**
 * The reels as they would be matched if each document of the return lay where the issue does that it has most in common with, whatever reel it names; null
 * where that is how they are matched. Where the reel numbers and a title or the days are wrong over a whole reel, neither of them finds a page its reel.
 */
export function matchedByDocuments(matches: readonly ReelMatch[], record: Side, returned: Side): ReelMatch[] | null {
  const homes = documentHomes(record, returned);
  const lists = new Map(matches.map(({ recordReel }) => [recordReel, [] as ReturnRef[]]));
  const gone = new Map<number, number>();
  let moved = 0;
  for (const { recordReel, refs } of matches)
    for (const ref of refs) {
      const likely = homes[frameOf(returned, ref).issue ?? -1] ?? [];
      const home = recordReel !== null && likely.includes(recordReel) ? recordReel : (likely[0] ?? recordReel);
      lists.get(home)?.push(ref);
      if (home === recordReel) continue;
      moved++;
      if (home !== null) gone.set(ref.reel, home);
    }
  if (moved === 0) return null;
  // what lies in no document goes with the documents of a reel that no other one is
  const own = matches.filter(({ recordReel }) => recordReel !== null);
  const homeless = lists.get(null) ?? [];
  const left = new Set(homeless.filter((ref) => !gone.has(ref.reel)));
  for (const ref of homeless) if (!left.has(ref)) lists.get(gone.get(ref.reel) ?? null)?.push(ref);
  const found = own.map((match): ReelMatch => {
    const list = lists.get(match.recordReel) ?? [];
    const named = [...new Set(list.map(({ reel }) => reel))];
    const refs = named.length < 2 ? list : inNumberOrder(list, returned);
    const reels = match.returnReels.length > 0 ? match.returnReels : named;
    return { ...match, returnReels: reels, by: match.by === 'none' && reels.length > 0 ? 'content' : match.by, refs };
  });
  const strangers = matches.filter(({ recordReel, refs }) => recordReel === null && refs.some((ref) => left.has(ref)));
  return [...found, ...strangers.map((match) => ({ ...match, refs: match.refs.filter((ref) => left.has(ref)) }))];
}

/** For each document of the return the reels of the record that it may as well lie on, that of the document before first; none where nothing tells. */
function documentHomes(record: Side, returned: Side): readonly (readonly number[])[] {
  const places = placesOf(record);
  const byFact = new Map<string, Place[]>();
  for (const place of places)
    for (const key of factsOf(record.issues[place.issue], place.numbers)) {
      const list = byFact.get(key);
      if (list === undefined) byFact.set(key, [place]);
      else list.push(place);
    }
  const pages = pagesOf(returned);
  let before: number | null = null;
  return returned.issues.map((issue, at): readonly number[] => {
    const frames = pages.get(at) ?? [];
    const numbers = new Set(frames.map(numberOf));
    const near = new Set(
      factsOf(issue, numbers).flatMap((key) => {
        const list = byFact.get(key) ?? [];
        return list.length > MOST ? [] : list;
      }),
    );
    const best = new Map<number, number>();
    for (const place of near) {
      const score = likeness(issue, frames, record.issues[place.issue], place);
      best.set(place.reel, Math.max(best.get(place.reel) ?? 0, score));
    }
    const most = Math.max(0, ...best.values());
    const likely = [...best].flatMap(([reel, score]) => (score === most && most >= ENOUGH ? [reel] : []));
    const [home] = likely;
    if (home !== undefined && likely.length === 1) before = home;
    return before !== null && likely.includes(before) ? [before, ...likely] : likely;
  });
}

function placesOf(record: Side): readonly Place[] {
  const places = new Map<string, Place>();
  record.reels.forEach(({ frames }, reel) => {
    for (const frame of frames) {
      if (frame.issue === null || !frame.deliver) continue;
      const key = `${String(reel)} ${String(frame.issue)}`;
      const place = places.get(key) ?? { reel, issue: frame.issue, numbers: new Set(), labels: new Set() };
      places.set(key, place);
      place.numbers.add(numberOf(frame));
      if (frame.pageKey !== null) place.labels.add(frame.pageKey);
    }
  });
  return [...places.values()];
}

function pagesOf({ reels }: Side): ReadonlyMap<number, readonly Frame[]> {
  const pages = new Map<number, Frame[]>();
  for (const frame of reels.flatMap(({ frames }) => frames)) {
    if (frame.issue === null) continue;
    const list = pages.get(frame.issue);
    if (list === undefined) pages.set(frame.issue, [frame]);
    else list.push(frame);
  }
  return pages;
}

/** The facts by which an issue is looked up: its day, its number, the number of its first page. */
function factsOf(issue: Issue | undefined, numbers: ReadonlySet<string>): readonly string[] {
  const [first] = numbers;
  const day = issue?.date?.day ?? null;
  return [
    ...(day === null ? [] : [`day ${day}`]),
    ...(issue?.issueNumber == null ? [] : [`number ${issue.issueNumber}`]),
    ...(first === undefined || first === '' ? [] : [`frame ${first}`]),
  ];
}

function likeness(issue: Issue, frames: readonly Frame[], other: Issue | undefined, { numbers, labels }: Place): number {
  const share = (count: number): number => (frames.length === 0 ? 0 : count / frames.length);
  const both = <T>(one: T | null | undefined, two: T | null | undefined): number => (one != null && one === two ? 1 : 0);
  return (
    SAME.day * both(issue.date?.day, other?.date?.day) +
    SAME.issueNumber * both(issue.issueNumber, other?.issueNumber) +
    SAME.title * both(issue.title, other?.title) +
    SAME.edition * both(issue.edition ?? 1, other?.edition ?? 1) +
    SAME.numbers * share(frames.filter((frame) => numbers.has(numberOf(frame))).length) +
    SAME.labels * share(frames.filter(({ pageKey }) => pageKey !== null && labels.has(pageKey)).length)
  );
}
