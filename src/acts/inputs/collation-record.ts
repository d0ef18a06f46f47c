import type { Input } from '../../model/findings.js';
import { byCause } from '../../normalise/by-cause.js';
import type { NormalisedRecord } from '../../normalise/record.js';
import { isDaySlip } from '../../normalise/sheet-damage.js';
import { UserMistake } from '../../read/mistake.js';
import { readRecord } from '../../read/record.js';
import { understoodRecord } from '../../reading/index.js';
import { type Leaving, leavingCells } from '../../reading/leaving.js';
import { dossierAbove } from '../dossier/open.js';
import { refusal } from './refusal.js';

/** Reads and understands the collation record in these files, where `daySlips` is true also one with days that never were, which a check names; `leaving` gives what stands in own columns that may leave the house. Throws UserMistake with what is wrong in it, by cause. */
export async function collationRecord(
  paths: readonly string[],
  { daySlips = false }: { readonly daySlips?: boolean } = {},
): Promise<NormalisedRecord & { readonly inputs: readonly Input[]; readonly leaving: () => readonly Leaving[] }> {
  const written = await readRecord(paths);
  const unread = written.readings.find(({ reading }) => (reading.open ?? []).length > 0);
  if (unread !== undefined)
    throw new UserMistake(
      `${unread.name} still holds ${questions((unread.reading.open ?? []).length)} about how the record is read. Answer there, or run "reeltally collation read${(await isKnownHere(paths)) ? '' : ` ${paths.join(' ')}`}".`,
    );
  const understood = understoodRecord(written);
  const { problems } = understood;
  if (problems.every((problem) => daySlips && isDaySlip(problem)))
    return { ...understood, inputs: written.inputs, leaving: () => leavingCells(written) };
  const sentences = byCause(problems);
  throw new UserMistake(refusal('The collation record cannot be used as it is', sentences, 'causes more'));
}

function questions(count: number): string {
  return count === 1 ? 'an open question' : `${String(count)} open questions`;
}

/** Whether the record is that of the order in whose folder one is, where no path has to be typed. */
async function isKnownHere([path = '']: readonly string[]): Promise<boolean> {
  const root = await dossierAbove(path);
  return root !== null && root === (await dossierAbove('.'));
}
