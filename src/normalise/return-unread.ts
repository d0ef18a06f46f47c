import type { DocumentProblem, Unfound } from '../model/film.js';
import type { Unchecked } from '../model/findings.js';
import type { DivisionRule, Profile } from '../model/profile.js';
import type { WrittenReturn } from '../model/written-return.js';
import { readPresent } from './return-facts.js';

/** Places that one entry names. */
const MOST_PLACES = 100;

/**
 * The question to ask where the library's own profile finds not one page in documents that should hold some; null where there is none to ask. Then
 * nothing of the return was read, and nothing of it can be compared.
 */
export function nothingRead(written: WrittenReturn, profile: Profile): Unfound | null {
  const { issues, undivided = [] } = written;
  if (profile.own !== true || issues.some(({ pages }) => pages.length > 0)) return null;
  if (undivided.length > 0)
    return pagesUnfound(
      'the issues',
      undivided.map(({ document }) => ({ document })),
      undividedWords(undivided, profile),
    );
  const present = issues.filter(
    ({ facts }) => facts.present === undefined || readPresent(facts.present, profile.present)?.present !== false,
  );
  return present.length === 0
    ? null
    : pagesUnfound(
        'the pages',
        present.map(({ place }) => place),
        pagelessWords(written, present.length, profile),
      );
}

/** Problems that only say again that no page was read, and what stands for them. */
export function withoutPages(problems: readonly DocumentProblem[]): {
  readonly problems: readonly DocumentProblem[];
  readonly unchecked: readonly Unchecked[];
} {
  const isEcho = ({ code, field }: DocumentProblem): boolean =>
    code === 'page-not-delivered' || (code === 'file-not-listed' && field === 'file');
  const files = problems.filter(({ code, field }) => code === 'file-not-listed' && field === 'file');
  return {
    problems: problems.filter((problem) => !isEcho(problem)),
    unchecked: files.map(({ returned, place }) => ({
      what: `files that no page names: ${returned ?? ''}`,
      why: 'No page was read that could name them.',
      frames: null,
      places: [place],
      count: 1,
      required: false,
    })),
  };
}

function pagesUnfound(what: string, places: readonly { readonly document?: string }[], why: string): Unfound {
  return {
    field: 'pages',
    whereRecorded: false,
    unchecked: { what, why, frames: null, places: places.slice(0, MOST_PLACES), count: places.length, required: true },
  };
}

function undividedWords(undivided: NonNullable<WrittenReturn['undivided']>, profile: Profile): string {
  const types = [...new Set(undivided.flatMap((document) => document.types))].slice(0, 8);
  return (
    `The profile "${profile.name}" looks for divisions ${divisionWords(profile.divisions.issue)}, and ${documents(undivided.length)} ${undivided.length === 1 ? 'has' : 'have'} none; ` +
    `the divisions there are of the type ${types.map((type) => `"${type}"`).join(', ') || 'of nothing at all'}. ` +
    'Either "divisions" of the profile names other ones, or the vendor sent other documents.'
  );
}

function pagelessWords({ problems }: WrittenReturn, issues: number, profile: Profile): string {
  const how =
    profile.layout === 'page-mods'
      ? `documents with the names ${profile.documents.page.names.map((name) => `"${name}"`).join(', ')}`
      : `divisions ${divisionWords(profile.divisions.page)} that ${WAYS[profile.pagesOfIssue]}`;
  const unowned = problems.find(({ code }) => code === 'page-not-delivered');
  return (
    `The profile "${profile.name}" looks for ${how}, and found none for any of ${String(issues)} ${issues === 1 ? 'issue' : 'issues'}.` +
    `${unowned === undefined ? '' : ` ${unowned.says}`} Either "divisions" or "pagesOfIssue" of the profile is wrong, or the vendor sent no pages.`
  );
}

const WAYS: Readonly<Record<Profile['pagesOfIssue'], string>> = {
  below: 'lie below the division of their issue',
  linked: 'a structLink leads to from their issue',
  document: 'stand in the document of an issue',
};

function divisionWords({ types, map }: DivisionRule): string {
  return `of the type ${types.map((type) => `"${type}"`).join(' or ')}${map === undefined ? '' : ` in a structMap of the TYPE "${map}"`}`;
}

function documents(count: number): string {
  return count === 1 ? 'the one document' : `${String(count)} documents`;
}
