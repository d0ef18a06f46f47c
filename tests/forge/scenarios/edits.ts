import { addDocument, capturesOf, deliver, documentOf, holdBack, locate, recount, removeDocument, renumberFrom } from '../faults/scene.js';
import type { FilmShot } from '../film/film.js';
import { moved } from '../film/frame-text.js';
import { type Capture, type PlanIssue, type PlanReel, imageOf as takeOf } from '../plan.js';
import type { Vendor } from './scenario.js';

/** The index of the issue with that letter. */
export function issueNamed(v: Vendor, key: string): number {
  const index = v.keys.get(key);
  if (index === undefined) throw new RangeError(`No issue is called ${key}.`);
  return index;
}

/** The frame of the film, `12` on the first reel or `0118:12`. */
export function shotAt(v: Vendor, name: string): FilmShot {
  const [frame = '', reel = v.film.reels[0]?.number] = name.split(':').reverse();
  const shot = v.film.reels.find((each) => each.number === reel)?.shots.find((each) => each.frame === frame);
  if (shot === undefined) throw new RangeError(`The film has no frame ${name}.`);
  return shot;
}

/** The image the vendor took of that frame of the film, whatever number it has by now. */
export function imageOf(v: Vendor, name: string): Capture {
  const { picture } = shotAt(v, name);
  const found = v.plan.reels.flatMap((reel) => reel.captures).find((capture) => capture.picture === picture);
  if (found === undefined) throw new RangeError(`The return has no image of frame ${name}.`);
  return found;
}

/** The document of the issue with that letter. */
export function documentFor(v: Vendor, key: string): PlanIssue {
  return documentOf(v.plan, issueNamed(v, key)).document;
}

/** The pages in the document of that issue in reading order. */
export function pagesFor(v: Vendor, key: string): Capture[] {
  return capturesOf(v.plan, documentOf(v.plan, issueNamed(v, key)).index);
}

/** The first reel of the return. */
export function firstReel(v: Vendor): PlanReel {
  const [reel] = v.plan.reels;
  if (reel === undefined) throw new RangeError('The return has no reel.');
  return reel;
}

/** Does not scan a frame and counts on as if it were not there. */
export function leaveOut(v: Vendor, name: string): void {
  const { reel } = locate(v.film, shotAt(v, name).picture);
  const captures = v.plan.reels[reel]?.captures ?? [];
  const place = captures.indexOf(imageOf(v, name));
  captures.splice(place, 1);
  renumberFrom(v.plan, reel, place, -1);
  recount(v.plan);
}

/** Scans a page twice, delivers both images and counts both; the pages behind it move up one place. */
export function scanTwice(v: Vendor, name: string): void {
  const { reel } = locate(v.film, shotAt(v, name).picture);
  const captures = v.plan.reels[reel]?.captures ?? [];
  const original = imageOf(v, name);
  const place = captures.indexOf(original);
  renumberFrom(v.plan, reel, place + 1, 1);
  makeRoom(v, original.issue ?? 0, (original.order ?? 0) + 1);
  const again = { frame: moved(original.frame, 1), order: (original.order ?? 0) + 1, image: takeOf(original.picture, 1) };
  captures.splice(place + 1, 0, { ...original, ...again });
  recount(v.plan);
}

/** Puts a frame that is no page of the issue into its document at a place; the pages from there on move up by one. */
export function countIn(v: Vendor, key: string, name: string, order: number, page: string | null): void {
  const { index } = documentOf(v.plan, issueNamed(v, key));
  makeRoom(v, index, order);
  deliver(imageOf(v, name), index, order, page);
}

function makeRoom(v: Vendor, document: number, from: number): void {
  for (const capture of capturesOf(v.plan, document)) if ((capture.order ?? 0) >= from) capture.order = (capture.order ?? 0) + 1;
}

/** Delivers frames as a document of their own, with the facts given and their pages counted from 1. */
export function asDocument(v: Vendor, facts: Partial<PlanIssue> & { readonly like: string }, names: readonly string[]): void {
  const { like, ...own } = facts;
  const index = issueNamed(v, like);
  const { title, date, datePrinted, edition, editionLabel, volume, issueNumber } = v.film.issues[index] ?? documentFor(v, like);
  const reel = v.film.reels.findIndex((each) => each.shots.some((shot) => shot.picture === shotAt(v, names[0] ?? '').picture));
  const plain = { statement: 'present' as const, statementText: null, absent: [], folder: null, manifest: null, source: null };
  const document = addDocument(v.plan, {
    ...{ title, date, datePrinted, edition, editionLabel, volume, issueNumber, reel },
    ...plain,
    ...own,
  });
  names.forEach((name, i) => {
    const shot = shotAt(v, name);
    const label = shot.pagePrinted === '-' ? null : (shot.pagePrinted ?? shot.page);
    deliver(imageOf(v, name), document, i + 1, label, shot.section);
  });
}

/** Puts the pages of one issue behind those of another, labels kept, and sends no document for it. */
export function mergeInto(v: Vendor, into: string, from: string): void {
  const { index } = documentOf(v.plan, issueNamed(v, into));
  const before = Math.max(...pagesFor(v, into).map((capture) => capture.order ?? 0));
  for (const capture of pagesFor(v, from)) Object.assign(capture, { issue: index, order: (capture.order ?? 0) + before });
  removeDocument(v.plan, documentOf(v.plan, issueNamed(v, from)).index);
}

/** Delivers one frame in the place of another, which is held back. */
export function deliverInstead(v: Vendor, name: string, of: string): void {
  const wanted = imageOf(v, of);
  deliver(imageOf(v, name), wanted.issue ?? 0, wanted.order ?? 1, wanted.page, wanted.section);
  holdBack(wanted);
}
