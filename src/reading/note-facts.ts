import type { BookFacts } from '../model/written-sheet.js';
import { readDayCell } from '../normalise/day-cell.js';
import { quoted } from '../normalise/sheet-row.js';
import type { SheetUse } from './names.js';
import { readOwnDay } from './own-dates.js';
import type { StatedFact } from './phrase-list.js';
import type { Stated } from './phrases.js';
import { add, addCondition, has, holdBack, makeAbsent, type ReadRow, valueOf } from './read-row.js';
import type { Ways } from './ways.js';

/** Says something of a row: what stands there, and a half sentence. */
export type Remark = (row: number, held: string, says: string) => void;

/** The phrases of the notes that are taken as facts. */
export function taken(stated: readonly Stated[], { phrases }: Ways): readonly Stated[] {
  return stated.filter(({ key }) => phrases.get(key) === 'fact');
}

/** What notes state of their own row: that it is absent, that it repeats another frame, what the paper prints. Of other pages speaks `withNotedPages`. */
export function stateOfRow(read: ReadRow, use: SheetUse, ways: Ways, book: BookFacts, remark: Remark): void {
  if (use !== 'frames' && use !== 'issues') return;
  const page = valueOf(read, 'page');
  for (const { fact, pages, alone, words } of read.stated) {
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
    } else if (ofRow && fact.is === 'date printed') addDatePrinted(read, fact.text, words, ways, book, remark);
    else if (ofRow) ofWholeRow(read, use, fact);
  }
}

/** What is said of the row as a whole, whatever page it is. */
function ofWholeRow(read: ReadRow, use: 'frames' | 'issues', fact: StatedFact): void {
  if (fact.is === 'edition') addNew(read, 'edition', fact.number);
  else if (fact.is === 'edition label') addNew(read, 'edition label', fact.words);
  else if (fact.is === 'supplement') addNew(read, 'supplement', 'yes');
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

function addDatePrinted(read: ReadRow, text: string, words: string, ways: Ways, book: BookFacts, remark: Remark): void {
  if (has(read, 'date printed') || !has(read, 'date')) return;
  const cell = read.typed.get('date');
  const day = read.facts.get('date') ?? (cell?.kind === 'date' ? readDayCell({ ...cell, row: read.row.row }, book).day : null) ?? '';
  const printed = printedDay(text, day, ways);
  if (printed === day) return;
  read.facts.set('date printed', printed);
  if (printed !== text) remark(read.row.row, quoted(words), 'leaves out what is as in the date; the printed date is read as YYYY-MM-DD.');
}

/** What the paper says of its day, with the parts that go without saying taken from the day on which it came out. */
function printedDay(text: string, day: string, ways: Ways): string {
  const [, year = '', rest = ''] = /^(\d{4})(-\d{2}-\d{2})$/.exec(day) ?? [];
  if (/^\d{4}$/.test(text)) return rest === '' ? text : `${text}${rest}`;
  return readOwnDay(text, ways) ?? (year === '' ? null : readOwnDay(`${text.replace(/\.$/, '')} ${year}`, ways)) ?? text;
}
