import type { ReturnPlace } from './sequences.js';

/** A run of fewer exposures than this may come from filming out of order; a longer one going steadily backwards was scanned the other way round. */
const SHORTEST = 4;

/** Places that lie under one number: a whole exposure, or its halves. */
interface Block {
  readonly from: number;
  readonly to: number;
  /** Where its pages stand in the record, by content; empty where unknown. */
  readonly at: readonly number[];
}

/** Where a page stands in the record, by its label or by its place in the issue. */
export interface Position {
  readonly at: number;
  readonly by: 'label' | 'order';
  /** The exposure that it lies on there. */
  readonly exposure: number | null;
}

/** Where in the record the page stands that has the place in its issue which the page here says it has; null where it says none. */
export type InIssue = (place: ReturnPlace) => number | null;

/** The return's places in the order that follows the film, and which of them were turned round to get there. */
export interface Straightened {
  readonly places: readonly ReturnPlace[];
  readonly turned: ReadonlySet<ReturnPlace>;
  /** True when the whole reel runs backwards, so that the record's beginning lies beyond the return's end. */
  readonly whole: boolean;
}

/**
 * Undoes what can be seen before any alignment: runs of exposures that go steadily backwards through the record, and exposures whose
 * halves are exchanged, where more than one is. `position` gives a place's page in the record by content, null where unknown.
 */
export function straightened(places: readonly ReturnPlace[], position: readonly (Position | null)[], inIssue: InIssue): Straightened {
  const blocks = halvesInOrder(blocksOf(places, position), places, position);
  const runs = backwards(blocks.list, blocks.places, inIssue);
  const whole =
    runs.length === 1 && runs[0] !== undefined && runs[0].known > blocks.list.filter((block) => block.at.length > 0).length * 0.9;
  const spans = whole ? [{ from: 0, to: blocks.list.length - 1 }] : runs;
  const order = [...blocks.list];
  const turned = new Set<ReturnPlace>();
  for (const { from, to } of spans) {
    const run = blocks.list.slice(from, to + 1);
    order.splice(from, run.length, ...run.reverse());
    for (const block of run) for (const place of blocks.places.slice(block.from, block.to + 1)) turned.add(place);
  }
  return { places: order.flatMap((block) => inBlock(block, blocks.places, turned)), turned, whole };
}

/** Inside a turned exposure the halves may have kept their order or been turned as well: the film's order decides. */
function inBlock(block: Block, places: readonly ReturnPlace[], turned: ReadonlySet<ReturnPlace>): readonly ReturnPlace[] {
  const own = places.slice(block.from, block.to + 1);
  const first = own[0];
  if (first === undefined || !turned.has(first)) return own;
  const [a, b] = block.at;
  return a !== undefined && b !== undefined && b < a ? [...own].reverse() : own;
}

function blocksOf(places: readonly ReturnPlace[], position: readonly (Position | null)[]): Block[] {
  const blocks: { from: number; to: number; at: number[] }[] = [];
  places.forEach((place, index) => {
    const last = blocks.at(-1);
    const previous = places[index - 1];
    const at = position[index]?.at ?? null;
    if (last !== undefined && place.half !== '' && place.exposure !== null && previous?.exposure === place.exposure) {
      last.to = index;
      if (at !== null) last.at.push(at);
    } else {
      blocks.push({ from: index, to: index, at: at === null ? [] : [at] });
    }
  });
  return blocks;
}

/** Exchanges the halves back, which lie one behind the other in the record, where at least two exposures show them exchanged; a single one is told as two pages exchanged. */
function halvesInOrder(
  blocks: Block[],
  places: readonly ReturnPlace[],
  position: readonly (Position | null)[],
): { list: Block[]; places: ReturnPlace[] } {
  const result = [...places];
  const crossed = blocks.filter(
    ({ at, from, to }) =>
      to - from === 1 &&
      at.length === 2 &&
      (at[0] ?? 0) - (at[1] ?? 0) === 1 &&
      position[from]?.by === position[to]?.by &&
      position[from]?.exposure === position[to]?.exposure,
  );
  const alone = inRuns(blocks, new Set(crossed));
  if (alone.length < 2) return { list: blocks, places: result };
  const exchanged = new Set(alone);
  for (const { from, to } of alone) result.splice(from, 2, ...places.slice(from, to + 1).reverse());
  const list = blocks.map((block) => (exchanged.has(block) ? { ...block, at: [...block.at].reverse() } : block));
  return { list, places: result };
}

/** So many exposures in order, or of unknown order, may lie inside a run of exchanged ones: filmed out of order, or twice on the film. */
const TOLERATED = 3;

/** Exchanged exposures that follow one another on the film, at least two: where the exposures themselves run back, more than their halves is turned round. */
function inRuns(blocks: readonly Block[], crossed: ReadonlySet<Block>): Block[] {
  const kept: Block[] = [];
  let run: Block[] = [];
  let between = 0;
  const close = (): void => {
    if (run.length >= 2) kept.push(...run);
    run = [];
    between = 0;
  };
  for (const block of blocks) {
    if (crossed.has(block)) {
      if ((block.at[1] ?? 0) < (run.at(-1)?.at[0] ?? 0)) close();
      run.push(block);
      between = 0;
    } else if (block.to - block.from === 1) {
      between++;
      if (between > TOLERATED) close();
    }
  }
  close();
  return kept;
}

/** Runs of blocks that go steadily backwards, as indexes into the blocks. */
function backwards(
  blocks: readonly Block[],
  places: readonly ReturnPlace[],
  inIssue: InIssue,
): { from: number; to: number; known: number }[] {
  const known = blocks.flatMap((block, index) => (block.at.length === 0 ? [] : [{ at: Math.min(...block.at), index }]));
  const runs: { from: number; to: number; known: number }[] = [];
  let start = 0;
  for (let k = 1; k <= known.length; k++) {
    const here = known[k];
    const before = known[k - 1];
    if (here !== undefined && before !== undefined && here.at < before.at) continue;
    const first = known[start];
    if (k - start >= SHORTEST && first !== undefined && before !== undefined)
      runs.push({ from: first.index, to: before.index, known: k - start });
    start = k;
  }
  return runs.filter(({ from, to }) => !onlyLabels(places.slice(blocks[from]?.from, (blocks[to]?.to ?? -1) + 1), inIssue));
}

/** True where the places of the pages in their issues, as far as they give them, follow the film: there only the labels run back. */
function onlyLabels(places: readonly ReturnPlace[], inIssue: InIssue): boolean {
  const known = places.flatMap((place) => inIssue(place) ?? []);
  return known.length >= SHORTEST && known.every((at, index) => index === 0 || at > (known[index - 1] ?? at));
}
