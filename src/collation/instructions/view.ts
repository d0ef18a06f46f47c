import type { Policies } from '../../model/agreement.js';
import type { CollationRecord, FrameEntry, ReelEntry } from '../../model/collation-record.js';
import type { ExpectedFrame, ExpectedReturn } from '../../model/expected.js';
import type { Frame, Issue, Side } from '../../model/film.js';
import type { Instruction, InstructionKind } from '../../model/instructions.js';
import type { Doubtful, Touched } from '../../model/record-problem.js';
import { inSeries } from '../../normalise/in-series.js';

/** One frame in all that is known of it: as written, as understood, and as the right return shows it. */
export interface Shot {
  readonly reel: number;
  /** Index among the frames of its reel. */
  readonly at: number;
  readonly entry: FrameEntry;
  readonly frame: Frame;
  readonly expected: ExpectedFrame;
}

/** A reel, and what an instruction about it may look at. */
export interface ReelView {
  readonly at: number;
  readonly reel: ReelEntry;
  readonly shots: readonly Shot[];
  /** The frames of each issue, in film order over all reels. */
  readonly shotsOfIssue: ReadonlyMap<number, readonly Shot[]>;
  readonly record: CollationRecord;
  readonly side: Side;
  readonly expected: ExpectedReturn;
  readonly policies: Policies;
  /** What open problems of the record leave in doubt. */
  readonly doubts: readonly Touched[];
}

/** The facts that instructions of a kind state; one of which a fact is in doubt is not told as certain. */
const STATES: Readonly<Record<InstructionKind, readonly Doubtful[]>> = {
  'held back': ['delivered', 'page', 'order'],
  take: ['delivered', 'page', 'order'],
  'kept both': ['delivered', 'page', 'order'],
  misdated: ['date'],
  'two days': ['date'],
  title: ['title'],
  mispaged: ['page'],
  order: ['order', 'page'],
  'not on the film': ['absences'],
  split: ['number'],
  'frame numbers': ['number'],
  edition: ['edition'],
  numbering: ['issueNumber'],
  supplement: ['order', 'page'],
  section: ['section'],
  'two reels': ['delivered', 'documents'],
  targets: [],
  condition: [],
  'own column': [],
};

/** Whether an open problem of the record leaves in doubt what an instruction of that kind says of these frames. */
export function inDoubt({ doubts }: ReelView, kind: InstructionKind, shots: readonly Shot[]): boolean {
  return doubts.some(
    ({ facts, frames }) =>
      facts.some((fact) => STATES[kind].includes(fact)) &&
      frames.some(({ reel, at }) => shots.some((shot) => shot.reel === reel && shot.at === at)),
  );
}

/** An instruction and its place on the film: an index of a frame, -1 for what concerns the reel as a whole. */
export interface Placed {
  readonly at: number;
  readonly instruction: Instruction;
}

/** Every reel of a record with its frames. */
export function reelViews(
  record: CollationRecord,
  side: Side,
  expected: ExpectedReturn,
  policies: Policies,
  doubts: readonly Touched[],
): readonly ReelView[] {
  const reels = record.reels.map((reel, r) =>
    reel.frames.flatMap((entry, at): readonly Shot[] => {
      const [frame, right] = [side.reels[r]?.frames[at], expected.reels[r]?.frames[at]];
      return frame === undefined || right === undefined ? [] : [{ reel: r, at, entry, frame, expected: right }];
    }),
  );
  const shotsOfIssue = new Map<number, Shot[]>();
  for (const shot of reels.flat()) {
    if (shot.frame.issue === null) continue;
    const list = shotsOfIssue.get(shot.frame.issue);
    if (list === undefined) shotsOfIssue.set(shot.frame.issue, [shot]);
    else list.push(shot);
  }
  return record.reels.map((reel, at) => ({ at, reel, shots: reels[at] ?? [], shotsOfIssue, record, side, expected, policies, doubts }));
}

/** The issues that have a frame on the reel, in film order, each with its frames on this reel. */
export function issuesOn({
  shots,
  side,
}: ReelView): readonly { readonly index: number; readonly issue: Issue; readonly own: readonly Shot[] }[] {
  const own = new Map<number, Shot[]>();
  for (const shot of shots) {
    const { issue } = shot.frame;
    if (issue === null) continue;
    const list = own.get(issue);
    if (list === undefined) own.set(issue, [shot]);
    else list.push(shot);
  }
  return [...own].flatMap(([index, list]) => {
    const issue = side.issues[index];
    return issue === undefined ? [] : [{ index, issue, own: list }];
  });
}

/** An instruction about some frames; what they have in common is told of the issue. */
export function about(view: ReelView, kind: InstructionKind, shots: readonly Shot[], says: string, at = shots[0]?.at ?? -1): Placed {
  const issues = [...new Set(shots.map(({ frame }) => frame.issue))].map((index) => (index === null ? undefined : view.side.issues[index]));
  const [first] = issues;
  const one = issues.length === 1 ? first : undefined;
  const titles = new Set(issues.map((issue) => issue?.title ?? null));
  return {
    at,
    instruction: {
      kind,
      frames: shots.length === 0 ? null : framesInWords(view, shots),
      title: titles.size === 1 ? (first?.title ?? null) : null,
      date: one?.date?.text ?? null,
      edition: one === undefined ? null : (one.edition ?? 1),
      says,
      open: inDoubt(view, kind, shots),
    },
  };
}

/** `frame 12`, `frames 12 to 15 and 18`, those of another reel with its number. */
export function framesInWords(view: ReelView, shots: readonly Shot[]): string {
  const names = runsOf(shots).flatMap((run) => runInWords(view, run));
  return `${shots.length === 1 ? 'frame' : 'frames'} ${inSeries(names)}`;
}

/** A run of three or more by its ends, else each frame; the last name carries the number of another reel. */
function runInWords({ at, record }: ReelView, run: readonly Shot[]): readonly string[] {
  const numbers = run.map(({ entry }) => entry.frame);
  const names = numbers.length < 3 ? numbers : [`${numbers[0] ?? ''} to ${numbers.at(-1) ?? ''}`];
  const reel = run[0]?.reel ?? at;
  if (reel === at) return names;
  return [`${inSeries(names)} of reel ${record.reels[reel]?.number ?? ''}`];
}

/** Frames that follow each other on the film, run by run, in the order given. */
export function runsOf(shots: readonly Shot[]): readonly (readonly Shot[])[] {
  return folded(shots, (before, shot) => shot.reel === before.reel && shot.at === before.at + 1);
}

/** Neighbours in a list that go together, as lists. */
export function folded<Item>(items: readonly Item[], together: (before: Item, item: Item) => boolean): readonly (readonly Item[])[] {
  const runs: Item[][] = [];
  for (const item of items) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (run !== undefined && before !== undefined && together(before, item)) run.push(item);
    else runs.push([item]);
  }
  return runs;
}

/** Items by a key, in the order in which the keys first come. */
export function grouped<Item>(items: readonly Item[], key: (item: Item) => string): readonly (readonly [string, readonly Item[]])[] {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const list = groups.get(key(item));
    if (list === undefined) groups.set(key(item), [item]);
    else list.push(item);
  }
  return [...groups];
}

/** `page 3`, `pages 1 to 4`, `pages 5 and 7`, `an unnumbered page`. */
export function pagesInWords(labels: readonly (string | undefined)[]): string {
  const known = labels.filter((label) => label !== undefined);
  if (known.length < labels.length) return labels.length === 1 ? 'a page without a number' : `${String(labels.length)} pages`;
  return `${known.length === 1 ? 'page' : 'pages'} ${labelsInWords(known)}`;
}

/** Labels that count on as runs: `1 to 4`, `A1, A3 and B2`. */
export function labelsInWords(labels: readonly string[]): string {
  const runs = folded(labels, (before, label) => {
    const [a, b] = [partsOf(before), partsOf(label)];
    return a !== null && b !== null && a.front === b.front && b.number === a.number + 1;
  });
  return inSeries(runs.flatMap((run) => (run.length < 3 ? run : [`${run[0] ?? ''} to ${run.at(-1) ?? ''}`])));
}

function partsOf(label: string): { readonly front: string; readonly number: number } | null {
  const found = /^(\D*)(\d{1,9})$/.exec(label);
  return found === null ? null : { front: found[1] ?? '', number: Number(found[2]) };
}

/** The name of a title with its identifier. */
export function titleInWords({ side }: ReelView, id: string | null): string {
  const name = side.titles.find((title) => title.id === id)?.name ?? null;
  return name === null || name === id ? (id ?? 'the title') : `${name} (${id ?? ''})`;
}
