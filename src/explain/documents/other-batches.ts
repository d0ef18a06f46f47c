import type { PairRef } from '../../model/difference.js';
import type { Findings } from '../../model/findings.js';
import { capital, counted, draft, type FindingDraft, frameName, framesInWords, issueName, rangeOf } from '../draft.js';
import { pairKey } from '../runs.js';
import { recordFrame, recordReelOf, type Scene } from '../scene.js';
import type { OtherCopy } from './elsewhere.js';

/**
 * Pages that this batch and another one were both ordered to deliver, and did: one finding for each run. Neither return is wrong by its own
 * record, so the choice is the library's.
 */
export function orderedTwice(scene: Scene): FindingDraft[] {
  return runs(scene, (ref, copy) => copy.ordered && recordFrame(scene, ref)?.deliver === true).map(({ refs, copies }) => {
    const range = rangeOf(scene, refs);
    const words = framesInWords(range.frames);
    const issues = [...new Set(refs.flatMap((ref) => recordFrame(scene, ref)?.issue ?? []))];
    const [first, last] = [issueName(scene, issues[0] ?? null), issueName(scene, issues.at(-1) ?? null)];
    const there = copiesInWords(copies);
    return draft(scene, {
      code: 'delivered-from-both-reels',
      cause: 'collation',
      about: refs,
      explains: [],
      field: 'deliver',
      collation: 'deliver, here and in the other batch',
      return: 'delivered from both reels',
      says: `${capital(words)} of reel ${range.reel ?? '?'} (${issues.length === 1 ? first : `${first} to ${last}`}) came, and the same pages came ${there}; the records of both batches ask for them.`,
      instruction: `Choose the reel from which these ${counted(refs.length, 'page')} are delivered, and hold back the frames of the other.`,
      evidence: [`The other batch delivered them ${there}, as ordered.`],
      alternatives: [
        {
          says: 'The pages are not the same: one of the two is an edition that the records do not tell apart.',
          cause: 'collation',
          instruction: null,
        },
      ],
      corrections: refs.map((ref) => ({
        reel: recordReelOf(scene, ref)?.text ?? '',
        frame: frameName(recordFrame(scene, ref)),
        action: 'set' as const,
        field: 'deliver',
        from: 'yes',
        to: 'no',
      })),
    });
  });
}

/** The findings with what other batches have to say to them: that a page which should not have come came there too. */
export function withOtherCopies(scene: Scene, drafts: readonly FindingDraft[]): FindingDraft[] {
  return drafts.map((entry) => {
    if (entry.code === 'delivered-from-both-reels' && entry.cause === 'collation') return entry;
    const surplus = entry.about.filter((ref) => recordFrame(scene, ref)?.deliver !== true);
    const copies = surplus.flatMap((ref) => scene.elsewhere.get(pairKey(ref)) ?? []);
    if (copies.length === 0) return entry;
    const which = copies.length === surplus.length ? 'The same pages' : `${counted(copies.length, 'page')} of these`;
    return { ...entry, evidence: [...entry.evidence, `${which} came ${copiesInWords(copies)}.`] };
  });
}

/** What else there is to say of other batches: pages that are right here and that the other should have held back, and that nothing was found. In sentences. */
export function aboutOthers(scene: Scene, others: readonly Findings[]): readonly string[] {
  const wrong = runs(scene, (ref, copy) => !copy.ordered && recordFrame(scene, ref)?.deliver === true).map(({ refs, copies }) => {
    const range = rangeOf(scene, refs);
    return `${capital(framesInWords(range.frames))} of reel ${range.reel ?? '?'} were delivered as ordered; the same pages also came ${copiesInWords(copies)}, where the record does not ask for them. That is for the other batch to correct.`;
  });
  const met = new Set([...scene.elsewhere.values()].map((copy) => copy.batch));
  const none = others.filter(({ run }) => !met.has(run.batch)).map(({ run }) => run.batch);
  return [...wrong, ...none.map((batch) => `No page that came now came in batch ${batch} too.`)];
}

/** Runs of pages that came elsewhere too, each from one reel of one batch. What is no page to deliver does not end a run. */
function runs(
  scene: Scene,
  fits: (ref: PairRef, copy: OtherCopy) => boolean,
): readonly { readonly refs: readonly PairRef[]; readonly copies: readonly OtherCopy[] }[] {
  const found: { refs: PairRef[]; copies: OtherCopy[] }[] = [];
  scene.alignments.forEach((alignment, a) => {
    let open: { refs: PairRef[]; copies: OtherCopy[] } | null = null;
    alignment.pairs.forEach((_, p) => {
      const ref = { alignment: a, pair: p };
      const copy = scene.elsewhere.get(pairKey(ref));
      if (copy === undefined || !fits(ref, copy)) {
        if (recordFrame(scene, ref)?.deliver !== false) open = null;
        return;
      }
      const last = open?.copies.at(-1);
      if (open === null || last === undefined || last.batch !== copy.batch || last.reel !== copy.reel) {
        open = { refs: [], copies: [] };
        found.push(open);
      }
      open.refs.push(ref);
      open.copies.push(copy);
    });
  });
  return found;
}

/** `in batch X (delivery 1) from reel 15, frames 3 to 18`. */
function copiesInWords(copies: readonly OtherCopy[]): string {
  const batches = [...new Set(copies.map((copy) => `batch ${copy.batch} (delivery ${String(copy.delivery)}) from reel ${copy.reel}`))];
  const frames = copies.flatMap(({ frame }) => frame ?? []);
  const [from, to] = [frames[0], frames.at(-1)];
  const words =
    batches.length > 1 || from === undefined || to === undefined ? '' : from === to ? `, frame ${from}` : `, frames ${from} to ${to}`;
  return `in ${batches.join(' and in ')}${words}`;
}
