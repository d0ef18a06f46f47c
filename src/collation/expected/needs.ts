import type { Policies } from '../../model/agreement.js';
import type { ExpectedFact, ExpectedReturn, FrameFact, IssueFact, Needs, StatedFacts } from '../../model/expected.js';
import type { NeedsRow } from '../../model/expected-delivery.js';
import type { Side } from '../../model/film.js';
import type { FactName, Profile } from '../../model/profile.js';

const ISSUE_FACTS: readonly (readonly [IssueFact, string, keyof Policies | null])[] = [
  ['title', 'title of an issue', null],
  ['date', 'date of an issue', null],
  ['datePrinted', 'date on the paper, where it is another', 'printedDate'],
  ['edition', 'edition of an issue', 'editionOrder'],
  ['editionLabel', 'words for the edition', null],
  ['volume', 'volume', null],
  ['issueNumber', 'issue number', null],
];

const PAGE_FACTS: readonly (readonly [FrameFact, string, keyof Policies | null])[] = [
  ['number', 'frame number of a page', 'splitExposures'],
  ['reel', 'reel number of a page', 'reelNumber'],
  ['page', 'page number', 'pageNumber'],
  ['order', 'place of a page in its issue', null],
  ['section', 'section of a page', null],
];

/** What the return must, may and must not say, counted over the record: one row for each fact and thing. */
export function needsRows(record: Side, expected: ExpectedReturn, policies: Policies): readonly NeedsRow[] {
  const policyOf = (name: keyof Policies | null): string | null => (name === null ? null : `${name} ${policies[name]}`);
  const frames = expected.reels.flatMap((reel, r) =>
    reel.frames.map((one, at) => ({ one, kind: record.reels[r]?.frames[at]?.kind ?? ('page' as const) })),
  );
  const pages = frames.filter(({ one }) => one.delivered === 'must').map(({ one }) => one);
  const issues = expected.issues.filter((_, at) => record.issues[at]?.present === true);
  const absences = (whole: boolean): readonly Needs[] =>
    record.absences.flatMap(({ page, order }, at) =>
      (page === null && order === null) === whole ? (expected.absences[at]?.stated ?? []) : [],
    );
  const targets = frames.filter(({ kind }) => kind === 'target').map(({ one }) => (one.listed === 'with-others' ? 'may' : one.listed));
  return [
    row(
      'frame delivered as a page',
      frames.map(({ one }) => one.delivered),
      null,
    ),
    ...ISSUE_FACTS.map(([fact, what, policy]) =>
      row(
        what,
        issues.map((issue) => needsOf(issue[fact])),
        policyOf(policy),
      ),
    ),
    ...PAGE_FACTS.map(([fact, what, policy]) =>
      row(
        what,
        pages.map(({ facts }) => needsOf(facts[fact])),
        policyOf(policy),
      ),
    ),
    row('page that is not on the film, named', absences(false), policyOf('absentPages')),
    row('issue that is not on the film, named', absences(true), policyOf('absentIssues')),
    row('target listed', targets, policyOf('targets')),
    row(
      'files of a page',
      pages.map(() => (policies.files === 'required' ? 'must' : 'may')),
      policyOf('files'),
    ),
  ].filter(({ must, may, mustNot }) => must + may + mustNot > 0);
}

/** A fact of which the record says nothing may be stated and may be left out. */
const needsOf = ({ needs }: ExpectedFact): Needs => needs;

function row(what: string, needs: readonly Needs[], policy: string | null): NeedsRow {
  const count = (wanted: Needs): number => needs.filter((one) => one === wanted).length;
  return { what, must: count('must'), may: count('may'), mustNot: count('must-not'), policy };
}

const PLACES: Readonly<Record<FrameFact | IssueFact, readonly ['issue' | 'page', FactName]>> = {
  title: ['issue', 'titleId'],
  date: ['issue', 'date'],
  datePrinted: ['issue', 'datePrinted'],
  edition: ['issue', 'edition'],
  editionLabel: ['issue', 'editionLabel'],
  volume: ['issue', 'volume'],
  issueNumber: ['issue', 'issueNumber'],
  number: ['page', 'frame'],
  reel: ['page', 'reel'],
  page: ['page', 'page'],
  order: ['page', 'order'],
  section: ['page', 'section'],
};

/** Which facts the programme's XML asks for; the others may be left out, for they need not or cannot stand there. */
export function askedBy(profile: Profile): StatedFacts {
  return Object.fromEntries(
    Object.entries(PLACES).map(([fact, [part, name]]) => {
      const rule = profile.facts[part][name];
      const isAsked = rule !== undefined && rule.sources.length > 0 && (rule.needs === 'must' || rule.movedBy !== undefined);
      return [fact, isAsked ? 'must' : 'may'];
    }),
  );
}
