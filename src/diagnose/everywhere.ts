import type { FindingCode } from '../catalogue/codes.js';
import type { DifferenceField } from '../model/difference.js';
import { type Candidate, candidate } from './candidate.js';
import { counted, draft, framesInWords, issueName, rangeOf } from './draft.js';
import { issueOf } from './pages.js';
import { groupBy, idsOf, inFilmOrder } from './runs.js';
import { recordFrame, recordIssueOf, returnFrame, type Scene } from './scene.js';
import { follows } from './witnesses.js';
import type { WordedDifference } from './worded.js';

/** From so many issues on, and so large a share of those that could have it, one slip is taken to run through the whole return. */
const MANY = 5;
const SHARE = 0.8;
/** So many page labels gone from one issue are one slip. */
const PAGES = 3;

const NAMES: Readonly<Partial<Record<DifferenceField, { code: FindingCode; name: string; none: string | null }>>> = {
  datePrinted: { code: 'printed-date-not-given', name: 'printed date', none: null },
  editionLabel: { code: 'edition-label-differs', name: 'edition label', none: 'no label' },
  volume: { code: 'volume-differs', name: 'volume', none: 'no volume' },
  issueNumber: { code: 'issue-number-differs', name: 'issue number', none: 'no number' },
};

/** What was left out or counted from the wrong end in every issue, or on every page of one, is one finding, not one for each place. */
export function everywhere(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  return [...factsLeftOut(scene, left), ...numbersMoved(scene, left), ...labelsLeftOut(scene, left), ...fromZero(scene, left)];
}

/** A fact that the return gives for no issue, or hardly any, of those that have one in the record. */
function factsLeftOut(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  return Object.entries(NAMES).flatMap(([field, { code, name, none }]) => {
    const absent = left.filter((one) => one.field === field && one.returned === none && one.recordIssue !== null);
    const issues = new Set(absent.map((one) => one.recordIssue));
    const key = field as 'datePrinted' | 'editionLabel' | 'volume' | 'issueNumber';
    const met = new Set(scene.meetings.map((meeting) => meeting.recordIssue));
    const could = [...met].filter((issue) => recordIssueOf(scene, issue)?.[key] != null).length;
    if (issues.size < MANY || issues.size < could * SHARE) return [];
    return [
      candidate(
        draft(scene, {
          code,
          cause: 'vendor-metadata',
          about: inFilmOrder(absent.flatMap((one) => one.pairs)),
          explains: idsOf(absent),
          title: null,
          date: null,
          edition: null,
          field,
          collation: `${counted(issues.size, 'issue')} with one`,
          return: 'none',
          says: `The return gives no ${name} for ${counted(issues.size, 'issue')} of which the record has one.`,
          instruction: `Give the ${name} of every issue on which one is printed.`,
        }),
      ),
    ];
  });
}

/** Issue numbers that are wrong by as much over several issues in a row: the count went wrong once. */
function numbersMoved(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const runs: { by: number; list: WordedDifference[] }[] = [];
  const step = (one: WordedDifference): number => Number(one.returned) - Number(one.collation);
  const wrong = left
    .filter((one) => one.field === 'issueNumber' && Number.isInteger(step(one)))
    .sort((a, b) => (a.pairs[0]?.alignment ?? 0) - (b.pairs[0]?.alignment ?? 0) || (a.pairs[0]?.pair ?? 0) - (b.pairs[0]?.pair ?? 0));
  for (const one of wrong) {
    const last = runs.at(-1);
    if (last?.by === step(one) && follows(scene, last.list.at(-1)?.recordIssue ?? null, one.recordIssue)) last.list.push(one);
    else runs.push({ by: step(one), list: [one] });
  }
  return runs.flatMap(({ by, list }) => {
    if (list.length < PAGES) return [];
    const refs = inFilmOrder(list.flatMap((one) => one.pairs));
    const words = framesInWords(rangeOf(scene, refs).frames);
    const [from, to] = [list[0]?.collation ?? '?', list.at(-1)?.collation ?? '?'];
    return [
      candidate(
        draft(scene, {
          code: 'issue-number-differs',
          cause: 'vendor-metadata',
          about: refs,
          recordIssue: list[0]?.recordIssue ?? null,
          explains: idsOf(list),
          field: 'issueNumber',
          collation: `${from} to ${to}`,
          return: `${list[0]?.returned ?? '?'} to ${list.at(-1)?.returned ?? '?'}`,
          says: `The issue numbers of ${counted(list.length, 'issue')} in a row (${words}) are ${String(Math.abs(by))} too ${by < 0 ? 'low' : 'high'} in the return; the record has ${from} to ${to}.`,
          instruction: `Give these issues the numbers that are printed on them: ${list.map((one) => one.collation ?? '?').join(', ')}.`,
        }),
      ),
    ];
  });
}

/** Page labels that are gone from a whole issue, or from most issues. */
function labelsLeftOut(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const absent = left.filter((one) => one.field === 'page' && one.returned === 'no number');
  const groups = [...groupBy(absent, (one) => issueOf(scene, one))].filter(([, list]) => list.length >= PAGES);
  const all = groups.length >= MANY && groups.length >= scene.record.issues.length * SHARE;
  return (all ? [groups.flatMap(([, list]) => list)] : groups.map(([, list]) => list)).map((list) => {
    const refs = inFilmOrder(list.flatMap((one) => one.pairs));
    const first = list[0] === undefined ? null : issueOf(scene, list[0]);
    const of = all ? counted(groups.length, 'issue') : issueName(scene, first);
    const words = framesInWords(rangeOf(scene, refs).frames);
    const labels = refs.map((ref) => recordFrame(scene, ref)?.page ?? '?');
    return candidate(
      draft(scene, {
        code: 'page-number-differs',
        cause: 'vendor-metadata',
        about: refs,
        recordIssue: first,
        ...(all ? { title: null, date: null, edition: null } : {}),
        explains: idsOf(list),
        page: null,
        field: 'page',
        collation: labels.length <= 12 ? labels.join(', ') : `${labels.slice(0, 10).join(', ')} and ${String(labels.length - 10)} more`,
        return: 'no number',
        says: `${counted(refs.length, 'page')} of ${of} (${words}) came without the page numbers that the paper prints.`,
        instruction: all
          ? 'Give every page the number that is printed on it.'
          : `Give the pages on ${words} the numbers that are printed on them: ${labels.join(', ')}.`,
      }),
    );
  });
}

/** Issues whose pages are counted from 0. */
function fromZero(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const groups = [
    ...groupBy(
      left.filter((one) => one.field === 'order'),
      (one) => issueOf(scene, one),
    ),
  ].filter(([, list]) => {
    const low = list.every((one) => Number(one.returned) === Number(one.collation) - 1);
    return low && list.length > 1 && list.some((one) => one.pairs.some((ref) => returnFrame(scene, ref)?.order === 0));
  });
  const all = groups.length >= MANY && groups.length >= scene.record.issues.length * SHARE;
  return (all ? [groups.flatMap(([, list]) => list)] : groups.map(([, list]) => list)).map((list) => {
    const refs = inFilmOrder(list.flatMap((one) => one.pairs));
    const first = list[0] === undefined ? null : issueOf(scene, list[0]);
    const words = framesInWords(rangeOf(scene, refs).frames);
    const of = all ? counted(groups.length, 'issue') : issueName(scene, first);
    return candidate(
      draft(scene, {
        code: 'page-order-differs',
        cause: 'vendor-metadata',
        about: refs,
        recordIssue: first,
        ...(all ? { title: null, date: null, edition: null } : {}),
        explains: idsOf(list),
        page: null,
        field: 'order',
        collation: 'counted from 1',
        return: 'counted from 0',
        says: `The places of the pages of ${of} (${words}) are counted from 0; they must be counted from 1.`,
        instruction: `Add 1 to the place of each page of ${of}.`,
        constant: true,
      }),
    );
  });
}
