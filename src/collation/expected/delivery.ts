import type { Policies } from '../../model/agreement.js';
import type { ExpectedFact, ExpectedFrame, ExpectedReturn } from '../../model/expected.js';
import type { DueAbsence, DueFilm, DueIssue, DuePage, ExpectedDelivery } from '../../model/expected-delivery.js';
import type { Frame, Issue, Side } from '../../model/film.js';
import type { LayoutName } from '../../model/profile.js';

/** A frame with what the right return shows of it, and the film to which the return gives it. */
interface Due {
  readonly frame: Frame;
  readonly expected: ExpectedFrame;
  readonly number: string;
  readonly reel: string;
  readonly where: string;
}

/** Lists what the right return holds in such a layout. What may be left out is left out. Pure. */
export function expectedDelivery(record: Side, expected: ExpectedReturn, policies: Policies, layout: LayoutName): ExpectedDelivery {
  const due = record.reels.flatMap((reel, r) =>
    reel.frames.flatMap((frame, at): readonly Due[] => {
      const right = expected.reels[r]?.frames[at];
      if (right === undefined) return [];
      const number = readingOf(right.facts.number) ?? frame.frame?.text ?? String(at + 1);
      const own = readingOf(right.facts.reel) ?? reel.text;
      return [{ frame, expected: right, number, reel: own, where: `reel ${reel.text}, frame ${frame.frame?.text ?? String(at + 1)}` }];
    }),
  );
  const delivered = due.filter((one) => one.expected.delivered === 'must');
  const issues = record.issues.flatMap((issue, index) => {
    const pages = delivered.filter(({ frame }) => frame.issue === index);
    return dueIssues(record, expected, index, issue, pages, layout);
  });
  const loose = delivered.filter(({ frame }) => frame.issue === null);
  // In folders of its own kind nothing lists a target but its place among the unmatched frames.
  const isHeldThere = (one: Due): boolean => policies.frameNumbers === 'unbroken' || one.expected.listed === 'must';
  const isUnmatched = (one: Due): boolean =>
    layout === 'page-mods' && (one.expected.delivered === 'must' ? one.frame.issue === null : isHeldThere(one));
  return {
    issues,
    films: films(record, due, isUnmatched, layout),
    placeless: layout === 'page-mods' ? [] : loose.map(({ where }) => where),
  };
}

/** An issue as its documents: one, or one on each film where the layout files them so. */
function dueIssues(
  record: Side,
  expected: ExpectedReturn,
  index: number,
  issue: Issue,
  pages: readonly Due[],
  layout: LayoutName,
): readonly DueIssue[] {
  const facts = expected.issues[index];
  const absences = record.absences.flatMap((absence, at) =>
    absence.issue === index && expected.absences[at]?.stated === 'must' ? [absence] : [],
  );
  const whole = absences.find(({ page, order }) => page === null && order === null) ?? null;
  const absent = absences
    .filter((one) => one !== whole)
    .map(({ section, page, order, published }): DueAbsence => ({ section, label: page, order, published }));
  if (facts === undefined || (pages.length === 0 && absences.length === 0)) return [];
  const carrier = record.reels.findIndex(({ number }) => number === absences[0]?.reel);
  const fallback = expected.reels[carrier]?.frames[0]?.facts.reel;
  const elsewhere = (fallback === undefined ? null : readingOf(fallback)) ?? record.reels[carrier]?.text ?? record.reels[0]?.text ?? '';
  const title = readingOf(facts.title);
  const shared = {
    title,
    titleName: record.titles.find(({ id }) => id === title)?.name ?? null,
    date: issue.date === null ? null : (readingOf(facts.date) ?? issue.date.text),
    isCertain: issue.date?.day != null,
    datePrinted: statedOf(facts.datePrinted),
    edition: Number(readingOf(facts.edition) ?? 1),
    editionLabel: statedOf(facts.editionLabel),
    volume: statedOf(facts.volume),
    issueNumber: statedOf(facts.issueNumber),
  };
  const films = [...new Set(pages.map(({ reel }) => reel))];
  const groups = layout === 'page-mods' && films.length > 1 ? films.map((film) => pages.filter(({ reel }) => reel === film)) : [pages];
  return groups.map((group, at) => ({
    ...shared,
    reel: group[0]?.reel ?? elsewhere,
    pages: group.map(duePage).toSorted((a, b) => (a.order ?? 0) - (b.order ?? 0)),
    absent: at === 0 ? absent : [],
    absentAsWhole: whole === null || pages.length > 0 ? null : whole.published,
  }));
}

function duePage({ expected, number, reel }: Due): DuePage {
  const { page, order, section } = expected.facts;
  const place = readingOf(order);
  return { frame: number, reel, section: statedOf(section), label: statedOf(page), order: place === null ? null : Number(place) };
}

/** The films by the number that the return gives them, in film order. */
function films(record: Side, due: readonly Due[], isUnmatched: (one: Due) => boolean, layout: LayoutName): readonly DueFilm[] {
  const numbers = [...new Set(due.map(({ reel }) => reel))];
  const first = record.titles[0]?.id ?? 'title';
  return numbers.map((number) => {
    const own = due.filter(({ reel }) => reel === number);
    const issue = own.find(({ frame }) => frame.issue !== null)?.frame.issue ?? null;
    return {
      number,
      title: (issue === null ? null : record.issues[issue]?.title) ?? first,
      targets: layout === 'page-mods' ? [] : own.filter(({ expected }) => expected.listed === 'must').map((one) => one.number),
      unmatched: own.filter(isUnmatched).map((one) => one.number),
    };
  });
}

/** The reading that is wanted, whether it must be stated or may. */
function readingOf({ right }: ExpectedFact): string | null {
  return right[0]?.text ?? null;
}

/** The reading of a fact that must be stated. */
function statedOf(fact: ExpectedFact): string | null {
  return fact.needs === 'must' ? readingOf(fact) : null;
}
