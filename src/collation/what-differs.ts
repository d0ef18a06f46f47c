import type { CollationRecord, ReelEntry } from '../model/collation-record.js';
import { inWords } from '../normalise/record-parts.js';

type Fields = Readonly<Record<string, unknown>>;

/** What of a record is not the same in another one: sentences that name the title, reel or frame and the field. Both records are settled. */
export function whatDiffers(before: CollationRecord, after: CollationRecord): readonly string[] {
  return [
    ...listsDiffer(before.titles, after.titles, ({ id }) => `title ${id}`),
    ...listsDiffer(before.reels.map(reelFacts), after.reels.map(reelFacts), ({ number }) => `reel ${number}`),
    ...before.reels.flatMap(({ number, frames, absent }, at) => {
      const other = after.reels[at];
      return [
        ...listsDiffer(frames, other?.frames ?? [], ({ frame }) => `reel ${number}, frame ${frame}`),
        ...listsDiffer(
          absent ?? [],
          other?.absent ?? [],
          ({ date, page }) => `reel ${number}, ${page === undefined ? 'issue' : `page ${page}`} of ${date} (absent)`,
        ),
      ];
    }),
  ];
}

function listsDiffer<Entry extends object>(
  before: readonly Entry[],
  after: readonly Entry[],
  name: (entry: Entry) => string,
): readonly string[] {
  const surplus = after.slice(before.length).map((entry) => `${name(entry)}: it would be there although the record has no such thing.`);
  return [
    ...before.flatMap((entry, at) => {
      const other = after[at];
      return other === undefined
        ? [`${name(entry)}: it would be lost.`]
        : fieldsDiffer(name(entry), Object.fromEntries(Object.entries(entry)), Object.fromEntries(Object.entries(other)));
    }),
    ...surplus,
  ];
}

function fieldsDiffer(name: string, before: Fields, after: Fields): readonly string[] {
  const fields = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return fields.flatMap((field) => {
    const [written, read] = [shown(before[field]), shown(after[field])];
    return written === read ? [] : [`${name}: the ${inWords(field)} ${written} would come back as ${read}.`];
  });
}

function shown(value: unknown): string {
  return value === undefined ? 'that is left out' : JSON.stringify(value);
}

/** A reel without its frames and absences, which are looked at one by one. */
function reelFacts(reel: ReelEntry): ReelEntry {
  return { ...reel, frames: [], absent: [] };
}
