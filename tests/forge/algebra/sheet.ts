import type { Film, FilmIssue, FilmReel, FilmShot } from '../film/film.js';
import type { Capture, PlanIssue, PlanReel, ReturnPlan } from '../plan.js';
import type { Row } from './edit.js';

/** Either side as rows that steps can change: frames by their picture, issues by their number on the film. */
export interface Sheet {
  readonly reels: readonly { readonly row: Row; readonly frames: Row[] }[];
  readonly issues: Row[];
}

/** Numbers of documents that the film does not have. */
const ADDED = 10_000;

/** What the vendor means to send, as rows. A frame names its document by the film's issue and not by its place in the list. */
export function sheetOfPlan(plan: ReturnPlan): Sheet {
  const ids = plan.issues.map((issue, i) => issue.source ?? ADDED + i);
  return {
    reels: plan.reels.map(({ captures, ...reel }) => ({
      row: { ...reel, facts: { ...reel.facts } },
      frames: captures.map((capture): Row => ({ ...capture, issue: capture.issue === null ? null : (ids[capture.issue] ?? null) })),
    })),
    issues: plan.issues.map((issue, i): Row => ({ ...issue, absent: issue.absent.map((page) => ({ ...page })), id: ids[i], fault: null })),
  };
}

/** The plan that the rows describe; what follows from them, such as the count of pictures, is counted again. */
export function planOfSheet(sheet: Sheet, right: ReturnPlan): ReturnPlan {
  const at = new Map(sheet.issues.map((row, i) => [row['id'], i]));
  const reels = sheet.reels.map(({ row, frames }, r): PlanReel => {
    const captures = frames.map((frame) => ({ ...spoken(frame), issue: at.get(frame['issue']) ?? null }) as unknown as Capture);
    const reel = row as unknown as Omit<PlanReel, 'captures'>;
    const more = imagesOf(captures) - imagesOf(right.reels[r]?.captures ?? []);
    const counted = String(Number(reel.facts['numberOfPictures'] ?? '0') + more);
    const facts = { ...reel.facts, ...(more === 0 ? {} : { numberOfPictures: counted }) };
    return { ...reel, facts, captures: named(captures, right.reels[r]?.captures ?? []) };
  });
  const documents = sheet.issues.flatMap((row, issue) =>
    typeof row['fault'] === 'string' ? [{ kind: row['fault'], issue } as ReturnPlan['documents'][number]] : [],
  );
  const issues = sheet.issues.map((row): PlanIssue => {
    return stripped(spoken(row), 'id', 'fault') as unknown as PlanIssue;
  });
  return { ...right, issues: apart(issues, right), reels, documents: [...right.documents, ...documents] };
}

/** Nor can two files: those of a page that was given the number of another are named after its own. */
function named(captures: readonly Capture[], right: readonly Capture[]): Capture[] {
  const counts = new Map<string, number>();
  for (const { frame } of captures) counts.set(frame, (counts.get(frame) ?? 0) + 1);
  const own = new Map(right.map(({ picture, frame }) => [picture, frame]));
  return captures.map((capture) => {
    const name = own.get(capture.picture);
    const free = name !== undefined && name !== capture.frame && (counts.get(name) ?? 0) === 0;
    return free && (counts.get(capture.frame) ?? 0) > 1 ? { ...capture, named: name } : capture;
  });
}

const placeOf = ({ title, reel, folder, date, edition }: PlanIssue): string => JSON.stringify([title, reel, folder ?? { date, edition }]);

/** Two documents cannot lie in one place: where one was given the name of another, folder and manifest still have its own. */
function apart(issues: readonly PlanIssue[], right: ReturnPlan): PlanIssue[] {
  const counts = new Map<string, number>();
  for (const issue of issues) counts.set(placeOf(issue), (counts.get(placeOf(issue)) ?? 0) + 1);
  return issues.map((issue) => {
    const own = right.issues.find(({ source }) => source === issue.source);
    if (own === undefined || issue.folder !== null || (counts.get(placeOf(issue)) ?? 0) < 2) return issue;
    const { date, edition } = own;
    return { ...issue, folder: { date, edition }, manifest: issue.manifest ?? { date, edition } };
  });
}

/** True where two documents of a plan would lie in one place, so that it cannot be written. */
export function collides({ issues }: ReturnPlan): boolean {
  return new Set(issues.map(placeOf)).size < issues.length;
}

/** How many images were taken: one that is described twice was taken once. */
const imagesOf = (captures: readonly Capture[]): number => new Set(captures.map(({ image }) => image)).size;

/** A row without what only the algebra knows of it. */
const stripped = (row: Row, ...fields: readonly string[]): Row =>
  Object.fromEntries(Object.entries(row).filter(([key]) => !fields.includes(key)));

/** A row whose facts that are left out stand in its list of them. */
function spoken(row: Row): Row {
  const silent = Object.keys(row).flatMap((key) => (key.startsWith('silent ') && row[key] === true ? [key.slice('silent '.length)] : []));
  const kept = Object.fromEntries(Object.entries(row).filter(([key]) => !key.startsWith('silent ')));
  return silent.length === 0 ? kept : { ...kept, silent };
}

/** What the library wrote down, as rows. */
export function sheetOfFilm(film: Film): Sheet {
  return {
    reels: film.reels.map(({ shots, ...reel }) => ({ row: { ...reel }, frames: shots.map((shot): Row => ({ ...shot })) })),
    issues: film.issues.map((issue, id): Row => ({ ...issue, id })),
  };
}

/** The film as the rows have it: what names another frame names it by its new number. */
export function filmOfSheet(sheet: Sheet, right: Film): Film {
  const at = new Map(sheet.issues.map((row, i) => [row['id'], i]));
  const issues = sheet.issues.map((row) => stripped(row, 'id') as unknown as FilmIssue);
  const numbers = new Map(
    sheet.reels.flatMap(({ row, frames }, reel) =>
      frames.map((frame) => [frame['picture'], { reel, box: String(row['number']), frame: String(frame['frame']) }] as const),
    ),
  );
  const reels = sheet.reels.map(({ row, frames }, r): FilmReel => {
    const shots = frames.map((frame): FilmShot => {
      const twin = numbers.get(frame['twin']);
      const text = twin === undefined ? null : twin.reel === r ? twin.frame : `${twin.box}:${twin.frame}`;
      const number = String(frame['frame']);
      const half = /[A-Z]$/.exec(number)?.[0] ?? '';
      return {
        ...frame,
        issue: at.get(frame['issue']) ?? null,
        exposure: Number.parseInt(number, 10),
        half,
        duplicateOf: frame['duplicateOf'] === null ? null : text,
        retakeOf: frame['retakeOf'] === null ? null : text,
      } as unknown as FilmShot;
    });
    const wanting = (row['wanting'] as readonly number[]).flatMap((id) => at.get(id) ?? []);
    return { ...row, shots, wanting } as unknown as FilmReel;
  });
  return { ...right, issues, reels };
}

/** The film as a record can tell it: issues of one title, day and edition are one issue there. */
export function asRecorded(film: Film): Film {
  const first = new Map<string, number>();
  const to = film.issues.map(({ title, date, edition }, i) => {
    const key = JSON.stringify([title, date, edition]);
    if (!first.has(key)) first.set(key, i);
    return first.get(key) ?? i;
  });
  const reels = film.reels.map((reel) => ({
    ...reel,
    shots: reel.shots.map((shot) => ({ ...shot, issue: shot.issue === null ? null : (to[shot.issue] ?? shot.issue) })),
    wanting: [...new Set(reel.wanting.map((issue) => to[issue] ?? issue))],
  }));
  return { ...film, reels };
}
