import type { CollationRecord } from '../../../src/model/collation-record.js';
import type { Film } from '../film/film.js';
import { planOf, type ReturnPlan } from '../plan.js';
import { recordOf } from '../record/record-of.js';
import type { Edit, Planned, Step } from './edit.js';
import { type Fits, planEdit } from './plan-edit.js';
import { brokenNumbers, brokenNumbersGiven, deliveredIn, heldForNothing, poorTakes, tells } from './regular.js';
import type { Scenery } from './scenery.js';
import { asRecorded, collides, filmOfSheet, planOfSheet, type Sheet, sheetOfFilm, sheetOfPlan } from './sheet.js';
import { showing, type Trace, traces } from './shown.js';
import { apply, invert } from './steps.js';
import { originalOf } from './things.js';

/** An edit that was planted, and what is true of it. */
export interface Planted extends Planned {
  /** In what the return is not the expected one because of it; none where it is no mistake. */
  readonly traces: readonly Trace[];
  /** True where the record's regularity, or that nobody else can have done it, tells which side is wrong. */
  readonly told: boolean;
}

/** A record and a return with what was planted in them. */
export interface Case {
  readonly scenery: Scenery;
  readonly planted: readonly Planted[];
  /** Both sides as rows, on which an edit can be undone. */
  readonly sheets: { readonly record: Sheet; readonly given: Sheet };
  /** The film as the record has it. */
  readonly film: Film;
  readonly record: CollationRecord;
  readonly plan: ReturnPlan;
}

/** Whether the return has, by its layout and by what was ordered, what the edit changes. */
function isOrdered({ layout, style, policies, options }: Scenery, { what, how, scope, side }: Edit): boolean {
  // files of a use of which the batch holds none are not looked for, unless the agreement requires them
  if (what === 'file' && how === 'missing') return (style.files ?? []).length > 0 && (scope !== 'batch' || policies.files === 'required');
  if (what === 'target') return layout === 'issue-mets' && policies.targets === 'listed';
  // only there a folder is a place and no fact, so that a document in the wrong one changes nothing
  if (what.startsWith('manifest') || (what === 'document' && how === 'moved')) return layout === 'issue-mets';
  // halves that are counted on are numbered by how many there are, whatever numbers the record gives them
  return !(what === 'number' && side === 'record' && options.halves === 'separate');
}

/** Plants one edit beside others that are there already; null where the film has no place for it, or where it would meddle with them. */
export function plant(scenery: Scenery, edit: Edit, before: readonly Planted[] = [], fits?: Fits): Planted | null {
  if (!isOrdered(scenery, edit)) return null;
  const planned = planEdit(edit, scenery.film, rightSheet(scenery, edit), fits);
  if (planned === null) return null;
  const { record, given } = alone(scenery, planned);
  if (collides(given)) return null;
  const expected = planOf(edit.side === 'record' ? asRecorded(record) : record, scenery.options);
  const found = traces(showing(expected, scenery.layout), showing(given, scenery.layout), scenery.policies);
  const [wrong, right] = edit.side === 'record' ? [expected, given] : [given, expected];
  const told =
    ofVendorAlone(
      scenery,
      edit,
      // nobody invents a page and what it shows; a blank may be counted that is not there
      found.some(({ key, field }) => field === null && key.startsWith('page ')),
    ) ||
    (edit.side === 'return' && isSilence(found)) ||
    // a splice that the record notes and the return does not was overlooked: nobody invents one
    (edit.what === 'reel' && edit.side === 'return' && reelsOf(given) < reelsOf(expected)) ||
    // where nothing is said of a name, or editions are numbered as they were filmed, names tell nothing
    tells(wrong, right, scenery.film.titles, !isSilence(found) && scenery.policies.editionOrder !== 'filmed') ||
    brokenNumbers(record) > brokenNumbers(scenery.film) ||
    (edit.side === 'return' && brokenNumbersGiven(given, scenery.layout) > brokenNumbersGiven(expected, scenery.layout)) ||
    heldForNothing(record) > heldForNothing(scenery.film) ||
    (edit.side === 'record' ? poorTakes(record) : poorTakes(scenery.film, deliveredIn(given))) > poorTakes(scenery.film);
  const planted: Planted = { ...planned, traces: found, told };
  return before.some((other) => clash(other, planted) || hides(scenery, other, planted) || hides(scenery, planted, other)) ? null : planted;
}

/** How many reels the pages of a return say they are of. */
const reelsOf = ({ reels }: ReturnPlan): number =>
  new Set(reels.flatMap(({ captures }) => captures.filter(({ use }) => use === 'page').map(({ reel }) => reel))).size;

/** What is not there, what is no copy, and files: of that the record knows nothing. */
function ofVendorAlone({ policies }: Scenery, { what, how, side }: Edit, pages: boolean): boolean {
  if (side === 'record') return false;
  // what was not ordered must not be there, whatever the paper has
  if (what === 'datePrinted' && policies.printedDate === 'never') return true;
  const copies = what.startsWith('folder') || what.startsWith('manifest');
  // how pages are parted into issues the pages show, or nothing does
  const parted = what === 'document' && ['merged', 'split', 'exchanged'].includes(how);
  return copies || (what === 'document' && !parted) || what === 'file' || (how === 'missing' && (what !== 'frame' || pages));
}

const rightSheet = ({ film, plan }: Scenery, { side }: Edit): Sheet => (side === 'record' ? sheetOfFilm(film) : sheetOfPlan(plan));

/** True where all that is wrong is that nothing is said. */
const isSilence = (found: readonly Trace[]): boolean => found.length > 0 && found.every(({ silent }) => silent);

/** Both sides with this edit alone. */
function alone(scenery: Scenery, { edit, steps }: Planned): { readonly record: Film; readonly given: ReturnPlan } {
  const sheet = rightSheet(scenery, edit);
  apply(sheet, steps);
  return edit.side === 'record'
    ? { record: filmOfSheet(sheet, scenery.film), given: scenery.plan }
    : { record: scenery.film, given: planOfSheet(sheet, scenery.plan) };
}

/** True where two edits change the same fact or the same thing. Numbers that both count up or down are counted by both. */
function clash(one: Planted, two: Planted): boolean {
  const keys = new Set(one.traces.map(({ key, field }) => `${key} ${field ?? ''}`));
  const whole = new Set(one.traces.filter(({ field }) => field === null).map(({ key }) => key));
  const counts = [one, two].every(({ steps }) => steps.some((step) => step.do === 'add'));
  return (
    two.traces.some(
      ({ key, field }) => whole.has(key) || (keys.has(`${key} ${field ?? ''}`) && !(counts && (field === 'number' || field === 'order'))),
    ) ||
    one.traces.some(({ key }) => two.traces.some((other) => other.field === null && other.key === key)) ||
    setsWhatIsGone(one, two) ||
    setsWhatIsGone(two, one) ||
    placed(one).some((id) => placed(two).includes(id))
  );
}

/** True where one edit changes a fact, be it one that does not show, of what another takes away. */
function setsWhatIsGone(one: Planted, two: Planted): boolean {
  if (one.edit.side !== two.edit.side) return false;
  const gone = new Set(
    two.steps.flatMap((step) => (step.do === 'take' ? [`${step.of} ${String(step.row[step.of === 'issue' ? 'id' : 'picture'])}`] : [])),
  );
  return one.steps.some((step) => step.do === 'set' && gone.has(`${step.of} ${String(step.id)}`));
}

/**
 * True where nothing of one edit shows because of another: what it changes stands in a document that did not come, or on pages that are there twice, of which
 * nobody can tell the copy.
 */
function hides({ film }: Scenery, one: Planted, two: Planted): boolean {
  const unread = new Set(
    one.steps.flatMap((step) => (step.do === 'set' && step.of === 'issue' && step.field === 'fault' ? [step.id] : [])),
  );
  const issueOf = new Map(film.reels.flatMap(({ shots }) => shots.map(({ picture, issue }) => [picture, issue] as const)));
  const isUnread = ({ key }: Trace): boolean => {
    const [of, id] = key.split(' ');
    const issue = of === 'page' ? issueOf.get(originalOf(Number(id))) : Number(id);
    return ['page', 'document', 'absent'].includes(of ?? '') && unread.has(issue ?? -1);
  };
  if (unread.size > 0 && two.traces.length > 0 && two.traces.every(isUnread)) return true;
  const twice = new Set(
    one.steps.flatMap((step) => {
      const picture = step.do === 'put' && step.of === 'frame' ? Number(step.row['picture']) : 0;
      return originalOf(picture) === picture ? [] : [originalOf(picture)];
    }),
  );
  const sets = two.steps.flatMap((step) => (step.do === 'set' && step.of === 'frame' ? [step.id] : []));
  return one.edit.side === two.edit.side && sets.length > 0 && sets.every((id) => twice.has(id));
}

/** Issues whose pages an edit puts elsewhere: two edits of one of them cannot be told apart for certain. */
function placed({ steps }: Planned): readonly unknown[] {
  return steps.flatMap((step: Step) => {
    if (step.do === 'set') return step.field === 'issue' ? [step.from, step.to].filter((id) => id !== null) : [];
    return step.do === 'add' || step.of === 'frame' ? [] : [step.row['id']];
  });
}

/** Record and return with everything that was planted. */
export function caseOf(scenery: Scenery, planted: readonly Planted[]): Case {
  const [record, given] = [sheetOfFilm(scenery.film), sheetOfPlan(scenery.plan)];
  for (const { edit, steps } of planted) apply(edit.side === 'record' ? record : given, steps);
  return written(scenery, planted, { record, given });
}

/** The case with one of its edits undone on it: what is left is what the others did. */
export function without(one: Case, undone: Planted): Case {
  const sheets = structuredClone(one.sheets);
  invert(undone.edit.side === 'record' ? sheets.record : sheets.given, undone.steps);
  return written(
    one.scenery,
    one.planted.filter((each) => each !== undone),
    sheets,
  );
}

function written(scenery: Scenery, planted: readonly Planted[], sheets: Case['sheets']): Case {
  const film = filmOfSheet(sheets.record, scenery.film);
  return { scenery, planted, sheets, film, record: recordOf(film), plan: planOfSheet(sheets.given, scenery.plan) };
}

/** Edits near each other: the second lies within a few frames of the first on its reel. */
export function near(scenery: Scenery, { steps }: Planned): Fits {
  const touched = new Set(
    steps.flatMap((step) =>
      step.do === 'set' && step.of === 'frame'
        ? [step.id]
        : step.do === 'add' || step.do === 'set'
          ? []
          : step.of === 'frame'
            ? [step.row['picture']]
            : [],
    ),
  );
  const places = scenery.film.reels.map(({ shots }) => shots.flatMap((shot, i) => (touched.has(shot.picture) ? [i] : [])));
  return ({ reel, shots }) => {
    const list = scenery.film.reels[reel]?.shots ?? [];
    const [from, to] = [
      list.findIndex(({ picture }) => picture === shots[0]?.picture),
      list.findIndex(({ picture }) => picture === shots.at(-1)?.picture),
    ];
    return (places[reel] ?? []).some((at) => at >= from - CLOSE && at <= to + CLOSE);
  };
}

const CLOSE = 3;
