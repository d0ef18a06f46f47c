import type { Findings, ResultFrame } from '../model/findings.js';
import type { ListedUnit, SampleUnit } from '../model/sample.js';

/** A lot: what is accepted or rejected as one, with its units in film order and those worth looking at for a reason. */
export interface Lot {
  /** Number of the reel, or name of the batch. */
  readonly name: string;
  readonly list: readonly ListedUnit[];
  readonly extras: readonly { readonly id: string; readonly reason: string }[];
}

interface Placed {
  readonly frame: ResultFrame;
  readonly reasons: readonly string[];
  readonly page: ListedUnit;
}

/**
 * The lots of a compared return: each reel, or the batch as one. Only pages that came back can be drawn; a page is named `reel:frame` by the
 * record's number (`reel:returned N` where the record has none), an issue by title, date and edition. The order is the film's.
 */
export function lotsOf(result: Pick<Findings, 'run' | 'reels'>, unit: SampleUnit, by: 'reel' | 'batch'): readonly Lot[] {
  const reels = result.reels.map(({ number, frames }) => ({ name: number, pages: placedPages(number, frames) }));
  const groups = by === 'reel' ? reels : [{ name: result.run.batch, pages: reels.flatMap(({ pages }) => pages) }];
  return groups.filter(({ pages }) => pages.length > 0).map(({ name, pages }) => lotOf(name, pages, unit));
}

function lotOf(name: string, pages: readonly Placed[], unit: SampleUnit): Lot {
  const units = new Map<string, ListedUnit>();
  const extras: { id: string; reason: string }[] = [];
  const known = new Set<string>();
  for (const { page, reasons } of pages) {
    const id = unit === 'page' ? freeName(page.id, units) : page.issue;
    units.set(id, units.get(id) ?? { id, issue: page.issue });
    for (const reason of reasons) {
      const key = `${id}\n${reason}`;
      if (!known.has(key)) extras.push({ id, reason });
      known.add(key);
    }
  }
  return { name, list: [...units.values()], extras };
}

/** A frame number that the return has twice gives two units; the second is told apart as `(2)`. */
function freeName(id: string, taken: ReadonlyMap<string, unknown>): string {
  if (!taken.has(id)) return id;
  for (let again = 2; ; again++) if (!taken.has(`${id} (${again})`)) return `${id} (${again})`;
}

function placedPages(reel: string, frames: readonly ResultFrame[]): readonly Placed[] {
  const placed = frames.flatMap((frame, index) => {
    if (frame.returnedKind !== 'page') return [];
    const id = oneLine(`${reel}:${frame.frame ?? `returned ${frame.returned ?? 'without number'}`}`);
    const issue = frame.title === null || frame.date === null ? id : oneLine(`${frame.title} ${frame.date} edition ${frame.edition ?? 1}`);
    return [{ frame, page: { id, issue }, reasons: [...reasonsFor(frames, index)] }];
  });
  placed[0]?.reasons.push('first page of the reel');
  if (placed.length > 1) placed.at(-1)?.reasons.push('last page of the reel');
  return placed;
}

function* reasonsFor(frames: readonly ResultFrame[], index: number): Generator<string> {
  const frame = frames[index];
  if (frame === undefined) return;
  const beside = [frames[index - 1], frames[index + 1]].flatMap((neighbour) => (neighbour === undefined ? [] : [neighbour]));
  for (const condition of frame.condition) yield `the record says: ${condition}`;
  if (frame.findings.length > 0) yield 'named by a finding';
  else if (beside.some(({ findings }) => findings.length > 0)) yield 'beside a frame that a finding names';
  if (beside.some(({ sourceReel }) => sourceReel !== frame.sourceReel)) yield 'beside a splice';
}

/** Names come from the vendor's documents too; a name that ran over lines would break the list that is hashed. */
function oneLine(text: string): string {
  return text.replaceAll(/[\r\n]+/g, ' ');
}
