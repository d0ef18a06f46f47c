import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { Copy, Frame, Issue, Side } from '../model/film.js';
import type { Draft } from './draft.js';

/** Differences inside the return itself: copies of a fact, digests that stand twice, files, and what went wrong while reading. */
export function compareDocuments(returned: Side, policies: Policies): Draft[] {
  const drafts: Draft[] = [];
  returned.problems.forEach((problem, index) => {
    drafts.push({ field: 'document', problem: index, about: problem.says, collation: problem.collation, returned: problem.returned });
  });
  returned.issues.forEach((issue, index) => {
    for (const copy of issue.copies) {
      const main = issueFact(issue, copy.fact);
      if (copyDiffers(copy, main))
        drafts.push({ field: 'copy', returnIssue: index, about: `${copy.fact} ${copy.source}`, collation: main, returned: copy.text });
    }
  });
  const digests = new Map<string, { reel: number; frame: number; use: string }>();
  returned.reels.forEach((reel, r) => {
    reel.frames.forEach((frame, f) => {
      const ref = { reel: r, frame: f };
      for (const copy of frame.copies) {
        // where pages carry the number of a spliced-in reel, the folder still carries the film's
        if (copy.fact === 'reel' && policies.reelNumber === 'source') continue;
        const main = frameFact(frame, copy.fact, reel.number);
        if (copyDiffers(copy, main)) {
          drafts.push({
            field: 'copy',
            ref,
            returnIssue: frame.issue,
            about: `${copy.fact} ${copy.source}`,
            collation: main,
            returned: copy.text,
          });
        }
      }
      for (const file of frame.files) {
        if (file.state === 'missing' || file.state === 'empty' || file.state === 'unsafe') {
          drafts.push({ field: 'file', ref, returnIssue: frame.issue, about: file.state, collation: file.use, returned: file.href });
        }
        if (file.digest === null || file.use === 'ocr') continue;
        const first = digests.get(file.digest);
        if (first === undefined) digests.set(file.digest, { ...ref, use: file.use });
        else if (first.reel !== r || first.frame !== f) {
          const other = returned.reels[first.reel]?.frames[first.frame];
          drafts.push({
            field: 'digest',
            ref,
            twin: { reel: first.reel, frame: first.frame },
            returnIssue: frame.issue,
            about: file.use,
            collation: other?.frame?.text ?? 'another frame',
            returned: file.digest,
          });
        }
      }
      if (policies.files === 'required' && frame.kind === 'page' && frame.files.length === 0) {
        drafts.push({ field: 'file', ref, returnIssue: frame.issue, about: 'none', collation: 'files', returned: 'no file is named' });
      }
    });
  });
  return drafts;
}

/** Differences of targets that are listed or not, of reel facts and of counts, one reel at a time. */
export function compareReels(alignments: readonly Alignment[], record: Side, returned: Side, policies: Policies): Draft[] {
  return alignments.flatMap((alignment, at) => {
    const drafts: Draft[] = [];
    const mine = alignment.recordReel === null ? undefined : record.reels[alignment.recordReel];
    if (mine === undefined) return drafts;
    const lastShown = alignment.pairs.findLastIndex((pair) => pair.slot);
    const listed = alignment.returnReels.some((t) => returned.reels[t]?.targetsListed === true);
    alignment.pairs.forEach((pair, index) => {
      const frame = pair.record === null ? undefined : mine.frames[pair.record];
      const other = pair.returned === null ? undefined : returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
      if (frame?.kind !== 'target') return;
      const pairs = [{ alignment: at, pair: index }];
      const wanted = policies.targets === 'listed' || (policies.targets === 'either' && frame.deliver && listed);
      if (wanted && (pair.slot || index > lastShown) && other === undefined)
        drafts.push({ field: 'target', pairs, collation: 'listed', returned: 'not listed' });
      if (policies.targets === 'not-listed' && other?.kind === 'target')
        drafts.push({ field: 'target', pairs, ref: pair.returned, collation: 'not listed', returned: 'listed' });
    });
    for (const t of alignment.returnReels) {
      const theirs = returned.reels[t];
      if (theirs === undefined) continue;
      for (const [fact, value] of Object.entries(mine.facts)) {
        const given = theirs.facts[fact];
        if (given !== undefined && plain(given) !== plain(value)) {
          drafts.push({ field: 'reel-fact', about: fact, collation: value, returned: given, ref: { reel: t, frame: 0 } });
        }
      }
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
          drafts.push({ field: 'count', about: 'numberOfPictures', collation: counted, returned: pictures, ref: { reel: t, frame: 0 } });
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

function copyDiffers(copy: Copy, main: string | null): boolean {
  return copy.value !== null && main !== null && copy.value !== main;
}

function issueFact(issue: Issue, fact: Copy['fact']): string | null {
  if (fact === 'date') return issue.date?.day ?? null;
  if (fact === 'edition') return String(issue.edition ?? 1);
  if (fact === 'title') return issue.title;
  if (fact === 'editionLabel') return issue.editionLabel;
  return null;
}

function frameFact(frame: Frame, fact: Copy['fact'], reel: string): string | null {
  if (fact === 'frame') return frame.frame === null ? null : `${String(frame.frame.exposure)}${frame.frame.half}`;
  if (fact === 'reel') return reel;
  if (fact === 'order') return frame.order === null ? null : String(frame.order);
  if (fact === 'page') return frame.pageKey;
  return null;
}

function plain(text: string): string {
  return text
    .replace(/\s+/g, '')
    .toLowerCase()
    .replace(/x$|^1:/g, '');
}
