import { isDay } from '../../calendar/civil.js';
import type { PairRef } from '../../model/difference.js';
import type { Reading } from '../../model/expected.js';
import type { DateReading, Frame } from '../../model/film.js';
import type { Cause } from '../../model/findings.js';
import { groupBy } from '../runs.js';
import { pairOf, recordFrame, recordReelOf, returnFrame, type Scene } from '../scene.js';
import type { FactEdit } from './lift.js';
import {
  ALONE,
  type Beside,
  breaksOfIssues,
  breaksOfNumbers,
  breaksOfPages,
  type IssueReading,
  inWholes,
  type PageReading,
  RULES,
  type Rule,
} from './regular.js';
import { isOfIssue, type Statement } from './statements.js';

/** Which side is likelier wrong, and the sentences that speak for it. */
export interface Testimony {
  readonly cause: Cause;
  readonly evidence: readonly string[];
}

/** By so much the return's readings must be more regular to speak against the record, and the record's to speak against the return. */
const AGAINST = 3;
const FOR = 2;

/** Readings of one fact that came otherwise, at some places. */
export type Readings = Pick<FactEdit, 'fact' | 'places'>;

/**
 * Weighs the two readings of a fact by what they do to the record's own regularity: with its own, and with the return's in their place. What is
 * left out in the return, or given though nothing must, is the return's, but for sections: they show in the labels. Where regularity cannot
 * tell, the film must.
 */
export function testimony(scene: Scene, edit: FactEdit): Testimony {
  const silent = edit.change.kind === 'missing' || edit.change.kind === 'surplus';
  if (silent && edit.fact !== 'section') return { cause: 'vendor-metadata', evidence: [] };
  const weighed = weigh(scene, [edit]);
  // silence is the return's where nothing speaks for it
  return edit.change.kind === 'missing' && weighed.cause === 'unclear' ? { cause: 'vendor-metadata', evidence: [] } : weighed;
}

/** Weighs the record's readings of facts against the return's. */
export function weigh(scene: Scene, readings: readonly Readings[]): Testimony {
  const ofIssues = readings.filter(({ fact }) => isOfIssue(fact));
  const ofPages = readings.filter(({ fact }) => !isOfIssue(fact));
  const sides = [...(ofIssues.length > 0 ? [issueBreaks(scene, ofIssues)] : []), ...ofPages.map((one) => pageBreaks(scene, one))];
  return judged(
    sides.flatMap(([own]) => own),
    sides.flatMap(([, given]) => given),
  );
}

/** The side that breaks more of what is regular. */
export function judged(own: readonly Rule[], given: readonly Rule[]): Testimony {
  const evidence: string[] = [];
  let against = 0;
  for (const rule of Object.keys(RULES) as Rule[]) {
    const [mine, theirs] = [own, given].map((list) => list.filter((one) => one === rule).length);
    const balance = (mine ?? 0) - (theirs ?? 0);
    if (balance === 0) continue;
    against += balance * RULES[rule].cost;
    evidence.push(`${capital(RULES[rule].says)}: ${times(mine ?? 0)} with the record's reading, ${times(theirs ?? 0)} with the return's.`);
  }
  return { cause: against >= AGAINST ? 'collation' : against <= -FOR ? 'vendor-metadata' : 'unclear', evidence };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function times(count: number): string {
  return count === 0 ? 'no break' : count === 1 ? 'one break' : `${String(count)} breaks`;
}

/** Breaks among the issues of the titles concerned, with the record's readings and with the return's. */
function issueBreaks(scene: Scene, changes: readonly Readings[]): readonly [Rule[], Rule[]] {
  const given = new Map<number, Map<string, Reading | null>>();
  for (const { fact, places } of changes)
    for (const { issue, differs } of places) {
      if (issue === null) continue;
      const facts = given.get(issue) ?? new Map<string, Reading | null>();
      given.set(issue, facts.set(fact, differs?.given ?? null));
    }
  const ofTitle = changes.some(({ fact }) => fact === 'title');
  const titles = new Set(changes.flatMap(({ places }) => places.map(({ title }) => title)));
  const film = issuesOnFilm(scene).filter((at) => ofTitle || titles.has(scene.record.issues[at]?.title ?? null));
  const near = ofTitle ? film : around(film, given);
  const readings = (instead: boolean): IssueReading[] =>
    near.flatMap((at): IssueReading[] => {
      const issue = scene.record.issues[at];
      if (issue === undefined) return [];
      const edition = scene.expected.issues[at]?.edition.right[0];
      const base = { ...issue, edition: edition === undefined ? issue.edition : Number(edition.key) };
      return [
        instead
          ? [...(given.get(at) ?? [])].reduce<IssueReading>((reading, [fact, other]) => substituted(reading, fact, other), base)
          : base,
      ];
    });
  // a title is known that the record describes; one that it only uses may be a slip
  const known = scene.record.titles.filter(({ id, name }) => name !== id).map(({ id }) => id);
  const there = known.filter((id) => film.some((at) => scene.record.issues[at]?.title === id));
  const noted = [...given].flatMap(([at, facts]): Rule[] => {
    const issue = scene.record.issues[at];
    const meant = facts.has('issueNumber') ? (issue?.issueNumberIntended ?? null) : null;
    return [
      ...(meant !== null && meant === facts.get('issueNumber')?.text ? (['printed'] as const) : []),
      ...(facts.has('date') && issue?.datePrinted != null ? (['noted'] as const) : []),
    ];
  });
  const titlesThere = ofTitle ? there : [];
  return [
    breaksOfIssues(scene, readings(false), titlesThere, known),
    [...breaksOfIssues(scene, readings(true), titlesThere, known), ...noted],
  ];
}

/** The issues in question and their neighbours on the film, a dozen on either side: farther ones say no more. */
function around(film: readonly number[], given: ReadonlyMap<number, unknown>): readonly number[] {
  const places = film.flatMap((at, index) => (given.has(at) ? [index] : []));
  const [first, last] = [places[0] ?? 0, places.at(-1) ?? 0];
  return film.slice(Math.max(0, first - 12), last + 13);
}

function substituted(issue: IssueReading, fact: string, reading: { readonly key: string; readonly text: string } | null): IssueReading {
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
function pageBreaks(scene: Scene, { fact, places }: Readings): readonly [Rule[], Rule[]] {
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
    const beside = labelsBeside(scene, issue);
    own.push(
      ...breaksOfPages(
        pages.map(({ frame }) => pageReading(frame)),
        beside,
      ),
    );
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
        beside,
      ),
    );
  }
  return [own, given];
}

/** A page to be delivered as the record reads it. */
export function pageReadingAt(scene: Scene, ref: PairRef): PageReading | null {
  const frame = recordFrame(scene, ref);
  return frame?.deliver === true ? pageReading(frame) : null;
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

const counted = new WeakMap<Scene, ReadonlyMap<number, Beside>>();

/** How the pages before and behind each issue on the film are numbered. */
function labelsBeside(scene: Scene, issue: number): Beside {
  let all = counted.get(scene);
  if (all === undefined) {
    const order = issuesOnFilm(scene);
    const labels = order.map((at) =>
      (scene.pairsOfRecordIssue.get(at) ?? []).flatMap((ref) => {
        const frame = recordFrame(scene, ref);
        const label = frame?.deliver === true && frame.section === null ? inWholes(frame.pageKey) : null;
        return label === null ? [] : [label];
      }),
    );
    // a volume that is paged through goes on where the issue before it ended
    const goesOn = (at: number): boolean => labels[at - 1]?.at(-1) !== undefined && labels[at]?.[0] === (labels[at - 1]?.at(-1) ?? 0) + 1;
    const through = order.filter((_, at) => goesOn(at)).length * 2 > order.length;
    all = new Map(
      order.map((one, at) => [
        one,
        { last: through ? (labels[at - 1]?.at(-1) ?? null) : null, next: through ? (labels[at + 1]?.[0] ?? null) : null, through },
      ]),
    );
    counted.set(scene, all);
  }
  return all.get(issue) ?? ALONE;
}

/** Weighs the record's numbers of some frames of a reel against the return's, by whether the numbers of the film run on. */
export function numbersTestimony(scene: Scene, refs: readonly PairRef[]): Testimony {
  const first = refs[0];
  const reel = first === undefined ? undefined : recordReelOf(scene, first);
  if (first === undefined || reel === undefined) return { cause: 'vendor-metadata', evidence: [] };
  const given = new Map(refs.map((ref) => [pairOf(scene, ref).record, returnFrame(scene, ref)?.frame ?? null] as const));
  const own = reel.frames.map(({ frame }) => frame);
  const theirs = own.map((number, at) => (given.has(at) ? (given.get(at) ?? null) : number));
  return judged(breaksOfNumbers(own), breaksOfNumbers(theirs));
}
