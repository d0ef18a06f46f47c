import type { PairRef } from '../../model/difference.js';
import type { DocumentProblem, Frame } from '../../model/film.js';
import { type Candidate, candidate } from '../choose.js';
import { draft, type FindingDraft, frameName } from '../draft.js';
import { inFilmOrder } from '../runs.js';
import { pairOf, recordFrame, returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { copiesTold } from './copies-told.js';
import { documentProblems } from './document-problems.js';
import { emptyDocument } from './empty-documents.js';
import { missingFiles } from './missing-files.js';
import { reelFact, targets, unfilled } from './reel-facts.js';

/** The places of the return's frames, by reel and frame. */
function pairsByRef(scene: Scene): Map<string, PairRef> {
  const found = new Map<string, PairRef>();
  scene.alignments.forEach((alignment, a) => {
    alignment.pairs.forEach((pair, p) => {
      if (pair.returned !== null) found.set(`${String(pair.returned.reel)}:${String(pair.returned.frame)}`, { alignment: a, pair: p });
    });
  });
  return found;
}

/** The places of the frames that a problem is about: those of the file that is another than was described, and of the page that is not delivered. */
function pairsOf(scene: Scene, at: ReadonlyMap<string, PairRef>, { code, place }: DocumentProblem): readonly PairRef[] {
  const concerns = (frame: Frame): boolean => {
    if (code === 'checksum-differs') return frame.files.some((file) => file.path === (place.document ?? ''));
    const isHere = frame.place.document === place.document && frame.place.element === place.element;
    return isHere && (code === 'page-not-delivered' || frame.undescribed === true);
  };
  return scene.returned.reels.flatMap((reel, r) =>
    reel.frames.flatMap((frame, f) => (concerns(frame) ? (at.get(`${String(r)}:${String(f)}`) ?? []) : [])),
  );
}

/** What no cause explains of documents and files: one finding per document, per fact of an issue, or per run of frames. */
export function plainDocuments(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const at = pairsByRef(scene);
  const refOf = (difference: WordedDifference): PairRef[] => {
    if (difference.pairs.length > 0) return [...difference.pairs];
    const ref = difference.ref === null ? undefined : at.get(`${String(difference.ref.reel)}:${String(difference.ref.frame)}`);
    return ref === undefined ? [] : [ref];
  };
  const twinOf = (difference: WordedDifference): PairRef[] => {
    const ref = difference.twin === null ? undefined : at.get(`${String(difference.twin.reel)}:${String(difference.twin.frame)}`);
    return ref === undefined ? [] : [ref];
  };
  return [
    ...documentProblems(
      scene,
      left.filter((one) => one.field === 'document'),
      (problem) => pairsOf(scene, at, problem),
    ),
    ...copiesTold(
      scene,
      left.filter((one) => one.field === 'copy'),
      refOf,
    ),
    ...missingFiles(
      scene,
      left.filter((one) => one.field === 'file'),
      refOf,
    ),
    ...left
      .filter((one) => one.field === 'digest' || one.field === 'same-file')
      .map((one) => sameImage(scene, one, inFilmOrder([...twinOf(one), ...refOf(one)]))),
    ...targets(
      scene,
      left.filter((one) => one.field === 'target'),
    ),
    ...unfilled(
      scene,
      left.filter((one) => one.field === 'number-unfilled'),
    ),
    ...left.filter((one) => one.field === 'empty-document').map((one) => emptyDocument(scene, one)),
    ...left.filter((one) => one.field === 'reel-fact' || one.field === 'count').map((one) => reelFact(scene, one)),
  ];
}

function sameImage(scene: Scene, difference: WordedDifference, refs: readonly PairRef[]): Candidate {
  const first = refs.at(-1);
  const named = difference.field === 'same-file';
  const nameOf = (ref: PairRef): string => frameName(recordFrame(scene, ref) ?? returnFrame(scene, ref));
  const name = first === undefined ? '?' : nameOf(first);
  // both by the record's numbers; of what the record does not have only the return's is known
  const other = refs[0] === undefined || refs.length < 2 ? (difference.collation ?? 'one without a number') : nameOf(refs[0]);
  const pages = first !== undefined && pairOf(scene, first).record !== null && recordFrame(scene, first)?.deliver === true;
  const statement: Partial<FindingDraft> & { about: readonly PairRef[]; explains: number[] } = { about: refs, explains: [difference.id] };
  return candidate(
    draft(scene, {
      ...statement,
      code: 'same-image-twice',
      cause: 'vendor-image',
      field: 'image',
      collation: `frames ${other} and ${name} are two pictures`,
      return: `one ${difference.about ?? 'image'} file for both`,
      says: named
        ? `Frames ${other} and ${name} name the same ${difference.about ?? 'image'} file ${difference.returned ?? '?'}.`
        : `Frames ${other} and ${name} carry the same image: the return's own digests of the ${difference.about ?? 'image'} files are equal.`,
      instruction: named
        ? `Name the own files of frame ${name} (or of ${other}), and scan it again if there are none.`
        : `Replace the image of frame ${name} (or of ${other}) by its own.`,
      evidence: named ? [] : [`Digest of both files: ${difference.returned ?? '?'}.`],
      rescan: 'yes',
      billable: pages ? [{ class: 'page', change: 0 }] : [],
    }),
  );
}
