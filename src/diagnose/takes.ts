import type { PairRef } from '../model/difference.js';
import { type Candidate, candidate } from './candidate.js';
import { counted, draft, frameName, framesInWords, issueName, rangeOf } from './draft.js';
import { placeKey } from './elsewhere.js';
import { groupBy, idsOf, inFilmOrder } from './runs.js';
import { differencesAt, factsOf, fieldOf, pairOf, recordFrame, recordReelOf, returnFrame, type Scene } from './scene.js';
import { capital } from './shifts.js';

/** Duplicates, retakes and the choice between takes: what was to be held back came instead of, or beside, what was to be delivered. */
export function takes(scene: Scene): Candidate[] {
  return [...wrongTakes(scene), ...inverted(scene), ...retakes(scene), ...asOtherPage(scene), ...twiceDelivered(scene)];
}

/** Held-back pages that were delivered, in film order. */
function heldBackDelivered(scene: Scene): PairRef[] {
  return fieldOf(scene, 'delivered')
    .flatMap((difference) => difference.pairs)
    .filter((ref) => recordFrame(scene, ref)?.kind === 'page');
}

function notDelivered(scene: Scene): PairRef[] {
  return fieldOf(scene, 'not-delivered').flatMap((difference) => difference.pairs);
}

/** The frame that a held-back page repeats or that replaces it, as the record says or as its content shows. */
function twinsOf(scene: Scene, ref: PairRef, among: readonly PairRef[]): PairRef | undefined {
  const mine = recordFrame(scene, ref);
  if (mine === undefined) return undefined;
  const here = recordReelOf(scene, ref)?.number;
  const names = (frame: typeof mine.duplicateOf, other: PairRef): boolean =>
    frame !== null &&
    bare(frame.frame) === frameName(recordFrame(scene, other)) &&
    (frame.reel === null ? recordReelOf(scene, other)?.number === here : bare(frame.reel) === recordReelOf(scene, other)?.number);
  return (
    among.find((other) => names(mine.duplicateOf, other)) ??
    among.find((other) => {
      const theirs = recordFrame(scene, other);
      return theirs?.retakeOf != null && bare(theirs.retakeOf.frame) === frameName(mine) && recordReelOf(scene, other)?.number === here;
    }) ??
    among.find((other) => {
      const theirs = recordFrame(scene, other);
      return (
        theirs !== undefined &&
        mine.issue !== null &&
        theirs.issue === mine.issue &&
        theirs.pageKey === mine.pageKey &&
        theirs.section === mine.section
      );
    })
  );
}

function bare(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/^0+(?=.)/, '')
    .toUpperCase();
}

function wrongTakes(scene: Scene): Candidate[] {
  const wanting = notDelivered(scene);
  const couples = heldBackDelivered(scene).flatMap((held) => {
    const right = twinsOf(scene, held, wanting);
    return right === undefined ? [] : [{ held, right }];
  });
  const groups = groupBy(couples, ({ right }) => `${String(right.alignment)}:${String(recordFrame(scene, right)?.issue ?? '')}`);
  return [...groups.values()].map((group) => {
    const right = inFilmOrder(group.map((couple) => couple.right));
    const held = inFilmOrder(group.map((couple) => couple.held));
    const all = [...right, ...held];
    const rightWords = framesInWords(rangeOf(scene, right).frames);
    const heldWords = framesInWords(rangeOf(scene, held).frames);
    const issue = right[0] === undefined ? null : (recordFrame(scene, right[0])?.issue ?? null);
    return candidate(
      draft(scene, {
        code: 'wrong-take-delivered',
        cause: 'vendor-metadata',
        about: right,
        explains: [
          ...idsOf(all.flatMap((ref) => differencesAt(scene, ref, 'delivered', 'not-delivered', 'order'))),
          ...ownFacts(scene, held),
        ],
        field: 'deliver',
        collation: `deliver ${rightWords}`,
        return: `delivered ${heldWords}`,
        says: `Of ${issueName(scene, issue)}, the take to be held back (${heldWords}) was delivered, and the one to be delivered (${rightWords}) was not.`,
        instruction: `Replace ${heldWords} by ${rightWords}; hold ${heldWords} back.`,
        evidence: [`The record holds ${heldWords} back as ${group.length === 1 ? 'a duplicate' : 'duplicates'} of ${rightWords}.`],
        rescan: 'no',
      }),
    );
  });
}

/** Facts of issues that only arise because these pages were delivered at all. */
function ownFacts(scene: Scene, refs: readonly PairRef[]): number[] {
  const keys = new Set(
    refs.map((ref) => `${String(recordFrame(scene, ref)?.issue ?? '')} ${String(returnFrame(scene, ref)?.issue ?? '')}`),
  );
  const here = new Set(refs.map((ref) => `${String(ref.alignment)}:${String(ref.pair)}`));
  return scene.meetings
    .filter((meeting) => keys.has(`${String(meeting.recordIssue)} ${String(meeting.returnIssue)}`))
    .filter((meeting) => meeting.pairs.every((ref) => here.has(`${String(ref.alignment)}:${String(ref.pair)}`)))
    .flatMap((meeting) => idsOf(factsOf(scene, meeting.recordIssue, meeting.returnIssue)));
}

/** Issues in which every frame that can be delivered or held back got the opposite of what the record says; neighbours are one finding. */
function inverted(scene: Scene): Candidate[] {
  const groups: { issues: number[]; refs: PairRef[]; held: PairRef[]; lacking: PairRef[] }[] = [];
  const order = [...scene.pairsOfRecordIssue].sort(
    ([, a], [, b]) => (a[0]?.alignment ?? 0) - (b[0]?.alignment ?? 0) || (a[0]?.pair ?? 0) - (b[0]?.pair ?? 0),
  );
  let open = false;
  for (const [issue, refs] of order) {
    const held = refs.filter((ref) => recordFrame(scene, ref)?.deliver === false);
    const lacking = refs.filter((ref) => recordFrame(scene, ref)?.deliver === true);
    const turned =
      held.length > 0 &&
      lacking.length > 0 &&
      held.every((ref) => differencesAt(scene, ref, 'delivered').length > 0) &&
      lacking.every((ref) => differencesAt(scene, ref, 'not-delivered').length > 0);
    const last = groups.at(-1);
    if (turned && open && last !== undefined) {
      last.issues.push(issue);
      last.refs.push(...refs);
      last.held.push(...held);
      last.lacking.push(...lacking);
    } else if (turned) {
      groups.push({ issues: [issue], refs: [...refs], held, lacking });
    }
    open = turned;
  }
  // where each page held back has its twin delivered, the wrong take was chosen and nothing more
  return groups
    .filter(({ held, lacking }) => lacking.some((ref) => !held.some((other) => twinsOf(scene, other, [ref]) !== undefined)))
    .map(({ refs, held, lacking }) => invertedRun(scene, inFilmOrder(refs), held, lacking));
}

function invertedRun(scene: Scene, run: readonly PairRef[], held: readonly PairRef[], lacking: readonly PairRef[]): Candidate {
  const words = framesInWords(rangeOf(scene, run).frames);
  return candidate(
    draft(scene, {
      code: 'delivery-inverted',
      cause: 'vendor-metadata',
      about: run,
      explains: [
        ...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'delivered', 'not-delivered', 'order', 'page'))),
        ...ownFacts(scene, held),
      ],
      field: 'deliver',
      collation: `deliver ${counted(lacking.length, 'frame')}, hold back ${String(held.length)}`,
      return: 'the opposite',
      says: `On ${words}, what was to be delivered was held back and what was to be held back was delivered.`,
      instruction: `Turn the choice round on ${words}: deliver ${counted(lacking.length, 'frame')}, hold back ${String(held.length)}.`,
      billable: [{ class: 'page', change: lacking.length - held.length }],
    }),
    1,
  );
}

/** Retakes filmed elsewhere on the reel that the vendor left where they were filmed. */
function retakes(scene: Scene): Candidate[] {
  const frames = scene.alignments.flatMap((alignment, a) =>
    alignment.pairs.flatMap((pair, p) => {
      const ref = { alignment: a, pair: p };
      const frame = pair.record === null ? undefined : recordFrame(scene, ref);
      return frame?.retakeOf != null && frame.deliver ? [ref] : [];
    }),
  );
  const wrong = frames.filter((ref) => pairOf(scene, ref).returned !== null && misplaced(scene, ref));
  const groups = groupBy(wrong, (ref) => `${String(ref.alignment)}:${String(recordFrame(scene, ref)?.issue ?? '')}`);
  return [...groups.values()].map((refs) => {
    const originals = heldBackDelivered(scene).filter((held) => twinsOf(scene, held, refs) !== undefined);
    const issue = refs[0] === undefined ? null : (recordFrame(scene, refs[0])?.issue ?? null);
    const words = framesInWords(rangeOf(scene, refs).frames);
    const originalWords = originals.length === 0 ? '' : framesInWords(rangeOf(scene, originals).frames);
    const orders = (scene.pairsOfRecordIssue.get(issue ?? -1) ?? []).flatMap((ref) => differencesAt(scene, ref, 'order', 'page'));
    return candidate(
      draft(scene, {
        code: 'retake-not-placed',
        cause: 'vendor-metadata',
        about: refs,
        explains: [
          ...idsOf([...refs, ...originals].flatMap((ref) => differencesAt(scene, ref, 'delivered', 'order', 'page', 'section'))),
          ...idsOf(orders),
          ...ownFacts(scene, refs),
          ...ownFacts(scene, originals),
        ],
        field: 'order',
        collation: `inside ${issueName(scene, issue)}`,
        return: `left where ${refs.length === 1 ? 'it was' : 'they were'} filmed`,
        says: `The ${refs.length === 1 ? 'retake' : 'retakes'} on ${words} ${refs.length === 1 ? 'belongs' : 'belong'} inside ${issueName(scene, issue)}, and ${refs.length === 1 ? 'was' : 'were'} left where ${refs.length === 1 ? 'it was' : 'they were'} filmed${originals.length === 0 ? '' : `, while the spoilt ${originals.length === 1 ? 'frame' : 'frames'} came too`}.`,
        instruction: `Move ${words} to ${refs.length === 1 ? 'its place' : 'their places'} in ${issueName(scene, issue)}${originals.length === 0 ? '' : `; hold back ${originalWords}`}.`,
        billable: originals.length === 0 ? [] : [{ class: 'page', change: -originals.length }],
      }),
    );
  });
}

function misplaced(scene: Scene, ref: PairRef): boolean {
  const mine = recordFrame(scene, ref)?.issue ?? null;
  const theirs = returnFrame(scene, ref)?.issue ?? null;
  if (mine === null || theirs === null) return false;
  // a document that holds other pages as well is a split issue, not a retake left behind
  if (
    mainDocument(scene, mine) !== theirs &&
    (scene.pairsOfReturnIssue.get(theirs) ?? []).some((other) => recordFrame(scene, other)?.retakeOf == null)
  )
    return false;
  if (factsOf(scene, mine, theirs, 'date', 'edition', 'title').length > 0 || mainDocument(scene, mine) !== theirs) return true;
  if (differencesAt(scene, ref, 'order').length === 0) return false;
  // counted where it was filmed, behind the pages that lie before it on the film
  const order = returnFrame(scene, ref)?.order ?? 0;
  const own = recordFrame(scene, ref)?.order ?? 0;
  const others = scene.pairsOfRecordIssue.get(mine) ?? [];
  if (!others.some((other) => recordFrame(scene, other)?.retakeOf == null && (recordFrame(scene, other)?.order ?? 0) > own)) return false;
  return (scene.pairsOfReturnIssue.get(theirs) ?? []).every(
    (other) => recordFrame(scene, other)?.retakeOf != null || (returnFrame(scene, other)?.order ?? 0) < order,
  );
}

/** The document that most pages of an issue came in; pages of held-back frames do not count. */
export function mainDocument(scene: Scene, recordIssue: number): number | null {
  let best: { document: number; pages: number } | null = null;
  for (const meeting of scene.meetings) {
    if (meeting.recordIssue !== recordIssue) continue;
    const pages = meeting.pairs.filter((ref) => recordFrame(scene, ref)?.deliver === true).length;
    if (best === null || pages > best.pages) best = { document: meeting.returnIssue, pages };
  }
  return best?.document ?? null;
}

/** A held-back duplicate that was delivered under the label of another page, one that is not on the film. */
function asOtherPage(scene: Scene): Candidate[] {
  return heldBackDelivered(scene).flatMap((held) => {
    const mine = recordFrame(scene, held);
    const theirs = returnFrame(scene, held);
    const issue = mine?.issue ?? null;
    if (mine === undefined || theirs === undefined || issue === null) return [];
    const given = theirs.pageKey ?? (theirs.order === null ? null : String(theirs.order));
    const otherLabel = given !== null && given !== mine.pageKey && given !== mine.pagePrintedKey;
    if (!otherLabel || returnFrame(scene, held)?.issue !== mainDocument(scene, issue)) return [];
    const absent = fieldOf(scene, 'absence-missing').filter((difference) => {
      const absence = difference.absence === null ? undefined : scene.record.absences[difference.absence];
      return (
        absence !== undefined && absence.issue === issue && (absence.page?.toUpperCase() === given || String(absence.order ?? '') === given)
      );
    });
    const later = (scene.pairsOfRecordIssue.get(issue) ?? [])
      .filter((ref) => ref.alignment === held.alignment && ref.pair > held.pair)
      .flatMap((ref) => differencesAt(scene, ref, 'order', 'page'))
      .filter((difference) => Number(difference.returned) - Number(difference.collation) === 1);
    const name = frameName(mine);
    return [
      candidate(
        draft(scene, {
          code: 'duplicate-delivered-as-page',
          cause: 'vendor-metadata',
          about: [held],
          explains: [...idsOf(differencesAt(scene, held, 'delivered', 'page', 'order', 'section')), ...idsOf(absent), ...idsOf(later)],
          page: theirs.page,
          field: 'deliver',
          collation: `suppressed duplicate of page ${mine.page ?? '?'}`,
          return: `delivered as page ${given}`,
          says: `Frame ${name} is a second exposure of page ${mine.page ?? '?'} and was delivered as page ${given} of ${issueName(scene, issue)}${absent.length > 0 ? ', which is not on the film' : ''}.`,
          instruction: `Hold back frame ${name}${absent.length > 0 ? ` and state page ${given} as absent` : ''}; keep the other labels as printed.`,
          billable: [{ class: 'page', change: -1 }],
        }),
        absent.length > 0 ? 0 : 1,
      ),
    ];
  });
}

/** Held-back pages that were delivered as a document of their own, or that came from both reels. */
function twiceDelivered(scene: Scene): Candidate[] {
  const groups = groupBy(
    heldBackDelivered(scene),
    (ref) => `${String(ref.alignment)}:${String(returnFrame(scene, ref)?.issue ?? '')}:${String(recordFrame(scene, ref)?.issue ?? '')}`,
  );
  return [...groups.values()].flatMap((refs) => {
    const first = refs[0];
    const mine = first === undefined ? undefined : recordFrame(scene, first);
    const document = first === undefined ? null : (returnFrame(scene, first)?.issue ?? null);
    if (first === undefined || mine?.issue == null || document === null) return [];
    const otherReel = refs.every((ref) => repeatsOtherReel(scene, ref));
    const ownDocument = (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => recordFrame(scene, ref)?.deliver !== true);
    if (!otherReel && !(ownDocument && refs.length > 1 && mainDocument(scene, mine.issue) !== document)) return [];
    const words = framesInWords(rangeOf(scene, refs).frames);
    const name = issueName(scene, mine.issue);
    const reel = recordReelOf(scene, first)?.text ?? '';
    return [
      candidate(
        draft(scene, {
          code: otherReel ? 'delivered-from-both-reels' : 'issue-delivered-twice',
          cause: 'vendor-metadata',
          about: refs,
          returnIssue: document,
          explains: [
            ...idsOf(refs.flatMap((ref) => differencesAt(scene, ref, 'delivered', 'order', 'page', 'section'))),
            ...ownFacts(scene, refs),
            ...displacedEdition(scene, mine.issue, document),
          ],
          field: 'deliver',
          collation: otherReel ? `deliver from the other reel, suppress ${words}` : `one issue; suppress ${words}`,
          return: otherReel
            ? 'delivered from both reels'
            : `a second document, edition ${String(scene.returned.issues[document]?.edition ?? 1)}`,
          says: otherReel
            ? `${capital(words)} of reel ${reel} (${name}) were to be held back, because the same pages are delivered from another reel; both came.`
            : `${name} came twice: ${words}, the take to be held back, came as a document of its own.`,
          instruction: otherReel ? `Hold back ${words} of reel ${reel}.` : `Deliver ${name} once: withdraw the document made of ${words}.`,
          billable: [{ class: 'page', change: -refs.length }],
        }),
      ),
    ];
  });
}

/** The take that is right carries a later edition number only because the other one took the earlier. */
function displacedEdition(scene: Scene, issue: number, document: number): number[] {
  const main = mainDocument(scene, issue);
  if (main === null || main === document) return [];
  return idsOf(
    factsOf(scene, issue, main, 'edition').filter(
      (difference) => difference.collation === String(scene.returned.issues[document]?.edition ?? 1),
    ),
  );
}

function repeatsOtherReel(scene: Scene, ref: PairRef): boolean {
  const mine = recordFrame(scene, ref);
  const reel = recordReelOf(scene, ref)?.number;
  if (mine?.duplicateOf?.reel != null && bare(mine.duplicateOf.reel).toLowerCase() !== reel) return true;
  if (mine?.duplicateOf != null || mine?.issue == null) return false;
  if (scene.elsewhere.has(placeKey(ref))) return true;
  const others = (scene.pairsOfRecordIssue.get(mine.issue) ?? []).filter(
    (other) => recordFrame(scene, other)?.deliver === true && recordFrame(scene, other)?.pageKey === mine.pageKey,
  );
  return others.length > 0 && others.every((other) => recordReelOf(scene, other)?.number !== reel);
}
