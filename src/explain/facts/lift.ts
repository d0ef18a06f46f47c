import { groupBy } from '../runs.js';
import { recordIssueOf, type Scene } from '../scene.js';
import { ANY, type Change, changesOf, isOfRecord, made, type Places, recordMade } from './changes.js';
import { permutedPlaces } from './permuted.js';
import { type Fact, isOfIssue, placesAround, readingOf, type Statement, statementsOf } from './statements.js';

/** How far one change of a fact reaches. */
export type Scope = 'page' | 'issue' | 'run' | 'reel' | 'title' | 'batch';

/** One change of one fact, over all the places that it explains. */
export interface FactEdit {
  readonly fact: Fact;
  readonly change: Change;
  readonly scope: Scope;
  /** Places that came as the change makes them, in film order. */
  readonly places: readonly Statement[];
  /** How many places within its reach could show the change. */
  readonly could: number;
  readonly cost: number;
}

/**
 * What a single difference costs, what one change over many places does, and what its reach adds. A place within the reach that came right all
 * the same speaks against it: where it parts two runs it costs no more than the second of them would, so that what holds everywhere but at a
 * few places is one change. One that is wrong in another way does not speak against it.
 */
const SINGLE = 10;
const CHANGE = 8;
const EXCEPTION = 9;
/** What each reading costs that a change has to list. */
const LISTED = 2;
/** What it costs that each reading is to be looked up beside, and that it was the record that was copied down. Dates are carried over often. */
const BESIDE = 2;
const REACH: Readonly<Record<Scope, number>> = { batch: 0, title: 0, reel: 0, issue: 0, run: 1, page: 2 };

/**
 * The changes of a fact that explain its open differences, each in the widest reach in which it holds: cheapest by description length. Changes
 * that explain the same compete; whoever chooses takes what saves most.
 */
export function liftedEdits(
  scene: Scene,
  fact: Fact,
  open: (id: number) => boolean,
  all: readonly Statement[] = statementsOf(scene, fact),
  around: readonly Statement[] = placesAround(scene, fact),
): readonly FactEdit[] {
  const places = { scene, fact, all, ...neighbours(around, fact) };
  const members = new Map<string, { readonly change: Change; readonly hits: Set<Statement> }>();
  for (const statement of all) {
    if (statement.differs === null || !open(statement.differs.id)) continue;
    for (const change of changesOf(places, statement)) {
      const key = `${change.kind} ${change.by}`;
      const entry = members.get(key);
      if (entry === undefined) members.set(key, { change, hits: new Set([statement]) });
      else entry.hits.add(statement);
    }
  }
  const lifted = [...members.values()].flatMap(({ change, hits }) => {
    // images outside any issue have no number but that of their file: what was done in documents did not reach them
    const inDocuments = [...hits].every(({ document }) => document !== null);
    const reached = (statement: Statement): boolean => isOfIssue(fact) || !inDocuments || statement.document !== null;
    const list =
      hits.size === 1
        ? [...hits]
        : all.filter((statement) => hits.has(statement) || (reached(statement) && shows(places, change, statement)));
    const lifting = { scene, fact, all, change, hits };
    if (change.kind === 'anew') return countedAnew(lifting, list);
    const { edits } = cover(lifting, list, 'batch');
    return edits.filter(saysItBest);
  });
  const hits = new Set<Statement>();
  const change = { kind: 'permuted', by: '' } as const;
  const wrong = all.filter(({ differs }) => differs !== null && open(differs.id));
  const permuted = permutedPlaces(fact, wrong, all).map(({ places, simple }) => {
    const made = edit({ scene, fact, all, change, hits }, 'run', places, places.length);
    return simple ? { ...made, cost: made.cost + LISTED } : listed(made);
  });
  return [...permuted, ...otherwise({ scene, fact, all, change: { kind: 'others', by: '' }, hits }, open), ...lifted];
}

/** So many places must be wrong throughout before they are one thing, each in its own way. */
const THROUGHOUT = 4;
/** What each of them costs: more than a change that says how, so that two of these that part the places between them are told as two. */
const IN_ITS_OWN_WAY = 5.5;

/** All places of the return, of a title or of a reel, where not one came right and no change says how. */
function otherwise(lifting: Lifting, open: (id: number) => boolean): readonly FactEdit[] {
  const { all, fact } = lifting;
  // how pages are counted anew is told issue by issue, and numbers have causes of their own
  if (fact === 'order' || fact === 'number' || fact === 'reel') return [];
  const isOff = ({ differs }: Statement): boolean => differs?.form === 'other' && open(differs.id);
  if (!all.some(isOff)) return [];
  const levels: readonly (readonly [Scope, (statement: Statement) => unknown])[] = [
    ['batch', () => ''],
    ['title', ({ title }) => title],
    ['reel', ({ reel }) => reel],
  ];
  return levels.flatMap(([scope, key]) =>
    [...groupBy(all, key).values()].flatMap((places) => {
      if (places.length < THROUGHOUT || !places.every(isOff)) return [];
      return [{ ...edit(lifting, scope, places, places.length), cost: CHANGE + IN_ITS_OWN_WAY * places.length }];
    }),
  );
}

/** What a change costs that has to list every place. */
function listed(made: FactEdit): FactEdit {
  return { ...made, cost: made.cost + (made.places.length > 1 ? LISTED * made.places.length : 0) };
}

/** Pages that were counted in another way are counted so within their issue; each place of them must be said. */
function countedAnew(lifting: Lifting, list: readonly Statement[]): readonly FactEdit[] {
  return [...groupBy(list, ({ issue }) => issue).values()].map((places) => {
    return listed(edit(lifting, 'issue', places, places.length));
  });
}

/**
 * One reading of the record stands beside several of the return: where the return has one too, something else was done. One reading of the return that stands
 * only where none must is told as surplus.
 */
function saysItBest({ fact, change, places, scope }: FactEdit): boolean {
  // most labels are those of the places anyhow: that one was taken for the other shows only where it was done everywhere
  if (change.kind === 'own-fact') return fact !== 'page' || isWide(scope);
  if (change.kind === 'fact' && fact === 'page') return scope === 'issue' || isWide(scope);
  if (change.kind === 'stuck') return new Set(places.map(({ differs }) => differs?.given?.key)).size > 1;
  return change.kind !== 'all' || places.some(({ differs }) => differs?.form !== 'surplus');
}

/** Whether a place would look wrong after the change. */
function shows(places: Places, change: Change, statement: Statement): boolean {
  if (isOfRecord(change)) {
    const [reading, own] = [recordMade(places, change, statement), readingOf(places.fact, statement)];
    // a cell that was left empty was not copied over
    return reading !== undefined && own !== reading && !(change.kind === 'stuck' && own === '');
  }
  const reading = made(places, change, statement);
  if (reading === undefined) return false;
  return reading === null || reading === ANY || !statement.right.some(({ key }) => key === reading);
}

/** The place before and behind each; for facts of issues, of the same title. */
function neighbours(all: readonly Statement[], fact: Fact): Pick<Places, 'before' | 'after'> {
  const last = new Map<string, Statement>();
  const before = new Map<Statement, Statement>();
  const after = new Map<Statement, Statement>();
  for (const statement of all) {
    const key = isOfIssue(fact) ? (statement.title ?? '') : '';
    const previous = last.get(key);
    if (previous !== undefined && previous.issue === statement.issue && isOfIssue(fact)) continue;
    if (previous !== undefined) {
      before.set(statement, previous);
      after.set(previous, statement);
    }
    last.set(key, statement);
  }
  return { before, after };
}

interface Lifting {
  readonly scene: Scene;
  readonly fact: Fact;
  readonly all: readonly Statement[];
  readonly change: Change;
  readonly hits: ReadonlySet<Statement>;
}

interface Cover {
  readonly edits: readonly FactEdit[];
  readonly cost: number;
}

type Level = 'batch' | 'reel' | 'title' | 'issue';

/** The cheapest way to say where the change was made: once for the whole list, or part by part. */
function cover(lifting: Lifting, list: readonly Statement[], level: Level): Cover {
  const { hits, fact } = lifting;
  const met = list.filter((statement) => hits.has(statement));
  if (met.length === 0) return { edits: [], cost: 0 };
  if (met.length === 1) return { edits: [edit(lifting, 'page', met, 1)], cost: SINGLE };
  const right = list.filter((statement) => statement.differs === null).length;
  const ways: Cover[] = [runs(lifting, list)];
  const wide = level === 'issue' || (new Set(met.map(({ issue }) => issue)).size > 1 && reaches(lifting, list, met, level));
  if (wide) ways.unshift(one(lifting, level, met, list.length, right));
  if (level === 'batch' && isNowhereElse(lifting, met)) ways.push(one(lifting, level, met, met.length, 0));
  if (level === 'batch' && isEmptyColumn(lifting)) ways.push(one(lifting, level, met, list.length, 0));
  if (level === 'batch')
    ways.push(
      parts(lifting, list, ({ reel }) => reel, 'reel'),
      parts(lifting, list, ({ title }) => title, 'title'),
    );
  if (level !== 'issue' && !isOfIssue(fact)) ways.push(parts(lifting, list, ({ issue }) => issue, 'issue'));
  return ways.reduce((best, way) => (way.cost < best.cost ? way : best));
}

/** One reading that stands everywhere must stand nearly everywhere: where it was right, nothing shows that it was put there. */
function reaches({ all, change, fact }: Lifting, list: readonly Statement[], met: readonly Statement[], level: Level): boolean {
  if (change.kind !== 'all' && change.kind !== 'stuck' && change.kind !== 'own-fact') return true;
  const same = (statement: Statement): boolean =>
    level === 'batch' || (level === 'reel' ? statement.reel === list[0]?.reel : statement.title === list[0]?.title);
  const within = all.filter(same);
  if (change.kind !== 'stuck') return met.length >= NEARLY_ALL * within.length;
  // where the return has the record's one reading too, the record was not the less copied down
  const copied = within.filter((statement) => readingOf(fact, statement) === change.by).length;
  return copied >= NEARLY_ALL * within.length && met.length >= HALF * within.length;
}

const HALF = 0.5;

/** A title under which nothing came right was put in the place of others wherever it stands: it is one slip that names them all. */
function isNowhereElse({ all, change, fact }: Lifting, met: readonly Statement[]): boolean {
  const cameAs = ({ differs, right }: Statement): string | undefined => (differs === null ? right[0]?.key : differs.given?.key);
  return fact === 'title' && change.kind === 'all' && all.every((one) => cameAs(one) !== change.by || met.includes(one));
}

/** A fact of which the record has nothing anywhere was left out of it as a whole, or was put in where it is not on the paper: either is one slip. */
function isEmptyColumn({ all, change, fact }: Lifting): boolean {
  return change.kind === 'surplus' && all.every((statement) => readingOf(fact, statement) === '');
}

const NEARLY_ALL = 0.8;

function one(lifting: Lifting, scope: Scope, met: readonly Statement[], could: number, right: number): Cover {
  const made = edit(lifting, scope, met, could);
  return { edits: [made], cost: made.cost + EXCEPTION * right };
}

function edit({ fact, change }: Lifting, scope: Scope, places: readonly Statement[], could: number): FactEdit {
  const single = places.length === 1;
  return {
    fact,
    change,
    scope: single ? (isOfIssue(fact) ? 'issue' : 'page') : scope,
    places,
    could,
    cost: CHANGE + (single ? REACH.page : REACH[scope]) + (isRare(fact, change) ? BESIDE : 0),
  };
}

function isRare(fact: Fact, { kind }: Change): boolean {
  return kind === 'copied' || kind === 'own-fact' || (fact !== 'date' && (kind === 'before' || kind === 'after'));
}

/** The list part by part; nothing where there is but one part. */
function parts(lifting: Lifting, list: readonly Statement[], key: (statement: Statement) => unknown, level: Level): Cover {
  const groups = groupBy(list, key);
  if (groups.size < 2 && level !== 'issue') return { edits: [], cost: Number.POSITIVE_INFINITY };
  const covers = [...groups.values()].map((group) => cover(lifting, group, level));
  return { edits: covers.flatMap(({ edits }) => edits), cost: covers.reduce((sum, { cost }) => sum + cost, 0) };
}

/** Runs of places in film order that came changed, up to the next that came right. What is wrong in another way does not end a run. */
function runs(lifting: Lifting, list: readonly Statement[]): Cover {
  const found: Statement[][] = [];
  let open: Statement[] | null = null;
  for (const statement of list) {
    if (lifting.hits.has(statement)) {
      if (open === null) found.push((open = []));
      open.push(statement);
    } else if (statement.differs === null) open = null;
  }
  const edits = found.map((run) => edit(lifting, 'run', run, run.length));
  return { edits, cost: edits.reduce((sum, { cost }) => sum + cost, 0) };
}

/** Whether a change reaches over more than issues and runs. */
export function isWide(scope: Scope): boolean {
  return scope === 'batch' || scope === 'reel' || scope === 'title';
}

/** The name of what a wide edit reaches over. */
export function reachName(scene: Scene, { scope, places }: Pick<FactEdit, 'scope' | 'places'>): string {
  const first = places[0];
  if (scope === 'reel') return `reel ${scene.record.reels[first?.reel ?? -1]?.text ?? '?'}`;
  if (scope !== 'title') return 'the return';
  const id = recordIssueOf(scene, first?.issue ?? null)?.title ?? null;
  return scene.record.titles.find((title) => title.id === id)?.name ?? id ?? 'the title';
}
