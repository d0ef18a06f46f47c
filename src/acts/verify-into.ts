import type { Findings } from '../model/findings.js';
import { UserMistake } from '../read/mistake.js';
import type { FormatName } from '../report/index.js';
import { keptRulings } from './inputs/kept-rulings.js';
import { resultOf, type Seen, seenNow, seenText } from './inputs/seen.js';
import { refuseInBatch } from './outputs/outside-batch.js';
import { linksTo, resultFiles } from './outputs/result-files.js';
import { refuseExisting, writeResults } from './outputs/results-folder.js';
import { SEEN_FILE } from './outputs/seen-file.js';
import type { Surroundings } from './surroundings.js';
import { type VerificationFiles, verification } from './verify.js';

/** Where a result is written, and how. */
export interface ResultPlace {
  readonly folder: string;
  readonly formats: readonly FormatName[];
  readonly replace: boolean;
  /** Do nothing where the result of the same files, and of this program, lies there. */
  readonly ifChanged: boolean;
}

/** A result and the names of the files that were written; none where nothing had changed. */
export interface VerifiedInto {
  readonly result: Findings;
  readonly written: readonly string[];
}

/** Verifies what the vendor sent and writes the result into a folder. Throws UserMistake. */
export async function verifyInto(files: VerificationFiles, place: ResultPlace, around: Surroundings): Promise<VerifiedInto> {
  const { folder, formats, replace, ifChanged } = place;
  if (ifChanged && !formats.includes('json'))
    throw new UserMistake('--if-changed holds the files against the saved result: leave json among the formats.');
  await refuseInBatch(folder, files.batch);
  const before = ifChanged ? await seen(files, formats) : null;
  const kept = before === null ? null : await resultOf(folder, before);
  if (kept !== null) return { result: kept, written: [] };
  await refuseExisting(folder, replace);
  const result = await verification(files, around);
  const [batch, ...more] = files.batch;
  // Links lead into one folder: with several, nobody could say from a path in which of them a file lies.
  const links = linksTo(more.length > 0 ? undefined : batch, folder);
  const made = [...(await resultFiles(result, formats, links, await keptRulings(folder)))];
  if (before !== null) {
    const saved = made.find(({ name }) => name === 'findings.json')?.content ?? '';
    if (sameFiles(before, await seen(files, formats))) made.push({ name: SEEN_FILE, content: seenText(before, saved) });
    else around.say('files changed while they were read, as if they were still being copied; verify again when that is done.', 'remark');
  }
  await writeResults(folder, made, replace);
  return { result, written: made.map(({ name }) => name) };
}

async function seen(files: VerificationFiles, formats: readonly string[]): Promise<Seen> {
  return seenNow(files, formats).catch((error: unknown) => {
    if (error instanceof UserMistake) throw error;
    throw new UserMistake(
      `${files.batch.join(', ')}: the folder cannot be read (${error instanceof Error ? error.message : String(error)}).`,
    );
  });
}

const sameFiles = (a: Seen, b: Seen): boolean => a.files === b.files && a.documents === b.documents;
