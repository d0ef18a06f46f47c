import { isDay, plusDays, weekdayOf } from '../days.js';
import type { Film } from '../film.js';
import type { PlanIssue } from '../plan.js';
import {
  addDocument,
  captureOfPicture,
  capturesOf,
  documentOf,
  type Fault,
  issueAt,
  issueSite,
  locate,
  type Outcome,
  ordinaryIssues,
  pagesOf,
  removeDocument,
  type Scene,
  type Site,
  VENDOR_DATA,
} from './scene.js';
import { issueRuns } from './sequence.js';

/** One wrong fact of one document; the frames are the delivered pages of the issue. */
function documentFault(
  kind: string,
  code: string,
  says: string,
  fits: (scene: Scene, issue: number) => boolean,
  change: (document: PlanIssue, film: Film, issue: number) => void,
): Fault {
  return {
    kind,
    codes: [code],
    says,
    sites: (scene) => ordinaryIssues(scene).flatMap((issue) => (fits(scene, issue) ? [issueSite(scene.film, issue)] : [])),
    plant: (scene, site) => {
      change(documentOf(scene.plan, site.key).document, scene.film, site.key);
      return [wholeIssue(scene, site.key, code)];
    },
  };
}

function wholeIssue(scene: Scene, issue: number, code: string): Outcome {
  return { code, causes: VENDOR_DATA, pictures: pagesOf(scene.film, issue).map((shot) => shot.picture), issue };
}

/** True when the day has one issue of the title only, and no other stands on `other`. */
function alone(film: Film, index: number, other: string): boolean {
  const mine = issueAt(film, index);
  const same = film.issues.filter((issue) => issue.title === mine.title);
  return same.filter((issue) => issue.date === mine.date).length === 1 && !same.some((issue) => issue.date === other) && isDay(other);
}

/** The date with its year misread in one digit. */
function misreadYear(date: string): string {
  const swaps: Readonly<Record<string, string>> = {
    '0': '6',
    '1': '7',
    '2': '8',
    '3': '8',
    '4': '1',
    '5': '3',
    '6': '5',
    '7': '1',
    '8': '3',
    '9': '4',
  };
  return `${date.slice(0, 3)}${swaps[date.charAt(3)] ?? '0'}${date.slice(4)}`;
}

/** Another year with the same weekday: the misreading that no weekday betrays. Empty where 3/8 and 1/7 give none. */
function blindYear(date: string): string {
  const options = [misreadYear(date), `${date.slice(0, 2)}${date.charAt(2) === '8' ? '3' : '8'}${date.slice(3)}`];
  return options.find((each) => isDay(each) && each !== date && weekdayOf(each) === weekdayOf(date)) ?? '';
}

/** Issues in order of publication that follow each other on film, with whole pages and one edition a day. */
function neighbours(scene: Scene, length: number): Site[] {
  return issueRuns(scene, length).filter((site) =>
    site.issues.every((issue) => issueAt(scene.film, issue).edition === 1 && alone(scene.film, issue, '1700-01-01')),
  );
}

/** What goes wrong with dates, editions, titles and where one issue ends. */
export const IDENTITY_FAULTS: readonly Fault[] = [
  documentFault(
    'year-misread',
    'date-differs',
    'One digit of the year was misread.',
    (scene, issue) => alone(scene.film, issue, misreadYear(issueAt(scene.film, issue).date)),
    (document) => {
      document.date = misreadYear(document.date);
    },
  ),
  documentFault(
    'year-misread-weekday-blind',
    'date-differs',
    'The year was misread as one in which the day falls on the same weekday.',
    (scene, issue) => alone(scene.film, issue, blindYear(issueAt(scene.film, issue).date)),
    (document) => {
      document.date = blindYear(document.date);
    },
  ),
  documentFault(
    'printed-date-believed',
    'date-differs',
    'The misprinted date on the paper was taken for the date of publication.',
    (scene, issue) => {
      const { datePrinted } = issueAt(scene.film, issue);
      return datePrinted !== null && alone(scene.film, issue, datePrinted);
    },
    (document) => {
      document.date = document.datePrinted ?? document.date;
      document.datePrinted = null;
    },
  ),
  documentFault(
    'taken-for-second-edition',
    'date-differs',
    'An issue that prints the date of the day before was taken for the second edition of that day.',
    (scene, issue) => {
      const { datePrinted, title, edition } = issueAt(scene.film, issue);
      return (
        edition === 1 &&
        datePrinted !== null &&
        scene.film.issues.filter((each) => each.title === title && each.date === datePrinted && each.status === 'on-film').length === 1
      );
    },
    (document) => {
      document.date = document.datePrinted ?? document.date;
      document.datePrinted = null;
      document.edition = 2;
    },
  ),
  documentFault(
    'off-day-corrected',
    'date-differs',
    'An issue that came out off its usual day was put on the usual day.',
    (scene, issue) => {
      const { date, title } = issueAt(scene.film, issue);
      const days = scene.film.titles.find((each) => each.id === title)?.patterns[0]?.days ?? [];
      return !days.includes(weekdayOf(date)) && alone(scene.film, issue, plusDays(date, 1));
    },
    (document) => {
      document.date = plusDays(document.date, 1);
    },
  ),
  {
    kind: 'date-stuck',
    codes: ['date-carried-over'],
    says: 'The date of one issue was kept for the three after it, counted as further editions.',
    sites: (scene) => neighbours(scene, 4),
    plant: (scene, site) => {
      const [first, ...rest] = site.issues;
      const { date } = documentOf(scene.plan, first ?? 0).document;
      rest.forEach((issue, i) => Object.assign(documentOf(scene.plan, issue).document, { date, edition: i + 2 }));
      const pictures = rest.flatMap((issue) => pagesOf(scene.film, issue).map((shot) => shot.picture));
      return [{ code: 'date-carried-over', causes: VENDOR_DATA, pictures, issue: rest[0] ?? null }];
    },
  },
  {
    kind: 'dates-one-late',
    codes: ['date-carried-over'],
    says: 'Over a run every issue has the date of the issue before it.',
    sites: (scene) => neighbours(scene, 4),
    plant: (scene, site) => {
      const dates = site.issues.map((issue) => documentOf(scene.plan, issue).document.date);
      const rest = site.issues.slice(1);
      rest.forEach((issue, i) => Object.assign(documentOf(scene.plan, issue).document, { date: dates[i], edition: i === 0 ? 2 : 1 }));
      const pictures = rest.flatMap((issue) => pagesOf(scene.film, issue).map((shot) => shot.picture));
      return [{ code: 'date-carried-over', causes: VENDOR_DATA, pictures, issue: rest[0] ?? null }];
    },
  },
  {
    kind: 'editions-merged',
    codes: ['issues-merged'],
    says: 'Two editions of one day were delivered as one issue.',
    sites: (scene) =>
      ordinaryIssues(scene, 2).flatMap((issue) => {
        const { edition, title, date } = issueAt(scene.film, issue);
        const other = scene.film.issues.findIndex((each) => each.title === title && each.date === date && each.edition === 1);
        return edition === 2 && other >= 0 ? [issueSite(scene.film, issue, [other])] : [];
      }),
    plant: (scene, site) => {
      // The document keeps the facts of the edition that comes first on the film.
      const start = (issue: number): number => Math.min(...pagesOf(scene.film, issue).map((shot) => shot.picture));
      const [into, from] = [...site.issues].sort((a, b) => start(a) - start(b));
      return merge(scene, into ?? 0, from ?? 0);
    },
  },
  {
    kind: 'issues-merged',
    codes: ['issues-merged'],
    says: 'Two issues in a row were delivered as one.',
    sites: (scene) => neighbours(scene, 2).map((site) => ({ ...site, key: site.issues[1] ?? 0 })),
    plant: (scene, site) => merge(scene, site.issues[0] ?? 0, site.key),
  },
  {
    kind: 'issue-split',
    codes: ['issue-split'],
    says: 'One issue was delivered as two editions of the day, half of the pages each.',
    sites: (scene) =>
      ordinaryIssues(scene, 4).flatMap((issue) =>
        alone(scene.film, issue, '1700-01-01') && issueAt(scene.film, issue).wanting.length === 0 ? [issueSite(scene.film, issue)] : [],
      ),
    plant: (scene, site) => {
      const { document, index } = documentOf(scene.plan, site.key);
      const pages = capturesOf(scene.plan, index);
      const second = pages.slice(Math.ceil(pages.length / 2));
      const extra = addDocument(scene.plan, { ...structuredClone(document), edition: document.edition + 1, source: null, absent: [] });
      second.forEach((capture, i) => Object.assign(capture, { issue: extra, order: i + 1 }));
      return [{ code: 'issue-split', causes: VENDOR_DATA, pictures: second.map((capture) => capture.picture), issue: site.key }];
    },
  },
  {
    kind: 'boundary-late',
    codes: ['issue-boundary-moved'],
    says: 'The last page of one issue was given to the next one as its first.',
    sites: (scene) =>
      neighbours(scene, 2).flatMap((site) => {
        const [a, b] = [site.issues[0] ?? 0, site.issues[1] ?? 0];
        const last = pagesOf(scene.film, a).at(-1);
        const first = pagesOf(scene.film, b)[0];
        if (last === undefined || first === undefined || pagesOf(scene.film, a).length < 3) return [];
        const [x, y] = [locate(scene.film, last.picture), locate(scene.film, first.picture)];
        return x.reel === y.reel && y.index > x.index && issueAt(scene.film, b).wanting.length === 0
          ? [{ ...site, key: last.picture }]
          : [];
      }),
    plant: (scene, site) => {
      const capture = captureOfPicture(scene.plan, site.key);
      const { index } = documentOf(scene.plan, site.issues[1] ?? 0);
      for (const each of capturesOf(scene.plan, index)) each.order = (each.order ?? 0) + 1;
      Object.assign(capture, { issue: index, order: 1 });
      return [{ code: 'issue-boundary-moved', causes: VENDOR_DATA, pictures: [site.key], issue: site.issues[0] ?? null }];
    },
  },
  {
    kind: 'title-mistyped',
    codes: ['title-differs'],
    says: 'One issue carries a title number that is wrong in one digit.',
    sites: (scene) => ordinaryIssues(scene).map((issue) => issueSite(scene.film, issue)),
    plant: (scene, site) => {
      const { document } = documentOf(scene.plan, site.key);
      document.title = otherId(document.title);
      return [wholeIssue(scene, site.key, 'title-differs')];
    },
  },
  {
    kind: 'title-kept',
    codes: ['title-differs'],
    says: 'After the change of title on the reel the old title was kept for the first issues of the new one.',
    sites: (scene) =>
      neighbours(scene, 2).filter((site) => {
        const { title } = issueAt(scene.film, site.issues[0] ?? 0);
        const first = scene.film.issues.find((issue) => issue.title === title && issue.status === 'on-film');
        const dates = site.issues.map((issue) => issueAt(scene.film, issue).date);
        const free = !scene.film.issues.some((issue) => issue.title === scene.film.titles[0]?.id && dates.includes(issue.date));
        return (
          scene.film.titles.length > 1 && title !== scene.film.titles[0]?.id && first === issueAt(scene.film, site.issues[0] ?? 0) && free
        );
      }),
    plant: (scene, site) => {
      for (const issue of site.issues) documentOf(scene.plan, issue).document.title = scene.film.titles[0]?.id ?? '';
      const pictures = site.issues.flatMap((issue) => pagesOf(scene.film, issue).map((shot) => shot.picture));
      return [{ code: 'title-differs', causes: VENDOR_DATA, pictures, issue: site.issues[0] ?? null }];
    },
  },
  documentFault(
    'edition-wrong',
    'edition-differs',
    'The only issue of the day is called its second edition.',
    (scene, issue) => alone(scene.film, issue, '1700-01-01'),
    (document) => {
      document.edition += 1;
    },
  ),
  {
    kind: 'editions-swapped',
    codes: ['editions-swapped'],
    says: "The two editions of a day carry each other's number, as they were filmed.",
    sites: (scene) =>
      ordinaryIssues(scene).flatMap((issue) => {
        const { edition, title, date } = issueAt(scene.film, issue);
        const other = scene.film.issues.findIndex((each) => each.title === title && each.date === date && each.edition === 2);
        return edition === 1 && other >= 0 ? [issueSite(scene.film, issue, [other])] : [];
      }),
    plant: (scene, site) => {
      const [a, b] = site.issues.map((issue) => documentOf(scene.plan, issue).document);
      if (a === undefined || b === undefined) return [];
      [a.edition, b.edition] = [b.edition, a.edition];
      const pictures = site.issues.flatMap((issue) => pagesOf(scene.film, issue).map((shot) => shot.picture));
      return [{ code: 'editions-swapped', causes: VENDOR_DATA, pictures, issue: site.key }];
    },
  },
  documentFault(
    'printed-date-lost',
    'printed-date-not-given',
    'The misprinted date on the paper was not given beside the true one.',
    (scene, issue) => issueAt(scene.film, issue).datePrinted !== null,
    (document) => {
      document.datePrinted = null;
    },
  ),
  documentFault(
    'printed-date-wrong',
    'printed-date-differs',
    'The date on the paper was copied with a wrong day.',
    (scene, issue) => isDay(issueAt(scene.film, issue).datePrinted ?? ''),
    (document) => {
      const wrong = plusDays(document.datePrinted ?? '', 2);
      document.datePrinted = wrong === document.date ? plusDays(wrong, 1) : wrong;
    },
  ),
  documentFault(
    'edition-label-wrong',
    'edition-label-differs',
    'The words of the edition are not those on the paper.',
    (scene, issue) => issueAt(scene.film, issue).editionLabel !== null,
    (document) => {
      document.editionLabel = 'Second';
    },
  ),
  documentFault(
    'volume-wrong',
    'volume-differs',
    'The volume was misread.',
    (scene, issue) => issueAt(scene.film, issue).volume !== null,
    (document) => {
      document.volume = String(Number(document.volume) + 1);
    },
  ),
  documentFault(
    'issue-number-wrong',
    'issue-number-differs',
    'The number of the issue was misread.',
    (scene, issue) => issueAt(scene.film, issue).issueNumber !== null && issueAt(scene.film, issue).issueNumberIntended === null,
    (document) => {
      document.issueNumber = String(Number(document.issueNumber) + 30);
    },
  ),
  documentFault(
    'issue-number-repaired',
    'issue-number-differs',
    'A misprinted number was put right instead of being copied.',
    (scene, issue) => issueAt(scene.film, issue).issueNumberIntended !== null,
    (document, film, issue) => {
      document.issueNumber = issueAt(film, issue).issueNumberIntended;
    },
  ),
];

/** Puts the pages of one issue behind those of another and drops its document. */
function merge(scene: Scene, into: number, from: number): Outcome[] {
  const { index } = documentOf(scene.plan, into);
  const source = documentOf(scene.plan, from).index;
  const target = scene.plan.issues[index];
  const before = Math.max(
    0,
    ...capturesOf(scene.plan, index).map((capture) => capture.order ?? 0),
    ...(target?.absent ?? []).map((page) => page.order),
  );
  const pages = capturesOf(scene.plan, source);
  pages.forEach((capture) => Object.assign(capture, { issue: index, order: (capture.order ?? 0) + before }));
  for (const page of scene.plan.issues[source]?.absent ?? []) target?.absent.push({ ...page, order: page.order + before });
  removeDocument(scene.plan, source);
  return [{ code: 'issues-merged', causes: VENDOR_DATA, pictures: pages.map((capture) => capture.picture), issue: from }];
}

/** A title number that is wrong in its last digit. */
function otherId(id: string): string {
  return `${id.slice(0, -1)}${String((Number(id.slice(-1)) + 5) % 10)}`;
}
