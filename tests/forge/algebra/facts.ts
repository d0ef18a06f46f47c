import { isDay, plusDays } from '../film/days.js';
import type { Film } from '../film/film.js';
import { moved } from '../film/frame-text.js';
import type { Random } from '../film/random.js';
import type { CopyFact, EditSide, FrameFact, IssueFact, Row } from './edit.js';

/** A fact that a row carries, and what can become of it. `null` from a change: this value cannot be changed so. */
export interface Fact {
  readonly of: 'frame' | 'issue';
  /** Sides whose rows carry it. */
  readonly sides: readonly EditSide[];
  /** Counted facts are each the next of the one before; the others stay the same over a run. */
  readonly counted: boolean;
  readonly get: (row: Row) => unknown;
  /** The field with the value that is to stand there. */
  readonly put: (row: Row, value: unknown) => { readonly field: string; readonly to: unknown };
  readonly shift: (value: unknown, by: number) => unknown;
  /** A wrong value that is no neighbour's. */
  readonly other: (value: unknown, random: Random, film: Film) => unknown;
  /** The fields that say nothing, where the fact is left out. */
  readonly silence: { readonly field: string; readonly to: unknown } | null;
}

const BOTH: readonly EditSide[] = ['return', 'record'];
const RETURN: readonly EditSide[] = ['return'];

const plain = (field: string): Pick<Fact, 'get' | 'put'> => ({ get: (row) => row[field], put: (_, to) => ({ field, to }) });

/** A whole number or a label that ends in one, counted on; nothing below 1. */
function counted(value: unknown, by: number): unknown {
  if (typeof value === 'number') return value + by >= 1 ? value + by : null;
  const match = /^([A-Z]*)(\d+)$/.exec(String(value));
  const to = Number(match?.[2]) + by;
  return match === null || to < 1 ? null : `${match[1] ?? ''}${to}`;
}

const never = (): null => null;
const leftOut = (fact: string): Fact['silence'] => ({ field: `silent ${fact}`, to: true });

/** A day as it is mistyped: two digits of the year exchanged, or the year, the month or the day one that it is not. */
function otherDay(value: unknown, random: Random): unknown {
  const date = String(value);
  if (!isDay(date)) return null;
  const year = `${date.slice(0, 2)}${date.charAt(3)}${date.charAt(2)}${date.slice(4)}`;
  const choices = [year, plusDays(date, 365 + random.below(2000)), plusDays(date, 30 + random.below(60))].filter(
    (each) => isDay(each) && each !== date,
  );
  return random.pick(choices);
}

const days = (value: unknown, by: number): unknown => (isDay(String(value)) ? plusDays(String(value), by) : null);

/** Every fact of a frame. */
export const FRAME_FACTS: Readonly<Record<FrameFact, Fact>> = {
  number: {
    of: 'frame',
    sides: BOTH,
    counted: true,
    ...plain('frame'),
    shift: (value, by) => (Number.parseInt(String(value), 10) + by >= 1 ? moved(String(value), by) : null),
    other: (value, random) => moved(String(value), 200 + random.below(700)),
    silence: leftOut('frame'),
  },
  reel: {
    of: 'frame',
    sides: RETURN,
    counted: false,
    ...plain('reel'),
    shift: (value, by) => {
      const match = /^(\d+?)(\d{1,3})([A-Z]?)$/.exec(String(value));
      return match === null
        ? null
        : `${match[1] ?? ''}${String(Number(match[2]) + by).padStart(match[2]?.length ?? 1, '0')}${match[3] ?? ''}`;
    },
    other: (value, random) => String(value).replace(/\d{3}/, (digits) => String(((Number(digits) + 111 + random.below(700)) % 900) + 100)),
    silence: leftOut('reel'),
  },
  page: {
    of: 'frame',
    sides: BOTH,
    counted: true,
    ...plain('page'),
    shift: counted,
    other: (value, random) => counted(value, 20 + random.below(60)),
    silence: { field: 'page', to: null },
  },
  order: {
    of: 'frame',
    sides: BOTH,
    counted: true,
    ...plain('order'),
    shift: counted,
    other: (value, random) => counted(value, 20 + random.below(60)),
    silence: leftOut('order'),
  },
  section: {
    of: 'frame',
    sides: BOTH,
    counted: false,
    ...plain('section'),
    shift: (value, by) => {
      const code = String(value).charCodeAt(0) + by;
      return typeof value === 'string' && code >= 65 && code <= 90 ? String.fromCharCode(code) : null;
    },
    other: (value, random) => random.pick(['Q', 'R', 'T'].filter((each) => each !== value)),
    silence: { field: 'section', to: null },
  },
};

/** Every fact of an issue. */
export const ISSUE_FACTS: Readonly<Record<IssueFact, Fact>> = {
  title: {
    of: 'issue',
    sides: BOTH,
    counted: false,
    ...plain('title'),
    shift: never,
    other: (value, random, film) => random.pick([...film.titles.map(({ id }) => id), 'sn99099990'].filter((id) => id !== value)),
    silence: leftOut('title'),
  },
  date: { of: 'issue', sides: BOTH, counted: true, ...plain('date'), shift: days, other: otherDay, silence: leftOut('date') },
  datePrinted: {
    of: 'issue',
    sides: BOTH,
    counted: true,
    ...plain('datePrinted'),
    shift: days,
    other: otherDay,
    silence: { field: 'datePrinted', to: null },
  },
  edition: {
    of: 'issue',
    sides: BOTH,
    counted: false,
    ...plain('edition'),
    shift: (value, by) => (typeof value === 'number' && value + by >= 0 ? value + by : null),
    other: (value, random) => random.pick([4, 5, 7].filter((each) => each !== value)),
    silence: leftOut('edition'),
  },
  editionLabel: {
    of: 'issue',
    sides: BOTH,
    counted: false,
    ...plain('editionLabel'),
    shift: never,
    other: (value, random) => random.pick(['Noon', 'Mail', 'City'].filter((each) => each !== value)),
    silence: { field: 'editionLabel', to: null },
  },
  volume: {
    of: 'issue',
    sides: BOTH,
    counted: false,
    ...plain('volume'),
    shift: counted,
    other: (value, random) => counted(value, 20 + random.below(60)),
    silence: { field: 'volume', to: null },
  },
  issueNumber: {
    of: 'issue',
    sides: BOTH,
    counted: true,
    ...plain('issueNumber'),
    shift: counted,
    other: (value, random) => counted(value, 1000 + random.below(700)),
    silence: { field: 'issueNumber', to: null },
  },
};

interface Copies {
  readonly date: string;
  readonly edition: number;
}

/** A fact as the folder or the manifest writes it, which is the document's own unless it is said otherwise. */
function copied(where: 'folder' | 'manifest', fact: 'date' | 'edition'): Fact {
  const now = (row: Row): Copies => (row[where] as Copies | null) ?? { date: row['date'] as string, edition: row['edition'] as number };
  return {
    ...ISSUE_FACTS[fact],
    sides: RETURN,
    get: (row) => now(row)[fact],
    put: (row, value) => ({ field: where, to: { ...now(row), [fact]: value } }),
    silence: null,
  };
}

/** Every second place of a fact that the plan can write otherwise. */
export const COPY_FACTS: Readonly<Record<CopyFact, Fact>> = {
  folderDate: copied('folder', 'date'),
  folderEdition: copied('folder', 'edition'),
  manifestDate: copied('manifest', 'date'),
  manifestEdition: copied('manifest', 'edition'),
};

/** All facts by name. */
export const FACTS: Readonly<Record<FrameFact | IssueFact | CopyFact, Fact>> = { ...FRAME_FACTS, ...ISSUE_FACTS, ...COPY_FACTS };
