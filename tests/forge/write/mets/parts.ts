import { join } from 'node:path/posix';
import { LIBRARY } from '../../film/names.js';
import type { Capture } from '../../plan.js';
import { contentOf, USES, type WrittenFile } from '../files.js';
import type { WriteStyle } from '../style.js';
import { type Element, el } from '../xml.js';
import type { Ids } from './ids.js';
import { signatureOf, technicalIds, technicalOf } from './technical.js';

/** The files of one page or target: the capture, the name they have in common, and their number in the document. */
export interface GroupOfFiles {
  readonly capture: Capture;
  readonly name: string;
  readonly n: number;
}

/** A section of descriptive metadata. */
export function dmd(id: string, label: string, ...mods: readonly (Element | null)[]): Element {
  return el(
    'mets:dmdSec',
    { ID: id },
    el('mets:mdWrap', { MDTYPE: 'MODS', LABEL: label }, el('mets:xmlData', {}, el('mods:mods', {}, ...mods))),
  );
}

/** The head of a document; one that was checked says so and points to its signature. */
export function header(style: WriteStyle): Element {
  const agent = el('mets:agent', { ROLE: 'CREATOR', TYPE: 'ORGANIZATION' }, el('mets:name', {}, LIBRARY.name));
  const checked = style.validated ? { ADMID: 'digSig', RECORDSTATUS: 'Validated' } : {};
  return el('mets:metsHdr', { ...checked, CREATEDATE: '2031-03-04T10:00:00' }, agent);
}

/** Administrative metadata: what is given, that of the files, and the signature; null where there is none. */
export function administrative(
  own: readonly Element[],
  groups: readonly GroupOfFiles[],
  ids: Ids,
  label: string,
  style: WriteStyle,
): Element | null {
  const parts = [...own, ...groups.flatMap((group) => technicalOf(group, ids, style)), ...(style.validated ? [signatureOf(label)] : [])];
  return parts.length === 0 ? null : el('mets:amdSec', {}, ...parts);
}

/** The file section, or null where no file is named. */
export function fileSection(prefix: string, groups: readonly GroupOfFiles[], ids: Ids, style: WriteStyle): Element | null {
  if (groups.length === 0) return null;
  return el(
    'mets:fileSec',
    {},
    ...groups.map(({ name, n }) =>
      el(
        'mets:fileGrp',
        { ID: `${prefix}${n}` },
        ...USES.map(({ use, extension }) =>
          el(
            'mets:file',
            { ID: ids.file(use, n), USE: use, ADMID: technicalIds(use, n, ids, style) },
            el('mets:FLocat', {
              LOCTYPE: 'OTHER',
              OTHERLOCTYPE: 'file',
              'xlink:href': `${name.startsWith('.') ? '' : style.hrefPrefix}${name}.${extension}`,
            }),
          ),
        ),
      ),
    ),
  );
}

/** Pointers of a division to the files of its group. */
export function pointers(n: number, ids: Ids): Element[] {
  return USES.map(({ use }) => el('mets:fptr', { FILEID: ids.file(use, n) }));
}

/** The files themselves, of the uses that came with this copy of the batch. */
export function groupFiles(folder: string, groups: readonly GroupOfFiles[], style: WriteStyle): WrittenFile[] {
  const within = (name: string): string => join(folder, name);
  return groups.flatMap(({ capture, name }) =>
    USES.filter(({ use }) => style.files.includes(use) && capture.lost?.includes(use) !== true).map(({ use, extension }) => ({
      path: within(`${name}.${extension}`),
      text: contentOf(capture, use, name, style),
    })),
  );
}
