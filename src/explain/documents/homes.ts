import { deliveredPages, pageReadingAt, returnReadingAt, sheetsOf } from '../facts/page-surroundings.js';
import { breaksOfIssues, type IssueReading, type Rule } from '../facts/regular.js';
import { breaksOfPages } from '../facts/regular-pages.js';
import { judged, type Testimony } from '../facts/sides.js';
import { issuesOnFilm } from '../film/witnesses.js';
import { recordFrame, recordIssueOf, returnIssueOf, type Scene } from '../scene.js';

/**
 * Which side parted pages wrongly into issues: with the record's issues and with the return's documents, how the pages count, how many sheets they
 * make, and how the numbers of the issues run on.
 */
export function homesTestimony(scene: Scene, issues: readonly number[], documents: readonly number[]): Testimony {
  const own = issues.flatMap((issue) => {
    const pages = deliveredPages(scene, issue).flatMap(({ ref }) => pageReadingAt(scene, ref) ?? []);
    return breaksOfPages(pages, { ...sheetsOf(scene, issue), last: null, next: null });
  });
  const given = documents.flatMap((document) => {
    const refs = (scene.pairsOfReturnIssue.get(document) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    const inside = [...new Set(refs.flatMap((ref) => recordFrame(scene, ref)?.issue ?? []))];
    const [first] = inside;
    if (first === undefined) return [];
    // what is wanting of an issue is wanting where its first page lies
    const begun = inside.filter(
      (issue) => deliveredPages(scene, issue)[0]?.ref === refs.find((ref) => recordFrame(scene, ref)?.issue === issue),
    );
    const sheets = sheetsOf(scene, first);
    const wanting = begun.reduce((sum, issue) => sum + (sheetsOf(scene, issue).wanting ?? 0), 0);
    const pages = refs.flatMap((ref) => returnReadingAt(scene, ref) ?? []);
    return breaksOfPages(pages, { ...sheets, wanting: sheets.wanting === null ? null : wanting, last: null, next: null });
  });
  const [mine, theirs] = issueLists(scene, issues, documents);
  return judged([...own, ...mine], [...given, ...theirs]);
}

/** Breaks among the issues of the titles concerned as the record has them, and with the return's documents in place of those in question. */
function issueLists(scene: Scene, issues: readonly number[], documents: readonly number[]): readonly [Rule[], Rule[]] {
  const titles = new Set(issues.map((issue) => recordIssueOf(scene, issue)?.title ?? null));
  const film = issuesOnFilm(scene).filter((at) => titles.has(recordIssueOf(scene, at)?.title ?? null));
  const at = film.findIndex((issue) => issues.includes(issue));
  if (at < 0) return [[], []];
  const place = (document: number): number => {
    const first = scene.pairsOfReturnIssue.get(document)?.[0];
    return first === undefined ? 0 : first.alignment * 1_000_000 + first.pair;
  };
  const inFilm = documents.toSorted((a, b) => place(a) - place(b));
  const near = film.slice(Math.max(0, at - 12), at + 13);
  const own = near.flatMap((issue) => recordIssueOf(scene, issue) ?? []);
  const given = near.flatMap((issue): IssueReading[] => {
    if (issue !== film[at]) return issues.includes(issue) ? [] : [recordIssueOf(scene, issue)].flatMap((one) => one ?? []);
    return inFilm.flatMap((document) => returnIssueOf(scene, document) ?? []);
  });
  const breaks = (list: readonly IssueReading[]): Rule[] => breaksOfIssues(scene, list, [], []);
  return [breaks(own), breaks(given)];
}
