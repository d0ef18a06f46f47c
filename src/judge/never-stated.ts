import type { ResolvedAgreement } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { ExpectedFact, ExpectedReturn } from '../model/expected.js';
import type { Frame, Issue, Place, Side } from '../model/film.js';
import type { Unchecked } from '../model/findings.js';

/** A frame of the record and its partner, with what the record has expected of both. */
interface Met {
  readonly right: ExpectedFact;
  readonly frame: Frame;
  readonly issue: Issue | undefined;
}

/** Facts that the agreement requires to be checked and that a return may leave out: what they are called, and whether one page states them. */
const FACTS: readonly {
  readonly check: 'title' | 'date' | 'edition' | 'page' | 'order';
  readonly what: string;
  readonly isStated: (met: Met) => boolean;
  readonly matters?: (right: ExpectedFact) => boolean;
}[] = [
  { check: 'title', what: 'the titles of the issues', isStated: ({ issue }) => issue?.title != null },
  { check: 'date', what: 'the dates of the issues', isStated: ({ issue }) => issue?.date != null },
  {
    check: 'edition',
    what: 'the editions of the issues',
    isStated: ({ issue }) => issue?.edition != null,
    // an edition that is not named is the first
    matters: ({ right }) => right.some(({ key }) => key !== '1'),
  },
  { check: 'page', what: 'the labels of the pages', isStated: ({ frame }) => frame.page !== null },
  { check: 'order', what: 'the places of the pages in their issues', isStated: ({ frame }) => frame.order !== null },
];

/**
 * Required checks for which the return states not one fact where the record has some: they were not made. What differences or `told` already say is
 * left to them.
 */
export function neverStated(
  alignments: readonly Alignment[],
  record: Side,
  expected: ExpectedReturn,
  returned: Side,
  agreement: ResolvedAgreement,
  told: readonly (string | null)[],
): Unchecked[] {
  const pages = pagesMet(alignments, record, returned);
  return FACTS.filter(({ check }) => agreement.required.includes(check) && !told.includes(check)).flatMap(
    ({ check, what, isStated, matters = ({ right }) => right.length > 0 }) => {
      const met = pages.flatMap(({ reel, at, frame, issue, recordIssue }): Met[] => {
        const ofFrame = expected.reels[reel]?.frames[at]?.facts;
        const ofIssue = recordIssue === null ? undefined : expected.issues[recordIssue];
        const right = check === 'page' || check === 'order' ? ofFrame?.[check] : ofIssue?.[check];
        return right === undefined ? [] : [{ right, frame, issue }];
      });
      const wanted = met.filter(({ right }) => matters(right));
      if (wanted.length === 0 || met.some(isStated)) return [];
      const places = new Map<string, Place>(
        wanted.map(({ frame, issue }) => [JSON.stringify(issue?.place ?? frame.place), issue?.place ?? frame.place]),
      );
      return [
        {
          what,
          why: 'the record has them and the return states none, so nothing was compared; where the return cannot state them, leave them out of "required" in the agreement',
          frames: null,
          places: [...places.values()].slice(0, MOST_PLACES),
          count: check === 'page' || check === 'order' ? wanted.length : places.size,
          required: true,
        },
      ];
    },
  );
}

const MOST_PLACES = 100;

/** Pages of both sides that were paired. */
function pagesMet(
  alignments: readonly Alignment[],
  record: Side,
  returned: Side,
): readonly {
  readonly reel: number;
  readonly at: number;
  readonly recordIssue: number | null;
  readonly frame: Frame;
  readonly issue: Issue | undefined;
}[] {
  return alignments.flatMap(({ recordReel, pairs }) =>
    recordReel === null
      ? []
      : pairs.flatMap(({ record: at, returned: ref }) => {
          const mine = at === null ? undefined : record.reels[recordReel]?.frames[at];
          const frame = ref === null ? undefined : returned.reels[ref.reel]?.frames[ref.frame];
          if (at === null || mine?.kind !== 'page' || frame?.kind !== 'page') return [];
          return [{ reel: recordReel, at, recordIssue: mine.issue, frame, issue: returned.issues[frame.issue ?? -1] }];
        }),
  );
}
