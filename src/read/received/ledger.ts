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

const GRAVITY: Readonly<Record<Fate, number>> = { unchecked: 0, compared: 1, found: 2 };

/** A new account, with nothing in it. */
export function newReceived(): Received {
  const books: Readonly<Record<ReceivedClass, Book>> = {
    folders: new Map(),
    documents: new Map(),
    sections: new Map(),
    files: new Map(),
  };
  const note = (book: Book, key: string, fate: Fate, about: Unread | undefined, document: string, element?: string): void => {
    const known = book.get(key);
    if (known === undefined) book.set(key, { document, ...(element === undefined ? {} : { element }), fate, about: about ?? null });
    else {
      if (GRAVITY[fate] > GRAVITY[known.fate]) known.fate = fate;
      known.about ??= about ?? null;
    }
  };
  const file: Received['file'] = (path, fate, about) => {
    note(books.files, path, fate, about, path);
  };
  return {
    document: (path, fate, about) => {
      note(books.documents, path, fate, about, path);
      file(path, fate, about);
    },
    section: (document, id, kind, fate, about) => {
      note(books.sections, `${document}\0${kind}\0${id}`, fate, about, document, id);
    },
    file,
    folder: (path, fate, about) => {
      note(books.folders, path, fate, about, path);
    },
    fateOf: (path) => books.files.get(path)?.fate ?? null,
    isDocument: (path) => books.documents.has(path),
    tally: () => ({
      folders: counted(books.folders),
      documents: counted(books.documents),
      sections: counted(books.sections),
      files: counted(books.files),
    }),
    unchecked: () => (['folders', 'documents', 'sections', 'files'] as const).flatMap((name) => uncheckedOf(name, books[name])),
  };
}

function counted(book: Book): Came {
  const counts = { came: book.size, compared: 0, found: 0, unchecked: 0 };
  for (const { fate } of book.values()) counts[fate] += 1;
  return counts;
}

function uncheckedOf(name: ReceivedClass, book: Book): readonly UncheckedThings[] {
  const groups = new Map<string, { about: Unread | null; things: { document: string; element?: string }[] }>();
  for (const { fate, about, document, element } of book.values()) {
    if (fate !== 'unchecked') continue;
    const key = about === null ? '' : `${about.what}\0${about.why}`;
    const group = groups.get(key) ?? { about, things: [] };
    groups.set(key, group);
    group.things.push({ document, ...(element === undefined ? {} : { element }) });
  }
  return [...groups.values()].map((group) => ({ class: name, ...group }));
}
