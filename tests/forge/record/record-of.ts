import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../../../src/model/collation-record.js';
import type { Film, FilmReel, FilmShot } from '../film/film.js';

/** The collation record that a careful library writes of the film. */
export function recordOf(film: Film): CollationRecord {
  return {
    format: 'reeltally/collation-record/2',
    titles: film.titles.map(({ id, name, language, readingDirection, patterns }) => ({ id, name, language, readingDirection, patterns })),
    reels: film.reels.map((reel) => reelEntry(film, reel)),
  };
}

function reelEntry(film: Film, reel: FilmReel): ReelEntry {
  const absent = reel.wanting.flatMap((index) => absences(film, index));
  return {
    number: reel.number,
    position: reel.position,
    filmBase: 'p',
    polarity: 'b',
    generation: 'b',
    reduction: reel.reduction,
    frames: reel.shots.map((shot) => frameEntry(film, shot)),
    ...(absent.length > 0 ? { absent } : {}),
  };
}

function absences(film: Film, index: number): AbsentEntry[] {
  const issue = film.issues[index];
  if (issue === undefined) return [];
  const which = { title: issue.title, date: issue.date, edition: issue.edition };
  if (issue.status !== 'on-film') {
    const published = issue.status === 'wanting' ? 'yes' : issue.status === 'not-published' ? 'no' : 'unknown';
    return [{ ...which, published }];
  }
  return issue.wanting.map(({ section, page, order, published }) => ({
    ...which,
    ...(section === null ? {} : { section }),
    page,
    order,
    published,
  }));
}

function frameEntry(film: Film, shot: FilmShot): FrameEntry {
  const issue = shot.issue === null ? undefined : film.issues[shot.issue];
  const ofIssue =
    issue === undefined
      ? {}
      : {
          title: issue.title,
          date: issue.date,
          ...given('datePrinted', issue.datePrinted),
          ...given('weekdayPrinted', issue.weekdayPrinted),
          edition: issue.edition,
          ...given('editionLabel', issue.editionLabel),
          ...given('volume', issue.volume),
          ...given('issueNumber', issue.issueNumber),
          ...given('issueNumberIntended', issue.issueNumberIntended),
        };
  return {
    frame: shot.frame,
    kind: shot.kind,
    deliver: shot.deliver,
    ...ofIssue,
    ...given('section', shot.section),
    ...(shot.supplement ? { supplement: true } : {}),
    ...given('page', shot.page),
    ...given('pagePrinted', shot.pagePrinted),
    ...given('order', shot.order),
    ...given('duplicateOf', shot.duplicateOf),
    ...given('retakeOf', shot.retakeOf),
    ...given('sourceReel', shot.sourceReel),
    ...(shot.condition.length > 0 ? { condition: shot.condition } : {}),
    ...given('note', shot.note),
  };
}

/** A key with its value, or nothing at all where there is no value: an empty cell is left out of the record. */
function given<K extends string, V>(key: K, value: V | null): Record<K, V> | Record<string, never> {
  return value === null ? {} : ({ [key]: value } as Record<K, V>);
}
