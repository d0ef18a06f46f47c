import type { XMLBuilder } from 'xmlbuilder2/lib/interfaces.js';
import type { DueAbsence, DueIssue, DuePage, DuePublished } from '../../model/expected-delivery.js';
import type { Profile } from '../../model/profile.js';
import { xmlText } from '../xml/escape.js';

/** Namespaces as the Library of Congress publishes them, and XLink 1.0. */
export const MODS = 'http://www.loc.gov/mods/v3';
export const METS = 'http://www.loc.gov/METS/';
export const XLINK = 'http://www.w3.org/1999/xlink';

/** Adds an element; a text that is null or left out adds none. */
export function add(parent: XMLBuilder, name: string, attributes: Readonly<Record<string, string>> = {}, text?: string): XMLBuilder {
  const safe = Object.fromEntries(Object.entries(attributes).map(([key, value]) => [key, xmlText(value)]));
  const element = parent.ele(name, safe);
  if (text !== undefined && text !== '') element.txt(xmlText(text));
  return element;
}

/** Adds `detail` with its number where there is one, or with a caption. */
function addDetail(part: XMLBuilder, type: string, number: string | null, caption: string | null = null): void {
  if (number === null && caption === null) return;
  const detail = add(part, 'mods:detail', { type });
  if (number !== null) add(detail, 'mods:number', {}, number);
  if (caption !== null) add(detail, 'mods:caption', {}, caption);
}

/** The words by which the programme says that something is there, or is not and whether it was published. */
export function presentWords({ present }: Profile, published: DuePublished | null): string {
  const wanted = present.find((one) => (published === null ? one.present : !one.present && one.published === published));
  return wanted?.text ?? '';
}

/** Adds dates, numbers and edition of an issue; `host` is filled before with what identifies the title. */
export function addIssueFacts(mods: XMLBuilder, host: XMLBuilder, issue: DueIssue): void {
  const part = add(host, 'mods:part');
  addDetail(part, 'volume', issue.volume);
  addDetail(part, 'issue', issue.issueNumber);
  addDetail(part, 'edition', String(issue.edition), issue.editionLabel);
  const origin = add(mods, 'mods:originInfo');
  if (issue.date !== null) add(origin, 'mods:dateIssued', { encoding: 'iso8601' }, issue.date);
  if (issue.datePrinted !== null) add(origin, 'mods:dateIssued', { qualifier: 'questionable' }, issue.datePrinted);
}

/** Adds what a page says of itself: section, place and number. */
export function addPagePart(mods: XMLBuilder, { section, label, order }: DuePage | DueAbsence): void {
  const part = add(mods, 'mods:part');
  if (order !== null) add(add(part, 'mods:extent', { unit: 'pages' }), 'mods:start', {}, String(order));
  addDetail(part, 'section label', section);
  addDetail(part, 'page number', label);
}

/** Adds the film from which a frame comes. */
export function addOriginal(mods: XMLBuilder, reel: string, frame: string): XMLBuilder {
  const original = add(mods, 'mods:relatedItem', { type: 'original' });
  add(original, 'mods:identifier', { type: 'reel number' }, reel);
  add(original, 'mods:identifier', { type: 'reel sequence number' }, frame);
  return original;
}

/** Adds the note that says whether it is there. */
export function addPresent(parent: XMLBuilder, words: string): void {
  if (words !== '') add(parent, 'mods:note', { type: 'noteAboutReproduction' }, words);
}
