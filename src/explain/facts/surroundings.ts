import { isDay } from '../../calendar/civil.js';
import type { PairRef } from '../../model/difference.js';
import type { Reading } from '../../model/expected.js';
import type { DateReading, Frame } from '../../model/film.js';
import { issuesOnFilm } from '../film/witnesses.js';
import { groupBy, pairKey } from '../runs.js';
import { recordFrame, type Scene } from '../scene.js';
import type { FactEdit } from './lift.js';
import { ALONE, type Beside, breaksOfIssues, breaksOfPages, type IssueReading, inWholes, type PageReading, type Rule } from './regular.js';
import type { Statement } from './statements.js';

/** Readings of one fact that came otherwise, at some places. */
export type Readings = Pick<FactEdit, 'fact' | 'places'>;

/** Breaks among the issues of the titles concerned, with the record's readings and with the return's. */
export function issueBreaks(scene: Scene, changes: readonly Readings[]): readonly [Rule[], Rule[]] {
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
      ...(facts.has('date') && issue?.datePrinted?.day != null && facts.get('date')?.key.slice(0, 10) === issue.datePrinted.day
        ? (['printed'] as const)
        : []),
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

function substituted(issue: IssueReading, fact: string, reading: Reading | null): IssueReading {
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

function dateOf({ key, text }: Reading): DateReading {
  const day = key.slice(0, 10);
  return { text, day: isDay(day) ? day : null, uncertain: false };
}

/** Breaks among the pages of the issues concerned. */
export function pageBreaks(scene: Scene, { fact, places }: Readings): readonly [Rule[], Rule[]] {
  const own: Rule[] = [];
  const given: Rule[] = [];
  for (const [issue, list] of groupBy(places, (place) => place.issue)) {
    if (issue === null) continue;
    const wrong = new Map(list.flatMap((place) => place.refs.map((ref) => [pairKey(ref), place] as const)));
    const pages = (scene.pairsOfRecordIssue.get(issue) ?? []).flatMap((ref) => {
      const frame = recordFrame(scene, ref);
      return frame?.deliver === true ? [{ ref, frame }] : [];
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
            const reading = wrong.get(pairKey(ref))?.differs?.given ?? null;
            return frame.pagePrinted !== null && reading !== null && reading.key === frame.pageKey;
          });
    given.push(
      ...repaired.map((): Rule => 'printed'),
      ...breaksOfPages(
        pages.map(({ frame, ref }) => {
          const place = wrong.get(pairKey(ref));
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
