import type { Policies } from '../../model/agreement.js';
import type { AbsentEntry } from '../../model/collation-record.js';
import { inSeries } from '../../normalise/in-series.js';
import { titleId } from '../../normalise/labels.js';
import { grouped, inDoubt, issuesOn, type Placed, pagesInWords, type ReelView, titleInWords } from './view.js';

type Published = 'yes' | 'no' | 'unknown';

const WORDS: Readonly<Record<Published, string>> = {
  yes: 'wanting',
  no: 'not published',
  unknown: 'not known whether published',
};

/** Pages and issues that are not on the film. */
export function absences(view: ReelView): readonly Placed[] {
  const only = view.record.titles.length === 1 ? (view.record.titles[0]?.id ?? null) : null;
  const entries = (view.reel.absent ?? []).map((entry) => ({
    entry,
    title: titleId(entry.title ?? only ?? ''),
    published: entry.published ?? ('unknown' as const),
  }));
  const isPage = ({ entry }: { readonly entry: AbsentEntry }): boolean => entry.page !== undefined || entry.order !== undefined;
  const pages = grouped(entries.filter(isPage), ({ entry, title, published }) =>
    JSON.stringify([title, entry.date, entry.edition ?? 1, published]),
  );
  const issues = grouped(
    entries.filter((one) => !isPage(one)),
    ({ title, published }) => JSON.stringify([title, published]),
  );
  return [
    ...issues.map(([, list]): Placed => {
      const [first] = list;
      const published = first?.published ?? 'unknown';
      const days = list.map(({ entry }) => daysInWords(entry));
      const one = list.length === 1 && first?.entry.dateTo === undefined;
      const name = view.record.titles.length > 1 && !one ? ` of ${titleInWords(view, first?.title ?? null)}` : '';
      const what = `the ${one ? 'issue' : 'issues'}${name} of ${inSeries(days)} ${one ? 'is' : 'are'} not on the film`;
      return placed(
        view,
        one ? laterThan(view, first?.title ?? null, first?.entry.date ?? '') : -1,
        first?.title ?? null,
        one ? (first?.entry ?? null) : null,
        `${what} (${WORDS[published]}): ${stated(view.policies.absentIssues, published, one)}.`,
      );
    }),
    ...pages.map(([, list]): Placed => {
      const [first] = list;
      const published = first?.published ?? 'unknown';
      const one = list.length === 1;
      const names = pagesInWords(list.map(({ entry }) => entry.page ?? (entry.order === undefined ? undefined : String(entry.order))));
      const says = `${names} of ${first?.entry.date ?? ''} ${one ? 'is' : 'are'} not on the film (${WORDS[published]}): ${stated(view.policies.absentPages, published, one)}.`;
      return placed(view, placeOf(view, first?.title ?? null, first?.entry), first?.title ?? null, first?.entry ?? null, says);
    }),
  ];
}

function daysInWords({ date, dateTo, combinedWith }: AbsentEntry): string {
  if (combinedWith !== undefined) return `${date} and ${combinedWith} (one issue)`;
  return dateTo === undefined ? date : `${date} to ${dateTo}`;
}

/** What is to be done with it by the agreement. */
function stated(policy: Policies['absentPages'], published: Published, one: boolean): string {
  const it = one ? 'it' : 'them';
  if (policy === 'omitted') return `do not name ${it} in the return`;
  if (policy === 'either' || published === 'no') return `${one ? 'it need' : 'they need'} not be named`;
  return published === 'yes' ? `name ${it} as missing and published` : `name ${it} as missing, publication unknown`;
}

function placeOf(view: ReelView, title: string | null, entry: AbsentEntry | undefined): number {
  const found = issuesOn(view).find(
    ({ issue }) => issue.title === title && issue.date?.text === entry?.date && (issue.edition ?? 1) === (entry?.edition ?? 1),
  );
  return found?.own[0]?.at ?? -1;
}

/** Where the issue would lie: before the first one of its title that is later. */
function laterThan(view: ReelView, title: string | null, date: string): number {
  const found = issuesOn(view).find(({ issue }) => issue.title === title && (issue.date?.day ?? '') > date);
  return found?.own[0]?.at ?? view.shots.length;
}

function placed(view: ReelView, at: number, title: string | null, entry: AbsentEntry | null, says: string): Placed {
  const issue = issuesOn(view).find((one) => entry !== null && one.issue.title === title && one.issue.date?.text === entry.date);
  const day = entry?.date ?? '';
  // Of one issue alone: a line on many days is not wrong because one of them is in doubt.
  const between = view.doubts.some(
    ({ facts, days }) => facts.includes('absences') && days?.title === title && days.after < day && day < days.before,
  );
  return {
    at,
    instruction: {
      kind: 'not on the film',
      frames: null,
      title,
      date: entry?.date ?? null,
      edition: entry === null ? null : (entry.edition ?? 1),
      says,
      open: between || inDoubt(view, 'not on the film', issue?.own ?? []),
    },
  };
}
