import type { Alignment } from '../model/alignment.js';
import type { Place, Side } from '../model/film.js';
import type { Unchecked } from '../model/findings.js';

/** So many places show where numbers are wanting. */
const PLACES = 5;

/** Numbers that nobody wrote, and what they could not show: said once for each reel, and never held against anyone. */
export function countedOn(alignment: Alignment, record: Side, returned: Side): Unchecked[] {
  const reel = alignment.recordReel === null ? undefined : record.reels[alignment.recordReel];
  const refs = alignment.pairs.flatMap((pair) => (pair.record === null ? [] : (pair.returned ?? [])));
  if (reel === undefined || refs.length === 0) return [];
  const frames = refs.flatMap((ref) => returned.reels[ref.reel]?.frames[ref.frame] ?? []);
  const bare = frames.filter((frame) => frame.frame?.inferred === true);
  const entry = (what: string, why: string, of: readonly { readonly place: Place }[]): Unchecked => ({
    what: `${what} of reel ${reel.text}`,
    why,
    frames: null,
    places: of.slice(0, PLACES).map(({ place }) => place),
    count: of.length,
    required: false,
  });
  const result: Unchecked[] = [];
  if (!alignment.numbered) {
    const why = reel.frames.some((frame) => frame.frame?.inferred === true)
      ? 'what was filmed is print: the record counts places in a volume, which are not compared as numbers'
      : 'the return gives no frame numbers; they were counted on';
    result.push(entry('frame numbers, and what is not delivered between the pages,', why, frames));
  } else if (bare.length > 0) {
    const words = bare.length === 1 ? 'the number of 1 frame' : `the numbers of ${String(bare.length)} frames`;
    result.push(entry(words, `the return gives none for ${bare.length === 1 ? 'it' : 'them'}; counted on from those around`, bare));
  }
  if (refs.some((ref) => returned.reels[ref.reel]?.numberInferred === true))
    result.push(entry('the reel number', 'the return gives none; the reel was known by what its pages show', frames));
  return result;
}
