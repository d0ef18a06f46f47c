import type { Input } from '../model/findings.js';
import { byCause } from '../normalise/by-cause.js';
import { type NormalisedRecord, normaliseRecord } from '../normalise/record.js';
import { UserMistake } from '../read/mistake.js';
import { readRecord } from '../read/record.js';

/** So many causes are told at once. */
const TOLD = 20;

/** Reads and understands the collation record in these files. Throws UserMistake with what is wrong in it, by cause. */
export async function collationRecord(
  paths: readonly string[],
  columns: Readonly<Record<string, string>>,
): Promise<NormalisedRecord & { readonly inputs: readonly Input[] }> {
  const written = await readRecord(paths);
  const understood = normaliseRecord(written, columns);
  const { problems } = understood;
  if (problems.length === 0) return { ...understood, inputs: written.inputs };
  const sentences = byCause(problems);
  const rest = sentences.length - TOLD;
  throw new UserMistake(
    [
      'The collation record cannot be used as it is:',
      ...sentences.slice(0, TOLD).map((sentence) => `  ${sentence}`),
      ...(rest > 0 ? [`  and ${String(rest)} causes more.`] : []),
    ].join('\n'),
  );
}
