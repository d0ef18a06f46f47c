import { plainReading, writtenNumber } from '../expect/fact.js';
import { reelFactReading } from '../expect/frames.js';
import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { ExpectedReel, Reading } from '../model/expected.js';
import type { Copy, Frame, Issue, Reel, Side } from '../model/film.js';
import type { Draft } from './draft.js';
import { formOf, listOf } from './fact.js';
import { compareFiles, compareFileUses, newFileMemory } from './files.js';
import { compareReelSpan } from './reel-span.js';

/** What the record has for a fact of the issue that a document holds most of; none where it says nothing. */
type RightOf = (returnIssue: number, fact: OfIssue) => readonly Reading[];

/**
 * Differences inside the return itself: copies of a fact, digests that stand twice, files, and what went wrong while reading. A copy is held against the
 * document that it is a copy of, and where that says nothing against the record: whatever came is compared.
 */
export function compareDocuments(returned: Side, policies: Policies, rightOf: RightOf): Draft[] {
  const drafts: Draft[] = [];
  const rightOfCopy = ({ fact, beside }: Copy, main: string | null, issue: number | null): readonly Reading[] => {
    if (main !== null) return [{ key: main, text: beside?.text ?? main }];
    return issue === null || !isOfIssue(fact) ? [] : rightOf(issue, fact);
  };
  returned.problems.forEach((problem, index) => {
    // where frames carry the number of a spliced-in reel, the reel document's LABEL and the manifest still carry the film's
    if (policies.reelNumber === 'source' && problem.code === 'documents-disagree' && problem.field === 'reel') return;
    drafts.push({
      field: 'document',
      form: 'other',
      problem: index,
      about: problem.says,
      expected: listOf(plainReading(problem.collation)),
      given: plainReading(problem.returned),
    });
  });
  returned.issues.forEach((issue, index) => {
    for (const copy of issue.copies) {
      const main = copy.beside === undefined ? issueFact(issue, copy.fact) : copy.beside.value;
      const right = rightOfCopy(copy, main, index);
      if (copyDiffers(copy, right))
        drafts.push({
          field: 'copy',
          form: 'other',
          returnIssue: index,
          about: `${copy.fact} ${copy.source}`,
          expected: right,
          given: copyReading(copy),
        });
    }
  });
  const memory = newFileMemory();
  returned.reels.forEach((reel, r) => {
    reel.frames.forEach((frame, f) => {
      const ref = { reel: r, frame: f };
      const files = compareFiles(returned, ref, memory);
      drafts.push(...files);
      // The file of another frame bears that frame's number: one cause, and it is told.
      const strays = files
        .flatMap((file) => (file.field === 'same-file' ? (file.expected ?? []) : []))
        .map(({ text }) => frameNumberKey(text));
      for (const copy of frame.copies) {
        // where pages carry the number of a spliced-in reel, the folder still carries the film's
        if (copy.fact === 'reel' && policies.reelNumber === 'source') continue;
        if (copy.fact === 'frame' && strays.some((number) => number === copy.value)) continue;
        // what the folder or the document's own name says wrongly is told of the issue, and its pages repeat it
        const issue = frame.issue === null ? undefined : returned.issues[frame.issue];
        if (copy.beside === undefined && issue?.copies.some(({ fact, value }) => fact === copy.fact && value === copy.value) === true)
          continue;
        const main =
          copy.beside !== undefined
            ? copy.beside.value
            : (frameFact(frame, copy.fact, reel) ?? (issue === undefined || !isOfIssue(copy.fact) ? null : issueFact(issue, copy.fact)));
        const right = rightOfCopy(copy, main, frame.issue);
        if (copyDiffers(copy, right)) {
          drafts.push({
            field: 'copy',
            form: 'other',
            ref,
            returnIssue: frame.issue,
            about: `${copy.fact} ${copy.source}`,
            expected: right,
            given: copyReading(copy),
          });
        }
      }
    });
  });
  return policies.files === 'required' ? [...drafts, ...compareFileUses(returned)] : drafts;
}

/** Differences of targets that are listed or not, of reel facts and of counts, one reel at a time. */
export function compareReels(alignments: readonly Alignment[], record: Side, expected: readonly ExpectedReel[], returned: Side): Draft[] {
  return alignments.flatMap((alignment, at) => {
    const drafts: Draft[] = [];
    const mine = alignment.recordReel === null ? undefined : record.reels[alignment.recordReel];
    const right = alignment.recordReel === null ? undefined : expected[alignment.recordReel];
    if (mine === undefined || right === undefined) return drafts;
    const lastShown = alignment.pairs.findLastIndex((pair) => pair.slot);
    const listed = alignment.returnReels.some((t) => returned.reels[t]?.targetsListed === true);
    alignment.pairs.forEach((pair, index) => {
      const wish = pair.record === null ? undefined : right.frames[pair.record];
      const other = pair.returned === null ? undefined : returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
      if (wish === undefined || mine.frames[pair.record ?? -1]?.kind !== 'target') return;
      const pairs = [{ alignment: at, pair: index }];
      const wanted = wish.listed === 'must' || (wish.listed === 'with-others' && listed);
      if (wanted && (pair.slot || !alignment.numbered || index > lastShown) && other === undefined)
        drafts.push({ field: 'target', form: 'missing', pairs });
      if (wish.listed === 'must-not' && other?.kind === 'target')
        drafts.push({ field: 'target', form: 'surplus', pairs, ref: pair.returned });
    });
    for (const t of alignment.returnReels) {
      const theirs = returned.reels[t];
      if (theirs === undefined) continue;
      for (const [fact, wish] of Object.entries(right.facts)) {
        const text = theirs.facts[fact];
        const given = text === undefined ? null : reelFactReading(text);
        const form = formOf(wish, given);
        if (form !== null) drafts.push({ field: 'reel-fact', form, about: fact, expected: wish.right, given, ref: { reel: t, frame: 0 } });
      }
      for (const draft of compareReelSpan(mine, theirs, record)) drafts.push({ ...draft, ref: { reel: t, frame: 0 } });
      const pictures = theirs.facts['numberOfPictures'];
      if (pictures !== undefined && alignment.returnReels.length === 1) {
        // the number may be right by the record or by the return's own numbering: what is lost between them is told where it is lost
        const shown = alignment.pairs.filter(
          (pair, index) => pair.slot || (pair.record !== null && index > lastShown && mine.frames[pair.record]?.deliver === false),
        ).length;
        const counted = String(mine.frames.length);
        const exposures = new Set(mine.frames.map((frame) => frame.frame?.exposure ?? frame)).size;
        if (
          /^\d{1,7}$/.test(pictures) &&
          !countFits(Number(pictures), [mine.frames.length, shown, exposures], theirs.facts['isoTargets'])
        ) {
          drafts.push({
            field: 'count',
            form: 'other',
            about: 'numberOfPictures',
            expected: listOf(plainReading(counted)),
            given: plainReading(pictures),
            ref: { reel: t, frame: 0 },
          });
        }
      }
    }
    return drafts;
  });
}

/**
 * A film may carry test targets of its own besides its frames; where the return does not show how many, up to nine are allowed for (Danish
 * programme, Appendix 2F: ISO targets 1 to 9). Halves may be counted as one.
 */
function countFits(stated: number, counts: readonly number[], targets: string | undefined): boolean {
  const known = targets !== undefined && /^\d{1,3}$/.test(targets) ? Number(targets) : null;
  return counts.some((count) => stated === count || (known === null ? stated > count && stated <= count + 9 : stated === count + known));
}

/** Facts of the issue that the name of a page says again. */
const OF_ISSUE = ['date', 'edition', 'title'] as const;

type OfIssue = (typeof OF_ISSUE)[number];

const isOfIssue = (fact: Copy['fact']): fact is OfIssue => OF_ISSUE.some((one) => one === fact);

/** A copy in the form in which the fact itself is compared, and as it is written. */
function copyReading({ value, text }: Copy): Reading | null {
  return value === null ? null : { key: value, text };
}

function copyDiffers({ value }: Copy, right: readonly Reading[]): boolean {
  return value !== null && right.length > 0 && right.every(({ key }) => key !== value);
}

function issueFact(issue: Issue, fact: Copy['fact']): string | null {
  if (fact === 'date') return issue.date?.day ?? null;
  if (issue.inferred?.includes(fact) === true) return null;
  if (fact === 'edition') return String(issue.edition ?? 1);
  if (fact === 'title') return issue.title;
  if (fact === 'editionLabel') return issue.editionLabel;
  return null;
}

function frameFact(frame: Frame, fact: Copy['fact'], reel: Reel): string | null {
  const number = writtenNumber(frame);
  if (fact === 'frame') return number === null ? null : `${String(number.exposure)}${number.half}`;
  if (fact === 'exposure') return number === null ? null : String(number.exposure);
  if (fact === 'reel') return reel.numberInferred === true ? null : reel.number;
  if (fact === 'order') return frame.order === null ? null : String(frame.order);
  if (fact === 'page') return frame.pageKey;
  return null;
}

/** A frame number without zeros in front, as copies are compared. */
function frameNumberKey(text: string): string {
  return text.replace(/^0+(?=\d)/, '').toUpperCase();
}
