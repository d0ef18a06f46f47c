import { DEFAULT_POLICIES } from '../../src/catalogue/agreement.js';
import { compare } from '../../src/compare/index.js';
import { expectedReturn } from '../../src/expect/index.js';
import type { Policies } from '../../src/model/agreement.js';
import type { Alignment, Pair } from '../../src/model/alignment.js';
import type { AbsentEntry, FrameEntry, ReelEntry } from '../../src/model/collation-record.js';
import type { Difference } from '../../src/model/difference.js';
import type { Absence, Frame, FrameNumber, Issue, PageFile, Reel, Side } from '../../src/model/film.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';

export const TITLE = 'sn99000417';

/** A page of the record: the first of its issue unless it says otherwise. */
export const page = (frame: string, more: Partial<FrameEntry> = {}): FrameEntry => ({
  frame,
  date: '1902-08-06',
  page: String(Number.parseInt(frame, 10)),
  order: Number.parseInt(frame, 10),
  ...more,
});

/** Four pages of one issue. */
export const FOUR: readonly FrameEntry[] = ['1', '2', '3', '4'].map((frame) => page(frame));

export const numbered = (exposure: number, half = ''): FrameNumber => ({ text: `${String(exposure)}${half}`, exposure, half });

/** A small case: a reel of a record, the return as it should be with a change made to it, and how they were paired. */
export interface Small {
  readonly frames?: readonly FrameEntry[];
  readonly absent?: readonly AbsentEntry[];
  readonly reel?: Partial<ReelEntry>;
  readonly policies?: Partial<Policies>;
  /** What the vendor did to the return. */
  readonly change?: (returned: Side) => Side;
  /** What is other in how the reels were paired. */
  readonly paired?: (alignment: Alignment) => Alignment;
  readonly record?: (record: Side) => Side;
}

/** The differences of a small case: each frame of the record met the frame of the return that was made of it, unless `paired` says otherwise. */
export function differencesOf({
  frames = FOUR,
  absent = [],
  reel = {},
  policies,
  change,
  paired,
  record: also,
}: Small): readonly Difference[] {
  const read = sideOfRecord({
    format: 'reeltally/collation-record/2',
    titles: [{ id: TITLE, name: 'The Saltreach Plowman' }],
    reels: [{ number: '0417', frames, absent, ...reel }],
  });
  const record = also?.(read) ?? read;
  const came = record.reels[0]?.frames.filter(({ deliver }) => deliver) ?? [];
  const right: Side = { ...record, reels: [{ ...record.reels[0]!, frames: came }] };
  const returned = change?.(right) ?? right;
  const pairs = (record.reels[0]?.frames ?? []).map((frame, at): Pair => {
    const place = came.indexOf(frame);
    const isThere = place >= 0;
    return {
      record: at,
      returned: isThere ? { reel: 0, frame: place } : null,
      slot: true,
      exposure: frame.frame?.exposure ?? null,
      how: 'order',
    };
  });
  const alignment: Alignment = { recordReel: 0, returnReels: [0], by: 'number', numbered: true, pairs, reversals: [], cost: 0 };
  const all: Policies = { ...DEFAULT_POLICIES, ...policies };
  return compare([paired?.(alignment) ?? alignment], record, expectedReturn(record, all, {}), returned, all).differences;
}

/** A difference on one line: what, how, what would be right and what stands there. */
export const line = ({ field, form, expected, given }: Difference): string =>
  `${field} ${form}: ${expected.map(({ text }) => text).join('|') || '-'} / ${given?.text ?? '-'}`;

export const linesOf = (small: Small): readonly string[] => differencesOf(small).map(line);

/** The return with one of its frames, issues, reels or absences other. */
export const frameIs =
  (at: number, more: Partial<Frame>) =>
  (side: Side): Side =>
    reelIs({ frames: side.reels[0]!.frames.map((frame, index) => (index === at ? { ...frame, ...more } : frame)) })(side);
export const reelIs =
  (more: Partial<Reel>) =>
  (side: Side): Side => ({ ...side, reels: [{ ...side.reels[0]!, ...more }] });
export const issueIs =
  (at: number, more: Partial<Issue>) =>
  (side: Side): Side => ({ ...side, issues: side.issues.map((issue, index) => (index === at ? { ...issue, ...more } : issue)) });
export const absenceIs =
  (at: number, more: Partial<Absence>) =>
  (side: Side): Side => ({ ...side, absences: side.absences.map((absence, index) => (index === at ? { ...absence, ...more } : absence)) });
export const pairIs =
  (at: number, more: Partial<Pair>) =>
  (alignment: Alignment): Alignment => ({
    ...alignment,
    pairs: alignment.pairs.map((pair, index) => (index === at ? { ...pair, ...more } : pair)),
  });

/** A picture of a page, as a document names it. */
export const picture = (name: string, more: Partial<PageFile> = {}): PageFile => ({
  use: 'master',
  href: name,
  path: `batch/${name}`,
  state: 'present',
  digest: null,
  width: null,
  height: null,
  ...more,
});
