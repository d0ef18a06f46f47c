import { spreadLabel } from '../normalise/labels.js';
import type { PageShot } from '../normalise/pages-notation.js';
import { quoted } from '../normalise/sheet-row.js';
import { PAGES_HELD_BACK, type SheetUse } from './names.js';
import { ofFrame, type Remark } from './note-facts.js';
import { issueOf, withTakes } from './noted-takes.js';
import { withIssuePages } from './pages/issue.js';
import type { PagesNotes } from './pages/told.js';
import { pagesTold } from './pages-told.js';
import { pagesNamed, saidOfPages } from './phrases.js';
import { addCondition, has, type ReadRow, valueOf } from './read-row.js';
import type { Ways } from './ways.js';

/** The rows with what notes state of pages by their labels: a page that is not on the film becomes a row of its own or stands among the pages of its issue, damage goes to the page that it is of. */
export function withNotedPages(rows: readonly ReadRow[], use: SheetUse, ways: Ways, notes: PagesNotes): readonly ReadRow[] {
  const { remark } = notes;
  if (use === 'issues') {
    for (const row of rows) damageByPage(row, remark);
    const read = withIssuePages(rows, ways, notes);
    for (const row of read) {
      ofIssue(row, remark);
      pagesHeldBack(row, remark);
    }
    return read;
  }
  if (use !== 'frames' || !rows.some(({ stated }) => stated.length > 0)) return rows;
  withTakes(rows, remark);
  const issues = new Map<string, ReadRow[]>();
  const placed = rows.map((row) => {
    const name = issueOf(row);
    const issue = issues.get(name) ?? [];
    issues.set(name, issue);
    issue.push(row);
    return { row, issue };
  });
  return placed.flatMap(({ row, issue }) => [row, ...ofPages(row, issue, remark)]);
}

const OF_AN_ISSUE = ['reel', 'title', 'date', 'combined with', 'edition', 'section'] as const;

/** In a frame sheet: damage to other rows of the issue, and new rows for pages that are not on the film. */
function ofPages(row: ReadRow, issue: ReadRow[], remark: Remark): readonly ReadRow[] {
  const own = valueOf(row, 'page');
  const more: ReadRow[] = [];
  for (const { fact, pages, words } of row.stated)
    for (const page of pages.filter((one) => one !== own || (fact.is === 'absent' && has(row, 'frame')))) {
      const there = issue.find((one) => shows(valueOf(one, 'page'), page));
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

/** Whether a label is that page, or one of several on an image: `3-4` shows page 4. */
function shows(label: string, page: string): boolean {
  const spread = spreadLabel(label);
  const [, letters = '', number] = /^(\D*)(\d+)$/.exec(page) ?? [];
  return (
    label === page || (spread !== null && spread.letters === letters && Number(number) >= spread.first && Number(number) <= spread.last)
  );
}

function absentRow(row: ReadRow, page: string, published: string): ReadRow {
  const facts = new Map(
    OF_AN_ISSUE.flatMap((field): (readonly [string, string])[] => (row.facts.has(field) ? [[field, valueOf(row, field)]] : [])),
  );
  const typed = new Map([...row.typed].filter(([field]) => (OF_AN_ISSUE as readonly string[]).includes(field)));
  facts.set('page', page).set('published', published);
  return { row: row.row, cells: new Map(), facts, typed, stated: [] };
}

/** In an issue sheet: what is said of single pages stands among its pages, damage is told by page. */
function ofIssue(row: ReadRow, remark: Remark): void {
  for (const { fact, pages, words } of row.stated)
    for (const page of pages) {
      if (fact.is === 'condition') addCondition(row, `${page}: ${fact.text}`);
      if (fact.is === 'duplicate')
        remark(
          row.row.row,
          quoted(words),
          `says that page ${page} was filmed twice, but not where the second frame lies; the note stays a note. Write the frame among the pages where it lies, as x${page}.`,
        );
      if (fact.is === 'held back') changePage(row, page, words, { deliver: false }, remark);
      if (fact.is === 'page printed' && fact.label !== page) changePage(row, page, words, { printed: fact.label }, remark);
    }
}

/** In an issue sheet: the pages that a column of them holds back. */
function pagesHeldBack(row: ReadRow, remark: Remark): void {
  const text = valueOf(row, PAGES_HELD_BACK).trim();
  if (text === '') return;
  const pages = pagesNamed(text);
  if (pages.length === 0) remark(row.row.row, quoted(text), 'names no page that is held back; nothing is.');
  for (const page of pages) changePage(row, page, text, { deliver: false }, remark, 'column');
}

/** In an issue sheet: damage that names its page in words, `p. 3 torn`, is told of that page and of no other. */
function damageByPage(row: ReadRow, remark: Remark): void {
  const text = valueOf(row, 'condition');
  const parts = saidOfPages(text);
  if (parts.every(({ pages }) => pages.length === 0)) return;
  const told = parts.flatMap(({ pages, says }) => (pages.length === 0 ? [says] : pages.map((page) => `${page}: ${says}`))).join('; ');
  row.typed.delete('condition');
  row.facts.set('condition', told);
  remark(row.row.row, quoted(text), `is read as ${told}.`);
}

/** Changes one page among those of the row. */
function changePage(
  row: ReadRow,
  page: string,
  words: string,
  change: Partial<Pick<PageShot, 'deliver' | 'printed'>>,
  remark: Remark,
  from: 'note' | 'column' = 'note',
): void {
  const cell = valueOf(row, 'pages').trim();
  const changed = pagesTold(cell, (shot) => (shot.label === page ? { ...shot, ...change } : shot));
  if (changed === null || changed === pagesTold(cell, (shot) => shot)) {
    remark(
      row.row.row,
      quoted(words),
      `is said of page ${page}, which the row does not list as a page on the film; the ${from} ${from === 'note' ? 'stays a note' : 'changes nothing'}.`,
    );
    return;
  }
  row.typed.delete('pages');
  row.facts.set('pages', changed);
  remark(row.row.row, quoted(cell), `is read as ${changed}, as the ${from} says of page ${page}.`);
}

function contradicted({ row }: ReadRow, page: string, words: string, remark: Remark): void {
  remark(row.row, quoted(words), `is said of page ${page}, which the sheet has on the film; the note stays a note.`);
}
