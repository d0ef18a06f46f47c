import type { ResultFrame, ResultReel } from '../../model/findings.js';

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

/** A frame number without a letter as a number; null for `12A`, for no number, and for what no film has. */
function plain(text: string | null): number | null {
  return text !== null && /^\d{1,9}$/.test(text) ? Number(text) : null;
}

/** How far the return's number is from the record's; null where that cannot be said. */
export function drift(frame: ResultFrame): number | null {
  const [mine, theirs] = [plain(frame.frame), plain(frame.returned)];
  return mine === null || theirs === null ? null : theirs - mine;
}

/** `+1`, `-1`; a minus sign proper. */
export function signed(number: number): string {
  return number > 0 ? `+${String(number)}` : number < 0 ? `\u2212${String(-number)}` : '0';
}

/** Numbers as runs: `21 to 24`, `8, 12 to 14`; `none` where there are none. Only plain numbers join. */
export function inRuns(numbers: readonly (string | null)[]): string {
  const runs: { from: string; to: string }[] = [];
  for (const number of numbers) {
    if (number === null) continue;
    const last = runs.at(-1);
    const [before, now] = [plain(last?.to ?? null), plain(number)];
    if (last !== undefined && before !== null && now === before + 1) last.to = number;
    else runs.push({ from: number, to: number });
  }
  if (runs.length === 0) return 'none';
  return runs.map(({ from, to }) => (from === to ? from : `${from} to ${to}`)).join(', ');
}
