import type { Input } from '../model/findings.js';
import { type NormalisedRecord, normaliseRecord } from '../normalise/record.js';
import { UserMistake } from '../read/mistake.js';
import { readRecord } from '../read/record.js';

/** So many mistakes are told at once: enough to see the pattern, few enough to read. */
const TOLD = 20;

/** Reads and understands the collation record in these files. Throws UserMistake with every mistake in it, or the first of them. */
export async function collationRecord(
  paths: readonly string[],
  columns: Readonly<Record<string, string>>,
): Promise<NormalisedRecord & { readonly inputs: readonly Input[] }> {
  const written = await readRecord(paths);
  const understood = normaliseRecord(written, columns);
  const { problems } = understood;
  if (problems.length === 0) return { ...understood, inputs: written.inputs };
  const sentences = problems.slice(0, TOLD).map(({ file, sheet, row, column, says }) => {
    const where = [
      file,
      sheet === file || file.startsWith(`${sheet}.`) ? null : `sheet ${sheet}`,
      row === null ? null : `row ${String(row)}`,
      column === null ? null : `column ${column}`,
    ];
    return `  ${where.filter((part) => part !== null).join(', ')}: ${says}`;
  });
  const rest = problems.length - TOLD;
  throw new UserMistake(
    ['The collation record cannot be used as it is:', ...sentences, ...(rest > 0 ? [`  and ${String(rest)} more.`] : [])].join('\n'),
  );
}
