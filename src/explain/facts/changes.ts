import { dayNumber, daysBetween, fromDayNumber, isDay, readDay, writeDay } from '../../calendar/civil.js';
import type { IssueFact } from '../../model/expected.js';
import { recordFrame, recordIssueOf, type Scene } from '../scene.js';
import { cameAs, type Fact, readingOf, type Statement } from './statements.js';

/**
 * What was done to a right reading to get the one that came. `by` says how far, with what words or with which fact: numbers for `plus`, `days`,
 * `months` and `years`; the text that was lost or added for the four of beginnings and ends; the other fact for `fact`; the reading for `all`. `anew`: counted in
 * another way that is no single step, such as in the order of filming; `permuted`: right readings, each in the place of another; `others`: all wrong, each in its own way. Three are changes of the
 * record, seen from there: `stuck`, it has one reading and the return several; `copied`, it has each time what the return has one place before;
 * `own-fact`, it has the reading of another fact of the same place.
 */
export interface Change {
  readonly kind:
    | 'missing'
    | 'surplus'
    | 'printed'
    | 'day-month'
    | 'before'
    | 'after'
    | 'fact'
    | 'beginning-lost'
    | 'beginning-added'
    | 'end-lost'
    | 'end-added'
    | 'years'
    | 'months'
    | 'days'
    | 'plus'
    | 'all'
    | 'anew'
    | 'permuted'
    | 'others'
    | 'stuck'
    | 'copied'
    | 'own-fact';
  readonly by: string;
}

/** The places of one fact, each with the one of the same title (for pages: of the same issue) before it on the film. */
export interface Places {
  readonly scene: Scene;
  readonly fact: Fact;
  readonly all: readonly Statement[];
  readonly before: ReadonlyMap<Statement, Statement>;
  readonly after: ReadonlyMap<Statement, Statement>;
}

/** Where no reading must stand, any that does is surplus. */
export const ANY = Symbol('any reading');

const NUMBERS: readonly Fact[] = ['number', 'reel', 'page', 'order', 'edition', 'volume', 'issueNumber'];
const TEXTS: readonly Fact[] = ['title', 'reel', 'page', 'section', 'editionLabel', 'volume', 'issueNumber'];

/** Every change that would make the right reading of a place the one that came; what says most first, so that it is told where several say the same. */
export function changesOf(places: Places, statement: Statement): readonly Change[] {
  const { form, given } = statement.differs ?? {};
  const right = statement.right[0]?.key;
  // no reading is one that can stand beside too
  const fits = (change: Change): boolean => made(places, change, statement) === (given?.key ?? null);
  if (form === 'missing') return [{ kind: 'missing', by: '' }, ...BESIDE.filter(fits), ...ofRecord(places, statement)];
  // one reading that stands everywhere stands also where none must
  if (form === 'surplus')
    return [
      { kind: 'surplus', by: '' },
      ...(given == null ? [] : [{ kind: 'all', by: given.key } as const]),
      ...BESIDE.filter(fits),
      ...ofRecord(places, statement),
    ];
  if (given == null || right === undefined) return [];
  const { fact } = places;
  const found: Change[] = [];
  const unasked = isUnasked(fact, statement) ? [{ kind: 'surplus', by: '' } as const] : [];
  if (fact === 'date') found.push({ kind: 'printed', by: '' });
  if (fact === 'date' || (fact === 'datePrinted' && unasked.length === 0)) {
    found.push({ kind: 'day-month', by: '' }, ...(fact === 'date' ? BESIDE : []));
    found.push(...steps(right, given.key));
  }
  const other = OTHER[fact];
  if (other !== undefined) found.push({ kind: 'fact', by: other });
  const step = NUMBERS.includes(fact) ? stepOf(right, given.key) : fact === 'section' ? lettersBetween(right, given.key) : null;
  if (step !== null) found.push({ kind: 'plus', by: String(step) });
  if (TEXTS.includes(fact)) found.push(...affixes(right, given.key));
  found.push({ kind: 'all', by: given.key });
  if (fact !== 'date') found.push(...BESIDE);
  return [
    ...unasked,
    ...found.filter(fits),
    ...(fact === 'order' ? [{ kind: 'anew', by: '' } as const] : []),
    ...ofRecord(places, statement),
  ];
}

/** A printed date that differs where the record has none of its own: it is one too many, whatever it says. */
function isUnasked(fact: Fact, { needs }: Statement): boolean {
  return fact === 'datePrinted' && needs === 'may';
}

/** Each the reading of the place before, or of the one behind. */
const BESIDE: readonly Change[] = [
  { kind: 'before', by: '' },
  { kind: 'after', by: '' },
];

/** Every change of the record that would have put its reading of a place there. */
function ofRecord(places: Places, statement: Statement): readonly Change[] {
  const right = readingOf(places.fact, statement);
  // places are counted, whatever the labels are
  const other = places.fact === 'order' ? undefined : OTHER[places.fact];
  const found: readonly Change[] = [
    ...(right === '' ? [] : [{ kind: 'stuck', by: right } as const]),
    { kind: 'copied', by: '' },
    ...(other === undefined || right === '' ? [] : [{ kind: 'own-fact', by: other } as const]),
  ];
  return found.filter((change) => recordMade(places, change, statement) === right);
}

/** What a change of the record makes of its reading at a place, '' for none; undefined where it cannot be made there. */
export function recordMade(places: Places, { kind, by }: Change, statement: Statement): string | undefined {
  if (kind === 'stuck') return by;
  if (kind === 'own-fact') return otherFact(places, by, statement);
  const before = kind === 'copied' ? places.before.get(statement) : undefined;
  return before === undefined ? undefined : cameAs(places.fact, before);
}

/** Whether a change was made to the record and not to the return. */
export function isOfRecord({ kind }: Change): boolean {
  return kind === 'stuck' || kind === 'copied' || kind === 'own-fact';
}

/** What a change makes of the right reading of a place: null where nothing is left, undefined where it cannot be made there. */
export function made(places: Places, { kind, by }: Change, statement: Statement): string | null | typeof ANY | undefined {
  const { needs } = statement;
  if (kind === 'missing') return needs === 'must' ? null : undefined;
  if (kind === 'surplus') return needs === 'must-not' || isUnasked(places.fact, statement) ? ANY : undefined;
  const right = statement.right[0]?.key;
  if (kind === 'before' || kind === 'after') return beside(places, kind, statement);
  if (needs === 'must-not') return kind === 'all' ? by : undefined;
  if (right === undefined) return undefined;
  switch (kind) {
    case 'printed':
      return keyOf(recordIssueOf(places.scene, statement.issue)?.datePrinted ?? null);
    case 'day-month':
      return exchanged(right);
    case 'days':
      return isDay(right) ? fromDayNumber(dayNumber(right) + Number(by)) : undefined;
    case 'months':
    case 'years':
      return moved(right, kind === 'years' ? 12 * Number(by) : Number(by));
    case 'plus':
      return places.fact === 'section' ? letterFrom(right, Number(by)) : added(right, Number(by));
    case 'fact':
      return otherFact(places, by, statement);
    case 'beginning-lost':
      return right.startsWith(by) ? right.slice(by.length) : undefined;
    case 'beginning-added':
      return `${by}${right}`;
    case 'end-lost':
      return right.endsWith(by) ? right.slice(0, right.length - by.length) : undefined;
    case 'end-added':
      return `${right}${by}`;
    case 'all':
      return by;
    case 'anew':
    case 'permuted':
    case 'others':
    case 'stuck':
    case 'copied':
    case 'own-fact':
      return undefined;
  }
}

/** The reading of the place before or behind, null where none must stand there; undefined where there is no such place, or none must stand here either. */
function beside({ fact, before, after }: Places, kind: 'before' | 'after', statement: Statement): string | null | undefined {
  const other = (kind === 'before' ? before : after).get(statement);
  if (other === undefined) return undefined;
  // of several readings that would be right there the one that came here
  const came = other.right.find(({ key }) => key === statement.differs?.given?.key)?.key;
  const reading = readingOf(fact, other) === '' ? null : (came ?? readingOf(fact, other));
  return reading === null && readingOf(fact, statement) === '' ? undefined : reading;
}

/** Facts that are taken for one another. */
const OTHER: Readonly<Partial<Record<Fact, Fact>>> = {
  volume: 'issueNumber',
  issueNumber: 'volume',
  page: 'order',
  order: 'page',
  datePrinted: 'date',
};

function otherFact({ scene }: Places, fact: string, { issue, refs }: Statement): string | undefined {
  if (fact === 'order' || fact === 'page') {
    const frame = refs[0] === undefined ? undefined : recordFrame(scene, refs[0]);
    return (fact === 'order' ? frame?.order?.toString() : frame?.pageKey) ?? undefined;
  }
  return scene.expected.issues[issue ?? -1]?.[fact as IssueFact].right[0]?.key;
}

/** A number with what stands around it: `A12`, `7B`. */
const NUMBERED = /^(\D*)(\d{1,15})(\D*)$/;

/** By how much the number in a reading is too high, where nothing else in it differs; null where that is not so. */
function stepOf(right: string, given: string): number | null {
  const [, before, number, behind] = NUMBERED.exec(right) ?? [];
  const [, otherBefore, otherNumber, otherBehind] = NUMBERED.exec(given) ?? [];
  if (number === undefined || otherNumber === undefined || before !== otherBefore || behind !== otherBehind) return null;
  return Number(otherNumber) - Number(number);
}

function added(right: string, by: number): string | undefined {
  const [, before = '', number, behind = ''] = NUMBERED.exec(right) ?? [];
  if (number === undefined || Number(number) + by < 0) return undefined;
  return `${before}${String(Number(number) + by).padStart(number.startsWith('0') ? number.length : 0, '0')}${behind}`;
}

/** How many letters a section's letter is too far on; null for other names of sections. */
function lettersBetween(right: string, given: string): number | null {
  return [right, given].every((text) => /^[A-Z]$/.test(text)) ? given.charCodeAt(0) - right.charCodeAt(0) : null;
}

function letterFrom(right: string, by: number): string | undefined {
  const letter = String.fromCharCode(right.charCodeAt(0) + by);
  return lettersBetween(right, letter) === null ? undefined : letter;
}

function keyOf(date: { readonly day: string | null; readonly text: string } | null): string | undefined {
  return date === null ? undefined : (date.day ?? date.text);
}

/** How far a day lies from another: in whole years, in whole months, in days. */
function steps(right: string, given: string): Change[] {
  const [a, b] = [readDay(right), readDay(given)];
  if (a === null || b === null) return [];
  const months = 12 * (b.year - a.year) + b.month - a.month;
  const found: Change[] = [{ kind: 'days', by: String(daysBetween(right, given)) }];
  if (a.day !== b.day || months === 0) return found;
  return [months % 12 === 0 ? { kind: 'years', by: String(months / 12) } : { kind: 'months', by: String(months) }, ...found];
}

/** The day so many months later, where that month has it. */
function moved(day: string, months: number): string | undefined {
  const civil = readDay(day);
  if (civil === null) return undefined;
  const month = 12 * civil.year + civil.month - 1 + months;
  const text = writeDay({ year: Math.floor(month / 12), month: (month % 12) + 1, day: civil.day });
  return isDay(text) ? text : undefined;
}

/** The day with day and month exchanged, where that is a day. */
function exchanged(day: string): string | undefined {
  const civil = readDay(day);
  if (civil === null) return undefined;
  const text = writeDay({ year: civil.year, month: civil.day, day: civil.month });
  return isDay(text) ? text : undefined;
}

/** Text that was lost or added at the beginning or the end. */
function affixes(right: string, given: string): Change[] {
  const found: Change[] = [];
  const [more, less, lost] = right.length > given.length ? [right, given, true] : [given, right, false];
  const text = (from: number, to?: number): string => more.slice(from, to);
  if (more.endsWith(less)) found.push({ kind: lost ? 'beginning-lost' : 'beginning-added', by: text(0, more.length - less.length) });
  if (more.startsWith(less)) found.push({ kind: lost ? 'end-lost' : 'end-added', by: text(less.length) });
  return found.filter(({ by }) => by !== '' && less !== '');
}
