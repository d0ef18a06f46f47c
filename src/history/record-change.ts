import type { Findings, ResultFrame, ResultReel } from '../model/findings.js';
import type { FilmMap } from './film-map.js';

/** Digests of the files of one role, so that two results can tell whether they read the same. */
export function digestsOf(result: Pick<Findings, 'run'>, role: string): string {
  return result.run.inputs
    .filter((input) => input.role === role)
    .map((input) => input.sha256)
    .sort()
    .join(' ');
}

/** Whether the files of a role are others than before; null where a result does not say what it read. */
export function filesChanged(was: Pick<Findings, 'run'>, is: Pick<Findings, 'run'>, role: string): boolean | null {
  const [before, now] = [digestsOf(was, role), digestsOf(is, role)];
  return before === '' || now === '' ? null : before !== now;
}

/** What of a frame a saved result takes from the record alone. */
function recordFacts(frame: ResultFrame): string {
  const { kind, deliver, condition, sourceReel, duplicateOf, title, date, edition, section, page, order } = frame;
  const own = [kind, deliver, condition, sourceReel, duplicateOf];
  // A frame that shows no page has no issue in the record; what stands there then is the return's.
  return JSON.stringify(kind === 'page' ? [...own, title, date, edition, section, page, order] : own);
}

/** Whether the record says something else of any of these frames than it did, one that it left out or put in included. */
export function recordDiffersAt(spots: readonly string[], was: FilmMap, is: FilmMap): boolean {
  return spots.some((key) => {
    const [before, now] = [was.frames.get(key), is.frames.get(key)];
    if (before === undefined || now === undefined) return before !== now;
    return recordFacts(before) !== recordFacts(now);
  });
}

/** Whether the record states other absences for an issue than it did. */
export function absencesDiffer(date: string | null, was: readonly ResultReel[], is: readonly ResultReel[]): boolean {
  const stated = (reels: readonly ResultReel[]): string =>
    JSON.stringify(reels.flatMap((reel) => reel.absent.filter((absence) => absence.date === date)));
  return stated(was) !== stated(is);
}
