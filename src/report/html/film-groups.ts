import type { ResultFrame, ResultReel } from '../../model/findings.js';
import { plainNumber } from '../runs.js';

/** Frames that lie together on the film and belong to one issue, or to none. */
export interface FilmGroup {
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
  readonly frames: readonly ResultFrame[];
}

/** The frames of a reel in film order, cut where the issue changes. */
export function filmGroups(reel: ResultReel): readonly FilmGroup[] {
  const groups: { title: string | null; date: string | null; edition: number | null; frames: ResultFrame[] }[] = [];
  for (const frame of reel.frames) {
    const last = groups.at(-1);
    if (last?.title === frame.title && last.date === frame.date && last.edition === frame.edition) last.frames.push(frame);
    else groups.push({ title: frame.title, date: frame.date, edition: frame.edition, frames: [frame] });
  }
  return groups;
}

/** How far the return's number is from the record's; null where that cannot be said. */
export function drift(frame: ResultFrame): number | null {
  const [mine, theirs] = [plainNumber(frame.frame), plainNumber(frame.returned)];
  return mine === null || theirs === null ? null : theirs - mine;
}

/** `+1`, `-1`; a minus sign proper. */
export function signed(number: number): string {
  return number > 0 ? `+${String(number)}` : number < 0 ? `\u2212${String(-number)}` : '0';
}
