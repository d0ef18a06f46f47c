import type { PairRef } from '../model/difference.js';
import type { FrameRange } from '../model/findings.js';
import { type Candidate, candidate } from './candidate.js';
import { counted, draft, frameName, framesInWords, issueName, rangeOf, thing } from './draft.js';
import { groupBy, idsOf, neighbouringRuns } from './runs.js';
import { differencesAt, factsOf, fieldOf, pairOf, recordFrame, recordReelOf, returnFrame, returnIssueOf, type Scene } from './scene.js';
import { capital, lastRecordFrame } from './shifts.js';
import { mainDocument } from './takes.js';

/** Pages, issues and other frames that came although they must not, or did not although they must. */
export function presence(scene: Scene): Candidate[] {
  return [...missingIssues(scene), ...missingPages(scene), ...nonPages(scene), ...heldBack(scene), ...unknownPages(scene)];
}

function wanting(scene: Scene): PairRef[] {
  return [...fieldOf(scene, 'not-delivered'), ...fieldOf(scene, 'not-scanned')]
    .flatMap((difference) => difference.pairs)
    .filter((ref) => recordFrame(scene, ref)?.deliver === true && recordFrame(scene, ref)?.kind === 'page')
    .sort((a, b) => a.alignment - b.alignment || a.pair - b.pair);
}

function missingIssues(scene: Scene): Candidate[] {
  const groups = groupBy(wanting(scene), (ref) => recordFrame(scene, ref)?.issue ?? null);
  return [...groups].flatMap(([issue, refs]) => {
    if (issue === null) return [];
    const all = (scene.pairsOfRecordIssue.get(issue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    if (refs.length !== all.length || refs.length === 0) return [];
    const scanned = refs.every((ref) => pairOf(scene, ref).slot);
    const words = framesInWords(rangeOf(scene, refs).frames);
    const stated = fieldOf(scene, 'absence-extra').filter((difference) => {
      const absence = difference.absence === null ? undefined : scene.returned.absences[difference.absence];
      const mine = scene.record.issues[issue];
      return (
        absence !== undefined &&
        absence.title === mine?.title &&
        absence.date?.day === mine.date?.day &&
        (absence.edition ?? 1) === (mine.edition ?? 1)
      );
    });
    const name = issueName(scene, issue);
    return [
      candidate(
        draft(scene, {
          code: stated.length > 0 ? 'absence-stated-wrongly' : 'issue-not-delivered',
          cause: 'vendor-image',
          about: refs,
          explains: [
            ...idsOf(refs.flatMap((ref) => differencesAt(scene, ref, 'not-delivered', 'not-scanned'))),
            ...idsOf(stated),
            ...(lastHasPlace(scene, refs) ? [] : numbersBehind(scene, refs)),
          ],
          field: 'deliver',
          collation: `deliver ${counted(refs.length, 'page')}`,
          return: stated.length > 0 ? 'stated as absent' : 'nothing',
          says:
            stated.length > 0
              ? `${name} is stated as absent, but lies on ${words}.`
              : `${name} (${counted(refs.length, 'page')}, ${words}) was not delivered${scanned ? '; the numbering leaves room for it' : ''}.`,
          instruction: scanned ? `Deliver ${name}, ${words}.` : `Scan and deliver ${name}, ${words}, and renumber what follows.`,
          rescan: scanned ? 'no' : 'yes',
          billable: [{ class: 'page', change: refs.length }],
        }),
      ),
    ];
  });
}

/** True when the return's numbering leaves a place for the last of the frames: what follows keeps its numbers. */
function lastHasPlace(scene: Scene, refs: readonly PairRef[]): boolean {
  const last = refs.at(-1);
  return last !== undefined && pairOf(scene, last).slot;
}

/** Wrong numbers behind the last of the frames, up to the next frame without a partner. */
function numbersBehind(scene: Scene, refs: readonly PairRef[]): number[] {
  const last = refs.at(-1);
  if (last === undefined) return [];
  const ids: number[] = [];
  const pairs = scene.alignments[last.alignment]?.pairs ?? [];
  for (let p = last.pair + 1; p < pairs.length; p++) {
    const ref = { alignment: last.alignment, pair: p };
    if (differencesAt(scene, ref, 'not-scanned', 'surplus', 'empty-number').length > 0) break;
    ids.push(...idsOf(differencesAt(scene, ref, 'number')));
  }
  return ids;
}

function missingPages(scene: Scene): Candidate[] {
  const refs = wanting(scene).filter((ref) => pairOf(scene, ref).slot);
  const runs = neighbouringRuns(refs, (a, b) => recordFrame(scene, a)?.issue === recordFrame(scene, b)?.issue);
  return runs.map((run) => {
    const first = run[0];
    const issue = first === undefined ? null : (recordFrame(scene, first)?.issue ?? null);
    const words = framesInWords(rangeOf(scene, run).frames);
    const torn = fieldOf(scene, 'absence-extra').filter((difference) => {
      const absence = difference.absence === null ? undefined : scene.returned.absences[difference.absence];
      return run.some((ref) => {
        const mine = recordFrame(scene, ref);
        const entry = mine?.issue == null ? undefined : scene.record.issues[mine.issue];
        if (absence === undefined || entry === undefined) return false;
        const samePage =
          (absence.order !== null && absence.order === mine?.order) ||
          (absence.page !== null && absence.page.toUpperCase() === mine?.pageKey);
        const sameIssue = absence.title === entry.title && absence.date?.day === entry.date?.day;
        return samePage && sameIssue && (absence.edition ?? 1) === (entry.edition ?? 1);
      });
    });
    const shifted = issue === null ? [] : laterOrders(scene, issue, run, -run.length);
    const pages =
      run.length === 1
        ? `page ${first === undefined ? '?' : (recordFrame(scene, first)?.page ?? recordFrame(scene, first)?.order ?? '?')}`
        : counted(run.length, 'page');
    const unmatched = run.some((ref) => returnFrame(scene, ref) !== undefined);
    return candidate(
      draft(scene, {
        code: torn.length > 0 ? 'absence-stated-wrongly' : 'page-not-delivered',
        cause: 'vendor-image',
        about: run,
        explains: [...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'not-delivered'))), ...idsOf(torn), ...shifted],
        field: 'deliver',
        collation: 'deliver',
        return: torn.length > 0 ? 'stated as absent' : unmatched ? 'delivered outside any issue' : 'nothing',
        says:
          torn.length > 0
            ? `${capital(pages)} of ${issueName(scene, issue)} is stated as absent, but lies on ${words}.`
            : `${capital(pages)} of ${issueName(scene, issue)} (${words}) ${run.length === 1 ? 'was' : 'were'} ${unmatched ? 'delivered outside any issue' : 'not delivered'}.`,
        instruction: `Deliver ${words} as ${pages} of ${issueName(scene, issue)}${torn.length > 0 ? ', and take back the statement that it is absent' : ''}${shifted.length > 0 ? '; restore the order of the pages after it' : ''}.`,
        rescan: 'no',
        billable: unmatched ? [] : [{ class: 'page', change: run.length }],
      }),
    );
  });
}

/** Order and label differences of later pages of an issue that are off by exactly `step`. */
export function laterOrders(scene: Scene, issue: number, refs: readonly PairRef[], step: number): number[] {
  const last = refs.at(-1);
  if (last === undefined) return [];
  return idsOf(
    (scene.pairsOfRecordIssue.get(issue) ?? [])
      .filter((ref) => ref.alignment > last.alignment || (ref.alignment === last.alignment && ref.pair > last.pair))
      .flatMap((ref) => differencesAt(scene, ref, 'order', 'page'))
      .filter((difference) => Number(difference.returned) - Number(difference.collation) === step),
  );
}

/** Blanks, targets and voids that came as pages; the issue they were put into has its pages moved along. */
function nonPages(scene: Scene): Candidate[] {
  const refs = fieldOf(scene, 'delivered')
    .flatMap((difference) => difference.pairs)
    .filter((ref) => recordFrame(scene, ref)?.kind !== 'page');
  const runs = neighbouringRuns(refs, (a, b) => returnFrame(scene, a)?.issue === returnFrame(scene, b)?.issue);
  return runs.map((run) => {
    const first = run[0];
    const document = first === undefined ? null : (returnFrame(scene, first)?.issue ?? null);
    const words = framesInWords(rangeOf(scene, run).frames);
    const kind = run.length === 1 && first !== undefined ? thing(recordFrame(scene, first)) : counted(run.length, 'frame');
    const alone =
      document !== null && (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => recordFrame(scene, ref)?.kind !== 'page');
    const moved =
      document === null
        ? []
        : (scene.pairsOfReturnIssue.get(document) ?? [])
            .filter((ref) => first !== undefined && ref.alignment === first.alignment && ref.pair > first.pair)
            .flatMap((ref) => differencesAt(scene, ref, 'order', 'page'))
            .filter((difference) => Number(difference.returned) - Number(difference.collation) === run.length);
    return candidate(
      draft(scene, {
        code: 'non-page-delivered',
        cause: 'vendor-metadata',
        about: run,
        returnIssue: document,
        explains: [...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'delivered'))), ...idsOf(moved)],
        field: 'deliver',
        collation: `suppress (${first === undefined ? '' : (recordFrame(scene, first)?.kind ?? '')})`,
        return: 'delivered as a page',
        says: `${capital(words)} (${kind}) ${run.length === 1 ? 'is no page of a newspaper and was' : 'are no pages of a newspaper and were'} delivered as ${run.length === 1 ? 'one' : 'such'}${alone ? ', in a document of its own' : ` in ${issueName(scene, document, 'return')}`}.`,
        instruction: `Hold ${words} back${alone ? ' and withdraw the document' : ''}${moved.length > 0 ? ', and restore the order of the pages after it' : ''}.`,
        billable: [{ class: 'page', change: -run.length }],
      }),
    );
  });
}

/** Pages that were to be held back and came all the same. */
function heldBack(scene: Scene): Candidate[] {
  const refs = fieldOf(scene, 'delivered')
    .flatMap((difference) => difference.pairs)
    .filter((ref) => recordFrame(scene, ref)?.kind === 'page');
  const runs = neighbouringRuns(
    refs,
    (a, b) =>
      recordFrame(scene, a)?.issue === recordFrame(scene, b)?.issue && returnFrame(scene, a)?.issue === returnFrame(scene, b)?.issue,
  );
  return runs.map((run) => {
    const first = run[0];
    const issue = first === undefined ? null : (recordFrame(scene, first)?.issue ?? null);
    const document = first === undefined ? null : (returnFrame(scene, first)?.issue ?? null);
    const words = framesInWords(rangeOf(scene, run).frames);
    const alone =
      document !== null && (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => recordFrame(scene, ref)?.deliver !== true);
    const moved =
      document === null || alone
        ? []
        : (scene.pairsOfReturnIssue.get(document) ?? [])
            .flatMap((ref) => differencesAt(scene, ref, 'order', 'page'))
            .filter((difference) => Number(difference.returned) - Number(difference.collation) === run.length);
    const facts =
      alone && issue !== null && (mainDocument(scene, issue) !== document || !hasDelivered(scene, issue))
        ? idsOf(factsOf(scene, issue, document))
        : [];
    return candidate(
      draft(scene, {
        code: 'suppressed-frame-delivered',
        cause: 'vendor-metadata',
        about: run,
        returnIssue: document,
        explains: [
          ...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'delivered', 'page', 'order', 'section'))),
          ...idsOf(moved),
          ...facts,
        ],
        field: 'deliver',
        collation: 'suppress',
        return: 'delivered',
        says: `${capital(words)} (${first === undefined || run.length > 1 ? counted(run.length, 'page') : thing(recordFrame(scene, first))} of ${issueName(scene, issue)}) ${run.length === 1 ? 'was' : 'were'} to be held back and ${run.length === 1 ? 'was' : 'were'} delivered.`,
        instruction: `Hold ${words} back${alone ? ` and withdraw the document made of ${run.length === 1 ? 'it' : 'them'}` : ''}${moved.length > 0 ? ', and restore the order of the pages after it' : ''}.`,
        billable: [{ class: 'page', change: -run.length }],
      }),
    );
  });
}

function hasDelivered(scene: Scene, issue: number): boolean {
  return (scene.pairsOfRecordIssue.get(issue) ?? []).some((ref) => recordFrame(scene, ref)?.deliver === true);
}

/** Pages of the return that the record does not have: a whole document, or single pages. */
function unknownPages(scene: Scene): Candidate[] {
  const refs = fieldOf(scene, 'surplus')
    .flatMap((difference) => difference.pairs)
    .filter((ref) => returnFrame(scene, ref)?.kind === 'page');
  const groups = groupBy(refs, (ref) => returnFrame(scene, ref)?.issue ?? null);
  return [...groups].flatMap(([document, all]) => {
    const whole = document !== null && (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => pairOf(scene, ref).record === null);
    const twin = whole ? sameIssueElsewhere(scene, document) : null;
    const parts = whole ? [all] : neighbouringRuns(all);
    return parts.map((run) => {
      const first = run[0];
      const reel = first === undefined ? '' : (recordReelOf(scene, first)?.text ?? '');
      const behind = first === undefined ? '' : lastRecordFrame(scene, first);
      const numbers = run.map((ref) => frameName(returnFrame(scene, ref)));
      const shown = numbers.length === 1 ? `number ${numbers[0] ?? ''}` : `numbers ${numbers[0] ?? ''} to ${numbers.at(-1) ?? ''}`;
      const name = issueName(scene, document, 'return');
      const label = first === undefined ? null : (returnFrame(scene, first)?.page ?? null);
      return candidate(
        draft(scene, {
          code: twin !== null ? 'issue-delivered-twice' : whole ? 'issue-not-in-collation' : 'page-not-in-collation',
          cause: twin !== null ? 'vendor-metadata' : 'unclear',
          about: run,
          returnIssue: document,
          explains: [
            ...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'surplus'))),
            ...(first === undefined ? [] : numbersBehind(scene, run)),
            ...(document === null || whole ? [] : shiftedIn(scene, document, run)),
          ],
          at: behind === '' ? null : behind,
          ...(whole ? { frames: null, count: run.length } : followed(scene, run)),
          page: label,
          field: 'frame',
          collation: behind === '' ? 'no such frame' : `no such frame after ${behind}`,
          return: shown,
          says:
            twin !== null
              ? `${issueName(scene, twin)} came twice: ${counted(run.length, 'page')} under ${shown} repeat it.`
              : whole
                ? `The return has ${name} (${counted(run.length, 'page')}, ${shown}), which the record does not have on reel ${reel}.`
                : `The return has ${run.length === 1 ? `page ${label ?? 'without a number'}` : counted(run.length, 'page')} of ${name} under ${shown}, which the record does not have${behind === '' ? '' : ` after frame ${behind}`}.`,
          instruction:
            twin !== null
              ? `Withdraw the second document of ${issueName(scene, twin)}.`
              : `Look at the film after frame ${behind}: say where ${shown} ${run.length === 1 ? 'comes' : 'come'} from, or withdraw ${run.length === 1 ? 'it' : 'them'}.`,
          alternatives:
            twin !== null
              ? []
              : [
                  { says: `${capital(shown)} is no frame of this reel.`, cause: 'vendor-metadata', instruction: `Withdraw ${shown}.` },
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

/** The frames whose numbers a surplus page moves along; none where nothing follows. */
function followed(scene: Scene, run: readonly PairRef[]): { frames: FrameRange | null; count: number } {
  const ids = new Set(numbersBehind(scene, run));
  const refs = fieldOf(scene, 'number')
    .filter((difference) => ids.has(difference.id))
    .flatMap((difference) => difference.pairs);
  const range = rangeOf(scene, refs);
  return refs.length === 0 ? { frames: null, count: run.length } : { frames: range.frames, count: range.count };
}

function shiftedIn(scene: Scene, document: number, run: readonly PairRef[]): number[] {
  const last = run.at(-1);
  if (last === undefined) return [];
  return idsOf(
    (scene.pairsOfReturnIssue.get(document) ?? [])
      .filter((ref) => ref.alignment === last.alignment && ref.pair > last.pair)
      .flatMap((ref) => differencesAt(scene, ref, 'order', 'page'))
      .filter((difference) => Number(difference.returned) - Number(difference.collation) === run.length),
  );
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

/** The same frame numbers again; or the same pages again, said to be of the same edition. */
function sharesNumbers(scene: Scene, a: number, b: number): boolean {
  const theirs = (scene.pairsOfReturnIssue.get(b) ?? []).map((ref) => returnFrame(scene, ref));
  const mine = (scene.pairsOfReturnIssue.get(a) ?? []).map((ref) => returnFrame(scene, ref));
  const numbers = new Set(theirs.map(frameName));
  const label = (frame: (typeof theirs)[number]): string => frame?.pageKey ?? String(frame?.order ?? '');
  const labels = new Set(theirs.map(label));
  const sameEdition = (returnIssueOf(scene, a)?.edition ?? 1) === (returnIssueOf(scene, b)?.edition ?? 1);
  const same = mine.filter((frame) => numbers.has(frameName(frame)) || (sameEdition && labels.has(label(frame)))).length;
  return same * 2 > mine.length;
}
