import { type BatchFile, lastPart } from '../walk.js';
import type { Unread } from './ledger.js';

/** Pictures of pages, and what is made of them for readers. */
const PAGE_FILE = /\.(?:jp2|jpx|j2k|tiff?|jpe?g|png|pdf)$/i;
/** Small pictures for looking through; no layout lists them. */
const THUMBNAIL = /thumb|preview/i;
const CHECKSUMS = /(?:^|[._-])(?:md5|sha-?(?:1|256|384|512)|checksums?|manifest)(?:sums?)?(?:[._-]|$)/i;
const FOR_PEOPLE = /\.(?:txt|md|rtf|html?|docx?|odt|log)$/i;

/** What is said of things that were not compared, by what they are. */
export const UNREAD = {
  link: { what: 'links', why: 'Links are not followed: the files themselves belong into the batch.' },
  device: { what: 'devices and pipes', why: 'They are not files and were not opened.' },
  xml: { what: 'XML files of another kind', why: 'They are well-formed, but no part of the layout.' },
  thumbnail: { what: 'thumbnails', why: 'No layout asks for them.' },
  checksums: {
    what: 'checksum lists',
    why: 'They are not part of the layout; the digests that documents state are looked at with --fixity.',
  },
  people: { what: 'texts for people', why: 'They are not part of the layout, and a program cannot read them.' },
  other: { what: 'other files', why: 'They are not part of the layout.' },
  hidden: { what: 'names that begin with a dot', why: 'They are passed over.' },
  'not UTF-8': { what: 'names that are not UTF-8', why: 'No XML can name such a file. Rename it.' },
  'same name': {
    what: 'names that differ from another only in capital letters or in how accents are encoded',
    why: 'They mean the same name; only the first is read.',
  },
  'packed twice': { what: 'packed documents beside the same unpacked', why: 'Only the one that is not packed is read.' },
  'sent again': { what: 'files that a later folder sends again', why: 'What the later folder holds takes their place.' },
  manifest: { what: 'second manifests', why: 'They list what the manifest of the batch lists, so one was compared.' },
  copy: { what: 'second copies of documents', why: 'They are the same, byte for byte, as the documents that were read.' },
  text: { what: 'text of pages', why: 'It was only seen that it is there. The option --read-text reads it.' },
  unread: { what: 'page files beside a document that cannot be read', why: 'It may be the one that names them.' },
  empty: { what: 'empty folders', why: 'Nothing lies in them.' },
  folder: { what: 'folders without anything that was compared', why: 'What lies in them is listed here or is found.' },
} as const satisfies Readonly<Record<string, Unread>>;

/** Whether a name is that of a picture of a page, or of what is made of it for readers. */
export function isPageFile(path: string): boolean {
  return PAGE_FILE.test(lastPart(path)) && !THUMBNAIL.test(path);
}

/** What is said of a file that is no part of the layout, by its kind and name. */
export function whatItIs({ path, kind }: Pick<BatchFile, 'path' | 'kind'>): Unread {
  if (kind !== 'file') return kind === 'link' ? UNREAD.link : UNREAD.device;
  if (THUMBNAIL.test(path)) return UNREAD.thumbnail;
  const name = lastPart(path);
  if (CHECKSUMS.test(name)) return UNREAD.checksums;
  return FOR_PEOPLE.test(name) || /^read[ _-]?me/i.test(name) ? UNREAD.people : UNREAD.other;
}
