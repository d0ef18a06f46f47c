import type { BookFacts } from '../model/written-sheet.js';
import { readDayCell } from '../normalise/day-cell.js';
import { quoted } from '../normalise/sheet-row.js';
import { columnsOf, type SheetUse } from './names.js';
import { readOwnDay } from './own-dates.js';
import type { StatedFact } from './phrase-parts.js';
import { type Stated, saidOf } from './phrases.js';
import { add, addCondition, has, holdBack, makeAbsent, type ReadRow, valueOf } from './read-row.js';
import type { Ways } from './ways.js';

/** Says something of a row: what stands there, and a half sentence. */
export type Remark = (row: number, held: string, says: string) => void;

/** The phrases of the notes that are taken as facts. */
export function taken(stated: readonly Stated[], ways: Ways): readonly Stated[] {
  return stated.filter(({ key, wording }) => saidOf(ways, key, wording) === 'fact');
}

/** What notes state of their own row: that it is absent, that it repeats another frame, what the paper prints. Of other pages speaks `withNotedPages`. */
export function stateOfRow(read: ReadRow, use: SheetUse, ways: Ways, book: BookFacts, remark: Remark): void {
  if (use !== 'frames' && use !== 'issues') return;
  const page = valueOf(read, 'page');
  for (const said of read.stated) {
    const { fact, pages, alone, words } = said;
    const ofRow = pages.length === 0 || (use === 'frames' && pages.length === 1 && pages[0] === page);
    if (fact.is === 'absent') {
      const onFilm = has(read, use === 'frames' ? 'frame' : 'first frame') || has(read, 'pages');
      // Where frames are counted every row is one, unless the note says nothing else than that it is none.
      const mayBe = use === 'frames' && ways.counted ? (page !== '' && pages.length > 0) || alone : !onFilm;
      if (mayBe && (ofRow || !onFilm)) makeAbsent(read, use, fact.published);
    } else if (has(read, 'published')) continue;
    else if (fact.is === 'duplicate' && fact.of !== null) {
      if (use === 'frames')
        add(read.facts, [
          ['duplicate of', fact.of],
          ['deliver', 'no'],
        ]);
    } else if (fact.is === 'retake' && fact.of !== null) {
      if (use === 'frames') add(read.facts, [['retake of', fact.of]]);
    } else if (ofRow && fact.is === 'day') addDay(read, fact, words, ways, book, remark);
    else if (ofRow && fact.is === 'issue number') addIssueNumber(read, fact.printed, words, remark);
    else if (ofRow && !isDoubtful(read, use, said, remark)) ofWholeRow(read, use, fact);
  }
}

/** Words that may mean something else than the row says: they stay a note, and that is said. */
function isDoubtful(read: ReadRow, use: 'frames' | 'issues', { fact, words, inPart }: Stated, remark: Remark): boolean {
  if (use === 'issues' && fact.is === 'held back' && inPart) {
    remark(
      read.row.row,
      quoted(words),
      'stands beside other words, and it does not follow which pages of the issue are meant; the note stays a note. Name the pages, as "p. 5 held back", or write x5 among the pages.',
    );
    return true;
  }
  if (use === 'frames' && fact.is === 'page printed' && isNumberOfIssue(read, fact.label, words)) {
    remark(
      read.row.row,
      quoted(words),
      'is nearer to the number of the issue than to that of the page, and does not say which is meant; the note stays a note. Write "p." before a page, or "issue numbered".',
    );
    return true;
  }
  return false;
}

/** Whether a printed number without a word for a page is rather one of the issue. */
function isNumberOfIssue(read: ReadRow, label: string, words: string): boolean {
  const [page, issue, printed] = [valueOf(read, 'page'), valueOf(read, 'issue number'), label].map((text) =>
    /^\d+$/.test(text) ? Number(text) : Number.NaN,
  );
  if (page === undefined || issue === undefined || printed === undefined || /pag|\bpp?\b|seite/iu.test(words)) return false;
  return Math.abs(printed - issue) < Math.abs(printed - page);
}

/** What is said of the row as a whole, whatever page it is. */
function ofWholeRow(read: ReadRow, use: 'frames' | 'issues', fact: StatedFact): void {
  if (fact.is === 'says')
    for (const [field, text] of columnsOf(use).includes(fact.facts[0]?.[0] ?? '') ? fact.facts : []) addNew(read, field, text);
  else if (fact.is === 'held back') holdBack(read);
  else if (use === 'frames') ofFrame(read, fact);
}

/** What is said of a frame: damage, what is printed on the page, that it is held back. */
export function ofFrame(read: ReadRow, fact: StatedFact): void {
  if (fact.is === 'condition') addCondition(read, fact.text);
  else if (fact.is === 'held back') holdBack(read);
  else if (fact.is === 'page printed' && has(read, 'page') && fact.label !== valueOf(read, 'page'))
    addNew(read, 'page printed', fact.label);
}

function addNew(read: ReadRow, field: string, text: string): void {
  if (!has(read, field)) read.facts.set(field, text);
}

/** The right number where a column has it is what was intended, and the one in the note what is printed. */
function addIssueNumber(read: ReadRow, printed: string, words: string, remark: Remark): void {
  const right = valueOf(read, 'issue number');
  if (right === printed || has(read, 'issue number intended')) return;
  read.typed.delete('issue number');
  read.facts.set('issue number', printed);
  if (right === '') return;
  read.facts.set('issue number intended', right);
  remark(read.row.row, quoted(words), 'says the printed number; the one in the column is read as the right one.');
}

function addDay(
  read: ReadRow,
  { field, text }: Extract<StatedFact, { readonly is: 'day' }>,
  words: string,
  ways: Ways,
  book: BookFacts,
  remark: Remark,
): void {
  if (has(read, field) || !has(read, 'date')) return;
  const cell = read.typed.get('date');
  const day = read.facts.get('date') ?? (cell?.kind === 'date' ? readDayCell(cell, book).day : null) ?? '';
  const said = dayBeside(text, day, ways);
  if (said === day) return;
  read.facts.set(field, said);
  if (said !== text) remark(read.row.row, quoted(words), 'is read as YYYY-MM-DD; what it leaves out is taken from the date of the row.');
}

/** A day in a note, with the parts that go without saying taken from the day of the row. */
function dayBeside(text: string, day: string, ways: Ways): string {
  const [, year = '', rest = ''] = /^(\d{4})(-\d{2}-\d{2})$/.exec(day) ?? [];
  if (/^\d{4}$/.test(text)) return rest === '' ? text : `${text}${rest}`;
  return readOwnDay(text, ways) ?? (year === '' ? null : readOwnDay(`${text.replace(/\.$/, '')} ${year}`, ways)) ?? text;
}
