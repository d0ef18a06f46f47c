import type { DocumentProblem } from '../../model/film.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, framesInWords, issueName, rangeOf } from '../draft.js';
import { idsOf } from '../runs.js';
import { differencesAt, factsOf, fieldOf, recordFrame, type Scene } from '../scene.js';

/** A document that is missing or cannot be read takes an issue with it: its pages did not come for that reason alone. */
export function lostDocuments(scene: Scene): Candidate[] {
  return fieldOf(scene, 'document').flatMap((difference) => {
    const problem = difference.problem === null ? undefined : scene.returned.problems[difference.problem];
    if (problem === undefined || (problem.code !== 'document-unreadable' && problem.code !== 'file-missing')) return [];
    const issue = issueOf(scene, problem);
    if (issue === null) return [];
    const refs = (scene.pairsOfRecordIssue.get(issue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    const lost = refs.flatMap((ref) => differencesAt(scene, ref, 'not-delivered', 'not-scanned'));
    const facts = scene.meetings
      .filter((meeting) => meeting.recordIssue === issue)
      .flatMap((meeting) => factsOf(scene, issue, meeting.returnIssue));
    const beside = fieldOf(scene, 'document').filter((other) => {
      const second = other.problem === null ? undefined : scene.returned.problems[other.problem];
      return other.id !== difference.id && second !== undefined && second.date === problem.date && sameDocument(second, problem);
    });
    const absences = fieldOf(scene, 'absence-missing').filter((one) => one.recordIssue === issue);
    if (lost.length + facts.length === 0) return [];
    const words = framesInWords(rangeOf(scene, refs).frames);
    return [
      candidate(
        draft(scene, {
          code: problem.code,
          cause: 'vendor-metadata',
          about: refs,
          recordIssue: issue,
          explains: [difference.id, ...idsOf([...lost, ...facts, ...beside, ...absences])],
          field: 'document',
          collation: `${issueName(scene, issue)}, ${counted(refs.length, 'page')}`,
          return: problem.place.document ?? null,
          says: `${problem.says} It is the document of ${issueName(scene, issue)} (${words}).`,
          instruction: problem.instruction ?? `Deliver the document of ${issueName(scene, issue)} again.`,
          places: [problem.place],
        }),
      ),
    ];
  });
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
