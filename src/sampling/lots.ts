import type { Findings, ResultFrame } from '../model/findings.js';
import type { ListedUnit, SampleUnit } from '../model/sample.js';

/** Why a unit may be worth a look beside the random ones; the choice of groups is the library's. */
export const EXTRA_GROUPS = ['record', 'neighbours', 'findings', 'ends', 'splices'] as const;

/** One of these groups: conditions that the record notes, frames beside those of findings, frames of findings, ends of reels, splices. */
export type ExtraGroup = (typeof EXTRA_GROUPS)[number];

/** A unit that is worth a look, and why. */
export interface ExtraWish {
  readonly id: string;
  readonly group: ExtraGroup;
  readonly reason: string;
}

/** A page of a unit, where it stands on the film. */
export interface LotPage {
  readonly reel: string;
  readonly frame: ResultFrame;
}

/** A lot: what is accepted or rejected as one, with its units in film order and those worth looking at for a reason. */
export interface Lot {
  /** Number of the reel, or name of the batch. */
  readonly name: string;
  readonly list: readonly ListedUnit[];
  /** The pages of each unit, in the order of the list. */
  readonly pages: readonly (readonly LotPage[])[];
  readonly extras: readonly ExtraWish[];
}

type Reason = Omit<ExtraWish, 'id'>;

interface Placed extends LotPage {
  readonly reasons: readonly Reason[];
  readonly page: Pick<ListedUnit, 'id' | 'issue'>;
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

function lotOf(name: string, placed: readonly Placed[], unit: SampleUnit): Lot {
  const units = new Map<string, ListedUnit>();
  const pages = new Map<string, LotPage[]>();
  const extras: ExtraWish[] = [];
  const known = new Set<string>();
  const sizes = new Map<string, number>();
  for (const { page } of placed) sizes.set(page.issue, (sizes.get(page.issue) ?? 0) + 1);
  for (const { reel, frame, page, reasons } of placed) {
    const id = unit === 'page' ? freeName(page.id, units) : page.issue;
    units.set(id, units.get(id) ?? { id, issue: page.issue, pages: sizes.get(page.issue) ?? 1 });
    pages.set(id, [...(pages.get(id) ?? []), { reel, frame }]);
    for (const { group, reason } of reasons) {
      const key = `${id}\n${reason}`;
      if (!known.has(key)) extras.push({ id, group, reason });
      known.add(key);
    }
  }
  return { name, list: [...units.values()], pages: [...pages.values()], extras };
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
    return [{ reel, frame, page: { id, issue }, reasons: [...reasonsFor(frames, index)] }];
  });
  placed[0]?.reasons.push({ group: 'ends', reason: 'first page of the reel' });
  if (placed.length > 1) placed.at(-1)?.reasons.push({ group: 'ends', reason: 'last page of the reel' });
  return placed;
}

function* reasonsFor(frames: readonly ResultFrame[], index: number): Generator<Reason> {
  const frame = frames[index];
  if (frame === undefined) return;
  const beside = [frames[index - 1], frames[index + 1]].flatMap((neighbour) => (neighbour === undefined ? [] : [neighbour]));
  for (const condition of frame.condition) yield { group: 'record', reason: `the record says: ${condition}` };
  if (frame.findings.length > 0) yield { group: 'findings', reason: 'named by a finding' };
  else if (beside.some(({ findings }) => findings.length > 0)) yield { group: 'neighbours', reason: 'beside a frame that a finding names' };
  if (beside.some(({ sourceReel }) => sourceReel !== frame.sourceReel)) yield { group: 'splices', reason: 'beside a splice' };
}

/** Names come from the vendor's documents too; a name that ran over lines would break the list that is hashed. */
function oneLine(text: string): string {
  return text.replaceAll(/[\r\n]+/g, ' ');
}
