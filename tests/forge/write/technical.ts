import type { Capture } from '../plan.js';
import type { Ids } from './mets-ids.js';
import { USES } from './mets-ids.js';
import { mixOf } from './mods.js';
import type { WriteStyle } from './style.js';
import { type Element, el } from './xml.js';

const FORMATS: ReadonlyMap<string, string> = new Map([
  ['master', 'image/tiff'],
  ['service', 'image/jp2'],
  ['derivative', 'application/pdf'],
  ['ocr', 'text/xml'],
]);

/** What a file's ADMID points to, or null where its technical metadata is not written. */
export function technicalIds(use: string, n: number, ids: Ids, style: WriteStyle): string | null {
  if (!isWritten(use, style)) return null;
  return [...(hasPixels(use) ? [ids.tech('mix', use, n)] : []), ids.tech('premis', use, n)].join(' ');
}

/** Technical metadata of a page's files: MIX for images, PREMIS for every file; of the master alone, or of all four as a supplier sends it. */
export function technicalOf(capture: Capture, n: number, ids: Ids, style: WriteStyle): Element[] {
  return USES.flatMap(([use], place) => {
    if (!isWritten(use, style)) return [];
    const image = wrapped('NISOIMG', null, 'Image metadata', mixOf(capture, style, false));
    const object = wrapped('OTHER', 'PREMIS', 'Object metadata', premisOf(capture, use, place, style));
    const mix = hasPixels(use) ? [el('mets:techMD', { ID: ids.tech('mix', use, n) }, image)] : [];
    return [...mix, el('mets:techMD', { ID: ids.tech('premis', use, n) }, object)];
  });
}

const isWritten = (use: string, style: WriteStyle): boolean => use === 'master' || style.technical === 'all-files';
const hasPixels = (use: string): boolean => use === 'master' || use === 'service';

function wrapped(type: string, other: string | null, label: string, inner: Element): Element {
  return el('mets:mdWrap', { MDTYPE: type, OTHERMDTYPE: other, LABEL: label }, el('mets:xmlData', {}, inner));
}

function premisOf(capture: Capture, use: string, place: number, style: WriteStyle): Element {
  // The master's digest is the one that tells images apart; the other files have one of their own, turned out of it.
  const digest = capture.digest.slice(place) + capture.digest.slice(0, place);
  const fixity = el('premis:fixity', {}, el('premis:messageDigestAlgorithm', {}, 'SHA-1'), el('premis:messageDigest', {}, digest));
  const size = el('premis:size', {}, String(Math.ceil((capture.width * capture.height) / (place + 1))));
  if (style.technical === 'master') return el('premis:object', {}, el('premis:objectCharacteristics', {}, fixity, size));
  const name = el('premis:formatName', {}, FORMATS.get(use) ?? use);
  const format = el('premis:format', {}, el('premis:formatDesignation', {}, name));
  const application = el(
    'premis:creatingApplication',
    {},
    el('premis:creatingApplicationName', {}, 'Verrin Scan 4'),
    el('premis:dateCreatedByApplication', {}, '2031-02-17T09:30:00'),
  );
  return el('premis:object', {}, el('premis:objectCharacteristics', {}, fixity, size, format), application);
}
