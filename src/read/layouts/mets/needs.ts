import type { Place } from '../../../model/film.js';
import type { Unchecked } from '../../../model/findings.js';
import type { DocumentKind, DocumentRule } from '../../../model/profile.js';
import type { WrittenIssue } from '../../../model/written-return.js';
import { WHY_NOT_FOLLOWED } from '../../href.js';
import { type DraftFile, problem, type Reading } from '../../reading.js';

/** A file of something that is not on the film, which no frame asks for. */
export interface ScannerFile {
  readonly file: DraftFile;
  readonly place: Place;
}

/**
 * The uses of which every page must name a file: those that the profile says must be there, and those that it asks for where the batch holds one.
 * A use counts as held when a file of it came and a page names it. Files of a use that must not be there are told. A use that the library's own
 * profile asks for and that no page at all names is asked of the profile.
 */
export function askedUses(reading: Reading, issues: readonly WrittenIssue[]): readonly string[] {
  const { uses, otherUses } = reading.profile.files;
  const named = new Map<string, { held: boolean; pages: number; first: string }>();
  for (const issue of issues) {
    for (const page of issue.pages) {
      for (const file of page.files) {
        const use = named.get(file.use) ?? { held: false, pages: 0, first: file.href };
        named.set(file.use, use);
        use.pages += 1;
        use.held ||= file.state === 'present' || file.state === 'empty';
      }
    }
  }
  const asked: string[] = [];
  for (const use of new Set([...Object.keys(uses), ...named.keys()])) {
    const needs = uses[use]?.needs ?? otherUses;
    const found = named.get(use);
    if (needs === 'must' && found === undefined && reading.profile.own === true) {
      if (issues.some(({ pages }) => pages.length > 0)) reading.questions.push(noSuchUse(use, [...named.keys()], reading.profile.name));
    } else if (needs === 'must' || (needs === 'where-held' && found?.held === true)) asked.push(use);
    if (needs === 'must-not' && found !== undefined)
      reading.problems.push(
        problem('not-ordered', `Files of the use "${use}" are not ordered, but ${pagesName(found.pages)} one (first: ${found.first}).`, {
          instruction: `Leave the files of the use "${use}" out.`,
          field: 'file',
          returned: use,
        }),
      );
  }
  return asked.sort();
}

/** The uses that more than half of the pages name. */
export function usualUses(issues: readonly WrittenIssue[]): readonly string[] {
  const pages = issues.flatMap((issue) => issue.pages.filter(({ structPosition }) => structPosition !== null));
  const counts = new Map<string, number>();
  for (const { files } of pages) for (const use of new Set(files.map((file) => file.use))) counts.set(use, (counts.get(use) ?? 0) + 1);
  return [...counts].flatMap(([use, count]) => (count * 2 > pages.length ? [use] : [])).sort();
}

function noSuchUse(use: string, others: readonly string[], profile: string): Unchecked {
  const named =
    others.length === 0 ? 'no page names a file' : `the pages name files of the uses ${others.map((other) => `"${other}"`).join(', ')}`;
  return question(
    `the files of the use "${use}"`,
    `The profile "${profile}" says that every page must name one, and none does; ${named}. Either the profile calls the use by another name, or the vendor left these files out.`,
  );
}

/** A required check that could not be made, because the library's own profile or the vendor may be wrong. */
function question(what: string, why: string): Unchecked {
  return { what, why, frames: null, places: [], count: 1, required: true };
}

function pagesName(count: number): string {
  return count === 1 ? 'one page names' : `${String(count)} pages name`;
}

/** How documents of a kind are looked for, in words. */
function lookedFor({ names, roots }: DocumentRule): string {
  const byName = names.length === 0 ? [] : [`by the names ${names.map((name) => `"${name}"`).join(', ')}`];
  const byRoot = roots === undefined ? [] : [`by the first elements ${roots.map(({ element }) => `<${element}>`).join(', ')}`];
  return [...byName, ...byRoot].join(' or ');
}

/** Kinds of document that the profile says must be there and are not, or must not and are. */
export function noteDocumentNeeds(reading: Reading, manifests: number, issues: number, reels: number, undivided: boolean): void {
  const kinds: readonly (readonly [DocumentKind, string, number])[] = [
    ['manifest', 'batch manifest', manifests],
    ['issue', 'issue document', issues],
    ['reel', 'reel document', reels],
  ];
  for (const [kind, name, count] of kinds) {
    const { needs } = reading.profile.documents[kind];
    if (needs === 'must' && count === 0 && reading.profile.own === true && !(kind === 'issue' && undivided))
      reading.questions.push(
        question(
          `the ${name}`,
          `The profile "${reading.profile.name}" says that one must be sent, and none was found ${lookedFor(reading.profile.documents[kind])}. Either the profile looks for another name or first element, or the vendor sent none.`,
        ),
      );
    else if (needs === 'must' && count === 0 && reading.profile.own !== true)
      reading.problems.push(
        problem('file-missing', `The profile asks for the ${name}, and none that can be read was sent.`, {
          instruction: `Send the ${name}.`,
          field: 'document',
        }),
      );
    if (needs === 'must-not' && count > 0)
      reading.problems.push(
        problem(
          'not-ordered',
          `The profile says that no ${name} is sent, and ${count === 1 ? 'there is one' : `there are ${String(count)}`}.`,
          {
            instruction: `Leave the ${name} out.`,
            field: 'document',
          },
        ),
      );
  }
}

/** Files of the scanner's targets that did not come: no page or frame asks for them. */
export function noteScannerFiles(reading: Reading, files: readonly ScannerFile[]): void {
  for (const { file, place } of files) {
    if (file.state !== 'missing' && file.state !== 'empty' && file.state !== 'unsafe') continue;
    const how =
      file.state === 'missing' ? 'not in the batch' : file.state === 'empty' ? 'empty' : WHY_NOT_FOLLOWED[file.because ?? 'outside'];
    const name = file.href === '' ? '' : ` "${file.href}"`;
    reading.problems.push(
      problem('file-missing', `The ${file.use} file${name} of the scanner's target "${place.element ?? ''}" is ${how}.`, {
        instruction: `Deliver the file, and name it by its path inside the batch.`,
        field: 'file',
        returned: file.href,
        place,
      }),
    );
  }
}
