import { documentFault, wholeIssue } from './document-fault.js';
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
  VENDOR_DATA,
} from './scene.js';
import { alone, neighbours } from './sites.js';

/** What goes wrong with titles, editions and numbers, and with where one issue ends. */
export const IDENTITY_FAULTS: readonly Fault[] = [
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
