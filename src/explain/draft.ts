import type { FindingCode } from '../catalogue/codes.js';
import { spanInWords } from '../catalogue/frame-words.js';
import type { PairRef } from '../model/difference.js';
import type { Frame } from '../model/film.js';
import type { Finding, FrameRange, ResultPlace } from '../model/findings.js';
import { dayKey, pairOf, recordFrame, recordIssueOf, recordReelOf, returnFrame, returnIssueOf, type Scene } from './scene.js';

/** A finding before severity, id and ruling are known. */
export type FindingDraft = Omit<Finding, 'id' | 'severity' | 'ruling' | 'answer' | 'status' | 'code' | 'scope' | 'repair'> & {
  readonly code: FindingCode;
  /** Ids of the differences that it explains. */
  readonly explains: readonly number[];
  /** Pairs of frames that it names. */
  readonly about: readonly PairRef[];
  /** How many pages one constant renumbering mends: they weigh as one. */
  readonly constant: boolean;
  /** How far the cause reaches; null where what it is about shows that. */
  readonly reach: Finding['scope'] | null;
  /** The return is as the record was when it was sent. */
  readonly asSent?: true;
};

/** What a cause states; the rest is filled in from the frames concerned. */
export type Statement = Pick<FindingDraft, 'code' | 'cause' | 'says' | 'instruction'> &
  Partial<Omit<FindingDraft, 'code' | 'cause' | 'says' | 'instruction'>> & {
    /** Pairs the finding is about: they give reel, frames, count, issue and places where these are not stated. */
    readonly about: readonly PairRef[];
    readonly explains: readonly number[];
    readonly returnIssue?: number | null;
    readonly recordIssue?: number | null;
  };

/** A frame number for people, without padding. */
export function frameName(frame: Frame | undefined): string {
  return frame?.frame == null ? '?' : `${String(frame.frame.exposure)}${frame.frame.half}`;
}

/** `frame 41`, `frames 42 to 812`, `frames 3, 9 and 12`. */
export function framesInWords(range: FrameRange | null): string {
  if (range === null) return 'no frame';
  if (range.list !== undefined && range.list.length > 1) {
    // a record may give many frames one number, by mistake
    const list = [...new Set(range.list.map((name) => name.replace(':', ', frame ')))];
    if (list.length === 1) return spanInWords(range);
    if (list.length <= 6) return `frames ${inSeries(list)}`;
    return spanInWords(range);
  }
  return range.from === range.to ? `frame ${range.from}` : `frames ${range.from} to ${range.to}`;
}

/** The same with every frame by name, for an instruction that must be followed to the letter. */
export function framesByName(range: FrameRange | null): string {
  const list = [...new Set(range?.list?.map((name) => name.replace(':', ', frame ')))];
  return list.length > 1 ? `frames ${inSeries(list)}` : framesInWords(range);
}

/** The frames of the record in the given pairs as a range; a list where they are not one run of the record, or lie on two reels. */
export function rangeOf(scene: Scene, refs: readonly PairRef[]): { reel: string | null; frames: FrameRange | null; count: number } {
  const mine = refs
    .filter((ref) => pairOf(scene, ref).record !== null)
    .sort((a, b) => a.alignment - b.alignment || (pairOf(scene, a).record ?? 0) - (pairOf(scene, b).record ?? 0));
  const first = mine[0];
  const last = mine.at(-1);
  if (first === undefined || last === undefined) {
    const any = refs[0];
    const reel = any === undefined ? undefined : recordReelOf(scene, any);
    return { reel: reel?.text ?? null, frames: null, count: refs.length };
  }
  const reel = recordReelOf(scene, first)?.text ?? null;
  const from = frameName(recordFrame(scene, first));
  const to = frameName(recordFrame(scene, last));
  const twoReels = first.alignment !== last.alignment;
  const unbroken = !twoReels && (pairOf(scene, last).record ?? 0) - (pairOf(scene, first).record ?? 0) === mine.length - 1;
  const names = mine.map((ref) => (twoReels ? `${recordReelOf(scene, ref)?.text ?? ''}:` : '') + frameName(recordFrame(scene, ref)));
  return { reel, frames: unbroken ? { from, to } : { from, to, list: names }, count: mine.length };
}

/** Makes a complete draft from a statement. */
export function draft(scene: Scene, statement: Statement): FindingDraft {
  const { about, recordIssue, returnIssue, ...given } = statement;
  const range = rangeOf(scene, about);
  const first = about[0];
  const mine = first === undefined ? undefined : recordFrame(scene, first);
  const theirs = first === undefined ? undefined : returnFrame(scene, first);
  const issue = recordIssueOf(scene, recordIssue ?? mine?.issue ?? null) ?? returnIssueOf(scene, returnIssue ?? theirs?.issue ?? null);
  return {
    reel: range.reel,
    at: range.frames?.from ?? null,
    frames: range.frames,
    count: range.count,
    title: issue?.title ?? null,
    date: issue?.date?.text ?? null,
    edition: issue === undefined ? null : (issue.edition ?? 1),
    page: about.length === 1 ? (mine?.page ?? theirs?.page ?? null) : null,
    field: null,
    collation: null,
    return: null,
    evidence: [],
    alternatives: [],
    corrections: [],
    places: placesOf(scene, about, returnIssue ?? null, recordIssue ?? null),
    rescan: 'no',
    billable: [],
    constant: false,
    reach: null,
    about,
    ...given,
  };
}

/** Of so many frames each place is named, so that rows and elements read as what they are; a run that is longer is known by its ends. */
const ALL_PLACES = 16;

/** Where it stands in the return and in the record: every place, or of a long run the first three and the last. */
export function placesOf(scene: Scene, refs: readonly PairRef[], returnIssue: number | null, recordIssue: number | null): ResultPlace[] {
  const places: ResultPlace[] = [];
  const seen = new Set<string>();
  const add = (place: ResultPlace | undefined): void => {
    if (place === undefined) return;
    const key = JSON.stringify(place);
    if (key === '{}' || seen.has(key)) return;
    seen.add(key);
    places.push(place);
  };
  if (returnIssue !== null) add(returnIssueOf(scene, returnIssue)?.place);
  for (const place of named(refs.map((ref) => returnFrame(scene, ref)?.place))) add(place);
  if (recordIssue !== null) add(recordIssueOf(scene, recordIssue)?.place);
  for (const place of named(refs.map((ref) => recordFrame(scene, ref)?.place))) add(place);
  return places;
}

/** Those places of a run that are named; the last of a long one says how many there are. */
function named(places: readonly (ResultPlace | undefined)[]): readonly ResultPlace[] {
  const all = new Map(places.flatMap((place) => (place === undefined ? [] : [[JSON.stringify(place), place]])));
  const each = [...all.values()];
  const last = each.at(-1);
  return last === undefined || each.length <= ALL_PLACES ? each : [...each.slice(0, 3), { ...last, of: each.length }];
}

/** `Ost Courant of 1899-03-04`, with the edition where it is not the first or the day has more than one. */
export function issueName(scene: Scene, index: number | null, side: 'record' | 'return' = 'record'): string {
  const issue = side === 'record' ? recordIssueOf(scene, index) : returnIssueOf(scene, index);
  if (issue === undefined) return 'no issue';
  const name = scene.record.titles.find((title) => title.id === issue.title)?.name ?? issue.title ?? 'the title';
  const number = issue.edition ?? (side === 'record' ? 1 : null);
  const edition = number !== null && (number > 1 || scene.daysOfEditions[side].has(dayKey(issue))) ? `, edition ${String(number)}` : '';
  return `${name} of ${issue.date?.text ?? 'an unknown date'}${edition}`;
}

/** `page 3`, or `an unnumbered page`, or what else the frame is. */
export function thing(frame: Frame | undefined): string {
  if (frame === undefined) return 'a frame';
  if (frame.kind === 'page') return frame.page === null ? 'an unnumbered page' : `page ${frame.page}`;
  return frame.kind === 'other' ? 'another exposure' : `a ${frame.kind}`;
}

/** `a, b and c`. */
export function inSeries(words: readonly string[], last: 'and' | 'or' = 'and'): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1) ?? ''}`;
}

/** `1 page`, `3 pages`. */
export function counted(count: number, word: string): string {
  return `${String(count)} ${word}${count === 1 ? '' : 's'}`;
}

/** A sentence with a capital letter in front. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
