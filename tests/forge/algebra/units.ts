import type { Film, FilmShot } from '../film/film.js';
import type { Random } from '../film/random.js';
import type { Scope, Spot } from './edit.js';

/** What an edit of some scope reaches: its frames in film order, its pages among them, and the issues they belong to, none of them on another reel in part. */
export interface Unit {
  readonly reel: number;
  readonly shots: readonly FilmShot[];
  readonly pages: readonly FilmShot[];
  readonly issues: readonly number[];
}

interface Seen {
  readonly shot: FilmShot;
  readonly reel: number;
  readonly index: number;
}

/** A page to be delivered. */
export const isPage = (shot: FilmShot): boolean => shot.kind === 'page' && shot.deliver && shot.issue !== null;

const pagesIn = (shots: readonly FilmShot[]): readonly FilmShot[] => shots.filter(isPage);
const issuesIn = (shots: readonly FilmShot[]): readonly number[] => [...new Set(pagesIn(shots).flatMap(({ issue }) => issue ?? []))];
const unit = (reel: number, shots: readonly FilmShot[]): Unit => ({ reel, shots, pages: pagesIn(shots), issues: issuesIn(shots) });

/** Longest and shortest run of frames, and of issues. */
const RUN_OF_FRAMES = [3, 9] as const;
const RUN_OF_ISSUES = [2, 4] as const;

/** Every unit of a scope; runs are of frames, or of whole issues where the thing that is changed belongs to an issue. */
export function unitsOf(film: Film, scope: Scope, of: 'frame' | 'issue', random: Random): Unit[] {
  const seen = film.reels.flatMap((reel, r) => reel.shots.map((shot, index): Seen => ({ shot, reel: r, index })));
  switch (scope) {
    case 'page':
      return seen.map(({ shot, reel }) => unit(reel, [shot]));
    case 'issue':
      return blocks(seen).map(({ reel, shots }) => unit(reel, shots));
    case 'run':
      return of === 'frame' ? frameRuns(film, random) : issueRuns(film, seen, random);
    case 'reel':
      return film.reels.map((reel, r) => unit(r, reel.shots));
    case 'title':
      return film.titles.map(({ id }) => titleUnit(film, id)).filter(({ shots }) => shots.length > 0);
    case 'batch':
      return [
        unit(
          0,
          seen.map(({ shot }) => shot),
        ),
      ];
  }
}

/** The frames of a title, with what lies between its issues on each reel. */
function titleUnit(film: Film, title: string): Unit {
  const isOf = ({ issue }: FilmShot): boolean => issue !== null && film.issues[issue]?.title === title;
  const parts = film.reels.map(({ shots }) => {
    const [from, to] = [shots.findIndex(isOf), shots.findLastIndex(isOf)];
    return from < 0 ? [] : shots.slice(from, to + 1).filter((shot) => shot.issue === null || isOf(shot));
  });
  return unit(
    parts.findIndex((shots) => shots.length > 0),
    parts.flat(),
  );
}

/** The frames of each issue that has pages, in film order; an issue on two reels is no unit. */
function blocks(seen: readonly Seen[]): { readonly reel: number; readonly issue: number; readonly shots: readonly FilmShot[] }[] {
  const found = new Map<number, Seen[]>();
  for (const each of seen) {
    if (each.shot.issue === null) continue;
    const list = found.get(each.shot.issue);
    if (list === undefined) found.set(each.shot.issue, [each]);
    else list.push(each);
  }
  return [...found].flatMap(([issue, list]) => {
    const reel = list[0]?.reel ?? 0;
    const shots = list.map(({ shot }) => shot);
    return list.every((each) => each.reel === reel) && shots.some(isPage) ? [{ reel, issue, shots }] : [];
  });
}

function frameRuns(film: Film, random: Random): Unit[] {
  const [short, long] = RUN_OF_FRAMES;
  return film.reels.flatMap((reel, r) =>
    reel.shots.flatMap((_, from) => {
      const length = short + random.below(long - short + 1);
      const shots = reel.shots.slice(from, from + length);
      return shots.length === length && shots.some(isPage) ? [unit(r, shots)] : [];
    }),
  );
}

function issueRuns(film: Film, seen: readonly Seen[], random: Random): Unit[] {
  const [short, long] = RUN_OF_ISSUES;
  const list = blocks(seen);
  return list.flatMap((_, from) => {
    const length = short + random.below(long - short + 1);
    const run = list.slice(from, from + length);
    const [first] = run;
    const alike = run.every(({ reel, issue }) => reel === first?.reel && film.issues[issue]?.title === film.issues[first.issue]?.title);
    return first !== undefined && run.length === length && alike
      ? [
          unit(
            first.reel,
            run.flatMap(({ shots }) => shots),
          ),
        ]
      : [];
  });
}

/** Where a unit lies on its reel. Several may be true; the list holds all that are. */
export function spotsOf(film: Film, scope: Scope, one: Unit): readonly Spot[] {
  if (scope === 'reel' || scope === 'title' || scope === 'batch') return ['all'];
  const shots = film.reels[one.reel]?.shots ?? [];
  const [first, last] = [one.shots[0], one.shots.at(-1)];
  if (first === undefined || last === undefined) return [];
  const [from, to] = [shots.indexOf(first), shots.indexOf(last)];
  const pages = shots.flatMap((shot, i) => (isPage(shot) ? [i] : []));
  const spots: Spot[] = [];
  if (from <= (pages[0] ?? 0)) spots.push('head');
  if (to >= (pages.at(-1) ?? 0)) spots.push('end');
  if (isSplice(film, one.reel, shots, from)) spots.push('splice');
  if ([shots[from - 1], shots[to + 1]].some((shot) => shot !== undefined && isOdd(film, shot))) spots.push('beside');
  return spots.length === 0 ? ['middle'] : spots;
}

/** The first pages behind a splice, behind another title, or of a later reel. */
function isSplice(film: Film, reel: number, shots: readonly FilmShot[], at: number): boolean {
  const titleOf = (shot: FilmShot | undefined): string | null => (shot?.issue == null ? null : (film.issues[shot.issue]?.title ?? null));
  const before = shots.slice(0, at).findLast(isPage);
  const here = shots.slice(at).find(isPage);
  if (here === undefined) return false;
  if (before === undefined) return reel > 0;
  return before.sourceReel !== here.sourceReel || titleOf(before) !== titleOf(here);
}

function isOdd(film: Film, shot: FilmShot): boolean {
  const issue = shot.issue === null ? undefined : film.issues[shot.issue];
  return !isPage(shot) || shot.pagePrinted !== null || (issue?.wanting.length ?? 0) > 0 || issue?.datePrinted != null;
}
