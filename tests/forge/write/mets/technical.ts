import { mixOf } from '../facts.js';
import { contentOf, sha1, USES, type Use } from '../files.js';
import type { WriteStyle } from '../style.js';
import { type Element, el } from '../xml.js';
import type { Ids } from './ids.js';
import type { GroupOfFiles } from './parts.js';

/** What a file's ADMID points to, or null where its technical metadata is not written. */
export function technicalIds(use: Use, n: number, ids: Ids, style: WriteStyle): string | null {
  if (!isWritten(use, style)) return null;
  return [...(hasPixels(use) ? [ids.tech('mix', use, n)] : []), ids.tech('premis', use, n)].join(' ');
}

/** Technical metadata of a group's files: MIX for images, PREMIS with digest and size for every file; of the master alone, or of all. */
export function technicalOf(group: GroupOfFiles, ids: Ids, style: WriteStyle): Element[] {
  return USES.filter(({ use }) => isWritten(use, style)).flatMap(({ use, format }) => {
    const image = wrapped('NISOIMG', null, 'Image metadata', mixOf(group.capture, style, null));
    const object = wrapped('OTHER', 'PREMIS', 'Object metadata', premisOf(contentOf(group.capture, use, group.name, style), format, style));
    const mix = hasPixels(use) ? [el('mets:techMD', { ID: ids.tech('mix', use, group.n) }, image)] : [];
    return [...mix, el('mets:techMD', { ID: ids.tech('premis', use, group.n) }, object)];
  });
}

const isWritten = (use: Use, style: WriteStyle): boolean =>
  style.technical === 'all-files' || (style.technical === 'master' && use === 'master');
const hasPixels = (use: Use): boolean => use === 'master' || use === 'service';

function wrapped(type: string, other: string | null, label: string, inner: Element): Element {
  return el('mets:mdWrap', { MDTYPE: type, OTHERMDTYPE: other, LABEL: label }, el('mets:xmlData', {}, inner));
}

function premisOf(content: string, format: string, style: WriteStyle): Element {
  const fixity = el('premis:fixity', {}, el('premis:messageDigestAlgorithm', {}, 'SHA-1'), el('premis:messageDigest', {}, sha1(content)));
  const size = el('premis:size', {}, String(Buffer.byteLength(content)));
  if (style.technical === 'master') return el('premis:object', {}, el('premis:objectCharacteristics', {}, fixity, size));
  const designation = el('premis:formatDesignation', {}, el('premis:formatName', {}, format));
  const application = el(
    'premis:creatingApplication',
    {},
    el('premis:creatingApplicationName', {}, 'Verrin Scan 4'),
    el('premis:dateCreatedByApplication', {}, '2031-02-17T09:30:00'),
  );
  return el('premis:object', {}, el('premis:objectCharacteristics', {}, fixity, size, el('premis:format', {}, designation)), application);
}

/** The mark of a document that the programme's own check has passed; the signature is invented. */
export function signatureOf(label: string): Element {
  const value = Buffer.from(sha1(label), 'hex').toString('base64');
  const signature = el(
    'dsig:Signature',
    {},
    el('dsig:SignedInfo', {}, el('dsig:Reference', { URI: '' }, el('dsig:DigestValue', {}, value))),
    el('dsig:SignatureValue', {}, value),
  );
  return el('mets:digiprovMD', { ID: 'digSig' }, wrapped('OTHER', 'XML-Signature', 'Record validation signature', signature));
}
