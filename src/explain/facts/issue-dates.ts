import { type Candidate, candidate } from '../choose.js';
import { agreeingCopies } from '../documents/issue-copies.js';
import { mainDocument } from '../documents/meetings.js';
import { counted, draft, framesInWords, issueName, rangeOf } from '../draft.js';
import { dateTestimony, filmOrder, follows } from '../film/witnesses.js';
import { idsOf, inFilmOrder } from '../runs.js';
import { factsOf, fieldOf, recordIssueOf, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { setAll } from './corrections.js';

/** A date that was left standing from the issue before, over two or more issues. */
export function carriedOver(scene: Scene): Candidate[] {
  const wrong = mainDates(scene);
  const found: Candidate[] = [];
  let run: WordedDifference[] = [];
  const close = (): void => {
    if (run.length >= 2) found.push(carriedRun(scene, run));
    run = [];
  };
  for (const difference of wrong) {
    const last = run.at(-1);
    // the same date left standing, or each issue one behind
    const continues =
      last !== undefined &&
      (last.returned === difference.returned || (isPreviousDate(scene, difference) && isPreviousDate(scene, last))) &&
      follows(scene, last.recordIssue, difference.recordIssue);
    if (continues) run.push(difference);
    else {
      close();
      if (isPreviousDate(scene, difference)) run = [difference];
    }
  }
  close();
  return found;
}

/** Date differences between issues and their main documents, in film order. */
export function mainDates(scene: Scene): WordedDifference[] {
  return fieldOf(scene, 'date')
    .filter((difference) => difference.recordIssue !== null && mainDocument(scene, difference.recordIssue) === difference.returnIssue)
    .sort((a, b) => (a.pairs[0]?.alignment ?? 0) - (b.pairs[0]?.alignment ?? 0) || (a.pairs[0]?.pair ?? 0) - (b.pairs[0]?.pair ?? 0));
}

function isPreviousDate(scene: Scene, difference: WordedDifference): boolean {
  if (difference.recordIssue === null) return false;
  const order = filmOrder(scene, difference.recordIssue);
  const before = order[order.indexOf(difference.recordIssue) - 1];
  return before !== undefined && recordIssueOf(scene, before)?.date?.text === difference.returned;
}

function carriedRun(scene: Scene, run: readonly WordedDifference[]): Candidate {
  const pairs = inFilmOrder(run.flatMap((difference) => difference.pairs));
  const words = framesInWords(rangeOf(scene, pairs).frames);
  const dates = run.map((difference) => difference.collation ?? '');
  return candidate(
    draft(scene, {
      code: 'date-carried-over',
      cause: 'vendor-metadata',
      about: pairs,
      recordIssue: run[0]?.recordIssue ?? null,
      explains: [...idsOf(run), ...run.flatMap((difference) => sameDocument(scene, difference))],
      field: 'date',
      collation: dates.join(', '),
      return: [...new Set(run.map((difference) => difference.returned ?? ''))].join(', '),
      says: `${counted(run.length, 'issue')} (${dates[0] ?? ''} to ${dates.at(-1) ?? ''}, ${words}) ${run.at(-1)?.returned === run[0]?.returned ? `all carry the date of the issue before them, ${run[0]?.returned ?? ''}` : 'each carry the date of the issue before'}.`,
      instruction: `Give these issues the dates ${dates.join(', ')}, in film order${asEditions(scene, run)}.`,
      evidence: [`${run[0]?.returned ?? ''} is the date of the issue before the first of them.`],
    }),
  );
}

/** `, each as edition 1`, where the issues were counted as further editions of the wrong date. */
export function asEditions(scene: Scene, run: readonly WordedDifference[]): string {
  const counted = run.some(({ recordIssue, returnIssue }) => factsOf(scene, recordIssue ?? -1, returnIssue ?? -1, 'edition').length > 0);
  if (!counted) return '';
  const editions = run.map(({ recordIssue }) => String(recordIssueOf(scene, recordIssue)?.edition ?? 1));
  return new Set(editions).size === 1 ? `, each as edition ${editions[0] ?? '1'}` : `, as editions ${editions.join(', ')}`;
}

/** Differences that a wrong date brings with it: an edition counted under that date, a printed date given as the real one, copies that follow. */
export function sameDocument(scene: Scene, difference: WordedDifference): number[] {
  if (difference.recordIssue === null || difference.returnIssue === null) return [];
  const printed = recordIssueOf(scene, difference.recordIssue)?.datePrinted;
  const gave = returnIssueOf(scene, difference.returnIssue)?.date;
  const facts = factsOf(scene, difference.recordIssue, difference.returnIssue, 'edition');
  const lost =
    printed != null && gave != null && (printed.day ?? printed.text) === (gave.day ?? gave.text)
      ? factsOf(scene, difference.recordIssue, difference.returnIssue, 'datePrinted')
      : [];
  const copies = agreeingCopies(scene, difference.returnIssue, 'date', difference.collation).ids;
  return [
    ...idsOf(facts),
    ...idsOf(lost),
    ...copies,
    ...idsOf(
      fieldOf(scene, 'copy').filter(
        (copy) => copy.returnIssue === difference.returnIssue && copy.about?.startsWith('edition ') === true && facts.length > 0,
      ),
    ),
  ];
}

/** A wrong date of one issue. */
export function dates(scene: Scene): Candidate[] {
  return fieldOf(scene, 'date').map((difference) => {
    const mine = difference.recordIssue ?? -1;
    const theirs = difference.returnIssue ?? -1;
    const testimony = dateTestimony(scene, mine, theirs);
    const words = framesInWords(rangeOf(scene, difference.pairs).frames);
    const printed = recordIssueOf(scene, mine)?.datePrinted ?? null;
    const copies = agreeingCopies(scene, theirs, 'date', difference.collation);
    const own = testimony.cause === 'collation';
    const edition = factsOf(scene, mine, theirs, 'edition').length > 0;
    return candidate(
      draft(scene, {
        code: 'date-differs',
        cause: testimony.cause,
        about: difference.pairs,
        recordIssue: mine,
        returnIssue: theirs,
        explains: [difference.id, ...sameDocument(scene, difference), ...(own ? [] : idsOf(factsOf(scene, mine, theirs, 'datePrinted')))],
        field: 'date',
        collation: difference.collation,
        return: difference.returned,
        says: own
          ? `The record gives the issue on ${words} the date ${difference.collation ?? '?'}, the return ${difference.returned ?? '?'}; the film speaks for the return.`
          : `${issueName(scene, mine)} (${words}) is dated ${difference.returned ?? '?'} in the return.`,
        instruction: own
          ? `Compare the paper on ${words} with both dates before anything is changed.`
          : `Give the issue on ${words} the date ${difference.collation ?? '?'}${printed === null ? '' : `, and ${printed.text} as the date printed on the paper`}${edition ? `; it is edition ${String(recordIssueOf(scene, mine)?.edition ?? 1)}` : ''}.`,
        evidence: [
          ...testimony.evidence,
          ...copies.sources.map((source) => `The return's own ${source} says ${difference.collation ?? '?'}.`),
        ],
        alternatives: own
          ? [
              {
                says: `The record is right, and the return's ${difference.returned ?? '?'} is wrong.`,
                cause: 'vendor-metadata',
                instruction: `Give the issue on ${words} the date ${difference.collation ?? '?'}.`,
              },
            ]
          : [],
        corrections: setAll(scene, difference.pairs, 'date', difference),
      }),
    );
  });
}
