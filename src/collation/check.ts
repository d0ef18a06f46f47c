import { codeEntry } from '../catalogue/codes.js';
import type { CollationRecord } from '../model/collation-record.js';
import type { Side } from '../model/film.js';
import type { RecordCheck, RecordItem } from '../model/record-check.js';
import type { RecordProblem } from '../model/record-problem.js';
import { type Irregularity, irregularities, type Run } from '../regular/index.js';
import { totalsInWords } from './totals.js';

/** What the library says of an item that is as it should be. */
export interface Explanation {
  readonly item: string;
  readonly note: string;
  readonly by: string;
  readonly on: string;
}

const WEIGHT: readonly RecordItem['severity'][] = ['critical', 'major', 'minor', 'note'];

/** What of a record is not regular, the most telling first, and what of a return that leaves in doubt. Items that the library has explained are marked. */
function problemsIn(
  record: CollationRecord,
  side: Side,
  explanations: readonly Explanation[],
): { readonly problems: readonly RecordProblem[]; readonly runs: readonly Run[] } {
  const { found, runs } = irregularities(record, side);
  const explained = new Map(explanations.map((one) => [one.item, { note: one.note, by: one.by, on: one.on }]));
  const seen = new Map<string, number>();
  const problems = found.map(({ touches, ...irregularity }): RecordProblem => {
    const base = idOf(irregularity);
    const before = seen.get(base) ?? 0;
    seen.set(base, before + 1);
    const id = before === 0 ? base : `${base}-${String(before + 1)}`;
    const severity = codeEntry(irregularity.code)?.severity ?? 'note';
    return { item: { id, severity, ...irregularity, explained: explained.get(id) ?? null }, touches };
  });
  const ordered = problems.toSorted(
    ({ item: a }, { item: b }) => WEIGHT.indexOf(a.severity) - WEIGHT.indexOf(b.severity) || b.evidence.length - a.evidence.length,
  );
  return { problems: ordered, runs };
}

/** The problems of a record that nobody has explained, told as `checkRecord` tells them. */
export function openProblems(record: CollationRecord, side: Side, explained: readonly Explanation[]): readonly RecordProblem[] {
  return problemsIn(record, side, explained).problems.filter(({ item }) => item.explained === null);
}

/** Checks a record by its own regularity. Items that the library has explained keep their place and are marked. */
export function checkRecord(
  record: CollationRecord,
  side: Side,
  context: Pick<RecordCheck, 'tool' | 'inputs'> & { readonly explained: readonly Explanation[] },
): RecordCheck {
  const { problems, runs } = problemsIn(record, side, context.explained);
  const ordered = problems.map(({ item }) => item);
  const codes = [...new Set(ordered.map(({ code }) => code))];
  return {
    format: 'reeltally/record-check/1',
    tool: context.tool,
    inputs: context.inputs,
    totals: totalsInWords(side),
    titles: runs.map(titleOf),
    items: ordered,
    catalogue: codes.flatMap((code) => {
      const entry = codeEntry(code);
      return entry === undefined ? [] : [{ code, title: entry.title, why: entry.why, severity: entry.severity }];
    }),
  };
}

/** From what the item is about, never from the order in which it was found. */
function idOf({ code, title, date, edition, reel, frames }: Omit<Irregularity, 'touches'>): string {
  const parts = [
    code,
    title,
    date,
    edition === null || edition === 1 ? null : edition,
    frames === null ? null : reel,
    frames?.from ?? null,
  ];
  return parts
    .filter((part) => part !== null)
    .join('-')
    .replace(/[^\p{L}\p{N}]+/gu, '-');
}

function titleOf({ id, name, issues, patterns, learned }: Run): RecordCheck['titles'][number] {
  return {
    id,
    name,
    issues: issues.length,
    from: issues[0]?.day ?? null,
    to: issues.at(-1)?.day ?? null,
    days: [...new Set(patterns.flatMap(({ days }) => days))],
    learned,
  };
}
