import type { Ruling, Rulings } from '../../../model/rulings.js';
import type { PageData } from '../page-data.js';
import { type Book, bookOf, compare, decide, signed, taken, undone } from './book.js';
import { byId } from './elements.js';
import { keeping } from './keeping.js';
import { ask, inWords } from './loading.js';
import { isDay, type ReadRulings, readRulings } from './ruling-file.js';

/** Today where the reader is, `YYYY-MM-DD`. */
function today(): string {
  const now = new Date();
  const padded = (number: number, length: number): string => String(number).padStart(length, '0');
  return `${padded(now.getFullYear(), 4)}-${padded(now.getMonth() + 1, 2)}-${padded(now.getDate(), 2)}`;
}

/** Hands a text to the browser as a file to be stored. */
function download(name: string, text: string): void {
  const link = document.createElement('a');
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}

const plural = (count: number, word: string): string => `${String(count)} ${word}${count === 1 ? '' : 's'}`;

/** The decisions about the findings of this page. */
export interface Decisions {
  readonly of: (finding: string) => Ruling | null;
  /** How a finding is decided otherwise than the report itself has it, in words; null where it is not. */
  readonly marked: (finding: string) => string | null;
  readonly set: (finding: string, decision: Ruling['decision'] | null, note: string) => void;
}

/** Keeps, saves and loads decisions. Calls back when any of them has changed otherwise than by `set`. */
export function startRulings(data: PageData, onChange: () => void): Decisions {
  const [by, on] = [byId('decider', HTMLInputElement), byId('decided', HTMLInputElement)];
  const saved = byId('saved', HTMLElement);
  const elsewhere = byId('elsewhere', HTMLElement);
  const before = bookOf(data);
  const known = new Set(data.findings.map(({ id }) => id));
  let book = before;
  let seen = 0;

  const tell = (): void => {
    saved.textContent = `${String(book.rulings.size)} of ${plural(data.findings.length, 'finding')} decided${book.open.size === 0 ? '.' : `, ${String(book.open.size)} not saved yet.`}`;
  };
  const become = (next: Book): void => {
    book = next;
    store.keep(book);
    tell();
    onChange();
  };
  /** The other tabs in which something is decided that is not decided here, or otherwise. */
  const differingTabs = () => store.others().filter((one) => differing(book, one.book).length > 0);
  /** Says that there is such a tab. */
  const look = (): void => {
    const count = new Set(differingTabs().flatMap((one) => differing(book, one.book))).size;
    elsewhere.hidden = count === 0;
    const text = elsewhere.querySelector('span');
    if (text !== null)
      text.textContent = `${seen === 0 ? 'In another tab, or on an earlier visit,' : 'Another tab has just changed its decisions:'} ${plural(count, 'finding')} ${count === 1 ? 'is' : 'are'} decided differently than here.`;
  };
  const store = keeping(data.digest, () => {
    seen++;
    look();
  });
  const numberOf = (id: string): string => {
    const at = data.findings.findIndex((one) => one.id === id);
    const title = document.querySelectorAll('.finding')[at]?.querySelector('.title')?.textContent ?? '';
    return `Finding ${String(at + 1)}: ${title}`;
  };
  const offer = (
    rulings: readonly Ruling[],
    { refused, errors }: Pick<ReadRulings, 'refused' | 'errors'>,
    from: string,
    then: () => void,
  ): void => {
    const { fitting, conflicts, already } = compare(book, rulings);
    const take = (chosen: readonly Ruling[]): void => {
      become(taken(book, chosen));
      saved.textContent = `${plural(chosen.length, 'ruling')} taken over from ${from}. ${saved.textContent}`;
      then();
    };
    if (errors.length === 0 && conflicts.length === 0) {
      take(fitting);
      return;
    }
    const parts = [
      fitting.length === 0 ? 'nothing can be taken over' : `${plural(fitting.length, 'ruling')} can be taken over`,
      ...(already > 0 ? [`${String(already)} ${already === 1 ? 'stands' : 'stand'} here already`] : []),
      ...(conflicts.length > 0 ? [`${String(conflicts.length)} ${conflicts.length === 1 ? 'is' : 'are'} decided differently here`] : []),
      ...(refused > 0 ? [`${String(refused)} of its entries ${refused === 1 ? 'does' : 'do'} not count`] : []),
    ];
    ask({ says: `From ${from}: ${parts.join('; ')}.`, errors, fitting, conflicts }, numberOf, take);
  };

  const save = (): void => {
    become(signed(book, by.value.trim(), on.value));
    const file: Rulings = { format: 'reeltally/rulings/1', rulings: data.findings.flatMap(({ id }) => book.rulings.get(id) ?? []) };
    download('rulings.json', `${JSON.stringify(file, null, 2)}\n`);
    saved.textContent = `${plural(file.rulings.length, 'ruling')} written to rulings.json (a browser may add a number to the name). Verify again with --rulings and that file for the new verdict.`;
  };
  const faults = (): readonly string[] => [...(by.value.trim() === '' ? ['your name'] : []), ...(isDay(on.value) ? [] : ['the day'])];
  byId('sign', HTMLButtonElement).addEventListener('click', (event) => {
    const missing = faults();
    byId('signing-fault', HTMLElement).textContent = missing.length === 0 ? '' : `Write ${missing.join(' and ')}.`;
    if (missing.length === 0) save();
    else event.preventDefault();
  });

  const file = byId('file', HTMLInputElement);
  byId('load', HTMLButtonElement).addEventListener('click', () => {
    file.click();
  });
  file.addEventListener('change', () => {
    const [chosen] = file.files ?? [];
    if (chosen === undefined) return;
    void chosen.text().then((text) => {
      const read = readRulings(text, known);
      file.value = '';
      offer(read.rulings, read, chosen.name, look);
    });
  });
  byId('save', HTMLButtonElement).addEventListener('click', () => {
    // Asked until both are there, and then not again.
    if (faults().length === 0) save();
    else byId('signing', HTMLDialogElement).showModal();
  });
  byId('forget', HTMLButtonElement).addEventListener('click', () => {
    become(undone(book));
  });
  byId('take', HTMLButtonElement).addEventListener('click', () => {
    // One tab at a time: where two of them contradict each other, the second is asked about against the first.
    const [other] = differingTabs();
    if (other === undefined) return;
    const theirs = [...other.book.rulings.values()].filter(({ finding }) => known.has(finding));
    offer(theirs, { refused: 0, errors: [] }, 'another tab', () => {
      store.drop(other.key);
      look();
    });
  });
  byId('leave', HTMLButtonElement).addEventListener('click', () => {
    elsewhere.hidden = true;
  });
  addEventListener('beforeunload', (event) => {
    if (book.open.size > 0) event.preventDefault();
  });

  on.value = today();
  book = store.own() ?? before;
  tell();
  look();
  return {
    of: (finding) => book.rulings.get(finding) ?? null,
    marked: (finding) => {
      const [now, then] = [book.rulings.get(finding), before.rulings.get(finding)];
      if (now === then || (now !== undefined && now.decision === then?.decision && now.note === then.note)) return null;
      return now === undefined ? 'not decided any more' : inWords(now);
    },
    set: (finding, decision, note) => {
      book = decide(book, finding, decision, note);
      store.keep(book);
      tell();
    },
  };
}

/** The findings that another tab has decided otherwise than this one, or that it alone has decided. */
function differing(mine: Book, theirs: Book): readonly string[] {
  return [...theirs.rulings.values()].flatMap(({ finding, decision, note }) => {
    const own = mine.rulings.get(finding);
    return own?.decision === decision && own.note === note ? [] : [finding];
  });
}
