import type { Policies } from '../model/agreement.js';
import type { Absence, Side } from '../model/film.js';
import type { Draft } from './draft.js';

/** Differences of what is stated to be absent: pages and whole issues, on both sides. */
export function compareAbsences(
  record: Side,
  returned: Side,
  policies: Policies,
  issuesOf: (returnIssue: number) => readonly number[],
): Draft[] {
  const drafts: Draft[] = [];
  const open = new Map<string, number[]>();
  returned.absences.forEach((absence, index) => {
    const names = identities(absence, issuesOf, record);
    for (const name of names.length === 0 ? [null] : names) for (const key of keys(absence, name)) add(open, key, index);
  });
  const used = new Set<number>();
  record.absences.forEach((absence, index) => {
    const match = keys(absence, null)
      .flatMap((key) => open.get(key) ?? [])
      .find((candidate) => !used.has(candidate));
    const policy = absence.page === null && absence.order === null ? policies.absentIssues : policies.absentPages;
    if (match === undefined) {
      if (absence.page === null && absence.order === null && emptyButPresent(absence, returned)) {
        drafts.push({ field: 'absence-missing', absence: index, collation: describe(absence), returned: 'present, without pages' });
      } else if (policy === 'stated' && absence.published !== 'no') {
        drafts.push({
          field: 'absence-missing',
          absence: index,
          recordIssue: absence.issue,
          collation: describe(absence),
          returned: 'not stated',
        });
      }
      return;
    }
    used.add(match);
    const other = returned.absences[match];
    if (other === undefined) return;
    if (policy === 'omitted')
      drafts.push({
        field: 'absence-extra',
        absence: match,
        returnIssue: other.issue,
        collation: 'not to be stated',
        returned: describe(other),
      });
    else if (absence.published !== 'unknown' && other.published !== absence.published) {
      drafts.push({
        field: 'absence-published',
        absence: match,
        recordIssue: absence.issue,
        returnIssue: other.issue,
        collation: published(absence),
        returned: published(other),
      });
    }
  });
  returned.absences.forEach((absence, index) => {
    if (used.has(index)) return;
    drafts.push({
      field: 'absence-extra',
      absence: index,
      returnIssue: absence.issue,
      collation: 'not absent',
      returned: describe(absence),
    });
  });
  return drafts;
}

/** Where the return's document has a wrong date, or holds several issues, its absent pages belong to the issues its pages were paired with. */
function identities(absence: Absence, issuesOf: (returnIssue: number) => readonly number[], record: Side): string[] {
  const issues = absence.issue === null ? [] : issuesOf(absence.issue);
  return issues.flatMap((index) => {
    const entry = record.issues[index];
    return entry === undefined ? [] : [identity(entry.title, entry.date, entry.edition)];
  });
}

function keys(absence: Absence, instead: string | null): string[] {
  const who = instead ?? identity(absence.title, absence.date, absence.edition);
  if (absence.page === null && absence.order === null) return [`${who}|whole`];
  const result: string[] = [];
  if (absence.order !== null) result.push(`${who}|#${String(absence.order)}`);
  if (absence.page !== null) result.push(`${who}|${absence.section ?? ''}|${absence.page.toUpperCase()}`);
  return result;
}

function identity(title: string | null, date: Absence['date'], edition: number | null): string {
  return [title ?? '', date?.day ?? date?.text ?? '', edition ?? 1].join('|');
}

export function describe(absence: Absence): string {
  const page = absence.page ?? (absence.order === null ? null : `number ${String(absence.order)}`);
  return page === null ? `issue absent, ${published(absence)}` : `page ${page} absent, ${published(absence)}`;
}

function published(absence: Absence): string {
  if (absence.published === 'unknown') return 'publication unknown';
  return absence.published === 'yes' ? 'published' : 'not published';
}

function add(map: Map<string, number[]>, key: string, index: number): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [index]);
  else list.push(index);
}

/** True when the return has a document of the issue that says nothing of its absence and holds no page. */
function emptyButPresent(absence: Absence, returned: Side): boolean {
  const issue = returned.issues.findIndex(
    (one) =>
      one.present && one.title === absence.title && one.date?.day === absence.date?.day && (one.edition ?? 1) === (absence.edition ?? 1),
  );
  if (issue < 0 || absence.date?.day == null) return false;
  return !returned.reels.some((reel) => reel.frames.some((frame) => frame.issue === issue));
}
