import type { Ruling } from '../../../model/rulings.js';
import type { PageData } from '../page-data.js';
import { isDay, knownDecision } from './ruling-file.js';

/** What is decided, by finding, and what of it was not saved yet. Plain data: every change makes a new one. */
export interface Book {
  readonly rulings: ReadonlyMap<string, Ruling>;
  readonly open: ReadonlySet<string>;
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
  return { rulings, open: new Set() };
}

/** The book after a decision, or after one was taken away. Name and day are filled in when it is saved: most people write their name last. */
export function decide(book: Book, finding: string, decision: Ruling['decision'] | null, note: string): Book {
  const rulings = new Map(book.rulings);
  if (decision === null) rulings.delete(finding);
  else rulings.set(finding, { finding, decision, note, by: '', on: '' });
  return { rulings, open: new Set([...book.open, finding]) };
}

/** The book with a name and a day under everything that has none, as it is saved. */
export function signed(book: Book, by: string, on: string): Book {
  const rulings = new Map(
    [...book.rulings].map(([id, ruling]) => [id, ruling.by === '' || ruling.on === '' ? { ...ruling, by, on } : ruling]),
  );
  return { rulings, open: new Set() };
}

const alike = (a: Ruling, b: Ruling): boolean => a.decision === b.decision && (a.note === b.note || a.note === '' || b.note === '');

/** Rulings from elsewhere that the book lacks or has too, and those that it contradicts. */
export function compare(
  book: Book,
  rulings: readonly Ruling[],
): { readonly fitting: readonly Ruling[]; readonly conflicts: readonly Conflict[] } {
  const fitting: Ruling[] = [];
  const conflicts: Conflict[] = [];
  for (const theirs of rulings) {
    const mine = book.rulings.get(theirs.finding);
    if (mine !== undefined && !alike(mine, theirs)) conflicts.push({ finding: theirs.finding, mine, theirs });
    else if (mine === undefined || mine.by === '') fitting.push(theirs.note === '' ? { ...theirs, note: mine?.note ?? '' } : theirs);
  }
  return { fitting, conflicts };
}

/** The book with rulings from elsewhere in place of its own; one without a name is still to be saved. */
export function taken(book: Book, rulings: readonly Ruling[]): Book {
  const open = new Set(book.open);
  for (const { finding, by } of rulings) {
    if (by === '') open.add(finding);
    else open.delete(finding);
  }
  return { rulings: new Map([...book.rulings, ...rulings.map((ruling) => [ruling.finding, ruling] as const)]), open };
}
