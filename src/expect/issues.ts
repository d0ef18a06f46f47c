import type { Policies } from '../model/agreement.js';
import type { ExpectedFact, IssueFact, Reading, StatedFacts } from '../model/expected.js';
import type { DateReading, Issue, Side } from '../model/film.js';
import { asked, countReading, NO_STATEMENT, plainKey, plainReading, stated } from './fact.js';

/** What the right return says of each issue of the record as a whole. */
export function expectIssues(record: Side, policies: Policies, needs: StatedFacts): readonly Readonly<Record<IssueFact, ExpectedFact>>[] {
  const filmed = policies.editionOrder === 'filmed' ? filmedEditions(record) : null;
  return record.issues.map((issue, at) => {
    const edition = filmed?.get(issue.apartFrom ?? at) ?? issue.edition ?? 1;
    return {
      title: asked(issue.title === null ? NO_STATEMENT : stated('must', { key: issue.title, text: issue.title }), needs.title),
      date: asked(dateOf(issue), needs.date),
      datePrinted: asked(printedOf(issue, policies), needs.datePrinted),
      edition: asked(stated('must', countReading(edition)), needs.edition),
      editionLabel: asked(where(issue.editionLabel), needs.editionLabel),
      volume: asked(where(issue.volume), needs.volume),
      issueNumber: asked(where(issue.issueNumber), needs.issueNumber),
    };
  });
}

function bothDays(first: string, second: string | undefined): string {
  return second === undefined ? first : `${first}/${second}`;
}

/** A date as it is compared: its certain day, or both where it gives two, else its words. */
export function dateReading(date: DateReading | null): Reading | null {
  if (date === null) return null;
  return { key: date.day === null ? plainKey(date.text) : bothDays(date.day, date.second), text: date.text };
}

function where(text: string | null): ExpectedFact {
  return text === null ? NO_STATEMENT : stated('must', plainReading(text));
}

/** A date that the record itself calls uncertain is never compared as if it were certain, but some date must be given. A combined issue must give its first day and may give both. */
function dateOf({ date, combinedWith }: Issue): ExpectedFact {
  if (date === null) return NO_STATEMENT;
  if (date.uncertain) return { needs: 'must', right: [] };
  if (date.day === null || combinedWith === undefined) return stated('must', dateReading(date));
  const both = bothDays(date.day, combinedWith);
  return stated('must', dateReading(date), { key: both, text: both });
}

/** A printed date that only repeats the real one says nothing new: it may be given, and no other. */
function printedOf({ date, datePrinted }: Issue, policies: Policies): ExpectedFact {
  if (policies.printedDate === 'never') return stated('must-not');
  const [printed, real] = [dateReading(datePrinted), dateReading(date)];
  if (printed === null || printed.key === real?.key) return stated('may', real);
  return stated(policies.printedDate === 'required' ? 'must' : 'may', printed);
}

/** Each issue's place in film order among the editions of its title and day. */
function filmedEditions(record: Side): ReadonlyMap<number, number> {
  const places = new Map<number, number>();
  const counts = new Map<string, number>();
  for (const reel of record.reels) {
    for (const { issue } of reel.frames) {
      if (issue === null || places.has(issue)) continue;
      const { title, date, apartFrom } = record.issues[issue] ?? { title: null, date: null };
      if (apartFrom !== undefined) continue;
      // an uncertain day is no key: nobody knows whether two such issues are editions of one day
      if (date?.day == null) continue;
      const day = JSON.stringify([title, date.day]);
      const place = (counts.get(day) ?? 0) + 1;
      counts.set(day, place);
      places.set(issue, place);
    }
  }
  return places;
}
