import type { Alignment } from '../../model/alignment.js';
import type { Frame, Issue, Side } from '../../model/film.js';
import type { Findings } from '../../model/findings.js';
import { pairKey } from '../runs.js';

/** The same page as another batch delivered it. */
export interface OtherCopy {
  readonly batch: string;
  readonly delivery: number;
  readonly reel: string;
  /** The frame by that batch's record; null where that record has none there. */
  readonly frame: string | null;
  /** Whether that batch's record asked for it. */
  readonly ordered: boolean;
}

/** Pages of this return that came in other batches too, by `alignment:pair`. */
export type Elsewhere = ReadonlyMap<string, OtherCopy>;

/** Looks up every page that came now among those that came in other batches. A page is the same by title, date, edition, section and label. */
export function findElsewhere(alignments: readonly Alignment[], record: Side, returned: Side, others: readonly Findings[]): Elsewhere {
  const copies = otherCopies(others);
  const found = new Map<string, OtherCopy>();
  if (copies.size === 0) return found;
  alignments.forEach((alignment, a) => {
    const reel = alignment.recordReel === null ? undefined : record.reels[alignment.recordReel];
    alignment.pairs.forEach((pair, p) => {
      const theirs = pair.returned === null ? undefined : returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
      if (theirs?.kind !== 'page') return;
      const mine = pair.record === null ? undefined : reel?.frames[pair.record];
      const key = mine === undefined ? keyOf(theirs, returned) : keyOf(mine, record);
      const copy = key === null ? undefined : copies.get(key);
      if (copy !== undefined) found.set(pairKey({ alignment: a, pair: p }), copy);
    });
  });
  return found;
}

/** Every page that the other batches delivered; one that was ordered there goes before one that was not. */
function otherCopies(others: readonly Findings[]): ReadonlyMap<string, OtherCopy> {
  const copies = new Map<string, OtherCopy>();
  for (const { run, reels } of others) {
    for (const reel of reels) {
      for (const frame of reel.frames) {
        if (frame.returnedKind !== 'page') continue;
        const key = pageKey(frame.title, frame.date, frame.edition, frame.section, frame.page, frame.order);
        if (key === null || copies.get(key)?.ordered === true) continue;
        copies.set(key, { batch: run.batch, delivery: run.delivery, reel: reel.number, frame: frame.frame, ordered: frame.deliver });
      }
    }
  }
  return copies;
}

function keyOf(frame: Frame, side: Side): string | null {
  const issue: Issue | undefined = frame.issue === null ? undefined : side.issues[frame.issue];
  if (issue === undefined) return null;
  return pageKey(issue.title, issue.date?.text ?? null, issue.edition, frame.section, frame.page, frame.order);
}

/** Null for what cannot be told from other pages: without title or date, or with neither a label nor a place. */
function pageKey(
  title: string | null,
  date: string | null,
  edition: number | null,
  section: string | null,
  page: string | null,
  order: number | null,
): string | null {
  if (title === null || date === null || (page === null && order === null)) return null;
  const label =
    page === null
      ? `#${String(order)}`
      : page
          .trim()
          .replace(/^0+(?=\d)/, '')
          .toUpperCase();
  return JSON.stringify([title, date, edition ?? 1, section ?? '', label]);
}
