import type { FilmShot } from '../film/film.js';
import type { Change, Ground } from './change-facts.js';
import type { Edit, Row, Step } from './edit.js';
import { COPIES, framesOf, heldBack, issueRow, pagesOfIssue, rowOf, rowsOf, setAll, setFrame } from './things.js';
import { isPage } from './units.js';

/** Pages that should be delivered and are held back; in the return the pages behind may be counted up. */
export function holdPagesBack(edit: Edit, ground: Ground): Change | null {
  const rows = rowsOf(ground, ground.unit.pages);
  const issues = new Set(rows.map((row) => row['issue'] as number));
  if (rows.length === 0 || [...issues].some((issue) => pagesOfIssue(ground, issue).every((row) => rows.includes(row)))) return null;
  const [first] = rows;
  const closed = edit.scope === 'page' && first !== undefined && isWhole(ground, first) && ground.random.chance(300);
  const behind = closed ? behindOf(ground, first) : [];
  const close: readonly Step[] = behind.length === 0 ? [] : [{ do: 'add', field: 'order', ids: behind, by: -1 }];
  const steps = rows.flatMap((row) => setAll(row, heldBack(edit.side)));
  return {
    steps: [...steps, ...close],
    params: { pages: named(rows), ...(behind.length === 0 ? {} : { orders: 'counted up behind it' }) },
  };
}

/** True where no page of the issue is absent: what is absent would have to be counted too. */
function isWhole(ground: Ground, row: Row): boolean {
  const issue = issueRow(ground, row['issue'] as number);
  return [issue?.['absent'], issue?.['wanting']].every((list) => list === undefined || (list as readonly unknown[]).length === 0);
}

const behindOf = (ground: Ground, row: Row): number[] =>
  pagesOfIssue(ground, row['issue'] as number)
    .filter((page) => Number(page['order']) > Number(row['order']))
    .map((page) => page['picture'] as number);

const named = (rows: readonly Row[]): string => rows.map((row) => String(row['frame'])).join(' ');

/** Frames that should be held back and are delivered: a second take behind the page that it shows, anything else behind the page before it. */
export function deliverHeld(edit: Edit, ground: Ground): Change | null {
  const [shot] = ground.unit.shots;
  const row = shot === undefined || isPage(shot) ? undefined : rowOf(ground, shot);
  if (shot === undefined || row === undefined) return null;
  const twin = shot.issue === null ? undefined : pagesOfIssue(ground, shot.issue).find((page) => Number(page['order']) === shot.place);
  const beside = twin ?? pageBefore(ground, shot);
  if (beside === undefined || !isWhole(ground, beside) || (shot.issue !== null && twin === undefined)) return null;
  const order = Number(beside['order']) + 1;
  const counted: Step = { do: 'add', field: 'order', ids: behindOf(ground, beside), by: 1 };
  const label = twin?.['page'] ?? null;
  const to: Row =
    edit.side === 'return'
      ? { use: 'page', issue: beside['issue'], order, page: label, section: beside['section'] }
      : {
          kind: 'page',
          deliver: true,
          issue: beside['issue'],
          order,
          page: label,
          section: beside['section'],
          ...(twin ? {} : { pagePrinted: '-' }),
        };
  return { steps: [counted, ...setAll(row, to)], params: { frame: String(row['frame']), shows: shot.kind } };
}

function pageBefore(ground: Ground, shot: FilmShot): Row | undefined {
  const frames = framesOf(ground);
  const pages = ground.film.reels[ground.unit.reel]?.shots.filter(isPage).map(({ picture }) => picture) ?? [];
  const at = frames.findIndex((row) => row['picture'] === shot.picture);
  return frames.slice(0, at).findLast((row) => pages.includes(row['picture'] as number));
}

/** What a frame has by which it is delivered or not. */
const DELIVERED = ['use', 'issue', 'order', 'page', 'section', 'deliver'];

/** Of pages that were filmed twice the other take is delivered. */
export function exchangeTakes(edit: Edit, ground: Ground): Change | null {
  const held = ground.film.reels.flatMap(({ shots }) =>
    shots.filter((shot) => shot.issue !== null && !shot.deliver && shot.kind === 'page'),
  );
  const pairs = ground.unit.pages.flatMap((page): [Row, Row][] => {
    const other = held.find((shot) => shot.twin === page.picture || page.twin === shot.picture);
    const rows = [rowOf(ground, page), other === undefined ? undefined : rowOf(ground, other)];
    return rows[0] !== undefined && rows[1] !== undefined ? [[rows[0], rows[1]]] : [];
  });
  if (pairs.length === 0 || (edit.scope === 'issue' && pairs.length < 2)) return null;
  const fields = (from: Row): Row => Object.fromEntries(DELIVERED.filter((field) => field in from).map((field) => [field, from[field]]));
  const steps = pairs.flatMap(([one, two]) => [...setAll(one, fields(two)), ...setAll(two, fields(one))]);
  return { steps, params: { delivered: named(pairs.map(([, two]) => two)), instead: named(pairs.map(([one]) => one)) } };
}

/** A page that its document describes twice, with the same picture. */
export function describeTwice(ground: Ground): Change | null {
  const [shot] = ground.unit.pages;
  const row = shot === undefined ? undefined : rowOf(ground, shot);
  if (row === undefined || !isWhole(ground, row)) return null;
  const copy: Row = { ...row, picture: COPIES + (row['picture'] as number), order: Number(row['order']) + 1 };
  const steps: readonly Step[] = [
    { do: 'add', field: 'order', ids: behindOf(ground, row), by: 1 },
    { do: 'put', of: 'frame', reel: ground.unit.reel, after: row['picture'] as number, row: copy },
  ];
  return { steps, params: { page: String(row['frame']) } };
}

/** The last pages of an issue that went to the next one. */
export function moveBoundary(edit: Edit, ground: Ground): Change | null {
  const [shot] = ground.unit.pages;
  const issue = shot?.issue ?? null;
  if (issue === null || ground.unit.pages.some((page) => page.issue !== issue)) return null;
  const count = edit.scope === 'page' ? 1 : 2;
  const pages = pagesOfIssue(ground, issue);
  const rows = pages.slice(-count);
  const next = nextIssue(ground, issue);
  if (next === null || pages.length <= count || rows.at(-1)?.['picture'] !== ground.unit.pages.at(-1)?.picture) return null;
  const others = pagesOfIssue(ground, next);
  const [first] = [...rows, ...others];
  if (first === undefined || !isWhole(ground, first) || others.some((row) => !isWhole(ground, row))) return null;
  const steps = [
    ...others.map((row) => setFrame(row, 'order', Number(row['order']) + count)),
    ...rows.flatMap((row, i) => setAll(row, { issue: next, order: i + 1 })),
  ];
  return { steps, params: { pages: named(rows) } };
}

/** The next issue of the same title on the film of this reel; null where there is none, or not all of it. */
export function nextIssue({ film, unit, sheet }: Ground, issue: number): number | null {
  const order = [...new Set(film.reels[unit.reel]?.shots.filter(isPage).flatMap((shot) => shot.issue ?? []) ?? [])];
  const next = order[order.indexOf(issue) + 1];
  if (next === undefined || film.issues[next]?.title !== film.issues[issue]?.title) return null;
  const elsewhere = film.reels.some((reel, r) => r !== unit.reel && reel.shots.some((shot) => shot.issue === next));
  return elsewhere || !sheet.issues.some((row) => row['id'] === next) ? null : next;
}
