import type { FilmShot } from '../film/film.js';
import { moved } from '../film/frame-text.js';
import type { Change, Ground } from './change-facts.js';
import type { Edit, EditSide, Row, Step } from './edit.js';

/** Pictures of copies are numbered from here, so that they have places of their own among the rows. */
export const COPIES = 1_000_000;

/** The picture of which a row shows a second image, or its own. */
export const originalOf = (picture: number): number => (picture > COPIES ? picture - COPIES : picture);

/** A step that sets one field of a frame. */
export function setFrame(row: Row, field: string, to: unknown): Step {
  return { do: 'set', of: 'frame', id: row['picture'] as number, field, from: row[field], to };
}

/** A step that sets one field of an issue. */
export function setIssue(row: Row, field: string, to: unknown): Step {
  return { do: 'set', of: 'issue', id: row['id'] as number, field, from: row[field], to };
}

/** Steps for all fields that are to be other. */
export function setAll(row: Row, to: Row): Step[] {
  return Object.entries(to).flatMap(([field, value]) => (row[field] === value ? [] : [setFrame(row, field, value)]));
}

/** What a frame has that is held back. */
export function heldBack(side: EditSide): Row {
  return side === 'return' ? { use: 'held', issue: null, order: null, page: null, section: null } : { deliver: false, order: null };
}

/** Rows of the frames on a reel. */
export function framesOf({ sheet, unit }: Ground): readonly Row[] {
  return sheet.reels[unit.reel]?.frames ?? [];
}

/** The row of a frame of the film. */
export function rowOf(ground: Ground, shot: FilmShot): Row | undefined {
  for (const { frames } of ground.sheet.reels) {
    const found = frames.find((row) => row['picture'] === shot.picture);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The rows of those frames of the film that are there. */
export function rowsOf(ground: Ground, shots: readonly FilmShot[]): Row[] {
  return shots.map((shot) => rowOf(ground, shot)).filter((row) => row !== undefined);
}

/** The rows of those issues that are there. */
export function issueRows(ground: Ground, issues: readonly number[] = ground.unit.issues): Row[] {
  return issues.map((issue) => issueRow(ground, issue)).filter((row) => row !== undefined);
}

/** Rows of the pages of an issue that are delivered, in reading order. */
export function pagesOfIssue({ sheet, film }: Ground, issue: number): Row[] {
  const delivered = new Set(film.reels.flatMap(({ shots }) => shots.filter((shot) => shot.deliver).map((shot) => shot.picture)));
  return sheet.reels
    .flatMap(({ frames }) => frames.filter((row) => row['issue'] === issue && delivered.has(row['picture'] as number)))
    .sort((a, b) => Number(a['order']) - Number(b['order']));
}

export function issueRow({ sheet }: Ground, issue: number): Row | undefined {
  return sheet.issues.find((row) => row['id'] === issue);
}

/** A row of the list without its last place; null where it would be the first. */
export function placeBefore(list: readonly Row[], row: Row, key: 'picture' | 'id'): number | null {
  return (list[list.indexOf(row) - 1]?.[key] as number | undefined) ?? null;
}

/** Frames that were never scanned, or rows that were never written: what follows is counted up. */
export function leaveOutFrames(edit: Edit, ground: Ground): Change | null {
  const { all, gone } = wholeExposures(ground);
  const last = gone.at(-1);
  if (last === undefined || gone.length > all.length / 2) return null;
  const takes = [...gone].reverse().map(
    (row): Step => ({
      do: 'take',
      of: 'frame',
      reel: ground.unit.reel,
      after: placeBefore(all, row, 'picture'),
      row: { ...row },
    }),
  );
  const later = all.slice(all.indexOf(last) + 1).map((row) => row['picture'] as number);
  const by = -exposuresIn(gone);
  const empty = edit.side === 'return' ? emptied(ground, gone) : [];
  return { steps: [...takes, { do: 'add', field: 'frame', ids: later, by }, ...empty], params: { frames: gone.map(frameOf).join(' ') } };
}

/** Frames that were scanned twice, or rows that were written twice: what follows is counted on. */
export function repeatFrames(edit: Edit, ground: Ground): Change | null {
  const { all, gone } = wholeExposures(ground);
  const last = gone.at(-1);
  if (last === undefined) return null;
  const by = exposuresIn(gone);
  let after = last['picture'] as number;
  const puts = gone.map((row): Step => {
    const picture = COPIES + (row['picture'] as number);
    const copy: Row = { ...row, picture, frame: moved(frameOf(row), by) };
    if (edit.side === 'return') Object.assign(copy, heldBack('return'), { image: `${String(row['image'])}/again` });
    const step: Step = { do: 'put', of: 'frame', reel: ground.unit.reel, after, row: copy };
    after = picture;
    return step;
  });
  const later = all.slice(all.indexOf(last) + 1).map((row) => row['picture'] as number);
  return { steps: [{ do: 'add', field: 'frame', ids: later, by }, ...puts], params: { frames: gone.map(frameOf).join(' ') } };
}

const frameOf = (row: Row): string => String(row['frame']);
const exposureOf = (row: Row): string => /^\d*/.exec(frameOf(row))?.[0] ?? '';
const exposuresIn = (rows: readonly Row[]): number => new Set(rows.map(exposureOf)).size;

/** The frames of the unit with the other halves of their exposures. */
function wholeExposures(ground: Ground): { readonly all: readonly Row[]; readonly gone: readonly Row[] } {
  const all = framesOf(ground);
  const pictures = new Set(ground.unit.shots.map(({ picture }) => picture));
  const exposures = new Set(all.filter((row) => pictures.has(row['picture'] as number)).map(exposureOf));
  return { all, gone: all.filter((row) => exposures.has(exposureOf(row))) };
}

/** Takes away the documents of which no page is left. */
export function emptied(ground: Ground, gone: readonly Row[]): Step[] {
  const issues = [...new Set(gone.flatMap((row) => (row['use'] === 'page' ? [row['issue'] as number] : [])))];
  return issues.flatMap((issue) => {
    const row = issueRow(ground, issue);
    return row === undefined || pagesOfIssue(ground, issue).some((page) => !gone.includes(page)) ? [] : [takeIssue(ground, row)];
  });
}

/** A step that takes a document away. */
export function takeIssue({ sheet }: Ground, row: Row): Step {
  return { do: 'take', of: 'issue', after: placeBefore(sheet.issues, row, 'id'), row: { ...row } };
}
