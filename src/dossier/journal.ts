import type { JournalLine } from '../model/dossier.js';
import { minutes } from './stale-lock.js';

/** A new line, before it is tied to the one before. */
export type JournalEntry = Omit<JournalLine, 'format' | 'before' | 'own'>;

/** A line as it stands in the file; `line` is null where it is none. */
export interface ReadLine {
  readonly number: number;
  readonly text: string;
  readonly line: JournalLine | null;
}

/** Gives the SHA-256 of a text in UTF-8, in lower case hexadecimal. */
export type Digest = (text: string) => string;

/** The texts of new lines behind a journal whose last line is `last` (empty where there is none), each tied to the one before. */
export function tiedLines(entries: readonly JournalEntry[], last: string, digest: Digest): readonly string[] {
  const texts: string[] = [];
  let before = last === '' ? '' : digest(last);
  for (const { name, sha256, did, at, by, version, from } of entries) {
    const line = { format: 'reeltally/journal/1', name, sha256, did, at, by, version, from, before };
    const text = JSON.stringify({ ...line, own: digest(JSON.stringify(line)) });
    texts.push(text);
    before = digest(text);
  }
  return texts;
}

/** What keeps the lines from being the unbroken journal that was written, in sentences that name the file and the line. */
export function journalFaults(lines: readonly ReadLine[], file: string, digest: Digest): readonly string[] {
  return lines.flatMap(({ number, line }, at): readonly string[] => {
    const where = `${file}, line ${String(number)}`;
    if (line === null) return [`${where}: this is not a line of a journal: something was changed or cut off here.`];
    const { own, ...rest } = line;
    if (digest(JSON.stringify(rest)) !== own) return [`${where} (${line.name}): the line was changed after it was written.`];
    const before = lines[at - 1];
    const expected = before === undefined ? '' : digest(before.text);
    if (line.before === expected) return [];
    return [
      before === undefined
        ? `${where}: the lines before this one are gone.`
        : `${where}: line ${String(before.number)} is not the one that stood here when this line was written.`,
    ];
  });
}

/** The newest line of each file, by its name. */
export function newest(lines: readonly ReadLine[]): ReadonlyMap<string, JournalLine> {
  return new Map(lines.flatMap(({ line }) => (line === null ? [] : [[line.name, line] as const])));
}

/** Clocks of two machines differ by less, in minutes. */
const CLOCKS_DIFFER = 60;

/** Whether an instant lies before another by more than two clocks differ. */
export const isBefore = (instant: string, other: string): boolean => minutes(other) - minutes(instant) > CLOCKS_DIFFER;

/** Where the times of the lines go back, in sentences: their order is that of the lines, and a day that was taken from the clock is wrong. */
export function clockFaults(lines: readonly ReadLine[], file: string): readonly string[] {
  return lines.flatMap(({ number, line }, at) => {
    const before = lines[at - 1]?.line;
    if (line === null || before == null || !isBefore(line.at, before.at)) return [];
    return [
      `${file}, line ${String(number)} (${line.name}): written after line ${String(number - 1)}, which is of ${before.at}, and dated ${line.at}: one of the two clocks was wrong.`,
    ];
  });
}
