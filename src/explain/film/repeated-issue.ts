import type { PairRef } from '../../model/difference.js';
import type { FrameRange } from '../../model/findings.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, frameName, issueName, rangeOf } from '../draft.js';
import { idsOf } from '../runs.js';
import { differencesAt, recordFrame, returnFrame, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { equalPictures } from './equal-pictures.js';
import { numbersBehind } from './numbers-behind.js';
import { lastRecordFrame } from './shift-surplus.js';

/** The issue of the record that a document which the record has no frames for describes once more; null where there is none. */
export function twinOfDocument(scene: Scene, document: number): number | null {
  return sameIssueElsewhere(scene, document) ?? samePicturesElsewhere(scene, document);
}

/** A document that describes an issue of the record once more. */
export function repeatedIssue(scene: Scene, document: number, issue: number, run: readonly PairRef[]): Candidate {
  const [first] = run;
  const behind = first === undefined ? '' : lastRecordFrame(scene, first);
  const shown = numbersOf(scene, run);
  const name = issueName(scene, issue);
  return candidate(
    draft(scene, {
      code: 'issue-delivered-twice',
      cause: 'vendor-metadata',
      about: run,
      returnIssue: document,
      explains: [
        ...idsOf([...run.flatMap((ref) => differencesAt(scene, ref, 'surplus')), ...samePictures(scene, document)]),
        ...numbersBehind(scene, run),
      ],
      ...repeatedFrames(scene, issue),
      page: first === undefined ? null : (returnFrame(scene, first)?.page ?? null),
      field: 'frame',
      collation: behind === '' ? 'no such frame' : `no such frame after ${behind}`,
      return: shown ?? counted(run.length, 'page'),
      says: `${name} came twice: ${counted(run.length, 'page')}${shown === null ? '' : ` under ${shown}`} repeat it.`,
      instruction: `Withdraw the second document of ${name}.`,
      billable: [{ class: 'page', change: -run.length }],
    }),
  );
}

/** The numbers under which frames came; null where one of them has none. */
export function numbersOf(scene: Scene, run: readonly PairRef[]): string | null {
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
  return equalPictures(scene).filter(({ ref, twin }) => {
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
