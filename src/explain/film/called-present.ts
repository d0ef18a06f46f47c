import { type Candidate, candidate } from '../choose.js';
import { draft, issueName } from '../draft.js';
import { idsOf } from '../runs.js';
import { differencesAt, fieldOf, returnFrame, type Scene } from '../scene.js';

/** Pages that the record knows to be wanting and that the return describes as present, without a frame to show. */
export function calledPresent(scene: Scene): Candidate[] {
  return fieldOf(scene, 'absence-missing').flatMap((difference) => {
    const absence = difference.absence === null ? undefined : scene.record.absences[difference.absence];
    if (absence === undefined || (absence.page === null && absence.order === null)) return [];
    const ref = fieldOf(scene, 'surplus')
      .flatMap((one) => one.pairs)
      .find((pair) => {
        const frame = returnFrame(scene, pair);
        const issue = frame?.issue == null ? undefined : scene.returned.issues[frame.issue];
        if (frame?.kind !== 'page' || frame.frame !== null) return false;
        if (issue?.title !== absence.title || issue.date?.day !== absence.date?.day || (issue.edition ?? 1) !== (absence.edition ?? 1))
          return false;
        return (
          (absence.order !== null && frame.order === absence.order) ||
          (absence.page !== null && frame.pageKey === absence.page.toUpperCase())
        );
      });
    const frame = ref === undefined ? undefined : returnFrame(scene, ref);
    if (ref === undefined || frame === undefined) return [];
    const at = JSON.stringify(frame.place);
    const told = fieldOf(scene, 'document').filter(
      ({ problem }) => problem !== null && JSON.stringify(scene.returned.problems[problem]?.place) === at,
    );
    const page = absence.page === null ? `The page at place ${String(absence.order)}` : `Page ${absence.page}`;
    const name = issueName(scene, frame.issue, 'return');
    return [
      candidate(
        draft(scene, {
          code: 'absence-not-stated',
          cause: 'vendor-metadata',
          about: [ref],
          returnIssue: frame.issue,
          explains: idsOf([difference, ...differencesAt(scene, ref), ...told]),
          at: null,
          frames: null,
          count: 1,
          page: absence.page,
          field: 'absence',
          collation: difference.collation,
          return: 'present',
          says: `${page} of ${name} is not on the film, and the return calls it present, with no frame to show.`,
          instruction: `State ${page.charAt(0).toLowerCase()}${page.slice(1)} of ${name} as absent.`,
          billable: [{ class: 'page', change: -1 }],
        }),
      ),
    ];
  });
}
