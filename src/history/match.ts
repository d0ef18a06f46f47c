import type { Finding } from '../model/findings.js';
import { groupBy } from './group.js';

/** Which earlier finding each finding is, and those earlier ones that are gone. */
export interface Matched {
  /** The earlier finding by the id that it has now. */
  readonly before: ReadonlyMap<string, Finding>;
  /** Ids that findings keep from an earlier one of which they are what remains, by the ids that they would have. */
  readonly kept: ReadonlyMap<string, string>;
  readonly gone: readonly Finding[];
  /** Found again under another id, because the record's frames were numbered anew. */
  readonly renamed: readonly { readonly was: string; readonly is: string }[];
}

/**
 * Finds the earlier findings again. The id says it; where several share one name but for -2, -3, the document in which they stand says
 * which is which. Where the record was changed, one finding of a kind about the same fact of the same issue is the same one.
 */
export function matchFindings(now: readonly Finding[], known: readonly Finding[], recordChanged: boolean): Matched {
  const before = new Map<string, Finding>();
  const left = new Set(known);
  const take = (finding: Finding, earlier: Finding | undefined): void => {
    if (earlier === undefined || before.has(finding.id)) return;
    before.set(finding.id, earlier);
    left.delete(earlier);
  };
  const families = groupBy(known, (finding) => family(finding.id));
  const fresh = groupBy(now, (finding) => family(finding.id));
  for (const [name, members] of fresh) {
    const older = families.get(name) ?? [];
    if (members.length > 1 || older.length > 1) {
      for (const finding of members) {
        const same = older.filter((one) => left.has(one) && placeOf(one) === placeOf(finding) && one.return === finding.return);
        take(finding, same.find((one) => one.id === finding.id) ?? same[0]);
      }
    }
    for (const finding of members) {
      const open = older.filter((one) => left.has(one));
      take(finding, open.find((one) => one.id === finding.id) ?? open[0]);
    }
  }
  const unknown = now.filter(({ id }) => !before.has(id));
  const kept = takeRun(unknown, left, take);
  const other = unknown.filter(({ id }) => !kept.has(id));
  const renamed = recordChanged ? takeRenamed(other, left, take) : [];
  return { before, kept, gone: known.filter((finding) => left.has(finding)), renamed };
}

/**
 * Numbers that are wrong from the same frame on are the same mistake, though it was told as another while something beside it hid how far it reaches: a number
 * too many and one too few behind it look like a run that is numbered wrongly.
 */
function takeRun(
  now: readonly Finding[],
  left: ReadonlySet<Finding>,
  take: (finding: Finding, earlier: Finding) => void,
): ReadonlyMap<string, string> {
  const run = ({ field, reel, frames }: Finding): string | null =>
    (field === 'frame' || field === 'number') && frames !== null ? `${reel ?? ''} ${frames.from}` : null;
  return new Map(
    onlyOnes(now, left, run).map(([finding, earlier]) => {
      take({ ...finding, id: earlier.id }, earlier);
      return [finding.id, earlier.id];
    }),
  );
}

function takeRenamed(
  now: readonly Finding[],
  left: ReadonlySet<Finding>,
  take: (finding: Finding, earlier: Finding) => void,
): readonly { readonly was: string; readonly is: string }[] {
  return onlyOnes(now, left, subject).map(([finding, earlier]) => {
    take(finding, earlier);
    return { was: earlier.id, is: finding.id };
  });
}

/** Findings and earlier ones that alone have a key in common; what has no key is like nothing. */
function onlyOnes(
  now: readonly Finding[],
  left: ReadonlySet<Finding>,
  keyOf: (finding: Finding) => string | null,
): readonly (readonly [finding: Finding, earlier: Finding])[] {
  const open = groupBy([...left], keyOf);
  return [...groupBy(now, keyOf)].flatMap(([key, [finding, ...more]]) => {
    const [earlier, ...others] = open.get(key) ?? [];
    const alone = key !== null && finding !== undefined && earlier !== undefined && more.length + others.length === 0;
    return alone ? [[finding, earlier] as const] : [];
  });
}

/** The id without what tells equal ones apart; what ids look like is said in src/judge/ids.ts. */
function family(id: string): string {
  return /^(.*-[0-9a-f]{12})-\d+$/.exec(id)?.[1] ?? id;
}

const placeOf = (finding: Finding): string => finding.places.find((place) => place.document !== undefined)?.document ?? '';

const subject = ({ code, title, date, edition, page, field, reel }: Finding): string | null =>
  date === null ? null : JSON.stringify([code, title, date, edition, page, field, reel]);
