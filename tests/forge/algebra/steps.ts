import { moved } from '../film/frame-text.js';
import type { Row, Step } from './edit.js';
import type { Sheet } from './sheet.js';

/** Does the steps, in order, in place. */
export function apply(sheet: Sheet, steps: readonly Step[]): void {
  for (const step of steps) one(sheet, step);
}

/** Undoes the steps, the last one first, in place: what was done by others meanwhile stays. */
export function invert(sheet: Sheet, steps: readonly Step[]): void {
  for (const step of [...steps].reverse()) one(sheet, inverse(step));
}

/** The step that undoes a step. */
export function inverse(step: Step): Step {
  switch (step.do) {
    case 'set':
      return { ...step, from: step.to, to: step.from };
    case 'add':
      return { ...step, by: -step.by };
    case 'put':
      return { ...step, do: 'take' };
    case 'take':
      return { ...step, do: 'put' };
  }
}

function one(sheet: Sheet, step: Step): void {
  if (step.do === 'set') set(rowOf(sheet, step.of, step.id), step.field, step.to);
  else if (step.do === 'add') for (const id of step.ids) add(sheet, step.field, id, step.by);
  else {
    const list = step.of === 'issue' ? sheet.issues : framesOf(sheet, step.reel);
    const key = step.of === 'issue' ? 'id' : 'picture';
    const at = list.findIndex((row) => row[key] === step.row[key]);
    if (step.do === 'put') list.splice(step.after === null ? 0 : list.findIndex((row) => row[key] === step.after) + 1, 0, { ...step.row });
    else if (at < 0) throw new RangeError(`There is no ${step.of} ${String(step.row[key])} to take away.`);
    else list.splice(at, 1);
  }
}

/** A field that was not there is not there again. */
function set(row: Row, field: string, to: unknown): void {
  if (to === undefined) Reflect.deleteProperty(row, field);
  else row[field] = to;
}

function framesOf(sheet: Sheet, reel: number): Row[] {
  const frames = sheet.reels[reel]?.frames;
  if (frames === undefined) throw new RangeError(`There is no reel ${String(reel)}.`);
  return frames;
}

function add(sheet: Sheet, field: 'frame' | 'order', id: number, by: number): void {
  const row = findRow(sheet, 'frame', id);
  // a frame that another edit took away has no number to be moved
  if (row === undefined) return;
  if (field === 'frame') row['frame'] = moved(String(row['frame']), by);
  else if (typeof row['order'] === 'number') row['order'] += by;
}

function rowOf(sheet: Sheet, of: 'frame' | 'issue' | 'reel', id: number): Row {
  const row = findRow(sheet, of, id);
  if (row === undefined) throw new RangeError(`There is no ${of} ${String(id)}.`);
  return row;
}

function findRow(sheet: Sheet, of: 'frame' | 'issue' | 'reel', id: number): Row | undefined {
  if (of === 'reel') return sheet.reels[id]?.row;
  if (of === 'issue') return sheet.issues.find((row) => row['id'] === id);
  for (const { frames } of sheet.reels) {
    const found = frames.find((row) => row['picture'] === id);
    if (found !== undefined) return found;
  }
  return undefined;
}
