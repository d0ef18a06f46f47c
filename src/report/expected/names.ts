import type { DueFilm, DueIssue, ExpectedDelivery } from '../../model/expected-delivery.js';
import type { LayoutName } from '../../model/profile.js';

/** An issue with the folder and the name of its document. */
export interface NamedIssue {
  readonly issue: DueIssue;
  readonly folder: string;
  readonly document: string;
  /** What its page documents and files begin with, where the layout has such. */
  readonly stem: string;
  /** For each page the name of its files without their ending, or its own document. */
  readonly pages: readonly string[];
  readonly absent: readonly string[];
}

/** A film with the folder and the name of its document; null where none is written. */
export interface NamedFilm {
  readonly film: DueFilm;
  readonly folder: string;
  readonly document: string | null;
  readonly unmatched: readonly string[];
}

/** What is to come with the names it comes under. */
export interface NamedDelivery {
  readonly issues: readonly NamedIssue[];
  readonly films: readonly NamedFilm[];
}

/** A text as the name of a file: what a file system or a path would take for something else becomes `_`. */
export function fileName(text: string): string {
  return (
    text
      .trim()
      .replace(/[\\/:*?"<>|%#\u0000-\u001f\u007f]/g, '_')
      .replace(/^\.+/, '_') || '_'
  );
}

/** Names everything by the same rules each time, so that two people have the same list. */
export function namedDelivery({ issues, films }: ExpectedDelivery, layout: LayoutName): NamedDelivery {
  return layout === 'issue-mets' ? metsNames(issues, films) : modsNames(issues, films);
}

/** Names that were given; the second of a name gets `_2`. */
function once(taken: Map<string, number>, name: string): string {
  const key = name.toLowerCase();
  const count = (taken.get(key) ?? 0) + 1;
  taken.set(key, count);
  return count === 1 ? name : `${name}_${String(count)}`;
}

const two = (count: number): string => String(count).padStart(2, '0');

/** `0012`, `0012A`. */
function padded(frame: string): string {
  return frame.replace(/\d+/, (digits) => digits.padStart(4, '0'));
}

function metsNames(issues: readonly DueIssue[], films: readonly DueFilm[]): NamedDelivery {
  const folders = new Map<string, number>();
  const named = issues.map((issue): NamedIssue => {
    const date = issue.date ?? 'undated';
    const day = issue.isCertain
      ? `${date.slice(0, 10).replaceAll('-', '')}${two(issue.edition)}`
      : `${fileName(date)}-${two(issue.edition)}`;
    const folder = once(folders, `${fileName(issue.title ?? 'untitled')}/${fileName(issue.reel)}/${day}`);
    const files = new Map<string, number>();
    const stem = folder.slice(folder.lastIndexOf('/') + 1);
    return {
      issue,
      folder,
      document: `${stem}.xml`,
      stem,
      pages: issue.pages.map(({ frame }) => once(files, padded(fileName(frame)))),
      absent: [],
    };
  });
  return {
    issues: named,
    films: films.map((film) => {
      const number = fileName(film.number);
      return {
        film,
        folder: `${fileName(film.title)}/${number}`,
        document: film.targets.length === 0 ? null : `${number}.xml`,
        unmatched: [],
      };
    }),
  };
}

function modsNames(issues: readonly DueIssue[], films: readonly DueFilm[]): NamedDelivery {
  const documents = new Map<string, number>();
  const named = issues.map((issue): NamedIssue => {
    const day = `${issue.isCertain ? (issue.date ?? '').slice(0, 10) : fileName(issue.date ?? 'undated')}-${two(issue.edition)}`;
    // Editions of two titles on one day share a folder; two issues of one title and one uncertain day do not.
    const path = once(documents, `${fileName(issue.reel)}/${day}/${fileName(issue.title ?? 'untitled')}`);
    const again = /_\d+$/.exec(path.slice(`${fileName(issue.reel)}/${day}/${fileName(issue.title ?? 'untitled')}`.length))?.[0] ?? '';
    const stem = `${fileName(issue.title ?? 'untitled')}-${day}`;
    const files = new Map<string, number>();
    return {
      issue,
      folder: `${fileName(issue.reel)}/${day}${again}`,
      document: `${stem}.edition.xml`,
      stem,
      pages: issue.pages.map(({ frame }) => `${stem}-${once(files, padded(fileName(frame)))}.mods.xml`),
      absent: issue.absent.map(
        ({ order }, at) => `${stem}-x${String(order ?? at + 1).padStart(4, '0')}${order === null ? '9' : ''}.mods.xml`,
      ),
    };
  });
  return {
    issues: named,
    films: films.map((film) => {
      const [number, title] = [fileName(film.number), fileName(film.title)];
      const unmatched = film.unmatched.map((frame) => `${title}-${number}-${padded(fileName(frame))}.xml`);
      return { film, folder: number, document: `${title}-${number}.film.xml`, unmatched };
    }),
  };
}
