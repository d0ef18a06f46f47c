import { quoted } from '../../normalise/sheet-row.js';
import { LAST_FRAME, PAGES_COUNTED, PAGES_HELD_BACK, PAGES_WANTING } from '../names.js';
import type { ReadRow } from '../read-row.js';
import { type Listed, notedShots, type PagesFacts } from './facts.js';
import { framesOf, inRanges } from './listed.js';
import type { PagesNotes, Told } from './told.js';

/** What is left of a row without the supplement that its cells tell of, and the pages of that. */
export interface Parted {
  readonly facts: PagesFacts;
  /** The words that tell of the supplement. */
  readonly words: string;
  readonly supplement: readonly Listed[];
}

/** A supplement has fewer pages. */
const MOST_PAGES = 60;
const NO_PAGES =
  'has a supplement, but the frames do not show how many pages it has; write them, such as "with supplement 2 pp.", or give it a row of its own with "yes" under "supplement".';

/** Takes the supplement out of what a row says: one that the pages name, and one that a note does. `frames` are those up to the next row. Null where it cannot be told how many pages it has, which was then said. */
export function partedSupplement(
  { row, cell }: Told,
  facts: PagesFacts,
  frames: number | null,
  { remark, complain }: PagesNotes,
): Parted | null {
  if (facts.openSupplement) {
    // What the frames up to the next row hold beyond the pages of the row is the supplement.
    const rest = frames === null || facts.all || facts.listed.length === 0 ? 0 : frames - framesOf(facts.listed);
    if (rest > 0 && rest <= MOST_PAGES) return { facts, words: cell, supplement: [{ is: 'count', count: rest }] };
    complain(row.row.row, quoted(cell), NO_PAGES);
    return null;
  }
  if (facts.supplement.length > 0 && facts.listed.length === 0 && !facts.all) {
    row.facts.set('supplement', 'yes');
    remark(row.row.row, quoted(cell), 'is read as the pages of a supplement, with no others before them.');
    return { facts: { ...facts, listed: facts.supplement, supplement: [] }, words: cell, supplement: [] };
  }
  if (facts.supplement.length > 0) return { facts, words: cell, supplement: facts.supplement };
  for (const { fact, words } of row.stated) {
    if (fact.is !== 'supplement') continue;
    if ('count' in fact.pages && frames !== framesOf(facts.listed))
      return { facts, words, supplement: [{ is: 'count', count: fact.pages.count }] };
    const parted = 'labels' in fact.pages ? withoutLast(facts.listed, fact.pages.labels) : null;
    if (parted !== null) return { facts: { ...facts, listed: parted.listed }, words, supplement: [parted.last] };
    remark(
      row.row.row,
      quoted(words),
      'count' in fact.pages
        ? 'names a supplement, but the frames up to the next row are as many as the pages of the row; the note stays a note.'
        : 'names pages of a supplement that are not the last ones of the row; the note stays a note. Give them a row of their own with "yes" under "supplement".',
    );
  }
  return { facts, words: '', supplement: [] };
}

/** A list without the pages that are its last; null where they are not. */
function withoutLast(listed: readonly Listed[], labels: string): { readonly listed: readonly Listed[]; readonly last: Listed } | null {
  const last = notedShots(labels).listed;
  const shown = listed.flatMap((one) => (one.is === 'shots' ? one.labels : Array.from({ length: one.count }, (_, at) => String(at + 1))));
  if (last.is !== 'shots' || shown.length !== framesOf(listed) || shown.length <= last.labels.length) return null;
  const rest = shown.slice(0, -last.labels.length);
  if (shown.slice(rest.length).join(',') !== last.labels.join(',')) return null;
  const text = rest.every((label) => /^\d+$/.test(label)) ? inRanges(rest.map(Number)).join(',') : rest.join(',');
  return { listed: [notedShots(text).listed], last };
}

/** What belongs to the pages of the row itself, and not to its supplement. */
const OF_THE_ROW: ReadonlySet<string> = new Set([
  'first frame',
  LAST_FRAME,
  'pages',
  PAGES_WANTING,
  PAGES_HELD_BACK,
  PAGES_COUNTED,
  'condition',
  'published',
  'deliver',
  'note',
]);

/** The row of a supplement, behind that of its issue. */
export function supplementRow(row: ReadRow, { supplement, words }: Parted, { remark }: PagesNotes): ReadRow {
  const pages = supplement.flatMap((one) =>
    one.is === 'shots' ? [one.text] : inRanges(Array.from({ length: one.count }, (_, at) => at + 1)),
  );
  const own = <Value>(of: ReadonlyMap<string, Value>): [string, Value][] => [...of].filter(([field]) => !OF_THE_ROW.has(field));
  const text = pages.join(',');
  remark(row.row.row, quoted(words), `is read as a supplement with the pages ${text}, a row of its own behind the issue.`);
  const facts = new Map([...own(row.facts), ['supplement', 'yes'] as const, ['pages', text] as const]);
  return { row: row.row, cells: new Map(), facts, typed: new Map(own(row.typed)), stated: [] };
}
