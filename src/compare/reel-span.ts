import { plainReading } from '../expect/fact.js';
import type { Reel, Side } from '../model/film.js';
import type { Draft } from './draft.js';
import { listOf } from './fact.js';

const DAY = /^\d{4}-\d{2}-\d{2}$/;

/** What a reel's document says of its contents and the record cannot agree with: days of which no issue on the reel is, titles of which none is on it. */
export function compareReelSpan(mine: Reel, theirs: Reel, record: Side): readonly Draft[] {
  const issues = [...new Set(mine.frames.flatMap(({ issue }) => (issue === null ? [] : [issue])))].flatMap((at) => record.issues[at] ?? []);
  return [...days(issues, theirs), ...titles(issues, theirs, record)];
}

function days(issues: Side['issues'], { facts }: Reel): readonly Draft[] {
  const certain = issues.flatMap(({ date }) => (date?.day != null && !date.uncertain ? [date.day] : [])).sort();
  const [first, last] = [certain[0], certain.at(-1)];
  const [from, to] = [facts['startDate'] ?? '', facts['endDate'] ?? ''];
  if (first === undefined || last === undefined || !DAY.test(from) || !DAY.test(to) || from > to) return [];
  return certain.some((day) => from <= day && day <= to) ? [] : [other('span of dates', `${first} to ${last}`, `${from} to ${to}`)];
}

function titles(issues: Side['issues'], { facts }: Reel, record: Side): readonly Draft[] {
  const stated = facts['titles'];
  const ids = new Set(issues.flatMap(({ title }) => title ?? []));
  const own = record.titles.filter(({ id }) => ids.has(id));
  // a title that the record knows by its identifier alone may be called anything
  if (stated === undefined || own.length === 0 || own.some(({ id, name }) => name === id || name === '')) return [];
  const text = folded(stated);
  if (own.some(({ id, name }) => text.includes(folded(name)) || text.includes(folded(id)))) return [];
  return [other('list of titles', own.map(({ name }) => name).join('; '), stated)];
}

/** Letters and digits alone, without accents: the way in which lists of titles are punctuated differs. */
function folded(text: string): string {
  return text
    .normalize('NFD')
    .toLowerCase()
    .replace(/^the |[^\p{L}\p{N}]/gu, '');
}

function other(about: string, expected: string, given: string): Draft {
  return { field: 'reel-fact', form: 'other', about, expected: listOf(plainReading(expected)), given: plainReading(given) };
}
