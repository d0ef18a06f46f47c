import type { Unchecked } from '../../model/findings.js';
import type { Received, ReceivedClass, UncheckedThings, Unread } from './ledger.js';

/** Places that one entry names; `count` says how many there are. */
const MOST_PLACES = 100;

/** What is said of things about which no reason was given. */
const UNSAID: Readonly<Record<ReceivedClass, Unread>> = {
  folders: { what: 'folders', why: 'Nothing in them is part of the layout.' },
  documents: { what: 'documents', why: 'No part of the comparison rests on them.' },
  sections: { what: 'sections of documents', why: 'No part of the layout leads to them.' },
  files: { what: 'other files', why: 'They are not part of the layout.' },
};

/** An entry for each kind of thing that came and was not compared. A document stands among the files alone. */
export function uncheckedThings(received: Received): readonly Unchecked[] {
  const kinds = new Map<string, { about: Unread; things: UncheckedThings['things'][number][] }>();
  for (const { class: name, about, things } of received.unchecked()) {
    if (name === 'documents') continue;
    const said = about ?? UNSAID[name];
    const kind = kinds.get(`${said.what}\0${said.why}`) ?? { about: said, things: [] };
    kinds.set(`${said.what}\0${said.why}`, kind);
    kind.things.push(...things);
  }
  return [...kinds.values()].map(({ about: { what, why }, things }) => {
    const places = [...things].sort((a, b) => order(a.document, b.document) || order(a.element ?? '', b.element ?? ''));
    return { what, why, frames: null, places: places.slice(0, MOST_PLACES), count: things.length, required: false };
  });
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
