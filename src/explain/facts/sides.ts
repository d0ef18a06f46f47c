import { isDay } from '../../calendar/civil.js';
import type { DateReading, Frame, Issue } from '../../model/film.js';
import type { Cause } from '../../model/findings.js';
import { groupBy } from '../runs.js';
import { recordFrame, returnFrame, type Scene } from '../scene.js';
import type { FactEdit } from './lift.js';
import { breaksOfIssues, breaksOfPages, type IssueReading, type PageReading, RULES, type Rule } from './regular.js';
import { isOfIssue, type Statement } from './statements.js';

/** Which side is likelier wrong, and the sentences that speak for it. */
export interface Testimony {
  readonly cause: Cause;
  readonly evidence: readonly string[];
}

/** By so much the readings of one side must be more regular than the other's to speak against the other. */
const TELLING = 3;

/**
 * Weighs the two readings of a fact by what they do to the record's own regularity: with its own, and with the return's in their place. What is
 * left out in the return, or given though nothing must, is the return's. Where regularity cannot tell, the film must.
 */
export function testimony(scene: Scene, edit: FactEdit): Testimony {
  if (edit.change.kind === 'missing' || edit.change.kind === 'surplus') return { cause: 'vendor-metadata', evidence: [] };
  const [own, given] = isOfIssue(edit.fact) ? issueBreaks(scene, edit) : pageBreaks(scene, edit);
  const evidence: string[] = [];
  let against = 0;
  for (const rule of Object.keys(RULES) as Rule[]) {
    const [mine, theirs] = [own, given].map((list) => list.filter((one) => one === rule).length);
    const balance = (mine ?? 0) - (theirs ?? 0);
    if (balance === 0) continue;
    against += balance * RULES[rule].cost;
    evidence.push(`${capital(RULES[rule].says)}: ${times(mine ?? 0)} with the record's reading, ${times(theirs ?? 0)} with the return's.`);
  }
  return { cause: against >= TELLING ? 'collation' : against <= -TELLING ? 'vendor-metadata' : 'unclear', evidence };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function times(count: number): string {
  return count === 0 ? 'not broken' : count === 1 ? 'broken once' : `broken ${String(count)} times`;
}

/** Breaks among the issues of the titles concerned, with the record's readings and with the return's. */
function issueBreaks(scene: Scene, { fact, places }: FactEdit): readonly [Rule[], Rule[]] {
  const given = new Map(places.flatMap(({ issue, differs }) => (issue === null ? [] : [[issue, differs?.given ?? null] as const])));
  const titles = new Set(places.map(({ title }) => title));
  const film = issuesOnFilm(scene).filter((at) => fact === 'title' || titles.has(scene.record.issues[at]?.title ?? null));
  const near = fact === 'title' ? film : around(film, given);
  const readings = (instead: boolean): IssueReading[] =>
    near.flatMap((at): IssueReading[] => {
      const issue = scene.record.issues[at];
      if (issue === undefined) return [];
      const edition = scene.expected.issues[at]?.edition.right[0];
      const base = { ...issue, edition: edition === undefined ? issue.edition : Number(edition.key) };
      const reading = given.get(at);
      return [instead && reading !== undefined ? substituted(base, fact, reading) : base];
    });
  const known = [...new Set(near.map((at) => scene.record.issues[at]?.title ?? null))];
  const noted = [...given.keys()].filter((at) => fact === 'date' && scene.record.issues[at]?.datePrinted != null);
  const repaired = [...given].filter(([at, reading]) => {
    const meant = fact === 'issueNumber' ? scene.record.issues[at]?.issueNumberIntended : null;
    return meant != null && meant === reading?.text;
  });
  return [
    breaksOfIssues(scene, readings(false), known),
    [...breaksOfIssues(scene, readings(true), known), ...repaired.map((): Rule => 'printed'), ...noted.map((): Rule => 'noted')],
  ];
}

/** The issues in question and their neighbours on the film, a dozen on either side: farther ones say no more. */
function around(film: readonly number[], given: ReadonlyMap<number, unknown>): readonly number[] {
  const places = film.flatMap((at, index) => (given.has(at) ? [index] : []));
  const [first, last] = [places[0] ?? 0, places.at(-1) ?? 0];
  return film.slice(Math.max(0, first - 12), last + 13);
}

function substituted(issue: Issue, fact: string, reading: { readonly key: string; readonly text: string } | null): IssueReading {
  const text = reading?.text ?? null;
  const number = reading === null ? null : Number(reading.key);
  switch (fact) {
    case 'date':
      return { ...issue, date: reading === null ? null : dateOf(reading) };
    case 'edition':
      return { ...issue, edition: number !== null && Number.isInteger(number) ? number : null };
    case 'issueNumber':
      // a slip of the paper that the record notes is not mended by the number that was meant
      return { ...issue, issueNumber: text };
    default:
      return { ...issue, [fact]: text };
  }
}

function dateOf({ key, text }: { readonly key: string; readonly text: string }): DateReading {
  const day = key.slice(0, 10);
  return { text, day: isDay(day) ? day : null, uncertain: false };
}

const orders = new WeakMap<Scene, readonly number[]>();

/** The record's issues in the order in which they lie on the film, without retakes spliced in elsewhere. */
export function issuesOnFilm(scene: Scene): readonly number[] {
  let order = orders.get(scene);
  if (order === undefined) {
    const seen = new Set<number>();
    for (const reel of scene.record.reels)
      for (const { issue, deliver, retakeOf } of reel.frames) if (issue !== null && deliver && retakeOf === null) seen.add(issue);
    orders.set(scene, (order = [...seen]));
  }
  return order;
}

/** Breaks among the pages of the issues concerned. */
function pageBreaks(scene: Scene, { fact, places }: FactEdit): readonly [Rule[], Rule[]] {
  const own: Rule[] = [];
  const given: Rule[] = [];
  for (const [issue, list] of groupBy(places, (place) => place.issue)) {
    if (issue === null) continue;
    const wrong = new Map(
      list.flatMap((place) => place.refs.map((ref) => [`${String(ref.alignment)}:${String(ref.pair)}`, place] as const)),
    );
    const pages = (scene.pairsOfRecordIssue.get(issue) ?? []).flatMap((ref) => {
      const frame = recordFrame(scene, ref);
      return frame?.deliver === true ? [{ ref, frame, came: returnFrame(scene, ref) !== undefined }] : [];
    });
    own.push(...breaksOfPages(pages.map(({ frame }) => pageReading(frame))));
    const repaired =
      fact !== 'page'
        ? []
        : pages.filter(({ frame, ref }) => {
            const reading = wrong.get(`${String(ref.alignment)}:${String(ref.pair)}`)?.differs?.given ?? null;
            return frame.pagePrinted !== null && reading !== null && reading.key === frame.pageKey;
          });
    given.push(
      ...repaired.map((): Rule => 'printed'),
      ...breaksOfPages(
        pages.map(({ frame, ref }) => {
          const place = wrong.get(`${String(ref.alignment)}:${String(ref.pair)}`);
          return place === undefined ? pageReading(frame) : pageWith(frame, fact, place);
        }),
      ),
    );
  }
  return [own, given];
}

function pageReading(frame: Frame): PageReading {
  const noted = frame.pagePrinted !== null;
  return {
    section: frame.section,
    order: frame.order,
    pagePrinted: frame.pagePrinted,
    supplement: frame.supplement,
    label: frame.pageKey,
    noted,
  };
}

function pageWith(frame: Frame, fact: string, { differs }: Statement): PageReading {
  const base = pageReading(frame);
  const text = differs?.given?.key ?? null;
  if (fact === 'order') return { ...base, order: text === null ? null : Number(text) };
  if (fact === 'section') return { ...base, section: text };
  // the label that was meant, where the record notes another on the paper, was put right against the paper
  return { ...base, label: text, noted: false };
}
