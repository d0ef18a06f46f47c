import { countReading, plainReading, writtenNumber } from '../expect/fact.js';
import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { ExpectedFrame, ExpectedReel, FrameFact, Reading } from '../model/expected.js';
import type { Frame, Reel, Side } from '../model/film.js';
import type { Draft } from './draft.js';
import { formOf, listOf } from './fact.js';

/** Facts of a page that only a page can state. */
const PAGE_FACTS: readonly FrameFact[] = ['page', 'order', 'section'];

/** Differences of single frames in one alignment: frames without a partner, what is delivered, numbers, reels, labels, order, sections. */
export function compareFrames(
  at: number,
  alignment: Alignment,
  record: Side,
  expected: readonly ExpectedReel[],
  returned: Side,
  policies: Policies,
): Draft[] {
  const drafts: Draft[] = [];
  const reel = alignment.recordReel === null ? undefined : record.reels[alignment.recordReel];
  const wanted = alignment.recordReel === null ? undefined : expected[alignment.recordReel];
  // a reel that only one side has was not compared; that is said as such, not frame by frame
  if (reel === undefined || wanted === undefined || alignment.pairs.every((pair) => pair.returned === null)) return drafts;
  const lastShown = alignment.pairs.findLastIndex((pair) => pair.slot);
  // frames outside any issue are delivered somewhere: only then can a number be missed
  const unbroken =
    policies.frameNumbers === 'unbroken' &&
    (returned.looseDelivered === true ||
      alignment.returnReels.some((t) => returned.reels[t]?.frames.some((frame) => frame.kind === 'unmatched') === true));
  alignment.pairs.forEach((pair, index) => {
    const pairs = [{ alignment: at, pair: index }];
    const mine = pair.record === null ? undefined : reel.frames[pair.record];
    const theirs = pair.returned === null ? undefined : returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
    const right = pair.record === null ? undefined : wanted.frames[pair.record];
    if (mine === undefined || right === undefined) {
      if (theirs === undefined) drafts.push({ field: 'empty-number', form: 'surplus', pairs, given: countReading(pair.exposure) });
      else
        drafts.push({
          field: 'surplus',
          form: 'surplus',
          pairs,
          ref: pair.returned,
          given: plainReading(writtenNumber(theirs)?.text ?? null),
          returnIssue: theirs.issue,
        });
      return;
    }
    const base = { pairs, ref: pair.returned, recordIssue: mine.issue, returnIssue: theirs?.issue ?? null };
    const number = right.facts.number.right;
    // without numbers nothing tells of what is not delivered
    if (!pair.slot && !alignment.numbered) return;
    if (!pair.slot) {
      // what is no page at the end of a reel leaves no trace in the XML: nothing to compare it with
      if (pair.returned === null && (right.delivered === 'must' || index < lastShown))
        drafts.push({ ...base, field: 'not-scanned', form: 'missing', expected: number });
      if (pair.returned === null && (index < lastShown || mine.deliver)) return;
    }
    const isPage = theirs?.kind === 'page';
    if (unbroken && theirs === undefined && pair.slot && right.delivered === 'must-not' && index <= lastShown)
      drafts.push({ ...base, field: 'number-unfilled', form: 'missing', expected: number });
    if (right.delivered === 'must' && !isPage && pair.slot)
      drafts.push({ ...base, field: 'not-delivered', form: 'missing', given: plainReading(theirs?.kind ?? null) });
    if (right.delivered === 'must-not' && isPage)
      drafts.push({ ...base, field: 'delivered', form: 'surplus', given: plainReading(theirs.kind) });
    const given =
      theirs === undefined ? placeNumber(pair.exposure, mine, right) : frameReadings(theirs, returned.reels[pair.returned?.reel ?? -1]);
    const facts: readonly FrameFact[] =
      theirs === undefined
        ? ['number']
        : ['number', ...(theirs.kind === 'unmatched' ? [] : ['reel' as const]), ...(mine.kind === 'page' && isPage ? PAGE_FACTS : [])];
    const inferred = inferredFacts(theirs, returned.reels[pair.returned?.reel ?? -1]);
    for (const field of facts.filter((fact) => !inferred.includes(fact))) {
      const readings = given[field];
      const form = readings.length === 0 ? formOf(right.facts[field], null) : bestForm(right, field, readings);
      if (form === null || ((theirs === undefined || theirs.undescribed === true) && form === 'missing')) continue;
      // of several forms of a reel's number the one that the record knows another reel by
      const known = readings.find(({ key }) => field === 'reel' && record.reels.some(({ number }) => number === key));
      drafts.push({ ...base, field, form, expected: right.facts[field].right, given: known ?? readings[0] ?? null });
    }
  });
  return drafts;
}

/** What nobody wrote is never compared. */
function inferredFacts(frame: Frame | undefined, reel: Reel | undefined): readonly FrameFact[] {
  return [...(frame?.frame?.inferred === true ? ['number' as const] : []), ...(reel?.numberInferred === true ? ['reel' as const] : [])];
}

/** A fact with several forms in the return, such as a reel with and without the end that the supplier chose, is right in any of them. */
function bestForm(right: ExpectedFrame, field: FrameFact, readings: readonly Reading[]): ReturnType<typeof formOf> {
  const forms = readings.map((reading) => formOf(right.facts[field], reading));
  return forms.includes(null) ? null : (forms[0] ?? null);
}

type Given = Readonly<Record<FrameFact, readonly Reading[]>>;

/** A place of the numbering under which nothing came has its number, and the half that the record has there. */
function placeNumber(exposure: number | null, mine: Frame, right: ExpectedFrame): Given {
  const half = /[A-Z]*$/.exec(right.facts.number.right[0]?.key ?? '')?.[0] ?? mine.frame?.half ?? '';
  const text = exposure === null ? null : `${String(exposure)}${half}`;
  return { number: text === null ? [] : [{ key: text, text }], reel: [], page: [], order: [], section: [] };
}

function frameReadings(frame: Frame, reel: Reel | undefined): Given {
  const number = frame.frame === null ? null : `${String(frame.frame.exposure)}${frame.frame.half}`;
  return {
    number: listOf(number === null ? null : { key: number, text: number }),
    reel:
      reel === undefined || reel.number === '' || frame.reelInferred === true
        ? []
        : [reel.number, ...reel.alsoKnownAs].map((key) => ({ key, text: reel.text })),
    page: listOf(frame.pageKey === null ? null : { key: frame.pageKey, text: frame.page ?? frame.pageKey }),
    order: listOf(countReading(frame.order)),
    section: listOf(frame.section === null ? null : { key: frame.section, text: frame.section }),
  };
}
