import type { BatchFile } from './walk.js';

/** One document that may lie there twice: plain and, from a later step of the vendor's work, with `_1` (or `_2` ...) at its end. */
export interface DocumentChoice {
  /** Path with the mark of the later copy taken off. */
  readonly plainPath: string;
  /** The copies, the latest first. */
  readonly copies: readonly BatchFile[];
}

const MARKED = /^(.*)_(\d{1,2})(\.xml)$/i;

/** Groups documents with their later copies. Answered in the order of the plain paths. */
export function groupCopies(files: readonly BatchFile[]): readonly DocumentChoice[] {
  const groups = new Map<string, { file: BatchFile; mark: number }[]>();
  for (const file of files) {
    const match = MARKED.exec(file.path);
    const plainPath = match === null ? file.path : `${match[1] ?? ''}${match[3] ?? ''}`;
    const group = groups.get(plainPath) ?? [];
    group.push({ file, mark: match === null ? 0 : Number(match[2]) });
    groups.set(plainPath, group);
  }
  return [...groups.entries()]
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    .map(([plainPath, group]) => ({ plainPath, copies: group.sort((a, b) => b.mark - a.mark).map((copy) => copy.file) }));
}

/** A path without the mark of a later copy, for comparing what a manifest lists with what is there. */
export function withoutMark(path: string): string {
  return path.replace(MARKED, '$1$3');
}
