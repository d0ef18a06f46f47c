import type { FrameFact, IssueFact } from '../../src/model/expected.js';
import type { Frame, Issue, Side } from '../../src/model/film.js';

/** Where something was left out: one page or issue, all of an issue, everything. */
export type Reach = 'page' | 'issue' | 'everywhere';

/** A return that leaves a fact out, and how often it did. */
export interface Silenced {
  readonly side: Side;
  readonly times: number;
}

const FRAME: Readonly<Record<Exclude<FrameFact, 'reel' | 'number'>, (frame: Frame) => Frame | null>> = {
  page: (frame) => (frame.pageKey === null ? null : { ...frame, page: null, pageKey: null }),
  order: (frame) => (frame.order === null ? null : { ...frame, order: null }),
  section: (frame) => (frame.section === null ? null : { ...frame, section: null }),
};

const ISSUE: Readonly<Record<IssueFact, (issue: Issue) => Issue | null>> = {
  title: (issue) => (issue.title === null ? null : { ...issue, title: null }),
  date: (issue) => (issue.date === null ? null : { ...issue, date: null }),
  datePrinted: (issue) => (issue.datePrinted === null ? null : { ...issue, datePrinted: null }),
  edition: (issue) => (issue.edition === null ? null : { ...issue, edition: null }),
  editionLabel: (issue) => (issue.editionLabel === null ? null : { ...issue, editionLabel: null }),
  volume: (issue) => (issue.volume === null ? null : { ...issue, volume: null }),
  issueNumber: (issue) => (issue.issueNumber === null ? null : { ...issue, issueNumber: null }),
};

export const FRAME_FACTS = Object.keys(FRAME) as (keyof typeof FRAME)[];
export const ISSUE_FACTS = Object.keys(ISSUE) as IssueFact[];

/** The return without a fact of its pages: on the page in the middle, on all pages of that one's issue, or on every page. */
export function withoutFrameFact(side: Side, fact: keyof typeof FRAME, reach: Reach): Silenced {
  const having = side.reels.flatMap(({ frames }) => frames).filter((frame) => frame.kind === 'page' && FRAME[fact](frame) !== null);
  const chosen = having[Math.floor(having.length / 2)];
  let times = 0;
  const reels = side.reels.map((reel) => ({
    ...reel,
    frames: reel.frames.map((frame) => {
      const meant =
        frame.kind === 'page' && (reach === 'everywhere' || (reach === 'issue' ? frame.issue === chosen?.issue : frame === chosen));
      const without = meant ? FRAME[fact](frame) : null;
      if (without !== null) times += 1;
      return without ?? frame;
    }),
  }));
  return { side: { ...side, reels }, times };
}

/** The return without a fact of its issues: of the one in the middle, or of all. */
export function withoutIssueFact(side: Side, fact: IssueFact, reach: Exclude<Reach, 'page'>): Silenced {
  const having = side.issues.filter((issue) => issue.present && ISSUE[fact](issue) !== null);
  const chosen = having[Math.floor(having.length / 2)];
  let times = 0;
  const issues = side.issues.map((issue) => {
    const without = issue.present && (reach === 'everywhere' || issue === chosen) ? ISSUE[fact](issue) : null;
    if (without !== null) times += 1;
    return without ?? issue;
  });
  return { side: { ...side, issues }, times };
}
