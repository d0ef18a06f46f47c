import { basename } from 'node:path';
import type { Finding, Findings, Input } from '../../model/findings.js';
import { readJsonFile } from '../../read/json.js';
import { answered, readAnswerFiles } from './answer-files.js';
import { readRulingFiles } from './ruling-files.js';

/** A saved result of an earlier delivery, and what was said about its findings after it was made. */
export interface EarlierFiles {
  readonly earlier?: string;
  readonly lateRulings?: readonly string[];
  readonly lateAnswers?: readonly string[];
}

/** An earlier result with all that was said about its findings, and the files in which that stands. */
export interface EarlierResult {
  readonly earlier: Findings | null;
  readonly inputs: readonly Input[];
  readonly remarks: readonly string[];
}

/** Reads the result of the delivery before, with rulings and answers that came after it was made: they speak of its findings, and are carried over like those that it holds. Throws UserMistake. */
export async function readEarlier(
  { earlier: path, lateRulings = [], lateAnswers = [] }: EarlierFiles,
  today: string,
): Promise<EarlierResult> {
  if (path === undefined) return { earlier: null, inputs: [], remarks: [] };
  const { value: result, sha256 } = await readJsonFile(path, 'findings');
  const ruled = await readRulingFiles(lateRulings, today);
  const list = await readAnswerFiles(lateAnswers);
  const of = `delivery ${String(result.run.delivery)}`;
  const told = answered(result, list, of);
  const rulings = new Map(ruled.rulings.map(({ finding, ...ruling }) => [finding, ruling]));
  const contested = new Set(ruled.contested);
  const withRuling = (finding: Finding): Finding => ({
    ...finding,
    ruling: contested.has(finding.id) ? null : (rulings.get(finding.id) ?? finding.ruling),
  });
  const known = new Set([...result.findings, ...(result.pending ?? []), ...result.corrected].map(({ id }) => id));
  const stray = ruled.rulings.filter(({ finding }) => !known.has(finding));
  return {
    earlier: {
      ...result,
      findings: told.findings.map(withRuling),
      ...(result.pending === undefined ? {} : { pending: told.pending.map(withRuling) }),
    },
    inputs: [{ role: 'earlier', name: basename(path), sha256 }, ...ruled.inputs, ...list.inputs],
    remarks: [
      ...ruled.remarks,
      ...list.remarks,
      ...told.remarks,
      ...stray.map(({ finding, decision, by, on }) => `The ruling on ${finding} (${decision}, ${by} on ${on}) meets no finding of ${of}.`),
    ],
  };
}
