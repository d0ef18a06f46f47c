import type { Policies } from '../../../src/model/agreement.js';
import type { CollationRecord } from '../../../src/model/collation-record.js';
import type { Cause, FrameRange } from '../../../src/model/findings.js';
import type { Film, FilmIssue, FilmShot } from '../film/film.js';
import { moved } from '../film/frame-text.js';
import type { Random } from '../film/random.js';
import type { Capture, PlanIssue, PlanOptions, ReturnPlan } from '../plan.js';

/** A film, its record and a return that is being spoilt. The plan is the caller's own copy and is changed in place. */
export interface Scene {
  readonly film: Film;
  readonly plan: ReturnPlan;
  record: CollationRecord;
}

/** A place where a kind of fault can be planted. */
export interface Site {
  /** A picture, or the index of an issue of the film, as the kind needs it. */
  readonly key: number;
  /** Pictures and issues that the fault disturbs: two faults whose territories touch are not told apart for certain. */
  readonly pictures: readonly number[];
  readonly issues: readonly number[];
}

/** What a fault must lead to, before the frames are written as numbers. */
export interface Outcome {
  readonly code: string;
  /** Causes that are right for it, the likeliest first. */
  readonly causes: readonly Cause[];
  /** Frames concerned; empty where nothing is on the film. For a shift they are worked out from all shifts of the reel. */
  readonly pictures: readonly number[];
  /** Where it begins when that is not the first of `pictures`. */
  readonly at?: number;
  /** For what moves all later numbers: by how much, and whether the picture in `at` keeps its number. */
  readonly shift?: { readonly reel: number; readonly by: number };
  readonly issue: number | null;
  /** Where no issue of the film can be named: the words that the finding carries. */
  readonly date?: string;
  readonly reel?: string;
}

/** A finding that must appear, as the contract writes it. Null counts are not fixed by the contract. */
export interface Expected {
  readonly kind: string;
  readonly code: string;
  readonly reel: string | null;
  readonly at: string | null;
  readonly frames: FrameRange | null;
  readonly count: number | null;
  readonly causes: readonly Cause[];
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
}

/** One kind of mistake: where it fits, and what it does. */
export interface Fault {
  readonly kind: string;
  readonly codes: readonly string[];
  /** What happens, in one sentence. */
  readonly says: string;
  /** Terms under which it is a discrepancy at all, where the usual ones do not make it one. */
  readonly policies?: Partial<Policies>;
  /** The layout in which alone it can be seen. */
  readonly profile?: 'page-mods';
  /** How the vendor works where the usual way leaves no place for it. */
  readonly plan?: PlanOptions;
  /** True when no second fault may stand beside it on the film. */
  readonly alone?: boolean;
  /** Gives the film what the fault needs; null when that film cannot have it. */
  readonly reshape?: (film: Film, random: Random) => Film | null;
  /** The film as the record numbers it, where the record itself is wrong about it. */
  readonly numbering?: (film: Film, site: Site) => Film;
  readonly sites: (scene: Scene) => readonly Site[];
  readonly plant: (scene: Scene, site: Site, random: Random) => readonly Outcome[];
}

/** Every frame with the reel it is on and its place there. */
export interface Located {
  readonly shot: FilmShot;
  readonly reel: number;
  readonly index: number;
}

/** Looked up often: kept per film, which never changes. */
const INDEXES = new WeakMap<
  Film,
  {
    readonly all: readonly Located[];
    readonly byPicture: ReadonlyMap<number, Located>;
    readonly byIssue: ReadonlyMap<number, readonly FilmShot[]>;
  }
>();

function indexOf(film: Film): NonNullable<ReturnType<typeof INDEXES.get>> {
  const known = INDEXES.get(film);
  if (known !== undefined) return known;
  const all = film.reels.flatMap((reel, r) => reel.shots.map((shot, index) => ({ shot, reel: r, index })));
  const byIssue = new Map<number, FilmShot[]>();
  for (const { shot } of all) {
    if (shot.issue === null) continue;
    const list = byIssue.get(shot.issue) ?? [];
    list.push(shot);
    byIssue.set(shot.issue, list);
  }
  const made = { all, byPicture: new Map(all.map((each) => [each.shot.picture, each])), byIssue };
  INDEXES.set(film, made);
  return made;
}

export function allShots(film: Film): readonly Located[] {
  return indexOf(film).all;
}

export function locate(film: Film, picture: number): Located {
  const found = indexOf(film).byPicture.get(picture);
  if (found === undefined) throw new RangeError(`The film has no picture ${String(picture)}.`);
  return found;
}

/** Frames of an issue in film order; only those to deliver where `delivered` is set. */
export function shotsOfIssue(film: Film, issue: number, delivered = false): FilmShot[] {
  return (indexOf(film).byIssue.get(issue) ?? []).filter((shot) => !delivered || shot.deliver);
}

/** Pages of an issue to deliver, in reading order. */
export function pagesOf(film: Film, issue: number): FilmShot[] {
  return shotsOfIssue(film, issue, true).sort((a, b) => (a.order ?? 0) - (b.order ?? 0));
}

export function issueAt(film: Film, index: number): FilmIssue {
  const issue = film.issues[index];
  if (issue === undefined) throw new RangeError(`The film has no issue ${String(index)}.`);
  return issue;
}

/** The document that describes an issue of the film. */
export function documentOf(plan: ReturnPlan, issue: number): { readonly document: PlanIssue; readonly index: number } {
  const index = plan.issues.findIndex((each) => each.source === issue);
  const document = plan.issues[index];
  if (document === undefined) throw new RangeError(`The return has no document for issue ${String(issue)}.`);
  return { document, index };
}

export function captureOfPicture(plan: ReturnPlan, picture: number): Capture {
  for (const reel of plan.reels) for (const capture of reel.captures) if (capture.picture === picture) return capture;
  throw new RangeError(`The return has no image of picture ${String(picture)}.`);
}

/** Captures of the pages of one document in reading order. */
export function capturesOf(plan: ReturnPlan, document: number): Capture[] {
  const all = plan.reels.flatMap((reel) => reel.captures).filter((capture) => capture.use === 'page' && capture.issue === document);
  return all.sort((a, b) => (a.order ?? 0) - (b.order ?? 0));
}

/** Takes a page out of its issue; the image stays, held back, under its number. */
export function holdBack(capture: Capture): void {
  Object.assign(capture, { use: 'held', issue: null, order: null, page: null, section: null });
}

/** Puts an image into a document as a page. */
export function deliver(capture: Capture, issue: number, order: number, page: string | null, section: string | null = null): void {
  Object.assign(capture, { use: 'page', issue, order, page, section });
}

/** Removes a document; its pages are held back, the indexes of the others follow. */
export function removeDocument(plan: ReturnPlan, index: number): void {
  plan.issues.splice(index, 1);
  plan.documents = plan.documents
    .filter((fault) => !('issue' in fault) || fault.issue !== index)
    .map((fault) => ('issue' in fault && fault.issue > index ? { ...fault, issue: fault.issue - 1 } : fault));
  for (const capture of plan.reels.flatMap((reel) => reel.captures)) {
    if (capture.issue === index) holdBack(capture);
    else if (capture.issue !== null && capture.issue > index) capture.issue -= 1;
  }
}

/** Adds a document right behind another one's place; returns its index. */
export function addDocument(plan: ReturnPlan, document: PlanIssue): number {
  plan.issues.push(document);
  return plan.issues.length - 1;
}

/** Adds `by` to the exposure numbers of all captures of a reel from a place on. */
export function renumberFrom(plan: ReturnPlan, reel: number, from: number, by: number): void {
  const captures = plan.reels[reel]?.captures ?? [];
  for (const capture of captures.slice(from)) capture.frame = moved(capture.frame, by);
}

/** By how many images the film document is wrong where that is planted: more than any other fault takes away or adds. */
export const MISCOUNT = 12;

/** Sets the number of images that the film document states to what was taken; where it was made wrong, it stays wrong by as much. */
export function recount(plan: ReturnPlan): void {
  for (const { facts, captures } of plan.reels) {
    const wrong = Math.abs(Number(facts['numberOfPictures'] ?? captures.length) - captures.length) > MISCOUNT / 2;
    facts['numberOfPictures'] = String(captures.length + (wrong ? MISCOUNT : 0));
  }
}

/** Issues of the film that came whole onto it, with at least `pages` pages to deliver and a document in the return. */
export function ordinaryIssues(scene: Scene, pages = 1): number[] {
  return scene.film.issues.flatMap((issue, index) => {
    const known = scene.plan.issues.some((each) => each.source === index);
    return issue.status === 'on-film' && known && shotsOfIssue(scene.film, index, true).length >= pages ? [index] : [];
  });
}

/** A site that is a whole issue. */
export function issueSite(film: Film, issue: number, more: readonly number[] = []): Site {
  const issues = [issue, ...more];
  return { key: issue, issues, pictures: issues.flatMap((each) => shotsOfIssue(film, each).map((shot) => shot.picture)) };
}

/** A site that is one picture, with the issue it belongs to. */
export function pictureSite(shot: FilmShot, neighbours: readonly FilmShot[] = []): Site {
  const shots = [shot, ...neighbours];
  return {
    key: shot.picture,
    pictures: shots.map((each) => each.picture),
    issues: [...new Set(shots.flatMap((each) => (each.issue === null ? [] : [each.issue])))],
  };
}

export const VENDOR_DATA: readonly Cause[] = ['vendor-metadata'];
export const VENDOR_IMAGE: readonly Cause[] = ['vendor-image', 'vendor-metadata'];
export const UNCLEAR: readonly Cause[] = ['unclear', 'vendor-image', 'vendor-metadata'];
/** Whether an image was lost or only its description cannot be seen from outside. */
export const ANY_VENDOR: readonly Cause[] = ['vendor-metadata', 'vendor-image', 'unclear'];
