import { isDay } from '../film/days.js';
import type { Film } from '../film/film.js';
import type { Random } from '../film/random.js';
import type { Edit, Row, Step } from './edit.js';
import { FACTS, type Fact } from './facts.js';
import type { Sheet } from './sheet.js';
import { isPage, type Unit } from './units.js';

/** What a change is made to: the right side, its film, the unit that was drawn. */
export interface Ground {
  readonly film: Film;
  readonly sheet: Sheet;
  readonly unit: Unit;
  readonly random: Random;
}

/** What a change comes to: steps, and the values that were drawn. */
export interface Change {
  readonly steps: readonly Step[];
  readonly params: Readonly<Record<string, string>>;
}

/** The rows that carry a fact, in film order: those of the unit, and the whole line of them on the reel. */
interface Line {
  readonly mine: readonly Row[];
  readonly before: Row | undefined;
  readonly behind: readonly Row[];
}

/** Changes a fact over a unit; null where this film or this fact cannot carry it. */
export function changeFact(edit: Edit, ground: Ground): Change | null {
  const fact = FACTS[edit.what as keyof typeof FACTS];
  const line = lineOf(edit, fact, ground);
  if (line.mine.length === 0) return null;
  const put = (row: Row, to: unknown): Step => {
    const target = fact.put(row, to);
    return { do: 'set', of: fact.of, id: idOf(fact, row), field: target.field, from: row[target.field], to: target.to };
  };
  if (edit.how === 'missing') return silenced(fact, line.mine);
  if (edit.how === 'shifted') return shifted(edit, fact, line.mine, ground.random, put);
  const values = valuesFor(edit, fact, line, ground);
  // numbers of which one is no page's: then it is the frames that changed places, and nobody can tell
  if (values === null || (edit.what === 'number' && edit.how === 'exchanged' && !values.every(([row]) => isDelivered(ground.film, row))))
    return null;
  const steps = values.flatMap(([row, to]) => (same(fact.get(row), to) ? [] : [put(row, to)]));
  const [first] = values;
  return first === undefined
    ? null
    : { steps, params: { first: `${show(fact.get(first[0]))} as ${show(first[1])}`, rows: String(steps.length) } };
}

const idOf = (fact: Fact, row: Row): number => row[fact.of === 'frame' ? 'picture' : 'id'] as number;
const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
const show = (value: unknown): string => (typeof value === 'string' || typeof value === 'number' ? String(value) : 'nothing');

const isDelivered = (film: Film, row: Row): boolean =>
  film.reels.some(({ shots }) => shots.some((shot) => shot.picture === row['picture'] && isPage(shot)));

function lineOf(edit: Edit, fact: Fact, { film, sheet, unit }: Ground): Line {
  if (fact.of === 'issue') return issueLine(edit, film, sheet, unit);
  // of one frame that is not delivered no number need be seen
  const numbers = edit.what === 'number' && edit.scope !== 'page';
  const wanted = new Set((numbers ? unit.shots : unit.pages).map(({ picture }) => picture));
  const shots = new Map(film.reels.flatMap((reel) => reel.shots.map((shot) => [shot.picture, shot] as const)));
  const carries = (row: Row): boolean => {
    const shot = shots.get(row['picture'] as number);
    return shot !== undefined && (edit.what === 'number' || isPage(shot));
  };
  const rows = sheet.reels.flatMap(({ frames }, reel) => (edit.scope === 'page' && reel !== unit.reel ? [] : frames.filter(carries)));
  return parted(rows, (row) => wanted.has(row['picture'] as number));
}

/** Documents in film order; over a title or everything also those of issues that are not on the film. */
function issueLine(edit: Edit, film: Film, sheet: Sheet, unit: Unit): Line {
  const order = [...new Set(film.reels.flatMap(({ shots }) => shots.filter(isPage).flatMap(({ issue }) => issue ?? [])))];
  const rank = (row: Row): number => order.indexOf(row['id'] as number);
  const first = film.issues[unit.issues[0] ?? -1];
  if (edit.scope === 'title' || edit.scope === 'batch') {
    const mine = sheet.issues.filter((row) => edit.scope === 'batch' || film.issues[row['id'] as number]?.title === first?.title);
    return { mine, before: undefined, behind: [] };
  }
  const listed = sheet.issues
    .filter((row) => rank(row) >= 0 && (edit.scope === 'reel' || film.issues[row['id'] as number]?.title === first?.title))
    .sort((a, b) => rank(a) - rank(b));
  return parted(listed, (row) => unit.issues.includes(row['id'] as number));
}

function parted(rows: readonly Row[], isMine: (row: Row) => boolean): Line {
  const from = rows.findIndex(isMine);
  const to = rows.findLastIndex(isMine);
  return { mine: rows.filter(isMine), before: from < 1 ? undefined : rows[from - 1], behind: to < 0 ? [] : rows.slice(to + 1) };
}

function silenced(fact: Fact, rows: readonly Row[]): Change | null {
  const { silence } = fact;
  if (silence === null) return null;
  const speaking = rows.filter((row) => fact.get(row) !== null);
  const steps = speaking.map(
    (row): Step => ({ do: 'set', of: fact.of, id: idOf(fact, row), field: silence.field, from: row[silence.field], to: silence.to }),
  );
  return steps.length === 0 ? null : { steps, params: { rows: String(steps.length) } };
}

function shifted(edit: Edit, fact: Fact, rows: readonly Row[], random: Random, put: (row: Row, to: unknown) => Step): Change | null {
  const by = edit.what.toLowerCase().includes('date') ? random.pick([1, -1, 7, -7, 31]) : random.pick([1, -1, 1, -1, 2, -2, 10]);
  const stating = rows.filter((row) => fact.get(row) !== null);
  const to = stating.map((row) => fact.shift(fact.get(row), by));
  if (stating.length === 0 || to.includes(null)) return null;
  const ids = stating.map((row) => idOf(fact, row));
  const steps: readonly Step[] =
    edit.what === 'number' ? [{ do: 'add', field: 'frame', ids, by }] : stating.map((row, i) => put(row, to[i]));
  return { steps, params: { by: String(by), rows: String(ids.length) } };
}

type Values = readonly (readonly [Row, unknown])[];

function valuesFor(edit: Edit, fact: Fact, line: Line, ground: Ground): Values | null {
  const { mine, before, behind } = line;
  const values = mine.map(fact.get);
  const given = (list: readonly unknown[]): Values => mine.map((row, i) => [row, list[i]]);
  switch (edit.how) {
    case 'other':
      return others(edit, fact, mine, ground);
    case 'exchanged':
      return exchanged(edit, fact, mine, behind);
    case 'constant':
      return mine.length < 2 ? null : given(values.map(() => values[0]));
    case 'repeated':
      return before === undefined ? null : given([fact.get(before), ...values.slice(0, -1)]);
    case 'reversed':
      return mine.length < 2 ? null : given([...values].reverse());
    case 'moved':
      return mine.length < 3 ? null : given([...values.slice(1), values[0]]);
    default:
      return null;
  }
}

/** Facts that may be said where nothing is to be said. */
const PUT_IN: readonly string[] = ['section', 'editionLabel', 'datePrinted'];

/** One wrong value wherever it reaches; a counted fact goes wrong in one place, or it would be many slips. */
function others(edit: Edit, fact: Fact, rows: readonly Row[], { film, random }: Ground): Values | null {
  if (fact.counted && rows.length > 1) return null;
  const stating = rows.filter((row) => fact.get(row) !== null || PUT_IN.includes(edit.what));
  const [first] = stating;
  const wrong =
    first === undefined ? null : fact.other(fact.get(first) ?? (edit.what === 'datePrinted' ? first['date'] : null), random, film);
  return wrong === null ? null : stating.map((row): readonly [Row, unknown] => [row, wrong]);
}

/** Fields that are taken for each other where a fact is exchanged over a reel or more. */
const TAKEN_FOR: Readonly<Record<string, string>> = { volume: 'issueNumber', page: 'order', datePrinted: 'date' };

function exchanged(edit: Edit, fact: Fact, mine: readonly Row[], behind: readonly Row[]): Values | null {
  if (edit.scope === 'reel' || edit.scope === 'title' || edit.scope === 'batch') return confused(edit, fact, mine);
  const pair = (one: readonly Row[], two: readonly Row[]): Values | null =>
    one.length === 0 || one.length !== two.length
      ? null
      : one.flatMap((row, i) => {
          const other = two[i];
          return other === undefined
            ? []
            : ([
                [row, fact.get(other)],
                [other, fact.get(row)],
              ] as const);
        });
  const [first] = mine;
  if (mine.length === 1 || edit.scope !== 'run') {
    const next = behind.slice(0, mine.length);
    // pages change places within their issue, whole issues with the next one
    const inIssue = fact.of === 'issue' || edit.what === 'number' || edit.scope === 'issue';
    const wholeIssue = edit.scope !== 'issue' || fact.of === 'issue' || behind[next.length]?.['issue'] !== next[0]?.['issue'];
    return (inIssue || next[0]?.['issue'] === first?.['issue']) && wholeIssue ? pair(mine, next) : null;
  }
  const even = mine.slice(0, mine.length - (mine.length % 2));
  return pair(
    even.filter((_, i) => i % 2 === 0),
    even.filter((_, i) => i % 2 === 1),
  );
}

/** A fact that was taken for another one everywhere, or a day for a month. */
function confused(edit: Edit, fact: Fact, mine: readonly Row[]): Values | null {
  if (edit.what === 'date') {
    const turned = mine.map((row): readonly [Row, unknown] => {
      const date = String(row['date']);
      const other = `${date.slice(0, 4)}-${date.slice(8, 10)}-${date.slice(5, 7)}`;
      return [row, isDay(other) ? other : date];
    });
    return turned;
  }
  const field = TAKEN_FOR[edit.what];
  if (field === undefined) return null;
  return mine.flatMap((row): Values => {
    const [own, other] = [fact.get(row), row[field]];
    return own === null || other === null || other === undefined ? [] : [[row, typeof other === 'number' ? String(other) : other]];
  });
}
