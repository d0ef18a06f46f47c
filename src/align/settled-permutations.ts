import type { Pair } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';
import { contentKey, orderKey } from './keys.js';
import { frameOf } from './sequences.js';

/** A pair of pages in its place, by what both sides say that they show. */
interface Place {
  readonly at: number;
  readonly mine: string;
  readonly theirs: string;
  /** What the frame shows, and what came says that it does. */
  readonly shows: string;
  readonly gives: string;
  /** It came with another label. */
  readonly off: boolean;
  /** Label or place in the issue differ too, and not only what the whole issue says of itself. */
  readonly inIssue: boolean;
}

/**
 * Pages that follow one another and say of themselves, with label and place alike, that they are one another: it is their numbers that stand in each other's
 * place. Two pages that follow each other in one issue may as well have had their metadata exchanged, and whole issues their dates: these stay where their numbers are.
 */
export function settlePermutations(pairs: readonly Pair[], reel: Reel, record: Side, returned: Side): Pair[] {
  // one label among them may be wrong by itself: then the places tell
  return (['label and place', 'place'] as const).reduce<Pair[]>(
    (settled, by) => settledBy(by, settled, reel, record, returned),
    [...pairs],
  );
}

type By = 'label and place' | 'place';

function settledBy(by: By, pairs: readonly Pair[], reel: Reel, record: Side, returned: Side): Pair[] {
  const result = [...pairs];
  const places = placesOf(by, pairs, reel, record, returned);
  if (places.every(({ mine, theirs }) => mine === theirs)) return result;
  for (const block of permuted(places)) {
    const [first, last] = [places.indexOf(block[0] as Place), places.indexOf(block.at(-1) as Place)];
    // where the labels beside are wrong too they do not tell
    if (by === 'place' && [places[first - 1], places[last + 1]].some((place) => place?.off)) continue;
    const moved = block.filter(({ mine, theirs }) => mine !== theirs);
    const [one, two] = moved.map((place) => reel.frames[pairs[place.at]?.record ?? -1]);
    const few = moved.length === 2 && one?.issue === two?.issue && Math.abs((one?.order ?? 0) - (two?.order ?? 0)) === 1;
    if (few || moved.filter(({ inIssue }) => inIssue).length * 2 < moved.length) continue;
    const labels = new Map(block.map(({ theirs, gives }) => [theirs, gives]));
    // one label among several may be wrong; places that are wrong by themselves carry the labels of where they lie, and a supplement that was counted in where it
    // was filmed has labels of its own
    const others = moved.filter(({ mine, shows }) => labels.get(mine) !== shows).length;
    if (others > 1 || others * 2 >= moved.length) continue;
    const came = new Map(block.map(({ at, theirs }) => [theirs, pairs[at]]));
    for (const { at, mine } of block) {
      const image = came.get(mine);
      if (image !== undefined) result[at] = { ...image, record: pairs[at]?.record ?? null, how: 'moved' };
    }
  }
  return result;
}

function placesOf(by: By, pairs: readonly Pair[], reel: Reel, record: Side, returned: Side): readonly Place[] {
  return pairs.flatMap((pair, at): Place[] => {
    const frame = pair.record === null ? undefined : reel.frames[pair.record];
    if (frame?.deliver !== true || frame.kind !== 'page' || pair.returned === null || pair.how !== 'order') return [];
    const image = frameOf(returned, pair.returned);
    const [mine, theirs] = [contentKey(frame, record), contentKey(image, returned)];
    const [place, other] = [orderKey(frame, record), orderKey(image, returned)];
    if (mine === null || theirs === null || place === null || other === null) return [];
    const inIssue = frame.order !== image.order && (frame.pageKey ?? null) !== (image.pageKey ?? null);
    const label = { shows: mine, gives: theirs, off: image.pageKey !== null && frame.pageKey !== null && image.pageKey !== frame.pageKey };
    return [
      by === 'place'
        ? { at, mine: place, theirs: other, ...label, inIssue }
        : { at, mine: `${mine} ${place}`, theirs: `${theirs} ${other}`, ...label, inIssue },
    ];
  });
}

/** Runs of places in which everything that came belongs to one of them, each once; runs that follow one another are one. */
function permuted(places: readonly Place[]): readonly (readonly Place[])[] {
  const found: Place[][] = [];
  const came = new Map<string, number[]>();
  for (const [index, { theirs }] of places.entries()) {
    const list = came.get(theirs);
    if (list === undefined) came.set(theirs, [index]);
    else list.push(index);
  }
  let from = 0;
  while (from < places.length) {
    // What is wanted at the beginning has to come within the run: where it does not, as on film that one side knows less of, nothing is followed.
    const start = from;
    const mine = places[start]?.mine ?? '';
    const within = came.get(mine)?.some((index) => index > start && index < start + LONGEST) === true;
    const to = within ? endOf(places, from) : null;
    const last = found.at(-1);
    if (to !== null && last !== undefined && places[from - 1] === last.at(-1)) last.push(...places.slice(from, to));
    else if (to !== null) found.push(places.slice(from, to));
    from = to ?? from + 1;
  }
  return found;
}

/** A permutation reaches over no more than so many pages. */
const LONGEST = 64;

/** Where a permutation that begins here ends; null where none does. */
function endOf(places: readonly Place[], from: number): number | null {
  const [first] = places.slice(from, from + 1);
  if (first === undefined || first.mine === first.theirs) return null;
  const [wanted, came] = [new Set<string>(), new Set<string>()];
  let lacking = 0;
  for (let at = from; at < Math.min(places.length, from + LONGEST); at++) {
    const place = places[at];
    if (place === undefined || wanted.has(place.mine) || came.has(place.theirs)) return null;
    wanted.add(place.mine);
    if (!came.has(place.mine)) lacking += 1;
    came.add(place.theirs);
    if (wanted.has(place.theirs)) lacking -= 1;
    if (lacking === 0) return at + 1;
  }
  return null;
}
