import type { AbsentEntry, FrameEntry, ReelEntry } from '../model/collation-record.js';
import type { SheetProblem, WrittenRecord } from '../model/written-sheet.js';
import { compareFrameNumbers, readFrameNumber, reelNumber } from './labels.js';
import type { SheetEntry } from './sheet-entry.js';
import { sheetInWords } from './sheet-row.js';

/** An entry of the record and where it was written; `row` is null in canonical JSON. */
export interface Placed<Entry> {
  readonly entry: Entry;
  readonly file: string;
  readonly sheet: string;
  readonly row: number | null;
}

/** One reel as it comes together from sheets and files. */
export interface ReelParts {
  readonly facts: Omit<ReelEntry, 'frames' | 'absent'>;
  readonly frames: readonly Placed<FrameEntry>[];
  readonly absent: readonly Placed<AbsentEntry>[];
}

interface Part {
  readonly reel: string;
  readonly frames: readonly Placed<FrameEntry>[];
  readonly absent: readonly Placed<AbsentEntry>[];
}

type ReelFacts = Omit<ReelEntry, 'frames' | 'absent'>;

/** Entries that a sheet holds, with its names. */
export interface SheetEntries {
  readonly file: string;
  readonly sheet: string;
  readonly entries: readonly SheetEntry[];
}

/**
 * Brings together what several sheets and files hold of each reel, matched by its normalised number. Reels come in the order in which they
 * first appear; the parts of one reel follow each other by their first frames.
 */
export function mergeReels(
  records: WrittenRecord['records'],
  sheets: readonly SheetEntries[],
  listed: readonly ReelFacts[],
  warnings: string[],
): readonly ReelParts[] {
  const reels = new Map<string, { facts: ReelFacts; parts: Part[] }>();
  const add = (facts: ReelFacts, part: Part | null): void => {
    const key = keyOf(facts.number);
    const known = reels.get(key);
    const parts = [...(known?.parts ?? []), ...(part === null ? [] : [part])];
    // What was read first stands; the number is kept as it was written first.
    reels.set(key, { facts: { ...facts, ...known?.facts }, parts });
  };
  for (const { name, record } of records) {
    for (const { frames, absent, ...facts } of record.reels) {
      const placed = <Entry>(entry: Entry): Placed<Entry> => ({ entry, file: name, sheet: name, row: null });
      add(facts, { reel: facts.number, frames: frames.map(placed), absent: (absent ?? []).map(placed) });
    }
  }
  for (const sheet of sheets) for (const part of partsOf(sheet, listed, warnings)) add({ number: part.reel }, part);
  // A list of all reels of a project may stand beside the sheet of one: it only adds facts.
  for (const facts of listed) if (reels.has(keyOf(facts.number))) add(facts, null);
  return [...reels.values()].map(({ facts, parts }) => {
    const sorted = [...parts].sort((a, b) => compareStarts(a, b));
    return { facts, frames: sorted.flatMap((part) => part.frames), absent: sorted.flatMap((part) => part.absent) };
  });
}

function partsOf({ file, sheet, entries }: SheetEntries, listed: readonly ReelFacts[], warnings: string[]): readonly Part[] {
  interface Growing {
    readonly reel: string;
    readonly frames: Placed<FrameEntry>[];
    readonly absent: Placed<AbsentEntry>[];
  }
  const parts = new Map<string, Growing>();
  let assumed: string | null = null;
  // Rows of one reel follow each other.
  let last: { readonly number: string; readonly part: Growing } | undefined;
  for (const { reel, row, frame, absent } of entries) {
    if (reel === null && assumed === null) {
      assumed = assumedReel(sheet, listed);
      warnings.push(
        `${sheetInWords({ file, sheet })}: there is no reel number in the sheet; "${assumed}" is taken for it, from ${listed.length === 1 ? 'the sheet of reels' : 'the name of the sheet'}.`,
      );
    }
    const number = reel ?? assumed ?? sheet;
    let part: Growing | undefined = last?.number === number ? last.part : parts.get(keyOf(number));
    if (part === undefined) parts.set(keyOf(number), (part = { reel: number, frames: [], absent: [] }));
    if (last?.number !== number) last = { number, part };
    if (frame !== null) part.frames.push({ entry: frame, file, sheet, row });
    if (absent !== null) part.absent.push({ entry: absent, file, sheet, row });
  }
  return [...parts.values()];
}

/** Words for a reel in front of its number: common practice, no source. */
const REEL_WORD = /^(?:reels?|rolle|rolls?|filmrolle|(?:micro)?film|spule|bobine)(?:[\s_.-]*(?:no|nr|n°))?(?!\p{L})[\s_.-]*(?=.*\d)(.+)$/iu;

/** The only reel of the sheet of reels, else the sheet's own name without the word "reel" in front. */
function assumedReel(sheet: string, listed: readonly ReelFacts[]): string {
  const [only] = listed;
  if (only !== undefined && listed.length === 1) return only.number;
  return REEL_WORD.exec(sheet)?.[1] ?? sheet;
}

function keyOf(number: string): string {
  return reelNumber(number) ?? number;
}

/** Parts without frames keep their place. */
function compareStarts(a: Part, b: Part): number {
  const first = readFrameNumber(a.frames[0]?.entry.frame ?? '');
  const second = readFrameNumber(b.frames[0]?.entry.frame ?? '');
  return first === null || second === null ? 0 : compareFrameNumbers(first, second);
}

/** A problem with an entry: by row and column in a sheet, by reel and frame in canonical JSON. */
export function problemAt(reel: string, placed: Placed<Partial<FrameEntry>>, column: string, says: string, held?: string): SheetProblem {
  const { file, sheet, row, entry } = placed;
  const what = held === undefined ? { says } : { held, says };
  if (row !== null) return { file, sheet, row, column: inWords(column), ...what };
  const which = `reel ${reel}, ${entry.frame === undefined ? `absence of ${entry.date ?? 'no date'}` : `frame ${entry.frame}`}, ${column}:`;
  return { file, sheet, row: null, column: null, held: held === undefined ? which : `${which} ${held}`, says };
}

/** The name of a field as a column is called: `datePrinted` is `date printed`. */
export function inWords(field: string): string {
  return field.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
