import { counted, draft, type FindingDraft, framesInWords, rangeOf } from '../draft.js';
import { filmOrder } from '../film/witnesses.js';
import { inFilmOrder } from '../runs.js';
import { factsOf, recordIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import type { FactEdit } from './lift.js';
import type { Statement } from './statements.js';

/** Issues that came under one date, or each under the date of the one before. */
export function carriedOver(
  scene: Scene,
  { change, places }: FactEdit,
  differences: readonly WordedDifference[],
  explains: readonly number[],
): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const dates = differences.map(({ collation }) => collation ?? '?');
  const given = [...new Set(differences.map(({ returned }) => returned ?? '?'))];
  const first = given[0] ?? '?';
  const before = dateBefore(scene, places[0]);
  const stuck = change.kind === 'all';
  return draft(scene, {
    code: 'date-carried-over',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: places[0]?.issue ?? null,
    explains,
    field: 'date',
    collation: dates.join(', '),
    return: given.join(', '),
    says: `${counted(places.length, 'issue')} (${dates[0] ?? '?'} to ${dates.at(-1) ?? '?'}, ${words}) ${stuck ? (before === first ? `all carry the date of the issue before them, ${first}` : `all carry the date ${first}`) : 'each carry the date of the issue before'}.`,
    instruction: `Give these issues the dates ${dates.join(', ')}, in film order${asEditions(scene, places)}.`,
    evidence: before === first ? [`${first} is the date of the issue before the first of them.`] : [],
  });
}

/** The date of the issue of the same title before one on the film. */
function dateBefore(scene: Scene, place: Statement | undefined): string | null {
  if (place?.issue == null) return null;
  const order = filmOrder(scene, place.issue);
  return recordIssueOf(scene, order[order.indexOf(place.issue) - 1] ?? null)?.date?.text ?? null;
}

/** `, each as edition 1`, where the issues were counted as further editions of the wrong date. */
export function asEditions(scene: Scene, places: readonly Statement[]): string {
  if (!places.some(({ issue, document }) => factsOf(scene, issue ?? -1, document ?? -1, 'edition').length > 0)) return '';
  const editions = places.map(({ issue }) => String(recordIssueOf(scene, issue)?.edition ?? 1));
  return new Set(editions).size === 1 ? `, each as edition ${editions[0] ?? '1'}` : `, as editions ${editions.join(', ')}`;
}
