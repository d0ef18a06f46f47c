import type { PairRef } from '../../model/difference.js';
import type { DocumentProblem } from '../../model/film.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft } from '../draft.js';
import { groupBy, idsOf } from '../runs.js';
import { reelInWords, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** From so many documents on, the same complaint is one slip of the whole return. */
const MANY = 5;

/** What went wrong in single documents; the same complaint about several places of one document, or of very many, is one finding. */
export function documentProblems(
  scene: Scene,
  differences: readonly WordedDifference[],
  pairsOf: (problem: DocumentProblem) => readonly PairRef[],
): Candidate[] {
  const problemOf = (difference: WordedDifference): Scene['returned']['problems'][number] | undefined =>
    difference.problem === null ? undefined : scene.returned.problems[difference.problem];
  const complaints = groupBy(differences, (difference) => {
    const found = problemOf(difference);
    // documents that cannot be read, are missing or not listed are each told by name
    const each = found === undefined || !['vocabulary-unknown', 'documents-disagree'].includes(found.code);
    return each ? String(difference.id) : JSON.stringify([found.code, found.field, found.returned, found.instruction, found.reel]);
  });
  return [...complaints.values()].flatMap((list) => {
    const byDocument = groupBy(list, (difference) => problemOf(difference)?.place.document ?? '');
    const groups = byDocument.size >= MANY ? [list] : [...byDocument.values()];
    return groups.map((group) => {
      const first = group[0];
      const found = first === undefined ? undefined : problemOf(first);
      const documents = new Set(group.map((difference) => problemOf(difference)?.place.document)).size;
      const more =
        group.length === 1
          ? ''
          : ` The same stands in ${counted(group.length - 1, 'other place')} of ${documents === 1 ? 'this document' : counted(documents, 'document')}.`;
      const one = documents === 1;
      // A file that is another than was described, and a page that is described and not delivered, are some frame's; the rest is about documents.
      const about = found === undefined ? [] : pairsOf(found);
      const isImage = found?.code === 'checksum-differs' && about.length > 0 && !/\.xml$/i.test(found.place.document ?? '');
      return candidate(
        draft(scene, {
          about,
          explains: idsOf(group),
          code: found?.code ?? 'document-unreadable',
          cause: isImage ? 'vendor-image' : 'vendor-metadata',
          ...(about.length > 0
            ? {}
            : {
                reel: reelInWords(scene, found?.reel ?? null),
                at: null,
                frames: null,
                count: group.length,
                title: found?.title ?? null,
                date: one ? (found?.date ?? null) : null,
                edition: one ? (found?.edition ?? null) : null,
              }),
          field: found?.field ?? 'document',
          collation: found?.collation ?? null,
          return: found?.returned ?? null,
          says: `${found?.says ?? ''}${more}`,
          instruction: found?.instruction ?? null,
          places: found === undefined ? [] : group.slice(0, 5).flatMap((difference) => problemOf(difference)?.place ?? []),
        }),
      );
    });
  });
}
