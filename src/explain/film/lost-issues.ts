import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, type FindingDraft, framesInWords, inSeries, issueName, rangeOf } from '../draft.js';
import { groupBy, idsOf } from '../runs.js';
import { differencesAt, fieldOf, pairOf, recordFrame, recordIssueOf, type Scene } from '../scene.js';
import { numbersBehind } from './numbers-behind.js';
import { wanting } from './wanting.js';

/** An issue of which no page came. */
interface Lost {
  readonly issue: number;
  readonly refs: readonly PairRef[];
  /** The return states that it is absent. */
  readonly stated: readonly number[];
  readonly scanned: boolean;
  readonly numbered: boolean;
}

/** So many days are given one by one. */
const LISTED = 8;

/** Issues of which no page came; those that follow one another, on the film or among the issues of their title, were lost together. */
export function missingIssues(scene: Scene): Candidate[] {
  return together(scene, lostIssues(scene)).map((list) =>
    candidate(list.length === 1 && list[0] !== undefined ? one(scene, list[0]) : several(scene, list)),
  );
}

function lostIssues(scene: Scene): readonly Lost[] {
  const groups = groupBy(wanting(scene), (ref) => recordFrame(scene, ref)?.issue ?? null);
  return [...groups].flatMap(([issue, refs]): Lost[] => {
    if (issue === null) return [];
    const all = (scene.pairsOfRecordIssue.get(issue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    if (refs.length !== all.length || refs.length === 0) return [];
    const stated = fieldOf(scene, 'absence-extra').filter((difference) => {
      const absence = difference.absence === null ? undefined : scene.returned.absences[difference.absence];
      const mine = scene.record.issues[issue];
      return (
        absence !== undefined &&
        absence.title === mine?.title &&
        absence.date?.day != null &&
        absence.date.day === mine.date?.day &&
        (absence.edition ?? 1) === (mine.edition ?? 1)
      );
    });
    const scanned = refs.every((ref) => pairOf(scene, ref).slot);
    const numbered = refs.every((ref) => scene.alignments[ref.alignment]?.numbered === true);
    return [{ issue, refs, stated: idsOf(stated), scanned, numbered }];
  });
}

/** Lost issues in groups: the same became of them, and no issue that came lies between two of them, on the film or in their title. */
function together(scene: Scene, lost: readonly Lost[]): readonly (readonly Lost[])[] {
  const all = [...scene.pairsOfRecordIssue.keys()].filter((issue) =>
    (scene.pairsOfRecordIssue.get(issue) ?? []).some((ref) => recordFrame(scene, ref)?.deliver === true),
  );
  const byIssue = new Map(lost.map((entry) => [entry.issue, entry]));
  const group = new Map<Lost, Lost[]>(lost.map((entry) => [entry, [entry]]));
  for (const list of [all, ...groupBy(all, (issue) => recordIssueOf(scene, issue)?.title ?? null).values()])
    list.forEach((issue, at) => {
      const [before, entry] = [byIssue.get(list[at - 1] ?? -1), byIssue.get(issue)];
      if (before === undefined || entry === undefined || before.stated.length + entry.stated.length > 0 || before.scanned !== entry.scanned)
        return;
      const [one, two] = [group.get(before) ?? [], group.get(entry) ?? []];
      if (one === two) return;
      // the shorter list goes into the longer, so that a long one is not copied again and again
      const [more, less] = one.length < two.length ? [two, one] : [one, two];
      more.push(...less);
      for (const each of less) group.set(each, more);
    });
  const place = new Map(lost.map((entry, at) => [entry, at]));
  return [...new Set(group.values())].map((list) => [...list].sort((a, b) => (place.get(a) ?? 0) - (place.get(b) ?? 0)));
}

function explained(scene: Scene, { issue, refs, stated }: Lost): readonly number[] {
  return [
    ...idsOf(refs.flatMap((ref) => differencesAt(scene, ref, 'not-delivered', 'not-scanned'))),
    ...stated,
    // pages of it that are wanting have no document to be stated in
    ...idsOf(
      fieldOf(scene, 'absence-missing').filter(({ absence }) => absence !== null && scene.record.absences[absence]?.issue === issue),
    ),
    ...(lastHasPlace(scene, refs) ? [] : numbersBehind(scene, refs)),
  ];
}

function one(scene: Scene, lost: Lost): FindingDraft {
  const { issue, refs, scanned, numbered } = lost;
  const words = framesInWords(rangeOf(scene, refs).frames);
  const name = issueName(scene, issue);
  const stated = lost.stated.length > 0;
  return draft(scene, {
    code: stated ? 'absence-stated-wrongly' : 'issue-not-delivered',
    cause: 'vendor-image',
    about: refs,
    explains: explained(scene, lost),
    field: 'deliver',
    collation: `deliver ${counted(refs.length, 'page')}`,
    return: stated ? 'stated as absent' : 'nothing',
    says: stated
      ? `${name} is stated as absent, but lies on ${words}.`
      : `${name} (${counted(refs.length, 'page')}, ${words}) was not delivered${scanned && numbered ? '; the numbering leaves room for it' : ''}.`,
    instruction: scanned ? `Deliver ${name}, ${words}.` : `Scan and deliver ${name}, ${words}, and renumber what follows.`,
    rescan: scanned ? 'no' : 'yes',
    billable: [{ class: 'page', change: refs.length }],
  });
}

function several(scene: Scene, list: readonly Lost[]): FindingDraft {
  const refs = list.flatMap((entry) => entry.refs);
  const words = framesInWords(rangeOf(scene, refs).frames);
  const titles = new Set(list.map(({ issue }) => recordIssueOf(scene, issue)?.title));
  const [first, last] = [list[0], list.at(-1)].map((entry) => issueName(scene, entry?.issue ?? null));
  const days = list.map(({ issue }) => recordIssueOf(scene, issue)?.date?.text ?? '?');
  const name = scene.record.titles.find(({ id }) => titles.has(id))?.name ?? [...titles][0] ?? 'one title';
  const who =
    titles.size === 1 && days.length <= LISTED
      ? `the issues of ${name} of ${inSeries(days, 'and')}`
      : `${String(list.length)} issues, ${first ?? '?'} to ${last ?? '?'}`;
  const scanned = list.every((entry) => entry.scanned);
  const room = scanned && list.every((entry) => entry.numbered);
  return draft(scene, {
    code: 'issue-not-delivered',
    cause: 'vendor-image',
    about: refs,
    explains: list.flatMap((entry) => explained(scene, entry)),
    date: null,
    edition: null,
    ...(titles.size === 1 ? {} : { title: null }),
    field: 'deliver',
    collation: `deliver ${counted(list.length, 'issue')}, ${counted(refs.length, 'page')}`,
    return: 'nothing',
    says: `${who.charAt(0).toUpperCase()}${who.slice(1)} (${counted(refs.length, 'page')}, ${words}) were not delivered${room ? '; the numbering leaves room for them' : ''}.`,
    instruction: scanned ? `Deliver ${who}, ${words}.` : `Scan and deliver ${who}, ${words}, and renumber what follows.`,
    rescan: scanned ? 'no' : 'yes',
    billable: [{ class: 'page', change: refs.length }],
  });
}

/** True when the return's numbering leaves a place for the last of the frames: what follows keeps its numbers. */
function lastHasPlace(scene: Scene, refs: readonly PairRef[]): boolean {
  const last = refs.at(-1);
  return last !== undefined && pairOf(scene, last).slot;
}
