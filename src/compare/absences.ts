import type { ExpectedReturn } from '../model/expected.js';
import type { Absence, Side } from '../model/film.js';
import type { Draft } from './draft.js';
import { formOf } from './fact.js';

/** Differences of what is stated to be absent: pages and whole issues, on both sides. */
export function compareAbsences(
  record: Side,
  expected: ExpectedReturn['absences'],
  returned: Side,
  issuesOf: (returnIssue: number) => readonly number[],
): Draft[] {
  const drafts: Draft[] = [];
  const open = new Map<string, number[]>();
  returned.absences.forEach((absence, index) => {
    const names = identities(absence, issuesOf, record);
    const own = nameOfDay(absence, absence.date?.day ?? absence.date?.text ?? '');
    for (const name of names.length === 0 ? [own] : names) for (const key of keys(absence, name)) add(open, key, index);
  });
  const used = new Set<number>();
  record.absences.forEach((absence, index) => {
    const right = expected[index];
    const stated = (names: readonly string[]): number | undefined =>
      names
        .flatMap((name) => keys(absence, name))
        .flatMap((key) => open.get(key) ?? [])
        .find((candidate) => !used.has(candidate));
    const match = stated(namesOf(absence));
    const other = match === undefined ? undefined : returned.absences[match];
    if (match === undefined || other === undefined || right === undefined) {
      const empty = absence.page === null && absence.order === null ? emptyButPresent(absence, returned) : null;
      if (empty !== null)
        drafts.push({
          field: 'absence-missing',
          form: 'missing',
          absence: index,
          given: { key: 'present', text: 'present, without pages' },
        });
      else if (right?.stated === 'must')
        drafts.push({ field: 'absence-missing', form: 'missing', absence: index, recordIssue: absence.issue });
      return;
    }
    used.add(match);
    // of a combined issue the second day may be stated as well
    const second = absence.combinedWith === undefined ? undefined : stated([nameOfDay(absence, absence.combinedWith)]);
    if (second !== undefined) used.add(second);
    if (right.stated === 'must-not')
      drafts.push({ field: 'absence-extra', form: 'surplus', absence: match, otherAbsence: index, returnIssue: other.issue });
    else if (other.unreadWords !== true && formOf(right.published, { key: other.published, text: other.published }) !== null)
      drafts.push({
        field: 'absence-published',
        form: 'other',
        absence: match,
        otherAbsence: index,
        recordIssue: absence.issue,
        returnIssue: other.issue,
      });
  });
  returned.absences.forEach((absence, index) => {
    if (!used.has(index)) drafts.push({ field: 'absence-extra', form: 'surplus', absence: index, returnIssue: absence.issue });
  });
  return drafts;
}

/** Where the return's document has a wrong date, or holds several issues, its absent pages belong to the issues its pages were paired with. */
function identities(absence: Absence, issuesOf: (returnIssue: number) => readonly number[], record: Side): string[] {
  const issues = absence.issue === null ? [] : issuesOf(absence.issue);
  return issues.flatMap((index) => {
    const entry = record.issues[index];
    return entry === undefined ? [] : namesOf({ ...entry, issue: index });
  });
}

function keys(absence: Absence, who: string): string[] {
  if (absence.page === null && absence.order === null) return [`${who}|whole`];
  const result: string[] = [];
  if (absence.order !== null) result.push(`${who}|#${String(absence.order)}`);
  if (absence.page !== null) result.push(`${who}|${absence.section ?? ''}|${absence.page.toUpperCase()}`);
  return result;
}

/** What an issue of the record is known by: title, certain day and edition; without a certain day the issue itself, and its words. */
function namesOf(entry: Pick<Absence, 'title' | 'date' | 'edition' | 'issue'>): string[] {
  const { date, issue } = entry;
  if (date?.day != null) return [nameOfDay(entry, date.day)];
  return [`issue ${String(issue)}`, nameOfDay(entry, date?.text ?? '')];
}

function nameOfDay({ title, edition }: Pick<Absence, 'title' | 'edition'>, day: string): string {
  return [title ?? '', day, edition ?? 1].join('|');
}

function add(map: Map<string, number[]>, key: string, index: number): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [index]);
  else list.push(index);
}

/** The return's document of the issue that says nothing of its absence and holds no page; null where there is none. */
function emptyButPresent(absence: Absence, returned: Side): number | null {
  const issue = returned.issues.findIndex(
    (one) =>
      one.present && one.title === absence.title && one.date?.day === absence.date?.day && (one.edition ?? 1) === (absence.edition ?? 1),
  );
  if (issue < 0 || absence.date?.day == null) return null;
  return returned.reels.some((reel) => reel.frames.some((frame) => frame.issue === issue)) ? null : issue;
}
