import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { quietly } from '../../src/acts/surroundings.js';
import { verification } from '../../src/acts/verify.js';
import type { CollationRecord, FrameEntry, ReelEntry } from '../../src/model/collation-record.js';
import { UserMistake } from '../../src/read/mistake.js';
import { generateBatch } from '../forge/batch.js';
import type { Random } from '../forge/film/random.js';
import type { WrittenFile } from '../forge/write/index.js';
import { writeFiles } from '../support/on-disk.js';
import { holdResult, type Target, Violation } from './targets.js';

/** A case as it is written to the disk. */
interface Case {
  readonly record: CollationRecord;
  readonly files: readonly WrittenFile[];
}

/** A boundary: what is done to a case that was right, and whether it must be noticed. */
interface Boundary {
  readonly name: string;
  readonly of: (made: Case, random: Random) => Case;
  /** False: the return is still the one that was ordered, as far as anybody could tell. */
  readonly told: boolean;
}

const isPage = ({ kind = 'page', deliver }: FrameEntry): boolean => kind === 'page' && deliver !== false;

/** The record with the frames of its reels changed; reels without frames go. */
function withFrames(made: Case, change: (frames: readonly FrameEntry[], reel: ReelEntry) => readonly FrameEntry[]): Case {
  const reels = made.record.reels
    .map((reel) => ({ ...reel, frames: [...change(reel.frames, reel)] }))
    .filter(({ frames }) => frames.length > 0);
  return { ...made, record: { ...made.record, reels } };
}

const firstPage = (frames: readonly FrameEntry[]): number => frames.findIndex(isPage);
const lastPage = (frames: readonly FrameEntry[]): number => frames.findLastIndex(isPage);
const without = (frames: readonly FrameEntry[], at: number): readonly FrameEntry[] => frames.filter((_, index) => index !== at);
const isIssue = ({ path }: WrittenFile): boolean => /\/\d{10}\.xml$/.test(path);

function withoutFile(made: Case, at: 'first' | 'last' | number): Case {
  const issues = made.files.filter(isIssue);
  const gone = at === 'first' ? issues[0] : at === 'last' ? issues.at(-1) : issues[at];
  return { ...made, files: made.files.filter((file) => file !== gone) };
}

const changedText = (made: Case, at: number, change: (text: string) => string): Case => {
  const issues = made.files.filter(isIssue);
  return { ...made, files: made.files.map((file) => (file === issues[at] ? { ...file, text: change(file.text) } : file)) };
};

const BOUNDARIES: readonly Boundary[] = [
  { name: 'nothing', of: (made) => made, told: false },
  { name: 'no first page in the record', of: (made) => withFrames(made, (frames) => without(frames, firstPage(frames))), told: true },
  { name: 'no last page in the record', of: (made) => withFrames(made, (frames) => without(frames, lastPage(frames))), told: true },
  {
    name: 'one frame in the record',
    of: (made) => withFrames(made, (frames) => frames.slice(firstPage(frames), firstPage(frames) + 1)),
    told: true,
  },
  {
    name: 'no target in the record',
    of: (made) => withFrames(made, (frames) => frames.filter(({ kind }) => kind !== 'target')),
    told: false,
  },
  { name: 'pages alone in the record', of: (made) => withFrames(made, (frames) => frames.filter(isPage)), told: false },
  {
    name: 'one more page at the end of the record',
    of: (made) => withFrames(made, (frames) => [...frames, ...oneMore(frames)]),
    told: true,
  },
  { name: 'a frame twice in the record', of: (made) => withFrames(made, (frames) => [...frames, ...frames.slice(-1)]), told: true },
  { name: 'the frames of the record backwards', of: (made) => withFrames(made, (frames) => frames.toReversed()), told: true },
  { name: 'no first document', of: (made) => withoutFile(made, 'first'), told: true },
  { name: 'no last document', of: (made) => withoutFile(made, 'last'), told: true },
  {
    name: 'one issue alone',
    of: (made) => ({ ...made, files: made.files.filter((file) => !isIssue(file) || file === made.files.find(isIssue)) }),
    told: true,
  },
  {
    name: 'an issue without pages',
    of: (made, random) =>
      changedText(made, random.below(made.files.filter(isIssue).length), (text) =>
        text.replaceAll(/<(\w+:)?div\b[^>]*TYPE="[^"]*page"[\s\S]*?<\/(\w+:)?div>/g, ''),
      ),
    told: true,
  },
  {
    name: 'an issue of nothing',
    of: (made, random) => changedText(made, random.below(made.files.filter(isIssue).length), () => ''),
    told: true,
  },
];

function oneMore(frames: readonly FrameEntry[]): readonly FrameEntry[] {
  const last = frames.findLast(isPage);
  const highest = Math.max(...frames.map(({ frame }) => Number.parseInt(frame, 10)));
  return last === undefined ? [] : [{ ...last, frame: String(highest + 1), page: '77', order: (last.order ?? 1) + 1 }];
}

/** Whole cases at their boundaries: a small film, rendered as ordered or not, and something at its edge. */
export const WHOLE_CASES: Target = {
  name: 'a whole case',
  run: async (random, root) => {
    const faults = random.chance(300) ? 1 + random.below(3) : 0;
    const profile = random.chance(700) ? 'issue-mets' : 'page-mods';
    const made = generateBatch({ seed: random.below(1_000_000), pages: random.pick([1, 1, 2, 3, 8, 24]), profile, faults });
    const right: Case = { record: made.record, files: [...made.files] };
    const boundary = profile === 'issue-mets' ? random.pick(BOUNDARIES) : random.pick(BOUNDARIES.slice(0, 9));
    const { record, files } = boundary.of(right, random);
    const here = join(root, 'work', 'case');
    rmSync(here, { recursive: true, force: true });
    mkdirSync(join(here, made.name), { recursive: true });
    writeFiles(join(here, made.name), files);
    writeFileSync(join(here, 'record.json'), JSON.stringify(record));
    try {
      const result = await verification({ collation: [join(here, 'record.json')], batch: [join(here, made.name)] }, quietly('2031-03-04'));
      await holdResult(result, random);
      const isAccepted =
        result.verdict.decision === 'accept' && result.findings.every(({ severity }) => severity === 'note') && result.record.length === 0;
      const isChanged = JSON.stringify([record, files]) !== JSON.stringify([right.record, right.files]);
      if (isAccepted && boundary.told && isChanged) throw new Violation(`accepted in silence: ${boundary.name}`);
      if (!isAccepted && boundary.name === 'nothing' && faults === 0)
        throw new Violation(`a return that is right is not accepted: ${result.verdict.reasons.join(' ')}`);
    } catch (error) {
      if (!(error instanceof UserMistake)) throw error;
      if (boundary.name === 'nothing') throw new Violation(`a case that is right is refused: ${error.message}`);
    }
  },
};
