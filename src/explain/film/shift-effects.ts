import type { FrameRange } from '../../model/findings.js';
import { framesInWords, rangeOf } from '../draft.js';
import { idsOf } from '../runs.js';
import { recordFrame, returnFrame, type Scene } from '../scene.js';
import { movedBy } from './moved-pages.js';
import type { Event } from './shift-events.js';

/** The frames whose numbers are wrong because of the event, or the event's own where none are. */
export function affected(scene: Scene, event: Event): { frames: FrameRange | null; count: number; words: string; are: 'is' | 'are' } {
  const range = rangeOf(scene, event.wrong);
  const words = framesInWords(range.frames);
  return { frames: range.frames, count: range.count, words, are: words.startsWith('frame ') ? 'is' : 'are' };
}

/** By how much the numbers behind an event are wrong, in words. */
export function offBy({ delta }: Event): string {
  return `${String(Math.abs(delta))} too ${delta < 0 ? 'low' : 'high'}`;
}

/** What the vendor does about the numbers, as the middle of a sentence; empty where none is wrong. */
export function renumbering(event: Event, words: string): string {
  if (event.wrong.length === 0) return '';
  return `renumber ${words} by ${event.delta < 0 ? '+' : '-'}${String(Math.abs(event.delta))}`;
}

/** Page numbers inside the issue that moved along because a page before them is missing or doubled. */
export function orderShift(scene: Scene, event: Event): number[] {
  const ids: number[] = [];
  for (const ref of event.refs) {
    const issue = recordFrame(scene, ref)?.issue ?? returnFrame(scene, ref)?.issue ?? null;
    if (issue === null) continue;
    const step = event.kind === 'lost' ? -1 : 1;
    const own = (event.kind === 'lost' ? recordFrame(scene, ref) : returnFrame(scene, ref))?.order ?? null;
    const pairs = event.kind === 'lost' ? scene.pairsOfRecordIssue.get(issue) : scene.pairsOfReturnIssue.get(issue);
    // Behind it on the film, or behind it in the issue where pages were filmed out of order.
    const later = (pairs ?? []).filter((other) => {
      if (other.alignment !== ref.alignment || other.pair === ref.pair) return false;
      return other.pair > ref.pair || (own !== null && (recordFrame(scene, other)?.order ?? 0) >= own);
    });
    ids.push(...idsOf(movedBy(scene, later, step * event.refs.length)));
  }
  return [...new Set(ids)];
}
