import type { Difference, DifferenceField } from '../model/difference.js';
import type { Absence, Side } from '../model/film.js';

/** A difference with both readings in words, for sentences and for the columns of the list. */
export interface WordedDifference extends Difference {
  readonly collation: string | null;
  readonly returned: string | null;
}

/** What stands for a reading where there is none: on the record's side nothing may be given, on the return's side nothing is. */
const NOTHING: Readonly<Partial<Record<DifferenceField, { readonly right?: string; readonly given?: string }>>> = {
  page: { right: 'nothing printed', given: 'no number' },
  order: { given: 'no place' },
  section: { right: 'no section', given: 'no section' },
  reel: { given: 'no reel number' },
  number: { given: 'no number' },
  title: { given: 'no title' },
  date: { given: 'no date' },
  datePrinted: { right: 'not to be given' },
  edition: { given: 'no edition' },
  editionLabel: { given: 'no label' },
  volume: { given: 'no volume' },
  issueNumber: { given: 'no number' },
  'not-delivered': { right: 'to be delivered', given: 'did not come' },
  delivered: { right: 'to be held back', given: 'delivered' },
  'number-unfilled': { given: 'nothing' },
  'extra-document': { right: 'one document', given: 'two documents' },
  file: { right: 'files', given: 'no file is named' },
};

/** Puts both readings of a difference into words. */
export function worded(difference: Difference, record: Side, returned: Side): WordedDifference {
  return { ...difference, ...words(difference, record, returned) };
}

function words(
  difference: Difference,
  record: Side,
  returned: Side,
): { readonly collation: string | null; readonly returned: string | null } {
  const { field, form, expected, given } = difference;
  const nothing = NOTHING[field] ?? {};
  const right = expected[0]?.text ?? nothing.right ?? null;
  switch (field) {
    case 'absence-missing': {
      const absence = record.absences[difference.absence ?? -1];
      return { collation: absence === undefined ? null : absenceWords(absence), returned: given?.text ?? 'not stated' };
    }
    case 'absence-extra': {
      const absence = returned.absences[difference.absence ?? -1];
      const collation = difference.otherAbsence === null ? 'not absent' : 'not to be stated';
      return { collation, returned: absence === undefined ? null : absenceWords(absence) };
    }
    case 'absence-published': {
      const [theirs, mine] = [returned.absences[difference.absence ?? -1], record.absences[difference.otherAbsence ?? -1]];
      return {
        collation: mine === undefined ? null : publishedWords(mine),
        returned: theirs === undefined ? null : publishedWords(theirs),
      };
    }
    case 'target':
      return form === 'missing' ? { collation: 'listed', returned: 'not listed' } : { collation: 'not listed', returned: 'listed' };
    case 'date':
      return { collation: right ?? record.issues[difference.recordIssue ?? -1]?.date?.text ?? null, returned: given?.text ?? 'no date' };
    case 'datePrinted':
      // a real date in the place of a printed one: the record has no other
      return { collation: form === 'other' && isRealDate(difference, record) ? 'as the date' : right, returned: given?.text ?? null };
    case 'delivered':
      return { collation: 'to be held back', returned: 'delivered' };
    default:
      return { collation: right, returned: given?.text ?? nothing.given ?? null };
  }
}

function isRealDate({ expected, recordIssue }: Difference, record: Side): boolean {
  const issue = record.issues[recordIssue ?? -1];
  return (
    issue !== undefined &&
    (issue.datePrinted === null || issue.datePrinted.day === issue.date?.day) &&
    expected[0]?.text === issue.date?.text
  );
}

/** An absence in words: `page 3 absent, published`. */
function absenceWords(absence: Absence): string {
  const page = absence.page ?? (absence.order === null ? null : `number ${String(absence.order)}`);
  return page === null ? `issue absent, ${publishedWords(absence)}` : `page ${page} absent, ${publishedWords(absence)}`;
}

function publishedWords({ published }: Absence): string {
  if (published === 'unknown') return 'publication unknown';
  return published === 'yes' ? 'published' : 'not published';
}
