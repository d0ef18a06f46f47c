import { agreeingCopies, copiesOf } from '../documents/issue-copies.js';
import { idsOf } from '../runs.js';
import { differencesAt, factsOf, fieldOf, recordIssueOf, returnIssueOf, type Scene } from '../scene.js';
import { absencesAlong } from './absences-along.js';
import type { FactEdit } from './lift.js';
import type { Statement } from './statements.js';

/** Differences that a change of one fact brings with it in the same places: what was counted or filed by the fact that is wrong. */
export function companions(scene: Scene, edit: FactEdit): readonly number[] {
  return [...new Set([...edit.places.flatMap((place) => ofPlace(scene, edit, place)), ...absencesAlong(scene, edit)])];
}

function ofPlace(scene: Scene, { fact, change }: FactEdit, place: Statement): readonly number[] {
  if (fact === 'date' && change.kind !== 'missing') return withDate(scene, place);
  if (fact === 'title' && place.document !== null) return copiesOf(scene, place.document);
  if (fact === 'edition' && place.document !== null) return editionCopies(scene, place.document);
  // volume and number that stand in each other's place are one exchange
  if (change.kind === 'fact' && (fact === 'volume' || fact === 'issueNumber'))
    return crossed(scene, place, fact === 'volume' ? 'issueNumber' : 'volume');
  // labels and places that moved by as much moved together
  if (fact === 'page' && change.kind === 'plus')
    return place.refs.flatMap((ref) =>
      idsOf(differencesAt(scene, ref, 'order').filter((one) => Number(one.returned) - Number(one.collation) === Number(change.by))),
    );
  // a label is read with its section
  if (fact === 'section') return idsOf(place.refs.flatMap((ref) => differencesAt(scene, ref, 'page')));
  return [];
}

function crossed(scene: Scene, { issue, document }: Statement, other: 'volume' | 'issueNumber'): readonly number[] {
  const own = scene.expected.issues[issue ?? -1]?.[other === 'volume' ? 'issueNumber' : 'volume'].right[0]?.key;
  return idsOf(factsOf(scene, issue ?? -1, document ?? -1, other).filter(({ given }) => given?.key === own));
}

/** An edition counted under the wrong date, a printed date that stands in the place of the real one, copies that follow. */
function withDate(scene: Scene, { issue, document }: Statement): readonly number[] {
  if (issue === null || document === null) return [];
  const printed = recordIssueOf(scene, issue)?.datePrinted;
  const gave = returnIssueOf(scene, document)?.date;
  const editions = factsOf(scene, issue, document, 'edition');
  const lost =
    printed != null && gave != null && (printed.day ?? printed.text) === (gave.day ?? gave.text)
      ? factsOf(scene, issue, document, 'datePrinted')
      : [];
  const copies = agreeingCopies(scene, document, 'date', null).ids;
  return [...idsOf(editions), ...idsOf(lost), ...copies, ...(editions.length > 0 ? editionCopies(scene, document) : [])];
}

function editionCopies(scene: Scene, document: number): readonly number[] {
  return idsOf(
    fieldOf(scene, 'copy').filter(
      (copy) => copy.returnIssue === document && copy.ref === null && copy.about?.startsWith('edition ') === true,
    ),
  );
}
