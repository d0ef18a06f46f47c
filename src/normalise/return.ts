import type { Absence, DocumentProblem, Frame, Issue, Reel, Side, Unfound } from '../model/film.js';
import type { Profile } from '../model/profile.js';
import type { WrittenPage, WrittenReel, WrittenReturn } from '../model/written-return.js';
import { compareFrameNumbers, readFrameNumber } from './labels.js';
import { countOn, isInferredReel } from './return-counted.js';
import { factProblem, otherReelNumbers, readCopy, readReel, readReturnDate, readTitle } from './return-facts.js';
import { type KnownReel, readIssue } from './return-issue.js';
import { type NeedsBook, newNeedsBook } from './return-needs.js';
import { nothingRead, withoutPages } from './return-unread.js';

interface ReelDraft {
  readonly number: string;
  readonly text: string;
  readonly frames: Frame[];
  document: WrittenReel | null;
  place: Reel['place'];
}

/** What the vendor sent in the shape in which both sides are compared. Pure; nothing that cannot be understood is thrown away or thrown. */
export function normaliseReturn(written: WrittenReturn, profile: Profile): Side {
  const unread = nothingRead(written, profile);
  return unread === null ? normalisedReturn(written, profile) : withNothing(written, profile, unread);
}

/** A return of which the library's own profile found no page: nothing of it can be compared, and that is all that is said of it. */
function withNothing(written: WrittenReturn, profile: Profile, unread: Unfound): Side {
  const { problems, unchecked } = withoutPages(written.problems);
  return {
    titles: [],
    issues: [],
    reels: [],
    absences: [],
    problems,
    unchecked: [...written.unchecked, ...unchecked],
    unfound: [unread],
    remarks: written.remarks,
    received: written.received,
    documentsPerReel: profile.layout === 'page-mods',
  };
}

function normalisedReturn(written: WrittenReturn, profile: Profile): Side {
  const folderReels = reelsByFolder(written);
  const reels = new Map<string, ReelDraft>();
  const reelFor = (number: string, text: string, place: Reel['place']): ReelDraft => {
    const known = reels.get(number) ?? { number, text, frames: [], document: null, place };
    reels.set(number, known);
    return known;
  };
  const issues: Issue[] = [];
  const absences: Absence[] = [];
  const problems: DocumentProblem[] = written.problems.map((problem) => ({
    ...problem,
    reel: readReel(problem.reel ?? undefined),
    title: readTitle(problem.title ?? undefined, profile),
    date: readReturnDate(problem.date ?? undefined, profile.facts.issue.date?.shape)?.day ?? problem.date,
  }));
  const remarks: string[] = [...written.remarks];
  const needs = newNeedsBook(profile);
  for (const document of written.reels) addReelDocument(document, profile, folderReels, reelFor, problems, needs);
  for (const document of written.issues) {
    const folderReel = document.reelFolder === null ? null : (folderReels.get(document.reelFolder) ?? null);
    const read = readIssue(document, issues.length, folderReel, { profile, uses: written, needs });
    issues.push(read.issue);
    absences.push(...read.absences);
    for (const { frame, reel, reelText } of read.frames) reelFor(reel ?? '', reelText, frame.place).frames.push(frame);
  }
  for (const loose of written.loose) {
    const known = folderReels.get(loose.reelFolder ?? '');
    const number = known?.number ?? readReel(loose.reel) ?? '';
    reelFor(number, known?.text ?? loose.reel, loose.place).frames.push(
      unplaced(loose.frame, 'unmatched', { files: loose.files, place: loose.place }),
    );
  }
  const { problems: needed, unfound } = needs.outcome();
  const told = withoutUnreadable({ issues, absences }, unfound);
  for (const draft of reels.values()) countOn(draft, told.issues, profile);
  return {
    titles: [],
    issues: told.issues,
    reels: [...reels.values()]
      .sort((a, b) => (a.number < b.number ? -1 : a.number > b.number ? 1 : 0))
      .map((draft) => finishReel(draft, profile)),
    absences: told.absences,
    problems: [...problems, ...needed],
    unchecked: written.unchecked,
    ...(unfound.length === 0 ? {} : { unfound }),
    remarks,
    fileUses: written.fileUses,
    received: written.received,
    documentsPerReel: profile.layout === 'page-mods',
    looseDelivered: profile.folders.unmatched.length > 0,
  };
}

/** Dates that the library's own profile cannot read in next to any document are no statement of the vendor's. */
function withoutUnreadable(
  { issues, absences }: { readonly issues: readonly Issue[]; readonly absences: readonly Absence[] },
  unfound: readonly Unfound[],
): { readonly issues: readonly Issue[]; readonly absences: readonly Absence[] } {
  if (unfound.every(({ field }) => field !== 'date')) return { issues, absences };
  const isNone = ({ date }: Pick<Issue, 'date'>): boolean => date?.day === null && !date.uncertain;
  return {
    issues: issues.map((issue) => (isNone(issue) ? { ...issue, date: null } : issue)),
    absences: absences.map((absence) => (isNone(absence) ? { ...absence, date: null } : absence)),
  };
}

/** The reel that each folder holds: by its reel document, else by its pages where these agree. */
function reelsByFolder(written: WrittenReturn): ReadonlyMap<string, KnownReel> {
  const known = new Map<string, KnownReel>();
  for (const { reelFolder, facts } of written.reels) {
    const number = readReel(facts.reel);
    if (reelFolder !== null && number !== null && !known.has(reelFolder)) known.set(reelFolder, { number, text: facts.reel ?? number });
  }
  const byPages = new Map<string, Map<string, string>>();
  for (const issue of written.issues) {
    if (issue.reelFolder === null || known.has(issue.reelFolder)) continue;
    const numbers = byPages.get(issue.reelFolder) ?? new Map<string, string>();
    byPages.set(issue.reelFolder, numbers);
    for (const page of issue.pages) {
      const number = readReel(page.facts.reel);
      if (number !== null) numbers.set(number, page.facts.reel ?? number);
    }
  }
  for (const [folder, numbers] of byPages) {
    const [only] = [...numbers.entries()];
    if (only !== undefined && numbers.size === 1) known.set(folder, { number: only[0], text: only[1] });
  }
  return known;
}

function addReelDocument(
  document: WrittenReel,
  profile: Profile,
  folderReels: ReadonlyMap<string, KnownReel>,
  reelFor: (number: string, text: string, place: Reel['place']) => ReelDraft,
  problems: DocumentProblem[],
  needs: NeedsBook,
): void {
  const own = readReel(document.facts.reel);
  const known = own === null ? folderReels.get(document.reelFolder ?? '') : { number: own, text: document.facts.reel ?? own };
  const at = { title: null, date: null, edition: null, reel: known?.number ?? null };
  needs.hold({
    part: 'reel',
    facts: document.facts,
    place: document.place,
    known: at,
    taken: known === undefined ? {} : { reel: `about reel ${known.text}` },
  });
  if (known === undefined) return;
  const draft = reelFor(known.number, known.text, document.place);
  if (draft.document !== null) {
    // a second document is not read twice over: its targets are the first one's. One that the manifest does not list is told as that.
    const unlisted = problems.some((problem) => problem.code === 'file-not-listed' && problem.place.document === document.place.document);
    const says = `Two reel documents are about reel ${known.text}: "${draft.document.place.document ?? ''}" and "${document.place.document ?? ''}".`;
    if (!unlisted)
      problems.push(factProblem('documents-disagree', says, at, 'reel', known.text, 'Send one document per reel.', document.place));
    return;
  }
  draft.document = document;
  draft.place = document.place;
  for (const copy of document.copies.map((written) => readCopy(written, profile))) {
    if (copy.fact !== 'reel' || copy.value === null || copy.value === known.number) continue;
    const says = `The reel document "${copy.place.document ?? ''}" gives reel ${known.text}, but its ${copy.source} says "${copy.text}".`;
    problems.push(
      factProblem('documents-disagree', says, at, 'reel', copy.text, 'Make the reel number the same in both places.', copy.place),
    );
  }
  for (const target of document.targets) {
    const number = readReel(target.facts.reel) ?? known.number;
    const { frame, problem } = targetFrame(target, at);
    needs.hold({
      part: 'target',
      facts: target.facts,
      place: target.place,
      known: at,
      doubts: () => (problem === null ? {} : { frame: problem }),
    });
    reelFor(number, target.facts.reel ?? known.text, target.place).frames.push(frame);
  }
}

function targetFrame(
  target: WrittenPage,
  at: Parameters<typeof factProblem>[2],
): { readonly frame: Frame; readonly problem: DocumentProblem | null } {
  const frame = unplaced(target.facts.frame ?? '', 'target', target);
  const { facts, place } = target;
  if (frame.frame !== null || facts.frame === undefined) return { frame, problem: null };
  const says = `The target "${place.element ?? ''}" in "${place.document ?? ''}" gives the frame number as "${facts.frame}".`;
  return {
    frame,
    problem: factProblem('vocabulary-unknown', says, at, 'frame', facts.frame, 'Give the frame number of the target.', place),
  };
}

/** A frame that belongs to no issue. */
function unplaced(frame: string, kind: 'target' | 'unmatched', from: Pick<WrittenPage, 'files' | 'place'>): Frame {
  return {
    frame: readFrameNumber(frame, 0),
    kind,
    deliver: false,
    issue: null,
    section: null,
    supplement: false,
    page: null,
    pagePrinted: null,
    pageKey: null,
    pagePrintedKey: null,
    order: null,
    duplicateOf: null,
    retakeOf: null,
    sourceReel: null,
    condition: [],
    note: null,
    files: from.files,
    copies: [],
    place: from.place,
  };
}

function finishReel(draft: ReelDraft, profile: Profile): Reel {
  return {
    number: draft.number,
    text: draft.text,
    ...(isInferredReel(draft, profile) ? { numberInferred: true as const } : {}),
    alsoKnownAs: otherReelNumbers(draft.number, profile),
    frames: inFilmOrder(draft.frames),
    facts: Object.fromEntries((draft.document?.reelFacts ?? []).map(({ name, text }) => [name, text])),
    targetsListed: draft.document?.targetsListed ?? false,
    place: draft.place,
  };
}

/** The number that a page's other places give, such as the names of its files: enough to know where it lies. */
function namedNumber({ copies }: Frame): Frame['frame'] {
  const copy = copies.find(({ fact, value }) => fact === 'frame' && value !== null);
  return copy?.value == null ? null : readFrameNumber(copy.value, 0);
}

/** By frame number; equal ones as the documents give them; a page without a number where its names or its neighbours put it. */
function inFilmOrder(frames: readonly Frame[]): readonly Frame[] {
  // a page without a number lies behind the last one that has one as the documents are read, or in front of the first; so does a target among targets
  const before = new Map<boolean, Frame['frame']>();
  const kindOf = (frame: Frame): boolean => frame.issue !== null;
  for (const of of [true, false])
    before.set(of, frames.find((frame) => kindOf(frame) === of && (of || frame.kind === 'target') && frame.frame !== null)?.frame ?? null);
  const numbered = frames.map((frame, at) => {
    const number = frame.frame ?? namedNumber(frame);
    const follows = frame.issue !== null || frame.kind === 'target';
    if (follows && number !== null) before.set(kindOf(frame), number);
    return { frame, at, anchor: number ?? (follows ? (before.get(kindOf(frame)) ?? null) : null) };
  });
  return numbered
    .sort((a, b) => {
      if (a.anchor === null || b.anchor === null) return a.anchor === b.anchor ? a.at - b.at : a.anchor === null ? 1 : -1;
      return compareFrameNumbers(a.anchor, b.anchor) || a.at - b.at;
    })
    .map(({ frame }) => frame);
}
