import { isDay, plusDays, weekdayOf } from '../film/days.js';
import { documentFault } from './document-fault.js';
import { documentOf, type Fault, issueAt, pagesOf, VENDOR_DATA } from './scene.js';
import { alone, neighbours } from './sites.js';

/** What goes wrong with the date of an issue and the date printed on it. */
export const DATE_FAULTS: readonly Fault[] = [
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
];

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
