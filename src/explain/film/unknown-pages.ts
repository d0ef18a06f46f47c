import type { PairRef } from '../../model/difference.js';
import type { FrameRange } from '../../model/findings.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, counted, draft, framesInWords, inSeries, issueName, rangeOf } from '../draft.js';
import { pageCameAt, pageReadingAt, returnReadingAt, sheetsOf } from '../facts/page-surroundings.js';
import { breaksOfPages } from '../facts/regular-pages.js';
import { judged, type Testimony } from '../facts/sides.js';
import { groupBy, idsOf, neighbouringRuns } from '../runs.js';
import { differencesAt, fieldOf, pairOf, recordFrame, recordReelOf, returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { behind, movedBy } from './moved-pages.js';
import { numbersBehind } from './numbers-behind.js';
import { numbersOf, repeatedIssue, twinOfDocument } from './repeated-issue.js';
import { withThoseBetween } from './shift-events.js';
import { behindWords, lastRecordFrame } from './shift-surplus.js';

/** Pages of the return that the record does not have, of one document: all of it, or a run of them. */
interface Part {
  readonly document: number | null;
  readonly refs: readonly PairRef[];
  readonly whole: boolean;
  /** The issue of the record that this document repeats. */
  readonly twin: number | null;
}

/** Pages of the return that the record does not have: whole documents, or single pages; what lies together on the film is one finding. */
export function unknownPages(scene: Scene): Candidate[] {
  const refs = fieldOf(scene, 'surplus')
    .flatMap((difference) => difference.pairs)
    .filter((ref) => returnFrame(scene, ref)?.kind === 'page');
  const groups = groupBy(refs, (ref) => returnFrame(scene, ref)?.issue ?? null);
  const numbers = numbersById(scene);
  const parts = [...groups].flatMap(([document, all]): Part[] => {
    const whole = document !== null && (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => pairOf(scene, ref).record === null);
    const twin = whole ? twinOfDocument(scene, document) : null;
    return (whole ? [all] : neighbouringRuns(all)).map((refs) => ({ document, refs, whole, twin }));
  });
  return together(parts).map((stretch) => {
    const [part] = stretch;
    return part.twin === null || part.document === null
      ? lackedFrames(scene, stretch, numbers)
      : repeatedIssue(scene, part.document, part.twin, part.refs);
  });
}

/** Parts that follow one another on the film without a frame of the record between them; an issue that came twice is told alone. */
function together(parts: readonly Part[]): readonly (readonly [Part, ...Part[]])[] {
  const inFilm = parts.toSorted(
    ({ refs: [a] }, { refs: [b] }) => (a?.alignment ?? 0) - (b?.alignment ?? 0) || (a?.pair ?? 0) - (b?.pair ?? 0),
  );
  const stretches: [Part, ...Part[]][] = [];
  for (const part of inFilm) {
    const before = stretches.at(-1);
    const last = before?.at(-1);
    const [end, begin] = [last?.refs.at(-1), part.refs[0]];
    const follows = end !== undefined && begin !== undefined && end.alignment === begin.alignment && end.pair + 1 === begin.pair;
    if (before !== undefined && follows && last?.twin === null && part.twin === null) before.push(part);
    else stretches.push([part]);
  }
  return stretches;
}

/** Pages, or whole documents, that the record has no frames for. */
function lackedFrames(scene: Scene, stretch: readonly [Part, ...Part[]], numbers: Numbers): Candidate {
  const run = stretch.flatMap(({ refs }) => refs);
  const [{ document }] = stretch;
  const [first] = run;
  const whole = stretch.every((part) => part.whole);
  const reel = first === undefined ? '' : (recordReelOf(scene, first)?.text ?? '');
  const behind = first === undefined ? '' : lastRecordFrame(scene, first);
  const shown = numbersOf(scene, run);
  const pages = shown ?? (run.length === 1 ? 'this page' : 'these pages');
  const moved = followed(scene, run, numbers);
  const later = framesInWords(moved.frames);
  const lacked = lackedBy(scene, stretch);
  const alone = run.length === 1;
  return candidate(
    draft(scene, {
      code: whole ? 'issue-not-in-collation' : 'page-not-in-collation',
      cause: lacked.cause,
      about: run,
      returnIssue: document,
      explains: [
        ...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'surplus'))),
        ...numbersBehind(scene, run),
        ...stretch.flatMap((part) => (part.document === null || part.whole ? [] : shiftedIn(scene, part.document, part.refs))),
      ],
      at: behind === '' ? null : behind,
      ...(whole ? { frames: null, count: run.length } : moved),
      page: first === undefined ? null : (returnFrame(scene, first)?.page ?? null),
      field: 'frame',
      collation: behind === '' ? 'no such frame' : `no such frame after ${behind}`,
      return: shown ?? counted(run.length, 'page'),
      says: `The return has ${inSeries(stretch.map((part) => partInWords(scene, part, whole ? shown : null)))}${whole || shown === null ? '' : ` under ${shown}`}, which the record does not have${whole ? ` on reel ${reel}` : behind === '' ? '' : ` after frame ${behind}`}${whole || moved.frames === null ? '' : `; ${later} ${moved.count === 1 ? 'is' : 'are'} numbered too high behind it`}.`,
      instruction:
        lacked.cause === 'collation'
          ? `Compare the film ${behindWords(behind)} with both readings before anything is changed.`
          : `Look at the film ${behindWords(behind)}: say where ${pages} ${alone ? 'comes' : 'come'} from, or withdraw ${alone ? 'it' : 'them'}${moved.frames === null || whole ? '' : ` and renumber ${later}`}.`,
      evidence: lacked.evidence,
      alternatives: [
        {
          says: `${capital(pages)} ${alone ? 'is not a frame' : 'are not frames'} of this reel.`,
          cause: 'vendor-metadata',
          instruction: `Withdraw ${pages}.`,
        },
        { says: 'The collation record lacks these frames.', cause: 'collation', instruction: null },
      ],
      corrections: run.map((ref) => ({
        reel,
        frame: behind,
        action: 'insert-after' as const,
        field: 'page',
        from: '',
        to: returnFrame(scene, ref)?.page ?? '',
      })),
      billable: [{ class: 'page', change: -run.length }],
    }),
  );
}

/** `page 4 of The Tolmouth Lantern of ...`, `3 pages of ...`, `The Tolmouth Lantern of ... (8 pages, numbers 31 to 38)`. */
function partInWords(scene: Scene, { document, refs, whole }: Part, shown: string | null): string {
  const name = issueName(scene, document, 'return');
  if (whole) return `${name} (${counted(refs.length, 'page')}${shown === null ? '' : `, ${shown}`})`;
  const label = refs[0] === undefined ? null : (returnFrame(scene, refs[0])?.page ?? null);
  return `${refs.length > 1 ? counted(refs.length, 'page') : label === null ? 'a page without a number' : `page ${label}`} of ${name}`;
}

/** The record lacks the frames where an issue of it is the more regular with them; then it lacks what lies between as well. */
function lackedBy(scene: Scene, stretch: readonly Part[]): Testimony {
  const evidence = stretch.flatMap(({ document, whole }) => {
    const told = document === null || whole ? null : withAndWithout(scene, document);
    return told?.cause === 'collation' ? told.evidence : [];
  });
  return { cause: evidence.length > 0 ? 'collation' : 'unclear', evidence: [...new Set(evidence)] };
}

/** Whether an issue of the record is the more regular with the pages that a document has besides. */
function withAndWithout(scene: Scene, document: number): Testimony {
  const refs = (scene.pairsOfReturnIssue.get(document) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver !== false);
  const issues = [...new Set(refs.flatMap((ref) => recordFrame(scene, ref)?.issue ?? []))];
  const [issue] = issues;
  if (issue === undefined || issues.length > 1) return { cause: 'unclear', evidence: [] };
  const beside = { ...sheetsOf(scene, issue), last: null, next: null };
  const own = refs.flatMap((ref) => pageReadingAt(scene, ref) ?? []);
  const given = refs.flatMap((ref) => returnReadingAt(scene, ref) ?? pageCameAt(scene, ref) ?? []);
  return judged(breaksOfPages(own, beside), breaksOfPages(given, beside));
}

/** Wrong numbers by their ids, with their place among all of them: a batch may have thousands, and each surplus page asks for those behind it. */
type Numbers = ReadonlyMap<number, readonly [number, WordedDifference]>;

const numbersById = (scene: Scene): Numbers =>
  new Map(fieldOf(scene, 'number').map((difference, at) => [difference.id, [at, difference] as const]));

/** Those of some ids, in their order. */
function ofIds(numbers: Numbers, ids: readonly number[]): WordedDifference[] {
  const found = [...new Set(ids)].flatMap((id) => {
    const one = numbers.get(id);
    return one === undefined ? [] : [one];
  });
  return found.sort(([a], [b]) => a - b).map(([, difference]) => difference);
}

/** The frames whose numbers a surplus page moves along; none where nothing follows. */
function followed(scene: Scene, run: readonly PairRef[], numbers: Numbers): { frames: FrameRange | null; count: number } {
  const refs = ofIds(numbers, numbersBehind(scene, run)).flatMap((difference) => difference.pairs);
  const first = refs[0];
  if (first === undefined) return { frames: null, count: run.length };
  const range = rangeOf(scene, withThoseBetween(scene, first.alignment, refs));
  return { frames: range.frames, count: range.count };
}

function shiftedIn(scene: Scene, document: number, run: readonly PairRef[]): number[] {
  const last = run.at(-1);
  if (last === undefined) return [];
  return idsOf(movedBy(scene, behind(scene.pairsOfReturnIssue.get(document) ?? [], last), run.length));
}
