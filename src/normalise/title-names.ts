import type { AbsentEntry, FrameEntry, TitleEntry } from '../model/collation-record.js';
import { keptInMind } from './kept.js';
import { plainText, titleId } from './labels.js';
import { type Placed, problemAt, type ReelParts } from './record-parts.js';
import { given } from './sheet-entry.js';
import type { Complaints } from './sheet-row.js';

/**
 * The titles of the record and its reels with every title cell as an id: the id itself, or the name of a title that the record lists.
 * Where titles are listed any other text is complained about; where none are, each id that appears is a title. `calendar` is that of titles of which nothing else is said.
 */
export function resolveTitles(
  reels: readonly ReelParts[],
  listed: readonly TitleEntry[],
  complaints: Complaints,
  calendar?: string,
): { readonly reels: readonly ReelParts[]; readonly titles: readonly TitleEntry[] } {
  const titles = new Map<string, TitleEntry>();
  for (const title of listed) {
    const key = titleId(title.id) ?? title.id;
    titles.set(key, { ...title, ...titles.get(key) });
  }
  const byName = new Map([...titles.values()].map((title) => [nameKey(title.name ?? title.id), title.id]));
  const closed = titles.size > 0;
  const told = new Set<string>();
  const idOf = keptInMind(titleId);
  const resolved = <Entry extends FrameEntry | AbsentEntry>(reel: string, placed: Placed<Entry>): Placed<Entry> => {
    const written = placed.entry.title;
    const key = written === undefined ? null : idOf(written);
    if (written === undefined || key === null || titles.has(key)) return placed;
    const named = byName.get(nameKey(written));
    if (named !== undefined) return { ...placed, entry: { ...placed.entry, title: named } };
    if (!closed) titles.set(key, { id: written });
    // Once for each wrong id: a whole reel may bear it.
    else if (!told.has(key)) complaints.problems.push(problemAt(reel, placed, 'title', unknownTitle(written, [...titles.values()])));
    told.add(key);
    return placed;
  };
  const done = reels.map(({ facts, frames, absent }) => ({
    facts,
    frames: frames.map((placed) => resolved(facts.number, placed)),
    absent: absent.map((placed) => resolved(facts.number, placed)),
  }));
  const dated = [...titles.values()].map((title) => ({ ...given('calendar', calendar), ...title }));
  return { reels: done, titles: dated };
}

function unknownTitle(written: string, titles: readonly TitleEntry[]): string {
  const bare = (text: string): string => nameKey(text).replace(/^0+/, '');
  const shortened = titles.find(({ id }) => /^0/.test(id) && bare(id) === bare(written));
  if (shortened !== undefined)
    return `"${written}" has lost the zeros in front of ${shortened.id}, as spreadsheet programs do to numbers; write ${shortened.id}, with the column formatted as text.`;
  const known = titles
    .slice(0, 5)
    .map(({ id }) => id)
    .join(', ');
  return `"${written.slice(0, 60)}" is none of the titles that the record lists (${known}${titles.length > 5 ? ', ...' : ''}); correct it, or add the title.`;
}

function nameKey(text: string): string {
  return (plainText(text) ?? '').toLowerCase();
}
