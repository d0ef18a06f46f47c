import type { Ruling } from '../../../model/rulings.js';
import type { PageData } from '../page-data.js';
import { isDay, knownDecision } from './ruling-file.js';

/** What is decided, by finding, what of it was not saved yet, and how it stood when it was last saved, loaded or brought by the result. Plain data: every change makes a new one. */
export interface Book {
  readonly rulings: ReadonlyMap<string, Ruling>;
  readonly open: ReadonlySet<string>;
  readonly saved: ReadonlyMap<string, Ruling>;
}

/** Two decisions about one finding. */
export interface Conflict {
  readonly finding: string;
  readonly mine: Ruling;
  readonly theirs: Ruling;
}

/** The decisions that the result already holds. */
export function bookOf(data: PageData): Book {
  const rulings = new Map<string, Ruling>();
  for (const { id, ruling } of data.findings) {
    const decision = knownDecision(ruling?.decision);
    if (ruling === null || decision === null) continue;
    // A result may hold a day in other words; a file of rulings may not.
    const on = isDay(ruling.on) ? ruling.on : '';
    rulings.set(id, { finding: id, decision, note: ruling.note.slice(0, 10000), by: ruling.by.slice(0, 1000), on });
  }
  return { rulings, open: new Set(), saved: rulings };
}

/**
 * The book after a decision, or after one was taken away. Name and day are filled in when it is saved: most people write their name last.
 * Where it ends as it was saved, it is that again, with its name and day.
 */
export function decide(book: Book, finding: string, decision: Ruling['decision'] | null, note: string): Book {
  const rulings = new Map(book.rulings);
  const open = new Set(book.open);
  const before = book.saved.get(finding);
  if (before !== undefined && before.decision === decision && before.note === note) rulings.set(finding, before);
  else if (decision === null) rulings.delete(finding);
  else rulings.set(finding, { finding, decision, note, by: '', on: '' });
  if (rulings.get(finding) === before) open.delete(finding);
  else open.add(finding);
  return { ...book, rulings, open };
}

/** The book as it was last saved. */
export const undone = ({ saved }: Book): Book => ({ rulings: saved, open: new Set(), saved });

/** The book with a name and a day under everything that has none, as it is saved. */
export function signed(book: Book, by: string, on: string): Book {
  const rulings = new Map(
    [...book.rulings].map(([id, ruling]) => [id, ruling.by === '' || ruling.on === '' ? { ...ruling, by, on } : ruling]),
  );
  return { rulings, open: new Set(), saved: rulings };
}

const alike = (a: Ruling, b: Ruling): boolean => a.decision === b.decision && (a.note === b.note || a.note === '' || b.note === '');

/** Rulings from elsewhere that the book lacks or that say more, those that it contradicts, and how many it has already. */
export function compare(
  book: Book,
  rulings: readonly Ruling[],
): { readonly fitting: readonly Ruling[]; readonly conflicts: readonly Conflict[]; readonly already: number } {
  const fitting: Ruling[] = [];
  const conflicts: Conflict[] = [];
  let already = 0;
  for (const theirs of rulings) {
    const mine = book.rulings.get(theirs.finding);
    if (mine !== undefined && !alike(mine, theirs)) conflicts.push({ finding: theirs.finding, mine, theirs });
    else if (mine === undefined || mine.by === '' || mine.note !== (theirs.note || mine.note))
      fitting.push(theirs.note === '' ? { ...theirs, note: mine?.note ?? '' } : theirs);
    else already++;
  }
  return { fitting, conflicts, already };
}

/** The book with rulings from elsewhere in place of its own; one without a name is still to be saved. */
export function taken(book: Book, rulings: readonly Ruling[]): Book {
  const open = new Set(book.open);
  for (const { finding, by } of rulings) {
    if (by === '') open.add(finding);
    else open.delete(finding);
  }
  const added = rulings.map((ruling) => [ruling.finding, ruling] as const);
  return {
    rulings: new Map([...book.rulings, ...added]),
    open,
    saved: new Map([...book.saved, ...added.filter(([, { by }]) => by !== '')]),
  };
}
