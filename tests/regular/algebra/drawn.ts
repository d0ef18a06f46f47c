import type { CollationRecord } from '../../../src/model/collation-record.js';
import { normaliseRecord } from '../../../src/normalise/record.js';
import { type Irregularity, irregularities } from '../../../src/regular/index.js';
import { type Case, caseOf, type Planted, plant } from '../../forge/algebra/case.js';
import { filmOf, type Series } from '../../forge/algebra/draw.js';
import type { Row, Step } from '../../forge/algebra/edit.js';
import { type Product, spotsFor } from '../../forge/algebra/products.js';
import type { Scenery } from '../../forge/algebra/scenery.js';
import { randomFrom } from '../../forge/film/random.js';
import { recordOf } from '../../forge/record/record-of.js';

/** A slip of the library's pen that was drawn, with the record as it should be. */
export interface Drawn {
  readonly scenery: Scenery;
  readonly planted: Planted;
  readonly slipped: Case;
  /** Issues of the record that the slip touches, as they were and as they are; one that is new or gone is on one side alone. */
  readonly issues: readonly { readonly was: Row | null; readonly is: Row | null }[];
  /** Frames, likewise. */
  readonly frames: readonly { readonly was: Row | null; readonly is: Row | null }[];
}

const FILMS = 48;
/** Films that are tried for each slip that is wanted. */
const TRIES = 4;

/** What a record shows by itself; one that cannot be read is told of before, and that is more than shown. */
export function shownOf(record: CollationRecord): readonly Irregularity[] | 'refused' {
  const { record: read, side, problems } = normaliseRecord({ sheets: [], records: [{ name: 'r.json', record }] });
  return problems.length > 0 ? 'refused' : irregularities(read, side).found;
}

/** Slips of one product, over the films of a series and all places on a reel; fewer than wanted where the films have no place for it. */
export function drawnSlips(series: Series, product: Product, wanted: number): readonly Drawn[] {
  const random = randomFrom(series.seed * 77 + wanted);
  const found: Drawn[] = [];
  for (let k = 0; k < wanted * TRIES && found.length < wanted; k += 1) {
    const scenery = filmOf(series, (k * 7) % FILMS);
    const planted = plant(scenery, { ...product, spot: random.pick(spotsFor(product.scope)), seed: random.below(1_000_000) });
    if (planted === null || planted.traces.length === 0) continue;
    found.push(drawnOf(scenery, planted));
  }
  return found;
}

function drawnOf(scenery: Scenery, planted: Planted): Drawn {
  const slipped = caseOf(scenery, [planted]);
  const right = caseOf(scenery, []).sheets.record;
  const both = (of: 'frame' | 'issue', id: number): { readonly was: Row | null; readonly is: Row | null } => ({
    was: rowIn(right, of, id),
    is: rowIn(slipped.sheets.record, of, id),
  });
  const ids = (of: 'frame' | 'issue'): readonly number[] => [...new Set(planted.steps.flatMap((step) => idIn(step, of)))];
  const frames = ids('frame').map((id) => both('frame', id));
  const ofFrames = frames.flatMap(({ was, is }) => [was?.['issue'], is?.['issue']]).filter((id) => typeof id === 'number');
  const issues = [...new Set([...ids('issue'), ...ofFrames])].map((id) => both('issue', id));
  return { scenery, planted, slipped, issues, frames };
}

function idIn(step: Step, of: 'frame' | 'issue'): readonly number[] {
  if (step.do === 'set') return step.of === of ? [step.id] : [];
  if (step.do === 'add') return of === 'frame' ? step.ids.slice(0, 1) : [];
  return step.of === of ? [step.row[of === 'frame' ? 'picture' : 'id'] as number] : [];
}

function rowIn(sheet: Case['sheets']['record'], of: 'frame' | 'issue', id: number): Row | null {
  const rows = of === 'issue' ? sheet.issues : sheet.reels.flatMap(({ frames }) => frames);
  return rows.find((row) => row[of === 'issue' ? 'id' : 'picture'] === id) ?? null;
}

const keyOf = ({ code, says }: Irregularity): string => `${code} ${says}`;
const clean = new Map<Scenery, ReadonlySet<string>>();

function cleanOf(scenery: Scenery): ReadonlySet<string> {
  const known = clean.get(scenery);
  if (known !== undefined) return known;
  const found = shownOf(recordOf(scenery.film));
  const keys = new Set(found === 'refused' ? [] : found.map(keyOf));
  clean.set(scenery, keys);
  return keys;
}

/** Whether a slip is named where it was made: something is said that is not said of the right record, of a frame, day or title that the slip touches. */
export function isNamed(drawn: Drawn): boolean {
  const found = shownOf(drawn.slipped.record);
  if (found === 'refused') return true;
  const before = cleanOf(drawn.scenery);
  const days = new Set(drawn.issues.flatMap(({ was, is }) => [was?.['date'], is?.['date']]).filter((day) => typeof day === 'string'));
  const titles = new Set(drawn.issues.flatMap(({ was, is }) => [was?.['title'], is?.['title']]));
  const places = placesOf(drawn);
  const isThere = ({ touches, date, frames, title }: Irregularity): boolean =>
    touches.frames.some(({ reel, at }) => places.has(`${String(reel)} ${String(at)}`)) ||
    (date !== null && days.has(date)) ||
    (touches.days !== null && [...days].some((day) => day >= (touches.days?.after ?? '') && day <= (touches.days?.before ?? ''))) ||
    (frames === null && titles.has(title));
  return found.some((item) => !before.has(keyOf(item)) && isThere(item));
}

/** The places of the touched frames and of those beside them. */
function placesOf({ slipped, frames, issues }: Drawn): ReadonlySet<string> {
  const pictures = new Set(frames.map(({ was, is }) => (was ?? is)?.['picture']));
  const own = new Set(issues.map(({ was, is }) => (was ?? is)?.['id']));
  const places = new Set<string>();
  for (const [reel, { frames: rows }] of slipped.sheets.record.reels.entries())
    for (const [at, row] of rows.entries())
      if (pictures.has(row['picture']) || own.has(row['issue']))
        for (const by of [-1, 0, 1]) places.add(`${String(reel)} ${String(at + by)}`);
  return places;
}
