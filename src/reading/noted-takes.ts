import { quoted } from '../normalise/sheet-row.js';
import { TAKES } from './named-frames.js';
import type { Remark } from './note-facts.js';
import type { StatedFact } from './phrase-parts.js';
import { add, addNote, has, type ReadRow, valueOf } from './read-row.js';

/** The issue of a row, as far as the row names it. */
export function issueOf(row: ReadRow): string {
  return JSON.stringify(['title', 'date', 'edition'].map((field) => valueOf(row, field)));
}

/** What the notes of a frame sheet state that only the rows around can tell: which frame is taken again, and how far the issue goes of which an edition is said. */
export function withTakes(rows: readonly ReadRow[], remark: Remark): void {
  withEditions(rows, remark);
  const byPage = placesByPage(rows);
  for (const [at, row] of rows.entries())
    for (const { key, fact, pages, words } of row.stated) {
      if ((fact.is !== 'duplicate' && fact.is !== 'retake') || fact.of !== null || !has(row, 'frame') || has(row, `${fact.is} of`))
        continue;
      const twin = twinOf(rows, byPage, at, pages[0] ?? valueOf(row, 'page'), fact.is);
      if (twin === null) {
        const inColumn = TAKES.has(key);
        if (inColumn) addNote(row, `${key}: ${words}`);
        const example = `${fact.is} of fr. 12`;
        remark(
          row.row.row,
          quoted(words),
          `does not say of which frame, and there is not one other frame that shows the page; ${inColumn ? 'it becomes a note' : 'the note stays a note'}. Write which frame it is, such as "${example}".`,
        );
        continue;
      }
      add(row.facts, [[`${fact.is} of`, valueOf(twin, 'frame')]]);
      // Of a mark in a column it is asked by itself what is delivered.
      if (fact.is === 'duplicate' && !TAKES.has(key)) add(row.facts, [['deliver', 'no']]);
      remark(
        row.row.row,
        `${quoted(words)} (frame ${valueOf(twin, 'frame')})`,
        'is read as said of the other frame that shows the same page.',
      );
    }
}

/** The places of the frames that show a page of an issue, in the order of the sheet. */
function placesByPage(rows: readonly ReadRow[]): ReadonlyMap<string, readonly number[]> {
  const places = new Map<string, number[]>();
  if (!rows.some(({ stated }) => stated.some(({ fact }) => fact.is === 'duplicate' || fact.is === 'retake'))) return places;
  for (const [at, row] of rows.entries()) {
    if (!has(row, 'frame')) continue;
    const key = JSON.stringify([issueOf(row), valueOf(row, 'page')]);
    const found = places.get(key);
    if (found === undefined) places.set(key, [at]);
    else found.push(at);
  }
  return places;
}

/** The one other frame of the issue that shows the page: the one before, or, for a duplicate, one behind that is not said to be one itself. */
function twinOf(
  rows: readonly ReadRow[],
  byPage: ReadonlyMap<string, readonly number[]>,
  at: number,
  page: string,
  is: 'duplicate' | 'retake',
): ReadRow | null {
  const own = rows[at];
  if (own === undefined || page === '') return null;
  const places = byPage.get(JSON.stringify([issueOf(own), page])) ?? [];
  const shown = (there: (place: number) => boolean): readonly ReadRow[] => places.filter(there).flatMap((place) => rows[place] ?? []);
  const before = shown((place) => place < at).filter((row) => !has(row, 'duplicate of'));
  const behind = is === 'retake' ? [] : shown((place) => place > at).filter((row) => !row.stated.some(({ fact }) => fact.is === is));
  const [twin, ...more] = before.length > 0 ? before : behind;
  return more.length === 0 ? (twin ?? null) : null;
}

function editionIn(fact: StatedFact): string | null {
  return fact.is === 'says' ? (fact.facts.find(([field]) => field === 'edition')?.[1] ?? null) : null;
}

/** An edition that is said beside one page of an issue is that of all its pages. */
function withEditions(rows: readonly ReadRow[], remark: Remark): void {
  if (!rows.some(({ stated }) => stated.some(({ fact }) => editionIn(fact) !== null))) return;
  for (const issue of issuesIn(rows))
    for (const row of issue) {
      const said = row.stated.find(({ fact }) => editionIn(fact) === valueOf(row, 'edition'));
      const others = said === undefined ? [] : issue.filter((one) => !has(one, 'edition'));
      for (const other of others) other.facts.set('edition', valueOf(row, 'edition'));
      if (said !== undefined && others.length > 0)
        remark(row.row.row, quoted(said.words), 'is said beside one page and read of all pages of that issue.');
    }
}

/** The rows of each issue: those of the same title and day that follow each other, up to where the labels of the pages begin anew. */
function issuesIn(rows: readonly ReadRow[]): readonly (readonly ReadRow[])[] {
  const parts: ReadRow[][] = [];
  let labels = new Set<string>();
  let before = '';
  for (const row of rows.filter((one) => has(one, 'date'))) {
    const page = valueOf(row, 'page');
    const again = has(row, 'duplicate of') || has(row, 'retake of') || valueOf(row, 'deliver') === 'no';
    const day = JSON.stringify([valueOf(row, 'title'), valueOf(row, 'date')]);
    const part = parts.at(-1);
    if (part !== undefined && day === before && (again || !labels.has(page))) part.push(row);
    else {
      parts.push([row]);
      labels = new Set();
    }
    if (!again && page !== '') labels.add(page);
    before = day;
  }
  return parts;
}
