import { groupBy } from '../runs.js';
import { type Fact, isOfIssue, type Statement } from './statements.js';

/** Wrong places in groups that carry each other's readings, in film order. What pages have anew in each issue is exchanged within an issue or beyond it. */
export function permutedPlaces(fact: Fact, wrong: readonly Statement[]): readonly (readonly Statement[])[] {
  const ofWholeFilm = isOfIssue(fact) || fact === 'number' || fact === 'reel';
  const groups = ofWholeFilm ? [wrong] : [wrong, ...groupBy(wrong, ({ issue }) => issue).values()];
  return groups.flatMap((group) => entwined(permutations(group), group));
}

/**
 * Places that carry each other's readings: those whose readings are joined by what stands in the place of what, cut in film order where
 * everything that came belongs to one of them. A reading that is left out, or must not stand there, is one too.
 */
function permutations(wrong: readonly Statement[]): readonly (readonly Statement[])[] {
  const readings = (statement: Statement): readonly [string, string] => [readingOf(statement), statement.differs?.given?.key ?? ''];
  const root = new Map<string, string>();
  const find = (key: string): string => {
    let at = key;
    for (let next = root.get(at); next !== undefined && next !== at; next = root.get(at)) at = next;
    return at;
  };
  for (const statement of wrong) {
    const [right, given] = readings(statement).map(find);
    if (right !== undefined && given !== undefined && right !== given) root.set(right, given);
  }
  const found: (readonly Statement[])[] = [];
  for (const list of groupBy(wrong, (statement) => find(readings(statement)[0])).values()) {
    const balance = new Map<string, number>();
    let open: Statement[] = [];
    let owed = 0;
    for (const statement of list) {
      const [right, given] = readings(statement);
      for (const [key, step] of [
        [right, 1],
        [given, -1],
      ] as const) {
        const before = balance.get(key) ?? 0;
        balance.set(key, before + step);
        owed += Math.abs(before + step) - Math.abs(before);
      }
      open.push(statement);
      if (owed !== 0) continue;
      if (open.length > 1) found.push(open);
      open = [];
    }
  }
  return found;
}

/** Permutations that lie inside one another on the film, such as those of a run that came back to front, are one. */
function entwined(found: readonly (readonly Statement[])[], wrong: readonly Statement[]): readonly (readonly Statement[])[] {
  const at = new Map(wrong.map((statement, place) => [statement, place]));
  const spans = found
    .map((places) => places.map((place) => at.get(place) ?? 0).sort((a, b) => a - b))
    .sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
  const joined: { readonly span: number[]; last: number }[] = [];
  for (const span of spans) {
    const open = joined.at(-1);
    const last = span.at(-1) ?? 0;
    if (open !== undefined && (span[0] ?? 0) < open.last) {
      open.span.push(...span);
      open.last = Math.max(open.last, last);
    } else joined.push({ span: [...span], last });
  }
  return joined.map(({ span }) => span.sort((a, b) => a - b).flatMap((place) => wrong[place] ?? []));
}

/** Whether readings that stand in the place of one another were turned round, moved along by one place or by half of them, or exchanged with their neighbours. */
export function isSimple(places: readonly Statement[]): boolean {
  const right = places.map((statement) => readingOf(statement));
  const given = places.map(({ differs }) => differs?.given?.key ?? '');
  const count = places.length;
  return [
    (place: number): number => count - 1 - place,
    (place: number): number => (place + 1) % count,
    (place: number): number => (place + count - 1) % count,
    (place: number): number => (2 * place < count ? place + Math.ceil(count / 2) : place - Math.ceil(count / 2)),
    (place: number): number => (place % 2 === 0 ? place + 1 : place - 1),
  ].some((rule) => given.every((reading, place) => reading === right[rule(place)]));
}

const readingOf = (statement: Statement): string => (statement.needs === 'must-not' ? '' : (statement.right[0]?.key ?? ''));
