import { isDay } from '../../calendar/civil.js';
import type { Reading } from '../../model/expected.js';
import type { DateReading } from '../../model/film.js';
import { issuesOnFilm } from '../film/witnesses.js';
import type { Scene } from '../scene.js';
import type { FactEdit } from './lift.js';
import { breaksOfIssues, cheaper, type IssueReading, type Rule } from './regular.js';
import { statementsOf } from './statements.js';

/** Readings of one fact that came otherwise, at some places. */
export type Readings = Pick<FactEdit, 'fact' | 'places'>;

/** What the return says of issues of the record, by fact. */
type Given = ReadonlyMap<number, ReadonlyMap<string, Reading | null>>;

/**
 * Breaks among the issues of the titles concerned, with the record's readings and with the return's. What else differs of the same facts near
 * them is read on either side as it fits best: whoever is wrong here need not be wrong there.
 */
export function issueBreaks(scene: Scene, changes: readonly Readings[]): readonly [Rule[], Rule[]] {
  const here = givenAt(changes);
  const all = givenAt(
    changes.map(({ fact }) => ({ fact, places: statementsOf(scene, fact).filter(({ differs }) => differs !== null) })),
    changes,
  );
  const elsewhere: Given = new Map([...all].filter(([issue]) => !here.has(issue)));
  const breaks = breaksNear(scene, changes, here);
  const noted = notedOf(scene, here);
  return [cheaper(breaks(new Map()), breaks(elsewhere)), [...cheaper(breaks(here), breaks(new Map([...elsewhere, ...here]))), ...noted]];
}

function givenAt(...lists: readonly (readonly Readings[])[]): Given {
  const given = new Map<number, Map<string, Reading | null>>();
  for (const { fact, places } of lists.flat())
    for (const { issue, differs } of places) {
      if (issue === null) continue;
      const facts = given.get(issue) ?? new Map<string, Reading | null>();
      given.set(issue, facts.set(fact, differs?.given ?? null));
    }
  return given;
}

/** Counts the breaks among the issues near those in question, with what the return says of some of them put in place. */
function breaksNear(scene: Scene, changes: readonly Readings[], here: Given): (given: Given) => Rule[] {
  const ofTitle = changes.some(({ fact }) => fact === 'title');
  const titles = new Set(changes.flatMap(({ places }) => places.map(({ title }) => title)));
  const film = issuesOnFilm(scene).filter((at) => ofTitle || titles.has(scene.record.issues[at]?.title ?? null));
  const near = ofTitle ? film : around(film, here);
  // a title is known that the record describes; one that it only uses may be a slip
  const known = scene.record.titles.filter(({ id, name }) => name !== id).map(({ id }) => id);
  const there = ofTitle ? known.filter((id) => film.some((at) => scene.record.issues[at]?.title === id)) : [];
  return (given) => {
    const readings = near.flatMap((at): IssueReading[] => {
      const issue = scene.record.issues[at];
      if (issue === undefined) return [];
      const edition = scene.expected.issues[at]?.edition.right[0];
      const base: IssueReading = { ...issue, edition: edition === undefined ? issue.edition : Number(edition.key) };
      const facts = [...(given.get(at) ?? [])];
      // which number was meant where the paper has another nobody says but the record
      const numbered = here.get(at)?.has('issueNumber') === true && issue.issueNumberIntended !== null;
      const read = facts.reduce<IssueReading>((reading, [fact, other]) => substituted(reading, fact, other), base);
      return [numbered ? { ...read, issueNumber: null, issueNumberIntended: null } : read];
    });
    // an issue that goes to another title leaves its number out in its own
    return breaksOfIssues(scene, readings, there, known).filter((rule) => !ofTitle || rule !== 'skips');
  };
}

/** Where the return has put right, or has not seen, what the record notes as it stands on the paper. */
function notedOf(scene: Scene, given: Given): Rule[] {
  return [...given].flatMap(([at, facts]): Rule[] => {
    const issue = scene.record.issues[at];
    const meant = facts.has('issueNumber') ? (issue?.issueNumberIntended ?? null) : null;
    const printed = facts.has('date') ? (issue?.datePrinted ?? null) : null;
    return [
      ...(meant !== null && meant === facts.get('issueNumber')?.text ? (['as-printed'] as const) : []),
      ...(printed !== null ? (['noted'] as const) : []),
      ...(printed?.day != null && facts.get('date')?.key.slice(0, 10) === printed.day ? (['printed'] as const) : []),
    ];
  });
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
    default:
      return { ...issue, [fact]: text };
  }
}

function dateOf({ key, text }: Reading): DateReading {
  const day = key.slice(0, 10);
  return { text, day: isDay(day) ? day : null, uncertain: false };
}
