import { diffArrays } from 'diff';
import type { Frame, Side } from '../../src/model/film.js';

/** A place that a simpler way of comparing reports. */
export interface Reported {
  readonly reel: string;
  readonly exposure: number;
}

/** How a simpler way of comparing did: how many reports it makes, and the places that lie under them. */
export interface Baseline {
  readonly reports: number;
  readonly places: readonly Reported[];
}

function line(frame: Frame, side: Side): string {
  const issue = frame.issue === null ? undefined : side.issues[frame.issue];
  return [
    issue?.title,
    issue?.date?.text,
    issue?.edition,
    frame.section,
    frame.pagePrintedKey === '-' ? '' : (frame.pagePrintedKey ?? frame.pageKey ?? ''),
  ].join('|');
}

function delivered(side: Side): { reel: string; frame: Frame }[] {
  return side.reels.flatMap((reel) =>
    reel.frames
      .filter((frame) => frame.kind === 'page' && (frame.deliver || side.titles.length === 0))
      .map((frame) => ({ reel: reel.number, frame })),
  );
}

/** A spreadsheet's look-up: rows of the record and of the return joined on reel and frame number, every row that differs or has no partner reported. */
export function joinOnNumber(record: Side, returned: Side): Baseline {
  const rows = new Map(
    delivered(returned).map(({ reel, frame }) => [
      `${reel}:${String(frame.frame?.exposure)}${frame.frame?.half ?? ''}`,
      line(frame, returned),
    ]),
  );
  const places: Reported[] = [];
  for (const { reel, frame } of delivered(record)) {
    const key = `${reel}:${String(frame.frame?.exposure)}${frame.frame?.half ?? ''}`;
    if (rows.get(key) !== line(frame, record)) places.push({ reel, exposure: frame.frame?.exposure ?? 0 });
    rows.delete(key);
  }
  for (const key of rows.keys()) places.push({ reel: key.split(':')[0] ?? '', exposure: Number.parseInt(key.split(':')[1] ?? '0', 10) });
  return { reports: places.length, places };
}

/** A line diff of the two lists of pages in film order (npm diff, Myers): every run of lines that differs is one report. */
export function lineDiff(record: Side, returned: Side): Baseline {
  const mine = delivered(record);
  const parts = diffArrays(
    mine.map(({ reel, frame }) => `${reel}|${line(frame, record)}`),
    delivered(returned).map(({ reel, frame }) => `${reel}|${line(frame, returned)}`),
  );
  const places: Reported[] = [];
  let at = 0;
  let reports = 0;
  let inChange = false;
  for (const part of parts) {
    const changed = part.added || part.removed;
    if (changed && !inChange) reports++;
    inChange = changed;
    if (part.removed)
      for (const { reel, frame } of mine.slice(at, at + part.count)) places.push({ reel, exposure: frame.frame?.exposure ?? 0 });
    const beside = mine[Math.max(0, at - 1)];
    if (part.added && beside !== undefined) places.push({ reel: beside.reel, exposure: beside.frame.frame?.exposure ?? 0 });
    if (!part.added) at += part.count;
  }
  return { reports, places };
}
