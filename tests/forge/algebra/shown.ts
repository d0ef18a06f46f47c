import type { Policies } from '../../../src/model/agreement.js';
import type { Capture, PlanIssue, ReturnPlan } from '../plan.js';
import type { WriteProfile } from '../write/index.js';

/** What a return shows of one thing, field by field. */
export type Shown = Readonly<Record<string, string | null>>;

/** What is shown of a return in a layout, by what it is of: `page 12`, `document 3`, `absent 3 5`, `target 2`, `held 9`. */
export type Showing = ReadonlyMap<string, Shown>;

/** One thing in which a return is not the right one. A field that is null stands for the whole thing. */
export interface Trace {
  readonly key: string;
  readonly field: string | null;
  /** Something must be said there, and nothing is. */
  readonly silent: boolean;
}

/** Numbers of documents that describe no issue of the film. */
const ADDED = 10_000;

/** What the layout lets be seen of a plan. */
export function showing(plan: ReturnPlan, layout: WriteProfile): Showing {
  const out = new Map<string, Shown>();
  const idOf = (index: number | null): number => (index === null ? -1 : (plan.issues[index]?.source ?? ADDED + index));
  for (const [i, issue] of plan.issues.entries()) {
    const faults = plan.documents.filter((fault) => 'issue' in fault && fault.issue === i).map(({ kind }) => kind);
    out.set(`document ${idOf(i)}`, documentShown(issue, faults.join(' '), layout));
    for (const page of issue.absent)
      out.set(`absent ${idOf(i)} ${page.order}`, { page: page.page, section: page.section, statement: page.statement });
  }
  const captures = plan.reels.flatMap((reel) => reel.captures);
  const [once, twice] = [new Set<string>(), new Set<string>()];
  for (const { use, image } of captures) if (use === 'page') (once.has(image) ? twice : once).add(image);
  for (const capture of captures) {
    if (capture.use === 'page') out.set(`page ${capture.picture}`, pageShown(capture, idOf(capture.issue), layout, twice));
    else if (layout === 'page-mods') out.set(`held ${capture.picture}`, { number: capture.frame });
    else if (capture.use === 'target' && plan.targetsListed)
      out.set(`target ${capture.picture}`, { number: capture.frame, reel: capture.reel });
  }
  return out;
}

function pageShown(capture: Capture, document: number, layout: WriteProfile, twice: ReadonlySet<string>): Shown {
  const said = (fact: 'frame' | 'reel' | 'order'): boolean => capture.silent?.includes(fact) !== true;
  const { page, section } = capture;
  return {
    document: String(document),
    number: said('frame') ? capture.frame : null,
    reel: said('reel') ? capture.reel : null,
    order: said('order') && capture.order !== null ? String(capture.order) : null,
    // the letter of its own section before a label changes nothing
    page: page !== null && section !== null && page.startsWith(section) ? page.slice(section.length) : page,
    section,
    // two files of the same bytes show by their digests, which one file for each page does not give; of one file nobody sees whose picture it is
    image: layout === 'issue-mets' && twice.has(capture.image) ? capture.image : null,
    lost: capture.lost === undefined ? null : capture.lost.join(' '),
  };
}

function documentShown(issue: PlanIssue, fault: string, layout: WriteProfile): Shown {
  const said = (fact: 'title' | 'date' | 'edition'): boolean => issue.silent?.includes(fact) !== true;
  const copy = (where: PlanIssue['folder'] | 'left-out'): string | null => {
    if (where === null || where === 'left-out') return where;
    return where.date === issue.date && where.edition === issue.edition ? null : `${where.date} ${where.edition}`;
  };
  return {
    title: said('title') ? issue.title : null,
    date: said('date') ? issue.date : null,
    datePrinted: issue.datePrinted,
    edition: said('edition') ? String(issue.edition) : null,
    editionLabel: issue.editionLabel,
    volume: issue.volume,
    issueNumber: issue.issueNumber,
    statement: issue.statementText ?? issue.statement,
    folder: copy(issue.folder),
    manifest: layout === 'issue-mets' ? copy(issue.manifest) : null,
    fault: fault === '' ? null : fault,
  };
}

/** Facts of which the record says nothing where it gives none: the return may then say what it likes. */
const OPEN_WHERE_NOT_GIVEN = ['editionLabel', 'volume', 'issueNumber'];

/** In what the return is not the expected one, where it must be or must not be. Where a policy leaves it open nothing is wrong. */
export function traces(expected: Showing, given: Showing, policies: Partial<Policies>): readonly Trace[] {
  const keys = [...new Set([...expected.keys(), ...given.keys()])];
  return keys.flatMap((key): Trace[] => {
    const [right, wrong] = [expected.get(key), given.get(key)];
    if (right === undefined || wrong === undefined)
      return mayBeAbsent(key, right ?? wrong, policies) ? [] : [{ key, field: null, silent: false }];
    return Object.keys(right).flatMap((field): Trace[] => {
      const [want, got] = [right[field] ?? null, wrong[field] ?? null];
      return want === got || isOpen(field, right, wrong, policies) ? [] : [{ key, field, silent: got === null }];
    });
  });
}

/** Whole issues that are not on the film may be stated; what is not delivered shows in other ways. */
function mayBeAbsent(key: string, shown: Shown | undefined, { absentIssues = 'either', targets = 'either' }: Partial<Policies>): boolean {
  const absentIssue = key.startsWith('document ') && shown?.['statement'] !== 'present' && absentIssues === 'either';
  const target = key.startsWith('target ') && targets === 'either';
  return absentIssue || target || key.startsWith('held ') || shown?.['statement'] === 'not-published';
}

function isOpen(field: string, right: Shown, wrong: Shown, { printedDate = 'required' }: Partial<Policies>): boolean {
  const [want, got] = [right[field] ?? null, wrong[field] ?? null];
  // of an issue that is not on the film a record says neither volume nor number
  if (OPEN_WHERE_NOT_GIVEN.includes(field)) return want === null || right['statement'] !== 'present';
  if (field === 'datePrinted') return printedDate !== 'never' && want === null && (got === right['date'] || got === wrong['date']);
  // nobody knows whether it was published: whatever is said of that is right
  return field === 'statement' && want === 'unknown' && got !== 'present';
}
