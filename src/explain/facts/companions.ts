import type { PairRef } from '../../model/difference.js';
import { agreeingCopies } from '../documents/issue-copies.js';
import { filmOrder } from '../film/witnesses.js';
import { idsOf } from '../runs.js';
import { differencesAt, factsOf, recordFrame, recordIssueOf, returnFrame, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { absencesAlong } from './absences-along.js';
import type { FactEdit } from './lift.js';
import { numbersAlong } from './numbers-along.js';
import { spansAlong } from './span-along.js';
import type { Statement } from './statements.js';

/** Differences that a change of one fact brings with it in the same places: what was counted or filed by the fact that is wrong. */
export function companions(scene: Scene, edit: FactEdit): readonly number[] {
  return [
    ...new Set([
      ...edit.places.flatMap((place) => ofPlace(scene, edit, place)),
      ...absencesAlong(scene, edit),
      ...numbersAlong(scene, edit),
      ...(edit.fact === 'date' && edit.places.length > 1
        ? spansAlong(scene, new Set(edit.places.flatMap(({ refs }) => refs.map(({ alignment }) => alignment))))
        : []),
    ]),
  ];
}

function ofPlace(scene: Scene, { fact, change }: FactEdit, place: Statement): readonly number[] {
  const right = place.right.map(({ key }) => key);
  if (fact === 'date' && change.kind !== 'missing') return withDate(scene, place, right);
  if (fact === 'title' && place.document !== null) return agreeingCopies(scene, place.document, 'title', right).ids;
  if (fact === 'edition' && place.document !== null) return agreeingCopies(scene, place.document, 'edition', right).ids;
  // volume and number that stand in each other's place are one exchange
  if (change.kind === 'fact' && (fact === 'volume' || fact === 'issueNumber'))
    return crossed(scene, place, fact === 'volume' ? 'issueNumber' : 'volume');
  // labels and places that moved by as much moved together
  if (fact === 'page' && change.kind === 'plus')
    return place.refs.flatMap((ref) => idsOf(differencesAt(scene, ref, 'order').filter((one) => stepOf(one) === Number(change.by))));
  // a label is read with its section
  if (fact === 'section')
    return idsOf(
      place.refs.flatMap((ref) =>
        differencesAt(scene, ref, 'page').filter((one) => isCountedThrough(scene, one, ref) || isOfSection(one, place.right[0]?.key)),
      ),
    );
  return [];
}

const stepOf = ({ returned, collation }: WordedDifference): number => Number(returned) - Number(collation);

/** Whether a label is the page's place in its issue, or counts on from the section before: that is how pages are numbered where their sections are not seen. */
function isCountedThrough(scene: Scene, label: WordedDifference, ref: PairRef): boolean {
  const { order = null, section, issue } = recordFrame(scene, ref) ?? {};
  if (order === null || issue == null || label.given == null) return false;
  if (label.given.key === String(order)) return true;
  let [within, last, before] = [0, 0, ''];
  for (const other of scene.pairsOfRecordIssue.get(issue) ?? []) {
    const frame = recordFrame(scene, other);
    if (frame?.order == null || !frame.deliver || frame.order >= order) continue;
    if (frame.section === section) within++;
    else if (frame.order > last) [last, before] = [frame.order, returnFrame(scene, other)?.pageKey ?? ''];
  }
  return /^\d+$/.test(before) && label.given.key === String(Number(before) + within + 1);
}

/** Digits that capitals are taken for. */
const LOOK_ALIKE: Readonly<Record<string, string>> = { B: '8', D: '0', G: '6', I: '1', L: '1', O: '0', Q: '0', S: '5', Z: '2' };

/** Whether a label differs because its section does: by the letters in front of it, or by a digit that the section's letter was read as. */
function isOfSection(label: WordedDifference, section: string | undefined): boolean {
  const bare = (text: string | undefined): string => text?.replace(/^\D+/, '') ?? '';
  const given = bare(label.given?.key);
  const digit = LOOK_ALIKE[section ?? ''];
  return given !== '' && label.expected.some(({ key }) => bare(key) === given || (digit !== undefined && `${digit}${key}` === given));
}

function crossed(scene: Scene, { issue, document }: Statement, other: 'volume' | 'issueNumber'): readonly number[] {
  const own = scene.expected.issues[issue ?? -1]?.[other === 'volume' ? 'issueNumber' : 'volume'].right[0]?.key;
  return idsOf(factsOf(scene, issue ?? -1, document ?? -1, other).filter(({ given }) => given?.key === own));
}

/** An edition counted under the wrong date, a printed date that stands in the place of the real one, copies that still say what is right. */
function withDate(scene: Scene, { issue, document }: Statement, right: readonly string[]): readonly number[] {
  if (issue === null || document === null) return [];
  const printed = recordIssueOf(scene, issue)?.datePrinted;
  const gave = returnIssueOf(scene, document)?.date;
  const editions = factsOf(scene, issue, document, 'edition').filter((one) => isCountedOn(scene, document, one));
  const lost =
    // a printed date that is no day was put right where it stood
    printed != null && gave != null && (printed.day === null || printed.day === (gave.day ?? gave.text))
      ? factsOf(scene, issue, document, 'datePrinted')
      : [];
  const counted = editions.flatMap(
    ({ expected }) =>
      agreeingCopies(
        scene,
        document,
        'edition',
        expected.map(({ key }) => key),
      ).ids,
  );
  return [
    ...idsOf(editions),
    ...idsOf(lost),
    ...copiedDown(scene, issue, document),
    ...agreeingCopies(scene, document, 'date', right).ids,
    ...counted,
  ];
}

/** What the record has of an issue from the one before on the film, where it has the date from there too: the whole of it was copied down. */
function copiedDown(scene: Scene, issue: number, document: number): readonly number[] {
  const order = filmOrder(scene, issue);
  const before = order[order.indexOf(issue) - 1];
  if (before === undefined) return [];
  const same = (fact: 'date' | 'issueNumber' | 'volume'): boolean =>
    scene.expected.issues[issue]?.[fact].right[0]?.key === scene.expected.issues[before]?.[fact].right[0]?.key;
  if (!same('date')) return [];
  return (['issueNumber', 'volume'] as const).filter(same).flatMap((fact) => idsOf(factsOf(scene, issue, document, fact)));
}

/** Whether an edition is the next one of the day under which its document came: another document has the one before. */
function isCountedOn(scene: Scene, document: number, { given }: WordedDifference): boolean {
  const mine = returnIssueOf(scene, document);
  return scene.returned.issues.some(
    (other, at) =>
      at !== document &&
      mine !== undefined &&
      other.title === mine.title &&
      other.date?.text === mine.date?.text &&
      (other.edition ?? 1) === Number(given?.key) - 1,
  );
}
