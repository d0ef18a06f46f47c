import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { Frame, Side } from '../model/film.js';
import type { Draft } from './draft.js';
import { expectedLabel, labelAgrees } from './labels.js';
import { expectedNumbers } from './numbers.js';

/** Differences of single frames in one alignment: frames without a partner, what is delivered, numbers, reels, labels, order, sections. */
export function compareFrames(at: number, alignment: Alignment, record: Side, returned: Side, policies: Policies): Draft[] {
  const drafts: Draft[] = [];
  const reel = alignment.recordReel === null ? undefined : record.reels[alignment.recordReel];
  const numbers = reel === undefined ? [] : expectedNumbers(reel, policies);
  // a reel that only one side has was not compared; that is said as such, not frame by frame
  if (reel === undefined || alignment.pairs.every((pair) => pair.returned === null)) return drafts;
  const lastShown = alignment.pairs.findLastIndex((pair) => pair.slot);
  // frames outside any issue are delivered somewhere: only then can a number be missed
  const unbroken =
    policies.frameNumbers === 'unbroken' &&
    alignment.returnReels.some((t) => returned.reels[t]?.frames.some((frame) => frame.kind === 'unmatched') === true);
  alignment.pairs.forEach((pair, index) => {
    const pairs = [{ alignment: at, pair: index }];
    const mine = pair.record === null ? undefined : reel.frames[pair.record];
    const theirs = pair.returned === null ? undefined : returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
    if (mine === undefined) {
      if (theirs === undefined)
        drafts.push({ field: 'empty-number', pairs, returned: pair.exposure === null ? null : String(pair.exposure) });
      else drafts.push({ field: 'surplus', pairs, ref: pair.returned, returned: theirs.frame?.text ?? null, returnIssue: theirs.issue });
      return;
    }
    const base = { pairs, ref: pair.returned, recordIssue: mine.issue, returnIssue: theirs?.issue ?? null };
    if (!pair.slot) {
      // what is no page at the end of a reel leaves no trace in the XML: nothing to compare it with
      if (pair.returned === null && ((mine.deliver && mine.kind !== 'target') || index < lastShown))
        drafts.push({ ...base, field: 'not-scanned', collation: mine.frame?.text ?? null });
      if (pair.returned === null && (index < lastShown || mine.deliver)) return;
    }
    const isPage = theirs?.kind === 'page';
    if (unbroken && theirs === undefined && pair.slot && !mine.deliver && pair.record !== null && index <= lastShown) {
      drafts.push({ ...base, field: 'number-unfilled', collation: mine.frame?.text ?? null, returned: 'nothing' });
    }
    if (mine.deliver && mine.kind !== 'target' && !isPage && pair.slot) {
      drafts.push({ ...base, field: 'not-delivered', collation: 'deliver', returned: theirs === undefined ? 'nothing' : theirs.kind });
    }
    if (!mine.deliver && isPage) drafts.push({ ...base, field: 'delivered', collation: 'suppress', returned: 'delivered' });
    const number = numbers[pair.record ?? -1] ?? null;
    const theirExposure = theirs === undefined ? pair.exposure : (theirs.frame?.exposure ?? null);
    if (number !== null && theirExposure !== null) {
      const half = theirs === undefined ? number.half : (theirs.frame?.half ?? '');
      if (number.exposure !== theirExposure || number.half !== half) {
        drafts.push({
          ...base,
          field: 'number',
          collation: `${String(number.exposure)}${number.half}`,
          returned: `${String(theirExposure)}${half}`,
        });
      }
    }
    if (theirs === undefined) return;
    const wantedReel = policies.reelNumber === 'source' && mine.sourceReel !== null ? mine.sourceReel : reel.text;
    const theirReel = returned.reels[pair.returned?.reel ?? -1];
    if (theirs.kind !== 'unmatched' && theirReel !== undefined && !sameReel(wantedReel, reel.number, theirReel, policies, mine)) {
      drafts.push({ ...base, field: 'reel', collation: wantedReel, returned: theirReel.text });
    }
    if (mine.kind === 'page' && isPage) drafts.push(...pageFacts(base, mine, theirs, policies));
  });
  return drafts;
}

function sameReel(
  wanted: string,
  carrier: string,
  theirs: { number: string; alsoKnownAs: readonly string[] },
  policies: Policies,
  mine: Frame,
): boolean {
  const number =
    policies.reelNumber === 'source' && mine.sourceReel !== null
      ? wanted
          .replace(/\s+/g, '')
          .toLowerCase()
          .replace(/^0+(?=.)/, '')
      : carrier;
  return theirs.number === number || theirs.alsoKnownAs.includes(number);
}

function pageFacts(base: Omit<Draft, 'field'>, mine: Frame, theirs: Frame, policies: Policies): Draft[] {
  const drafts: Draft[] = [];
  if (!labelAgrees(mine, theirs, policies)) {
    drafts.push({ ...base, field: 'page', collation: expectedLabel(mine, policies), returned: theirs.page ?? 'no number' });
  }
  if (mine.order !== null && theirs.order !== null && mine.order !== theirs.order) {
    drafts.push({ ...base, field: 'order', collation: String(mine.order), returned: String(theirs.order) });
  }
  if ((mine.section ?? '') !== (theirs.section ?? '')) {
    drafts.push({ ...base, field: 'section', collation: mine.section ?? 'no section', returned: theirs.section ?? 'no section' });
  }
  return drafts;
}
