import type { Came, ReceivedCounts } from '../../model/findings.js';

/** What became of one thing that came: it was compared, it is the matter of a finding, or it stands under `unchecked`. */
export type Fate = 'compared' | 'found' | 'unchecked';

/** What is followed inside a document by its ID: a metadata section, a file entry, a division. */
export type SectionKind = 'metadata' | 'file' | 'division';

/** What a thing is and why it was not compared; things about which the same is to be said make one entry. */
export interface Unread {
  readonly what: string;
  readonly why: string;
}

/** The account of everything that came. Whatever is said twice keeps the graver fate: found, then compared, then unchecked. */
export interface Received {
  /** A document of the layout: manifest, issue, reel, page, edition, film, page text, image data. It is accounted for as a file too. */
  readonly document: (path: string, fate: Fate, about?: Unread) => void;
  /** A section, file entry or division of a document, by its ID. */
  readonly section: (document: string, id: string, kind: SectionKind, fate: Fate, about?: Unread) => void;
  readonly file: (path: string, fate: Fate, about?: Unread) => void;
  readonly folder: (path: string, fate: Fate, about?: Unread) => void;
  /** The fate of a file so far; null where nothing was said of it yet. */
  readonly fateOf: (path: string) => Fate | null;
  /** Whether a file was accounted for as a document. */
  readonly isDocument: (path: string) => boolean;
  readonly tally: () => ReceivedCounts;
  /** Everything unchecked, by what is to be said of it. */
  readonly unchecked: () => readonly UncheckedThings[];
}

/** What things are counted as. */
export type ReceivedClass = Exclude<keyof ReceivedCounts, 'fixity'>;

/** Things of one class that were not compared for one reason; `about` is null where no reason was given. */
export interface UncheckedThings {
  readonly class: ReceivedClass;
  readonly about: Unread | null;
  /** Paths, for sections `document` and ID. */
  readonly things: readonly { readonly document: string; readonly element?: string }[];
}

interface Entry {
  readonly document: string;
  readonly element?: string;
  fate: Fate;
  about: Unread | null;
}

type Book = Map<string, Entry>;

/** Sections by their documents. There are many, and of most of them nothing is to be kept but their fate. */
type SectionBook = Map<string, Map<string, Fate | Entry>>;

const GRAVITY: Readonly<Record<Fate, number>> = { unchecked: 0, compared: 1, found: 2 };

/** A new account, with nothing in it. */
export function newReceived(): Received {
  const books: Readonly<Record<Exclude<ReceivedClass, 'sections'>, Book>> = { folders: new Map(), documents: new Map(), files: new Map() };
  const sections: SectionBook = new Map();
  const note = (book: Book, document: string, fate: Fate, about: Unread | undefined): void => {
    const known = book.get(document);
    if (known === undefined) book.set(document, { document, fate, about: about ?? null });
    else {
      if (GRAVITY[fate] > GRAVITY[known.fate]) known.fate = fate;
      known.about ??= about ?? null;
    }
  };
  const file: Received['file'] = (path, fate, about) => {
    note(books.files, path, fate, about);
  };
  return {
    document: (path, fate, about) => {
      note(books.documents, path, fate, about);
      file(path, fate, about);
    },
    section: (document, id, kind, fate, about) => {
      noteSection(sections, document, `${kind} ${id}`, fate, about);
    },
    file,
    folder: (path, fate, about) => {
      note(books.folders, path, fate, about);
    },
    fateOf: (path) => books.files.get(path)?.fate ?? null,
    isDocument: (path) => books.documents.has(path),
    tally: () => ({
      folders: counted(books.folders),
      documents: counted(books.documents),
      sections: countedSections(sections),
      files: counted(books.files),
    }),
    unchecked: () =>
      (['folders', 'documents', 'sections', 'files'] as const).flatMap((name) =>
        uncheckedOf(name, name === 'sections' ? keptSections(sections) : books[name].values()),
      ),
  };
}

function noteSection(sections: SectionBook, document: string, key: string, fate: Fate, about: Unread | undefined): void {
  const own = sections.get(document) ?? new Map<string, Fate | Entry>();
  sections.set(document, own);
  const known = own.get(key);
  const before = typeof known === 'object' ? known.fate : known;
  const graver = before === undefined || GRAVITY[fate] > GRAVITY[before] ? fate : before;
  const why = (typeof known === 'object' ? known.about : null) ?? about ?? null;
  const element = key.slice(key.indexOf(' ') + 1);
  own.set(key, why === null && graver !== 'unchecked' ? graver : { document, element, fate: graver, about: why });
}

function countedSections(sections: SectionBook): Came {
  const counts = { came: 0, compared: 0, found: 0, unchecked: 0 };
  for (const own of sections.values()) {
    counts.came += own.size;
    for (const one of own.values()) counts[typeof one === 'object' ? one.fate : one] += 1;
  }
  return counts;
}

function* keptSections(sections: SectionBook): Generator<Entry> {
  for (const own of sections.values()) for (const one of own.values()) if (typeof one === 'object') yield one;
}

function counted(book: Book): Came {
  const counts = { came: book.size, compared: 0, found: 0, unchecked: 0 };
  for (const { fate } of book.values()) counts[fate] += 1;
  return counts;
}

function uncheckedOf(name: ReceivedClass, entries: Iterable<Entry>): readonly UncheckedThings[] {
  const groups = new Map<string, { about: Unread | null; things: { document: string; element?: string }[] }>();
  for (const { fate, about, document, element } of entries) {
    if (fate !== 'unchecked') continue;
    const key = about === null ? '' : `${about.what}\0${about.why}`;
    const group = groups.get(key) ?? { about, things: [] };
    groups.set(key, group);
    group.things.push({ document, ...(element === undefined ? {} : { element }) });
  }
  return [...groups.values()].map((group) => ({ class: name, ...group }));
}
