import type { Ruling } from '../../../model/rulings.js';
import type { Book } from './book.js';

/** Decisions of one tab as they are kept between two visits. */
interface Kept {
  readonly open: readonly string[];
  readonly rulings: readonly Ruling[];
  readonly saved: readonly Ruling[];
}

/** Where this tab keeps its decisions, and what other tabs keep about the same result. */
export interface Keeping {
  readonly own: () => Book | null;
  readonly keep: (book: Book) => void;
  /** What other tabs, or earlier visits, decided about the same result. */
  readonly others: () => readonly { readonly key: string; readonly book: Book }[];
  readonly drop: (key: string) => void;
}

const TAB = 'reeltally tab';

/** Does something with the browser's storage, which may be refused to a file from the disk: decisions are then in memory alone, and leaving the page asks first. */
function tried<T>(act: () => T, otherwise: T): T {
  try {
    return act();
  } catch {
    return otherwise;
  }
}

function read(key: string): Book | null {
  return tried(() => {
    const value = JSON.parse(localStorage.getItem(key) ?? 'null') as Partial<Kept> | null;
    const { open, rulings, saved } = value ?? {};
    const byFinding = (list: readonly Ruling[]): Book['rulings'] => new Map(list.map((ruling) => [ruling.finding, ruling]));
    return open === undefined || rulings === undefined || saved === undefined
      ? null
      : { open: new Set(open), rulings: byFinding(rulings), saved: byFinding(saved) };
  }, null);
}

/** Keeps decisions by the digest of the result and by tab, so that two tabs do not overwrite each other. Calls back when another tab writes. */
export function keeping(digest: string, onOther: () => void): Keeping {
  const newTab = (): string => {
    const id = crypto.getRandomValues(new Uint32Array(2)).join('-');
    tried(() => {
      sessionStorage.setItem(TAB, id);
    }, undefined);
    return id;
  };
  const prefix = `reeltally rulings ${digest} `;
  let own = prefix + (tried(() => sessionStorage.getItem(TAB), null) ?? newTab());
  let last: Book | null = null;
  const keep = (book: Book): void => {
    last = book;
    const value: Kept = { open: [...book.open], rulings: [...book.rulings.values()], saved: [...book.saved.values()] };
    tried(() => {
      localStorage.setItem(own, JSON.stringify(value));
    }, undefined);
  };
  addEventListener('storage', ({ key, newValue }) => {
    if (key?.startsWith(prefix) !== true || newValue === null) return;
    if (key === own) {
      // A tab that was duplicated has the same name as the one it was made from: from here on each has its own.
      own = prefix + newTab();
      if (last !== null) keep(last);
    }
    onOther();
  });
  return {
    own: () => read(own),
    keep,
    others: () =>
      tried(() => Object.keys(localStorage), [])
        .filter((key) => key.startsWith(prefix) && key !== own)
        .flatMap((key) => {
          const book = read(key);
          return book === null ? [] : [{ key, book }];
        }),
    drop: (key) => {
      tried(() => {
        localStorage.removeItem(key);
      }, undefined);
    },
  };
}
