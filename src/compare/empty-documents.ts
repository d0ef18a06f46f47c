import type { Issue, Side } from '../model/film.js';
import type { Draft } from './draft.js';

/** Documents that hold no page, state no absence, and are of an issue that the record does not have. What the record has is told by its own pages. */
export function emptyDocuments(record: Side, returned: Side): Draft[] {
  const spoken = new Set([
    ...returned.reels.flatMap((reel) => reel.frames.map((frame) => frame.issue)),
    ...returned.absences.map((absence) => absence.issue),
  ]);
  return returned.issues.flatMap((issue, index): Draft[] =>
    !issue.present || spoken.has(index) || isKnown(issue, record) ? [] : [{ field: 'empty-document', form: 'surplus', returnIssue: index }],
  );
}

function isKnown({ title, date, edition }: Issue, record: Side): boolean {
  const day = date?.day ?? null;
  return record.issues.some(
    (mine) =>
      day !== null &&
      mine.title === title &&
      (mine.edition ?? 1) === (edition ?? 1) &&
      (mine.date?.day === day || mine.combinedWith === day),
  );
}
