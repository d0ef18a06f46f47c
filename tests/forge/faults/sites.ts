import { isDay } from '../film/days.js';
import { type Film, type FilmShot } from '../film/film.js';
import { allShots, documentOf, issueAt, pictureSite, type Scene, type Site, shotsOfIssue } from './scene.js';

/** Frames standing alone on their exposure that satisfy a test, with the frames before and after as territory. */
export function singles(scene: Scene, test: (shot: FilmShot) => boolean): Site[] {
  return scene.film.reels.flatMap((reel) =>
    reel.shots.flatMap((shot, i) => {
      if (shot.half !== '' || !test(shot) || i === 0 || i === reel.shots.length - 1) return [];
      return [
        pictureSite(
          shot,
          [reel.shots[i - 1], reel.shots[i + 1]].filter((each) => each !== undefined),
        ),
      ];
    }),
  );
}

/** A page to be delivered. */
export const isPage = (shot: FilmShot): boolean => shot.kind === 'page' && shot.deliver;

/** Runs of whole issues of one title that follow each other on one reel. */
export function issueRuns(scene: Scene, length: number): Site[] {
  const order = new Map<number, number>();
  for (const { shot, reel } of allShots(scene.film))
    if (shot.issue !== null && isPage(shot)) order.set(shot.issue, order.has(shot.issue) && order.get(shot.issue) !== reel ? -1 : reel);
  const list = [...order.keys()];
  return list.flatMap((issue, i) => {
    const run = list.slice(i, i + length);
    const reel = order.get(issue);
    const title = issueAt(scene.film, issue).title;
    if (run.length < length || reel === -1 || run.some((each) => order.get(each) !== reel || issueAt(scene.film, each).title !== title))
      return [];
    if (
      run.some(
        (each) =>
          !scene.plan.issues.some((document) => document.source === each && documentOf(scene.plan, each).document.statement === 'present'),
      )
    )
      return [];
    const shots = run.flatMap((each) => shotsOfIssue(scene.film, each));
    return [{ key: shots[0]?.picture ?? 0, pictures: shots.map((shot) => shot.picture), issues: run }];
  });
}

/** True when the day has one issue of the title only, and no other stands on `other`. */
export function alone(film: Film, index: number, other: string): boolean {
  const mine = issueAt(film, index);
  const same = film.issues.filter((issue) => issue.title === mine.title);
  return same.filter((issue) => issue.date === mine.date).length === 1 && !same.some((issue) => issue.date === other) && isDay(other);
}

/** Issues in order of publication that follow each other on film, with whole pages and one edition a day. */
export function neighbours(scene: Scene, length: number): Site[] {
  return issueRuns(scene, length).filter((site) =>
    site.issues.every((issue) => issueAt(scene.film, issue).edition === 1 && alone(scene.film, issue, '1700-01-01')),
  );
}
