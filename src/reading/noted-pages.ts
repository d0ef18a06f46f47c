import { type PageShot, readPages } from '../normalise/pages-notation.js';
import { quoted } from '../normalise/sheet-row.js';
import { PAGES_WANTING, type SheetUse } from './names.js';
import { addCondition, ofFrame, type Remark } from './note-facts.js';
import { issueOf, withTakes } from './noted-takes.js';
import { pagesTold } from './pages-told.js';
import { pagesNamed } from './phrases.js';
import { has, type ReadRow, valueOf } from './read-row.js';
import type { Ways } from './ways.js';

/** The rows with what notes state of pages by their labels: a page that is not on the film becomes a row of its own or stands among the pages of its issue, damage goes to the page that it is of. */
export function withNotedPages(rows: readonly ReadRow[], use: SheetUse, ways: Ways, remark: Remark): readonly ReadRow[] {
  if (use === 'issues') {
    rows.forEach((row, at) => ofIssue(row, rows[at + 1], ways, remark));
    return rows;
  }
  if (use !== 'frames' || !rows.some(({ stated }) => stated.length > 0)) return rows;
  withTakes(rows, remark);
  const issues = new Map<string, ReadRow[]>();
  for (const row of rows) issues.set(issueOf(row), [...(issues.get(issueOf(row)) ?? []), row]);
  return rows.flatMap((row) => [row, ...ofPages(row, issues.get(issueOf(row)) ?? [], remark)]);
}

const OF_AN_ISSUE = ['reel', 'title', 'date', 'combined with', 'edition', 'section'] as const;

/** In a frame sheet: damage to other rows of the issue, and new rows for pages that are not on the film. */
function ofPages(row: ReadRow, issue: ReadRow[], remark: Remark): readonly ReadRow[] {
  const own = valueOf(row, 'page');
  const more: ReadRow[] = [];
  for (const { fact, pages, words } of row.stated)
    for (const page of pages.filter((one) => one !== own)) {
      const there = issue.find((one) => valueOf(one, 'page') === page);
      if (there !== undefined && has(there, 'frame')) ofFrame(there, fact);
      if (fact.is !== 'absent') continue;
      if (there !== undefined && has(there, 'frame')) contradicted(row, page, words, remark);
      if (there !== undefined || !has(row, 'date')) continue;
      // A row that names its pages in the note alone is one of them.
      if (own === '' && !has(row, 'frame') && more.length === 0 && !has(row, 'page')) row.facts.set('page', page);
      else more.push(absentRow(row, page, fact.published));
    }
  issue.push(...more);
  return more;
}

function absentRow(row: ReadRow, page: string, published: string): ReadRow {
  const facts = new Map(
    OF_AN_ISSUE.flatMap((field): (readonly [string, string])[] => (row.facts.has(field) ? [[field, valueOf(row, field)]] : [])),
  );
  const typed = new Map([...row.typed].filter(([field]) => (OF_AN_ISSUE as readonly string[]).includes(field)));
  facts.set('page', page).set('published', published);
  return { row: row.row, cells: new Map(), facts, typed, stated: [] };
}

/** In an issue sheet: what notes state of pages stands among its pages, damage is told by page. */
function ofIssue(row: ReadRow, next: ReadRow | undefined, ways: Ways, remark: Remark): void {
  withWanting(row, next, ways, remark);
  for (const { fact, pages, words } of row.stated)
    for (const page of pages) {
      if (fact.is === 'condition') addCondition(row, `${page}: ${fact.text}`);
      if (fact.is === 'held back') changePage(row, page, words, { deliver: false }, remark);
      if (fact.is === 'page printed' && fact.label !== page) changePage(row, page, words, { printed: fact.label }, remark);
    }
}

/** Changes one page among those of the row. */
function changePage(
  row: ReadRow,
  page: string,
  words: string,
  change: Partial<Pick<PageShot, 'deliver' | 'printed'>>,
  remark: Remark,
): void {
  const cell = valueOf(row, 'pages').trim();
  const changed = pagesTold(cell, (shot) => (shot.label === page ? { ...shot, ...change } : shot));
  if (changed === null || changed === pagesTold(cell, (shot) => shot)) {
    remark(
      row.row.row,
      quoted(words),
      `is said of page ${page}, which the row does not list as a page on the film; the note stays a note.`,
    );
    return;
  }
  row.typed.delete('pages');
  row.facts.set('pages', changed);
  remark(row.row.row, quoted(cell), `is read as ${changed}, as the note says of page ${page}.`);
}

/** Pages that are not on the film stand in brackets, and a count of pages is written out around them. */
function withWanting(row: ReadRow, next: ReadRow | undefined, ways: Ways, remark: Remark): void {
  const wanting = [
    ...listedAsWanting(row, remark).map((page) => ({ page, mark: '', words: 'wanting' })),
    ...row.stated.flatMap(({ fact, pages, words }) =>
      fact.is === 'absent' ? pages.map((page) => ({ page, mark: fact.published === 'no' ? '-' : '', words })) : [],
    ),
  ];
  const cell = valueOf(row, 'pages').trim();
  if (wanting.length === 0 || (cell === '' && !has(row, 'date'))) return;
  const missing = new Map(wanting.map((one) => [one.page, one]));
  const counted = ways.loneNumbers === 'count' ? /^(?:1-)?([1-9]\d{0,2})$/.exec(cell)?.[1] : undefined;
  const items = readPages(cell).items;
  const listed = items.flatMap((item) => (item.is === 'page' && item.deliver ? [item.label] : []));
  const absent = new Set(items.flatMap((item) => (item.is === 'absent' ? [item.label] : [])));
  const brackets = [...missing.values()].filter(({ page }) => !absent.has(page)).map(({ page, mark }) => `[${page}${mark}]`);
  if (counted !== undefined) {
    const pages = [...inRanges(labelsAround(Number(counted), missing, framesUntil(row, next))), ...brackets].join(',');
    row.typed.delete('pages');
    row.facts.set('pages', pages);
    remark(row.row.row, quoted(counted), `pages beside what the note says is wanting are read as ${pages}.`);
    return;
  }
  const both = [...missing.values()].find(({ page }) => listed.includes(page));
  if (both !== undefined) contradicted(row, both.page, both.words, remark);
  const new_ = brackets.filter((text) => !listed.includes(text.replace(/[[\]-]/g, '')));
  if (new_.length > 0) row.facts.set('pages', [...(cell === '' ? [] : [cell]), ...new_].join(','));
}

/** What people write where no page is wanting: common practice, no source. */
const NONE = /^(?:none|nil|no|0|keine|nein|aucune?|non|[-\u2013\u2014])$/i;

/** The labels in a column of pages that are not on the film; what names none goes on as a note. */
function listedAsWanting(row: ReadRow, remark: Remark): readonly string[] {
  const text = valueOf(row, PAGES_WANTING).trim();
  row.facts.delete(PAGES_WANTING);
  row.typed.delete(PAGES_WANTING);
  if (text === '' || NONE.test(text)) return [];
  const labels = pagesNamed(text);
  if (labels.length === 0) {
    row.facts.set('note', [valueOf(row, 'note'), `${PAGES_WANTING}: ${text}`].filter((one) => one !== '').join('; '));
    remark(row.row.row, quoted(text), 'names no page that is wanting; it is kept as a note.');
  }
  return labels;
}

/** The labels of the pages that were filmed: as many as are counted, unless the next row shows that the count includes those that were not. */
function labelsAround(count: number, missing: ReadonlyMap<string, unknown>, frames: number | null): readonly number[] {
  const filmed = frames !== null && frames === count - missing.size ? frames : count;
  const labels: number[] = [];
  for (let page = 1; labels.length < filmed; page += 1) if (!missing.has(String(page))) labels.push(page);
  return labels;
}

function inRanges(numbers: readonly number[]): readonly string[] {
  const ends = numbers.filter((number, at) => numbers[at + 1] !== number + 1);
  return numbers
    .filter((number, at) => numbers[at - 1] !== number - 1)
    .map((from, at) => (ends[at] === from ? String(from) : `${String(from)}-${String(ends[at])}`));
}

/** Frames from this row to the next one of the same reel; null where it cannot be told. */
function framesUntil(row: ReadRow, next: ReadRow | undefined): number | null {
  const sameReel = next !== undefined && ['', valueOf(row, 'reel')].includes(valueOf(next, 'reel'));
  const [from, to] = [row, next].map((one) => (one === undefined ? '' : valueOf(one, 'first frame').trim()));
  return sameReel && /^\d+$/.test(from ?? '') && /^\d+$/.test(to ?? '') ? Number(to) - Number(from) : null;
}

function contradicted({ row }: ReadRow, page: string, words: string, remark: Remark): void {
  remark(row.row, quoted(words), `is said of page ${page}, which the sheet has on the film; the note stays a note.`);
}
