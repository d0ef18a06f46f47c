import type { Change, Ground } from './change-facts.js';
import { nextIssue } from './delivery.js';
import type { Edit, Row, Step } from './edit.js';
import { COPIES, heldBack, issueRow, issueRows, pagesOfIssue, rowsOf, setAll, setFrame, setIssue, takeIssue } from './things.js';
import { isPage } from './units.js';

/** What a document says of its issue. */
const IDENTITY = ['title', 'date', 'datePrinted', 'edition', 'editionLabel', 'volume', 'issueNumber'];
/** Numbers of documents that were added. */
const ADDED = 20_000;

const named = (rows: readonly Row[]): Readonly<Record<string, string>> => ({ issues: rows.map((row) => String(row['date'])).join(' ') });

/** Documents that were never written; their pages are held back. */
export function leaveOutDocuments(ground: Ground): Change | null {
  const rows = issueRows(ground);
  if (rows.length === 0 || rows.length === ground.sheet.issues.length) return null;
  const pages = rows.flatMap((row) => pagesOfIssue(ground, row['id'] as number));
  const takes = [...rows]
    .sort((a, b) => ground.sheet.issues.indexOf(b) - ground.sheet.issues.indexOf(a))
    .map((row) => takeIssue(ground, row));
  return { steps: [...pages.flatMap((row) => setAll(row, heldBack('return'))), ...takes], params: named(rows) };
}

/** Documents that are cut off, or listed and not there. */
export function spoilDocuments(ground: Ground): Change | null {
  const rows = issueRows(ground);
  const fault = ground.random.pick(['unreadable', 'issue-document-missing']);
  return rows.length === 0 ? null : { steps: rows.map((row) => setIssue(row, 'fault', fault)), params: { fault, ...named(rows) } };
}

/** The next edition of the day that nobody has. */
function freeEdition({ sheet }: Ground, row: Row): number {
  const taken = sheet.issues
    .filter((each) => each['title'] === row['title'] && each['date'] === row['date'])
    .map((each) => Number(each['edition']));
  return Math.max(...taken) + 1;
}

/** A document that is delivered a second time, as another edition of its day, with the same pictures. */
export function repeatDocument(ground: Ground): Change | null {
  const [row] = issueRows(ground);
  if (row === undefined) return null;
  const id = ADDED + (row['id'] as number);
  const copy: Row = { ...row, id, edition: freeEdition(ground, row), source: id };
  const pages = pagesOfIssue(ground, row['id'] as number).map((page): Step => {
    const reel = ground.sheet.reels.findIndex(({ frames }) => frames.includes(page));
    const picture = page['picture'] as number;
    return { do: 'put', of: 'frame', reel, after: picture, row: { ...page, picture: COPIES + picture, issue: id } };
  });
  return { steps: [{ do: 'put', of: 'issue', after: row['id'] as number, row: copy }, ...pages], params: named([row]) };
}

/** Two issues that follow each other, each under the other's name. */
export function exchangeDocuments(ground: Ground): Change | null {
  const [issue] = ground.unit.issues;
  const next = issue === undefined ? null : nextIssue(ground, issue);
  const [one, two] = [issueRow(ground, issue ?? -1), issueRow(ground, next ?? -1)];
  if (one === undefined || two === undefined) return null;
  const steps = IDENTITY.flatMap((field) => [setIssue(one, field, two[field]), setIssue(two, field, one[field])]);
  return { steps: steps.filter((step) => step.do !== 'set' || step.from !== step.to), params: named([one, two]) };
}

/** Documents that lie in the folder of another reel. */
export function misfileDocuments(ground: Ground): Change | null {
  const rows = issueRows(ground);
  const reels = ground.sheet.reels.length;
  if (reels < 2 || rows.length === 0) return null;
  return { steps: rows.map((row) => setIssue(row, 'reel', (Number(row['reel']) + 1) % reels)), params: named(rows) };
}

/** Two issues that follow each other under the name of the first, counted on. */
export function mergeDocuments(edit: Edit, ground: Ground): Change | null {
  const [issue] = ground.unit.issues;
  const next = issue === undefined ? null : nextIssue(ground, issue);
  const [one, two] = [issueRow(ground, issue ?? -1), issueRow(ground, next ?? -1)];
  if (issue === undefined || next === null || one === undefined || two === undefined || hasAbsent(one) || hasAbsent(two)) return null;
  const count = pagesOfIssue(ground, issue).length;
  const pages = edit.side === 'return' ? pagesOfIssue(ground, next) : framesIn(ground, next);
  const steps = pages.flatMap((row) => setAll(row, { issue, order: row['order'] === null ? null : Number(row['order']) + count }));
  // a record has no document to lose: an issue without frames is not in it
  return { steps: [...steps, ...(edit.side === 'return' ? [takeIssue(ground, two)] : [])], params: named([one, two]) };
}

const hasAbsent = (row: Row): boolean => ((row['absent'] ?? row['wanting']) as readonly unknown[]).length > 0;

const framesIn = ({ sheet }: Ground, issue: number): Row[] =>
  sheet.reels.flatMap(({ frames }) => frames.filter((row) => row['issue'] === issue));

/** One issue as two: the second half of its pages stands in a document of its own, counted from 1. */
export function splitDocument(edit: Edit, ground: Ground): Change | null {
  const [issue] = ground.unit.issues;
  const row = issueRow(ground, issue ?? -1);
  const pages = issue === undefined ? [] : pagesOfIssue(ground, issue);
  if (row === undefined || pages.length < 4 || hasAbsent(row)) return null;
  if (edit.side === 'record' && framesIn(ground, issue ?? -1).length !== pages.length) return null;
  const id = ADDED + (row['id'] as number);
  const half = pages.slice(Math.floor(pages.length / 2));
  // behind all others, so that each keeps its place in the list of the film
  const after = ground.sheet.issues.at(-1)?.['id'] as number;
  const put: Step = { do: 'put', of: 'issue', after, row: { ...row, id, edition: freeEdition(ground, row), source: id } };
  return {
    steps: [put, ...half.flatMap((page, i) => [setFrame(page, 'issue', id), setFrame(page, 'order', i + 1)])],
    params: named([row]),
  };
}

/** Files that are named and did not come: of one use, or all. */
export function loseFiles(ground: Ground): Change | null {
  const lost = ground.random.pick([['service'], ['service', 'ocr'], ['ocr']]);
  const rows = rowsOf(ground, ground.unit.pages);
  return rows.length === 0
    ? null
    : { steps: rows.map((row) => setFrame(row, 'lost', lost)), params: { uses: lost.join(' '), pages: String(rows.length) } };
}

/** Pages that each have the picture of the page before. */
export function repeatPictures(ground: Ground): Change | null {
  const pages = rowsOf(ground, ground.film.reels[ground.unit.reel]?.shots.filter(isPage) ?? []);
  const rows = rowsOf(ground, ground.unit.pages);
  const steps = rows.flatMap((row) => {
    const before = pages[pages.indexOf(row) - 1];
    return before === undefined ? [] : [setFrame(row, 'image', before['image'])];
  });
  return steps.length === 0 ? null : { steps, params: { pages: rows.map((row) => String(row['frame'])).join(' ') } };
}

/** Targets that the reel document does not list. */
export function unlistTargets(ground: Ground): Change | null {
  const rows = rowsOf(ground, ground.unit.shots).filter((row) => row['use'] === 'target');
  return rows.length === 0 ? null : { steps: rows.map((row) => setFrame(row, 'use', 'held')), params: { targets: String(rows.length) } };
}
