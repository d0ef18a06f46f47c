import type { Change, Ground } from './change-facts.js';
import { nextIssue } from './delivery.js';
import type { Edit, Row, Step } from './edit.js';
import { heldBack, issueRow, issueRows, pagesOfIssue, rowOf, setAll, setIssue } from './things.js';

const listOf = (row: Row): string => ('absent' in row ? 'absent' : 'wanting');
const pagesIn = (row: Row): readonly Row[] => row[listOf(row)] as readonly Row[];

/** Issues of the unit of which a page is stated to be absent. */
const stating = (ground: Ground): Row[] => issueRows(ground).filter((row) => pagesIn(row).length > 0);

const named = (rows: readonly Row[]): Readonly<Record<string, string>> => ({ issues: rows.map((row) => String(row['date'])).join(' ') });

/** Pages that are not on the film, of which nothing is said. */
export function saysNothing(ground: Ground): Change | null {
  const rows = stating(ground);
  return rows.length === 0 ? null : { steps: rows.map((row) => setIssue(row, listOf(row), [])), params: named(rows) };
}

/** Pages that are not on the film, of which it is said otherwise whether they were published. */
export function saysOther(edit: Edit, ground: Ground): Change | null {
  const rows = stating(ground);
  const other = (page: Row): Row =>
    edit.side === 'return'
      ? { ...page, statement: 'not-published' }
      : { ...page, published: page['published'] === 'yes' ? 'unknown' : 'yes' };
  return rows.length === 0 ? null : { steps: rows.map((row) => setIssue(row, listOf(row), pagesIn(row).map(other))), params: named(rows) };
}

/** An absent page that is stated of the next issue. */
export function saysOfNext(ground: Ground): Change | null {
  const [row] = stating(ground);
  const next = row === undefined ? null : nextIssue(ground, row['id'] as number);
  const other = next === null ? undefined : issueRow(ground, next);
  if (row === undefined || other === undefined || pagesIn(other).length > 0) return null;
  return { steps: [setIssue(row, listOf(row), []), setIssue(other, listOf(other), pagesIn(row))], params: named([row, other]) };
}

/** A page that is on the film, held back and said to be absent. */
export function callsAbsent(edit: Edit, ground: Ground): Change | null {
  const [shot] = ground.unit.pages;
  const row = shot === undefined ? undefined : rowOf(ground, shot);
  const issue = issueRow(ground, shot?.issue ?? -1);
  if (shot === undefined || row === undefined || issue === undefined || pagesOfIssue(ground, shot.issue ?? -1).length < 2) return null;
  const page = { order: shot.order, page: shot.page, section: shot.section };
  const stated = edit.side === 'return' ? { ...page, statement: 'published' } : { ...page, published: 'yes' };
  const steps: readonly Step[] = [...setAll(row, heldBack(edit.side)), setIssue(issue, listOf(issue), [...pagesIn(issue), stated])];
  return { steps, params: { page: String(row['frame']) } };
}
