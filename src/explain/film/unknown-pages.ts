import type { PairRef } from '../../model/difference.js';
import type { FrameRange } from '../../model/findings.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, counted, draft, frameName, framesInWords, issueName, rangeOf } from '../draft.js';
import { pageCameAt, pageReadingAt, returnReadingAt, sheetsOf } from '../facts/page-surroundings.js';
import { breaksOfPages } from '../facts/regular-pages.js';
import { judged, type Testimony } from '../facts/sides.js';
import { groupBy, idsOf, neighbouringRuns } from '../runs.js';
import { differencesAt, fieldOf, pairOf, recordFrame, recordReelOf, returnFrame, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { behind, movedBy } from './moved-pages.js';
import { numbersBehind } from './numbers-behind.js';
import { withThoseBetween } from './shift-events.js';
import { behindWords, lastRecordFrame } from './shift-surplus.js';

/** Pages of the return that the record does not have: a whole document, or single pages. */
export function unknownPages(scene: Scene): Candidate[] {
  const refs = fieldOf(scene, 'surplus')
    .flatMap((difference) => difference.pairs)
    .filter((ref) => returnFrame(scene, ref)?.kind === 'page');
  const groups = groupBy(refs, (ref) => returnFrame(scene, ref)?.issue ?? null);
  const numbers = numbersById(scene);
  return [...groups].flatMap(([document, all]) => {
    const whole = document !== null && (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => pairOf(scene, ref).record === null);
    const twin = whole ? (sameIssueElsewhere(scene, document) ?? samePicturesElsewhere(scene, document)) : null;
    const parts = whole ? [all] : neighbouringRuns(all);
    return parts.map((run) => {
      const first = run[0];
      const reel = first === undefined ? '' : (recordReelOf(scene, first)?.text ?? '');
      const behind = first === undefined ? '' : lastRecordFrame(scene, first);
      const shown = numbersOf(scene, run);
      const under = shown === null ? '' : ` under ${shown}`;
      const pages = shown ?? (run.length === 1 ? 'this page' : 'these pages');
      const name = issueName(scene, document, 'return');
      const label = first === undefined ? null : (returnFrame(scene, first)?.page ?? null);
      const moved = followed(scene, run, numbers);
      const later = framesInWords(moved.frames);
      const lacked: Testimony = whole || document === null ? { cause: 'unclear', evidence: [] } : withAndWithout(scene, document);
      return candidate(
        draft(scene, {
          code: twin !== null ? 'issue-delivered-twice' : whole ? 'issue-not-in-collation' : 'page-not-in-collation',
          cause: twin !== null ? 'vendor-metadata' : lacked.cause === 'collation' ? 'collation' : 'unclear',
          about: run,
          returnIssue: document,
          explains: [
            ...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'surplus'))),
            ...(twin === null || document === null ? [] : idsOf(samePictures(scene, document))),
            ...(first === undefined ? [] : numbersBehind(scene, run)),
            ...(document === null || whole ? [] : shiftedIn(scene, document, run)),
          ],
          at: behind === '' ? null : behind,
          ...(whole ? { frames: null, count: run.length } : moved),
          ...(twin === null ? {} : repeatedFrames(scene, twin)),
          page: label,
          field: 'frame',
          collation: behind === '' ? 'no such frame' : `no such frame after ${behind}`,
          return: shown ?? counted(run.length, 'page'),
          says:
            twin !== null
              ? `${issueName(scene, twin)} came twice: ${counted(run.length, 'page')}${under} repeat it.`
              : whole
                ? `The return has ${name} (${counted(run.length, 'page')}${shown === null ? '' : `, ${shown}`}), which the record does not have on reel ${reel}.`
                : `The return has ${run.length === 1 ? (label === null ? 'a page without a number' : `page ${label}`) : counted(run.length, 'page')} of ${name}${under}, which the record does not have${behind === '' ? '' : ` after frame ${behind}`}${moved.frames === null ? '' : `; ${later} ${moved.count === 1 ? 'is' : 'are'} numbered too high behind it`}.`,
          instruction:
            twin !== null
              ? `Withdraw the second document of ${issueName(scene, twin)}.`
              : lacked.cause === 'collation'
                ? `Compare the film ${behindWords(behind)} with both readings before anything is changed.`
                : `Look at the film ${behindWords(behind)}: say where ${pages} ${run.length === 1 ? 'comes' : 'come'} from, or withdraw ${run.length === 1 ? 'it' : 'them'}${moved.frames === null || whole ? '' : ` and renumber ${later}`}.`,
          evidence: lacked.cause === 'collation' ? lacked.evidence : [],
          alternatives:
            twin !== null
              ? []
              : [
                  {
                    says: `${capital(pages)} ${run.length === 1 ? 'is not a frame' : 'are not frames'} of this reel.`,
                    cause: 'vendor-metadata',
                    instruction: `Withdraw ${pages}.`,
                  },
                  { says: 'The collation record lacks these frames.', cause: 'collation', instruction: null },
                ],
          corrections:
            twin !== null
              ? []
              : run.map((ref) => ({
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
    });
  });
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

/** The numbers under which frames came; null where one of them has none. */
function numbersOf(scene: Scene, run: readonly PairRef[]): string | null {
  const frames = run.map((ref) => returnFrame(scene, ref));
  if (frames.some((frame) => frame?.frame == null)) return null;
  return frames.length === 1 ? `number ${frameName(frames[0])}` : `numbers ${frameName(frames[0])} to ${frameName(frames.at(-1))}`;
}

/** The frames of an issue that came twice. */
function repeatedFrames(scene: Scene, issue: number): { at: string | null; frames: FrameRange | null; count: number } {
  const pages = (scene.pairsOfRecordIssue.get(issue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
  const { frames, count } = rangeOf(scene, pages);
  return { at: frames?.from ?? null, frames, count };
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

/** The issue of the record that a surplus document repeats: the same title and date, or the same frame numbers, already delivered by another document. */
function sameIssueElsewhere(scene: Scene, document: number): number | null {
  const mine = returnIssueOf(scene, document);
  for (const meeting of scene.meetings) {
    if (meeting.returnIssue === document) continue;
    const other = returnIssueOf(scene, meeting.returnIssue);
    if (
      other?.title === mine?.title &&
      other?.date?.day != null &&
      other.date.day === mine?.date?.day &&
      sharesNumbers(scene, document, meeting.returnIssue)
    )
      return meeting.recordIssue;
  }
  return null;
}

/** Pictures of a document that another document has too: an issue that is described twice has the same pictures twice by nature. */
function samePictures(scene: Scene, document: number): readonly WordedDifference[] {
  return [...fieldOf(scene, 'digest'), ...fieldOf(scene, 'same-file')].filter(({ ref, twin }) => {
    const [one, other] = [ref, twin].map((at) => (at === null ? null : (scene.returned.reels[at.reel]?.frames[at.frame]?.issue ?? null)));
    return one !== other && (one === document || other === document);
  });
}

/** The issue of the record whose document has the pictures of another document's pages, half of them or more. */
function samePicturesElsewhere(scene: Scene, document: number): number | null {
  const pages = new Map<number, Set<string>>();
  for (const { ref, twin } of samePictures(scene, document))
    for (const [at, from] of [
      [ref, twin],
      [twin, ref],
    ] as const) {
      const here = at === null ? undefined : scene.returned.reels[at.reel]?.frames[at.frame];
      const there = from === null ? undefined : scene.returned.reels[from.reel]?.frames[from.frame];
      if (at === null || here?.issue !== document || there?.issue == null) continue;
      const own = pages.get(there.issue) ?? new Set<string>();
      pages.set(there.issue, own.add(`${String(at.reel)}:${String(at.frame)}`));
    }
  const all = (scene.pairsOfReturnIssue.get(document) ?? []).length;
  const [other] = [...pages].filter(([, own]) => own.size * 2 >= all).sort((a, b) => b[1].size - a[1].size);
  return other === undefined ? null : (scene.meetings.find(({ returnIssue }) => returnIssue === other[0])?.recordIssue ?? null);
}

/** The same frame numbers again; or the same pages again, said to be of the same edition. */
function sharesNumbers(scene: Scene, a: number, b: number): boolean {
  const theirs = (scene.pairsOfReturnIssue.get(b) ?? []).map((ref) => returnFrame(scene, ref));
  const mine = (scene.pairsOfReturnIssue.get(a) ?? []).map((ref) => returnFrame(scene, ref));
  const numbers = new Set(theirs.filter((frame) => frame?.frame != null).map(frameName));
  const label = (frame: (typeof theirs)[number]): string => frame?.pageKey ?? String(frame?.order ?? '');
  const labels = new Set(theirs.map(label));
  const sameEdition = (returnIssueOf(scene, a)?.edition ?? 1) === (returnIssueOf(scene, b)?.edition ?? 1);
  const same = mine.filter((frame) => numbers.has(frameName(frame)) || (sameEdition && labels.has(label(frame)))).length;
  return same * 2 > mine.length;
}
