import type { FactName, FactRules, Profile } from '../../src/model/profile.js';
import type { WrittenFacts, WrittenIssue, WrittenPage, WrittenReturn } from '../../src/model/written-return.js';

/** Where something was left out: on one page, in one issue (all of its pages), everywhere. */
export type Reach = 'page' | 'issue' | 'everywhere';

/** A return that leaves a fact out, and how often it did. */
export interface Silenced {
  readonly what: string;
  readonly written: WrittenReturn;
  readonly times: number;
}

/** Policies about what is not on the film: they say nothing of a page or an issue that is there. */
const OF_ABSENCES: readonly (string | undefined)[] = ['absentPages', 'absentIssues'];

/** The facts of a part that the profile asks for, always or by a policy of the agreement. */
function asked(rules: FactRules, wish: 'must' | 'may'): FactName[] {
  return (Object.entries(rules) as [FactName, NonNullable<FactRules[FactName]>][])
    .filter(([, { movedBy }]) => !OF_ABSENCES.includes(movedBy))
    .filter(([, { needs, movedBy }]) =>
      wish === 'must' ? needs === 'must' || movedBy !== undefined : needs !== 'must' && movedBy === undefined,
    )
    .map(([fact]) => fact);
}

/** Every way to leave a fact out of a return: each fact that the profile asks for (or each that it does not), on a page, in an issue, everywhere. */
export function silenced(written: WrittenReturn, profile: Profile, wish: 'must' | 'may'): readonly Silenced[] {
  const pages = asked(profile.facts.page, wish).flatMap((fact) =>
    (['page', 'issue', 'everywhere'] as const).map((reach) => withoutPageFact(written, fact, reach)),
  );
  const issues = asked(profile.facts.issue, wish).flatMap((fact) =>
    (['issue', 'everywhere'] as const).map((reach) => withoutIssueFact(written, fact, reach)),
  );
  return [...pages, ...issues].filter(({ times }) => times > 0);
}

function without(facts: WrittenFacts, fact: FactName): WrittenFacts {
  return Object.fromEntries(Object.entries(facts).filter(([name]) => name !== fact));
}

/** The middle one of those that have it. */
function middle<T>(list: readonly T[]): T | undefined {
  return list[Math.floor(list.length / 2)];
}

/** Pages that are there: what is said of a page that is not on the film is another matter. */
const isThere = (page: WrittenPage): boolean => page.facts.frame !== undefined;

function withoutPageFact(written: WrittenReturn, fact: FactName, reach: Reach): Silenced {
  const having = (page: WrittenPage): boolean => isThere(page) && page.facts[fact] !== undefined;
  const chosen = middle(written.issues.flatMap(({ pages }) => pages).filter(having));
  let times = 0;
  const issues = written.issues.map((issue): WrittenIssue => {
    const mine = reach === 'everywhere' || (chosen !== undefined && issue.pages.includes(chosen));
    const pages = issue.pages.map((page) => {
      if (!mine || !having(page) || (reach === 'page' && page !== chosen)) return page;
      times += 1;
      return { ...page, facts: without(page.facts, fact) };
    });
    return { ...issue, pages };
  });
  return { what: `${fact} of the pages, ${reach}`, written: { ...written, issues }, times };
}

function withoutIssueFact(written: WrittenReturn, fact: FactName, reach: Exclude<Reach, 'page'>): Silenced {
  const having = ({ facts, pages }: WrittenIssue): boolean => facts[fact] !== undefined && pages.some(isThere);
  const chosen = middle(written.issues.filter(having));
  let times = 0;
  const issues = written.issues.map((issue) => {
    if (!having(issue) || (reach === 'issue' && issue !== chosen)) return issue;
    times += 1;
    return { ...issue, facts: without(issue.facts, fact) };
  });
  return { what: `${fact} of the issues, ${reach}`, written: { ...written, issues }, times };
}
