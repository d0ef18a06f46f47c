import type { PairRef } from '../../model/difference.js';
import type { DocumentProblem } from '../../model/film.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, type FindingDraft, framesInWords, inSeries, issueName, rangeOf } from '../draft.js';
import { issuesOnFilm } from '../film/witnesses.js';
import { idsOf } from '../runs.js';
import { differencesAt, factsOf, fieldOf, recordFrame, type Scene } from '../scene.js';

/** A document that did not come or cannot be read, with the issue that went with it. */
interface Gone {
  readonly issue: number;
  readonly problem: DocumentProblem;
  readonly refs: readonly PairRef[];
  readonly explains: readonly number[];
}

/** So many instructions are given one by one. */
const LISTED = 8;

/** Documents that are missing or cannot be read take their issues with them: these did not come for that reason alone. Those that follow one another went wrong together. */
export function lostDocuments(scene: Scene): Candidate[] {
  const gone = goneDocuments(scene);
  const groups = inRuns(scene, gone);
  return [...groups.filter((list) => list.length > 1), ...gone.map((one) => [one])].map((list) => candidate(toldOf(scene, list)));
}

function goneDocuments(scene: Scene): readonly Gone[] {
  return fieldOf(scene, 'document').flatMap((difference): Gone[] => {
    const problem = difference.problem === null ? undefined : scene.returned.problems[difference.problem];
    if (problem === undefined || (problem.code !== 'document-unreadable' && problem.code !== 'file-missing')) return [];
    const issue = issueOf(scene, problem);
    if (issue === null) return [];
    const refs = (scene.pairsOfRecordIssue.get(issue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    const lost = refs.flatMap((ref) => differencesAt(scene, ref, 'not-delivered', 'not-scanned'));
    const met = scene.meetings.filter((meeting) => meeting.recordIssue === issue);
    const facts = met.flatMap((meeting) => factsOf(scene, issue, meeting.returnIssue));
    // pages that came without their document are of an issue of which nothing is said
    const bare = met.some(({ returnIssue }) => scene.returned.issues[returnIssue]?.undescribed === true);
    const beside = fieldOf(scene, 'document').filter((other) => {
      const second = other.problem === null ? undefined : scene.returned.problems[other.problem];
      return other.id !== difference.id && second !== undefined && follows(second, problem);
    });
    const absences = fieldOf(scene, 'absence-missing').filter((one) => one.recordIssue === issue);
    if (lost.length + facts.length === 0 && !bare) return [];
    return [{ issue, problem, refs, explains: [difference.id, ...idsOf([...lost, ...facts, ...beside, ...absences])] }];
  });
}

/** Documents in runs: the same became of them, and no issue whose document came lies between two of them on the film. */
function inRuns(scene: Scene, gone: readonly Gone[]): readonly (readonly Gone[])[] {
  const byIssue = new Map(gone.map((one) => [one.issue, one]));
  const runs: Gone[][] = [];
  let before: Gone | undefined;
  for (const issue of issuesOnFilm(scene)) {
    const one = byIssue.get(issue);
    if (one !== undefined && before?.problem.code === one.problem.code) runs.at(-1)?.push(one);
    else if (one !== undefined) runs.push([one]);
    before = one;
  }
  return runs;
}

function toldOf(scene: Scene, list: readonly Gone[]): FindingDraft {
  const [first] = list;
  const refs = list.flatMap((one) => one.refs);
  const words = framesInWords(rangeOf(scene, refs).frames);
  const names = list.map(({ issue }) => issueName(scene, issue));
  const alone = list.length === 1;
  const instructions = list
    .slice(0, LISTED)
    .map(({ issue, problem }) => problem.instruction ?? `Deliver the document of ${issueName(scene, issue)} again.`);
  const more = list.length > LISTED ? [`Do the same for ${counted(list.length - LISTED, 'more document')}.`] : [];
  return draft(scene, {
    code: first?.problem.code ?? 'document-unreadable',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: first?.issue ?? null,
    ...(alone ? {} : { date: null, edition: null }),
    explains: [...new Set(list.flatMap(({ explains }) => explains))],
    field: 'document',
    collation: `${alone ? (names[0] ?? '') : counted(list.length, 'issue')}, ${counted(refs.length, 'page')}`,
    return: first?.problem.place.document ?? null,
    says: alone
      ? `${first?.problem.says ?? ''} It is the document of ${names[0] ?? ''} (${words}).`
      : `${first?.problem.says ?? ''} The same is so of ${counted(list.length - 1, 'more document')}: they are those of ${inSeries(names.slice(0, LISTED))}${names.length > LISTED ? ' and others' : ''} (${words}).`,
    instruction: [...instructions, ...more].join(' '),
    places: list.slice(0, 5).map(({ problem }) => problem.place),
  });
}

/** Whether a problem is only what follows from a document that is not there: it is about the same one, or about files that only it could name. */
function follows(second: DocumentProblem, problem: DocumentProblem): boolean {
  if (second.date === problem.date && sameDocument(second, problem)) return true;
  const folder = folderOf(problem);
  return (
    second.code === 'file-not-listed' && second.field === 'file' && folder !== '' && second.place.document?.startsWith(folder) === true
  );
}

/** The folder of the document that a problem is about: of the one that a list names, or of its own place. */
function folderOf({ code, returned, place }: DocumentProblem): string {
  const path = (code === 'file-missing' ? returned : null) ?? place.document ?? '';
  const parts = path.split('/').slice(0, -1);
  // a list may lie beside the folders and name them from there
  const from = parts.lastIndexOf('..');
  return [...parts.slice(from < 0 ? 0 : from + 2), ''].join('/');
}

function sameDocument(a: DocumentProblem, b: DocumentProblem): boolean {
  return a.place.document !== undefined && a.place.document === b.place.document;
}

/** The issue of the record that a document was about, as its date, edition and title, or its path, say; null where that is not one. */
function issueOf(scene: Scene, problem: DocumentProblem): number | null {
  if (problem.date === null) return null;
  const path = problem.place.document ?? problem.says;
  const fitting = scene.record.issues.flatMap((issue, index) => {
    if (!issue.present || issue.date?.day !== problem.date) return [];
    if (problem.edition !== null && (issue.edition ?? 1) !== problem.edition) return [];
    if (problem.title !== null) return issue.title === problem.title ? [index] : [];
    return scene.record.titles.length === 1 || (issue.title !== null && path.includes(issue.title)) ? [index] : [];
  });
  if (fitting.length === 1) return fitting[0] ?? null;
  // pages that came without their issue's document have met that issue all the same, and lack what the document says
  const bare = scene.meetings.filter(({ recordIssue, returnIssue }) => {
    const theirs = scene.returned.issues[returnIssue];
    return (
      scene.record.issues[recordIssue]?.date?.day === problem.date &&
      theirs?.date?.day === problem.date &&
      theirs.volume === null &&
      theirs.issueNumber === null
    );
  });
  return bare.length === 1 ? (bare[0]?.recordIssue ?? null) : null;
}
