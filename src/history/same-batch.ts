import type { Findings } from '../model/findings.js';
import { mapFilm } from './film-map.js';

/** Why an earlier result cannot be one of this batch, in sentences without the file's name; empty where it can. `reels` are the record's reels. */
export function earlierMistakes(earlier: Findings, reels: readonly string[], delivery: number): readonly string[] {
  const bare = (text: string): string =>
    text
      .trim()
      .replace(/^0+(?=.)/, '')
      .toLowerCase();
  const here = new Set(reels.map(bare));
  const theirs = earlier.reels.map((reel) => reel.number);
  const mistakes: string[] = [];
  if (theirs.length > 0 && !theirs.some((reel) => here.has(bare(reel))))
    mistakes.push(
      `this is the result of ${earlier.run.batch} with ${listed(theirs)}; the collation record has ${listed(reels)}. It is not an earlier delivery of this batch.`,
    );
  else if (earlier.run.delivery >= delivery)
    mistakes.push(
      `this is the result of delivery ${String(earlier.run.delivery)}, and the one to be verified is delivery ${String(delivery)}. Name the result of a delivery before it, or say with --delivery which one this is.`,
    );
  return mistakes;
}

/** Why a result cannot be one of another batch, in a sentence without the file's name; null where it can. */
export function otherMistake(other: Findings, now: Findings): string | null {
  const instead = 'A result of an earlier delivery of the same batch is named with --earlier.';
  if (other.run.batch === now.run.batch) return `this is a result of ${other.run.batch}, the batch that is verified. ${instead}`;
  const here = mapFilm(now.reels).frames;
  const twice = [...mapFilm(other.reels).frames].find(
    ([key, frame]) => frame.returnedKind === 'page' && here.get(key)?.returnedKind === 'page',
  );
  if (twice === undefined) return null;
  const [reel, frame] = twice[0].split('\n');
  return `this is a result of the same film: frame ${frame ?? ''} of reel ${reel ?? ''} came in ${other.run.batch} too. ${instead}`;
}

function listed(reels: readonly string[]): string {
  const shown = reels.slice(0, 5).join(', ');
  if (reels.length === 0) return 'no reel';
  return `${reels.length === 1 ? 'reel' : 'reels'} ${shown}${reels.length > 5 ? ` and ${String(reels.length - 5)} more` : ''}`;
}
