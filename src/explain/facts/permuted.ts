import { groupBy } from '../runs.js';
import { cameAs, type Fact, isOfIssue, readingOf, type Statement } from './statements.js';

/** Wrong places that carry each other's readings, in film order; `simple` where they were turned round, moved along or exchanged by one rule. */
export interface Permutation {
  readonly places: readonly Statement[];
  readonly simple: boolean;
}

/** Wrong places in groups that carry each other's readings. What pages have anew in each issue is exchanged within an issue or beyond it. */
export function permutedPlaces(fact: Fact, wrong: readonly Statement[], all: readonly Statement[]): readonly Permutation[] {
  const ofWholeFilm = isOfIssue(fact) || fact === 'number' || fact === 'reel';
  const groups = ofWholeFilm ? [wrong] : [wrong, ...groupBy(wrong, ({ issue }) => issue).values()];
  const at = new Map(all.map((statement, place) => [statement, place]));
  return groups.flatMap((group) => {
    const found = entwined(permutations(fact, group), group);
    return joined(
      found.map((places) => ({ places, simple: isSimple(fact, places) || isSimple(fact, spanOf(places, all, at)) })),
      (places) => isSimple(fact, spanOf(places, all, at)),
    );
  });
}

/** All places from the first to the last of some, those that came right among them: there the rule may have put like in the place of like. */
function spanOf(places: readonly Statement[], all: readonly Statement[], at: ReadonlyMap<Statement, number>): readonly Statement[] {
  const [first, last] = [places[0], places.at(-1)].map((place) => (place === undefined ? 0 : (at.get(place) ?? 0)));
  const ofIssues = places.every(({ title }) => title === places[0]?.title);
  return all.slice(first, (last ?? 0) + 1).filter(({ title }) => !ofIssues || title === places[0]?.title);
}

/** Permutations that follow one another by one rule are one: pairs that were exchanged all along a run. */
function joined(found: readonly Permutation[], fits: (places: readonly Statement[]) => boolean): readonly Permutation[] {
  const result: Permutation[] = [];
  for (const one of found) {
    const last = result.at(-1);
    const both = last === undefined ? [] : [...last.places, ...one.places];
    if (last?.simple === true && one.simple && fits(both)) result[result.length - 1] = { places: both, simple: true };
    else result.push(one);
  }
  return result;
}

/**
 * Places that carry each other's readings: those whose readings are joined by what stands in the place of what, cut in film order where
 * everything that came belongs to one of them. A reading that is left out, or must not stand there, is one too.
 */
function permutations(fact: Fact, wrong: readonly Statement[]): readonly (readonly Statement[])[] {
  const came = new Set(wrong.map((statement) => cameAs(fact, statement)));
  const readings = (statement: Statement): readonly [string, string] => [wanted(fact, statement, came), cameAs(fact, statement)];
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

/** Of several readings that would be right at a place the one that came elsewhere. */
function wanted(fact: Fact, statement: Statement, came: ReadonlySet<string>): string {
  const first = readingOf(fact, statement);
  return first === '' ? first : (statement.right.findLast(({ key }) => came.has(key))?.key ?? first);
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
function isSimple(fact: Fact, places: readonly Statement[]): boolean {
  const given = places.map((statement) => cameAs(fact, statement));
  const came = new Set(given);
  const right = places.map((statement) => wanted(fact, statement, came));
  const count = places.length;
  return [
    (place: number): number => count - 1 - place,
    (place: number): number => (place + 1) % count,
    (place: number): number => (place + count - 1) % count,
    (place: number): number => (2 * place < count ? place + Math.ceil(count / 2) : place - Math.ceil(count / 2)),
    (place: number): number => (place % 2 === 0 ? place + 1 : place - 1),
  ].some((rule) => given.every((reading, place) => reading === right[rule(place)]));
}
