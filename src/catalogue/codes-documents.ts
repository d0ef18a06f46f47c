import type { CatalogueEntry } from '../model/findings.js';

/** Codes about the documents and files that the vendor sent. */
export const DOCUMENT_CODES = [
  {
    code: 'document-unreadable',
    group: 'documents',
    title: 'A document cannot be read',
    why: 'What stands in it could not be compared with anything, and no other system will be able to load it either.',
    severity: 'critical',
  },
  {
    code: 'file-missing',
    group: 'documents',
    title: 'A file is wanting or empty',
    why: 'The metadata points to a file that is not there, so the page has a description and nothing to show.',
    severity: 'critical',
  },
  {
    code: 'same-image-twice',
    group: 'documents',
    title: 'The same image file stands for two frames',
    why: 'Two different frames cannot give the same bytes. One of the two pages is wanting behind the copy of the other.',
    severity: 'critical',
  },
  {
    code: 'checksum-differs',
    group: 'documents',
    title: 'A file is not the one that was described',
    why: 'Its bytes are other than the digest says that was made of it: it was damaged on the way, changed afterwards, or put in the place of another.',
    severity: 'critical',
  },
  {
    code: 'manifest-disagrees',
    group: 'documents',
    title: 'The manifest and the folder disagree',
    why: 'The manifest is the list of what was sent. What it does not list may never be loaded, and what it lists in vain may be lost.',
    severity: 'major',
  },
  {
    code: 'vocabulary-unknown',
    group: 'documents',
    title: 'A fact is not given in the agreed form',
    why: 'The place has an agreed form or list of words. What is not there, or is there in another form, cannot be understood, here or in the system that receives it.',
    severity: 'major',
  },
  {
    code: 'file-not-listed',
    group: 'documents',
    title: 'A file is in the folder that no document lists',
    why: 'It may be a page that was forgotten in the metadata, or a leftover of the work. Either way nobody will be able to account for it later.',
    severity: 'minor',
  },
  {
    code: 'target-not-listed',
    group: 'documents',
    title: 'A target is not listed',
    why: 'The agreement asks for the targets of a reel to be listed, because they carry the reduction, the title and the remarks of the camera operator.',
    severity: 'minor',
  },
  {
    code: 'not-ordered',
    group: 'documents',
    title: 'Something is there that the agreement leaves out',
    why: 'The agreement says that this is not to be given. It does no harm to a page, but systems that expect the agreed form may stumble over it.',
    severity: 'minor',
  },
  {
    code: 'documents-disagree',
    group: 'documents',
    title: 'Two places of the return say different things',
    why: 'The same fact stands in several places, such as folder name, manifest and metadata. Where they disagree, each later system will believe another one.',
    severity: 'minor',
  },
  {
    code: 'reel-facts-differ',
    group: 'documents',
    title: 'A fact about the reel differs',
    why: 'Reduction, position and the like matter for a later rescan. They change no page.',
    severity: 'note',
  },
  {
    code: 'count-disagrees',
    group: 'documents',
    title: 'A stated count does not agree with what is there',
    why: "The vendor's own number of pages or pictures differs from what was counted. It is a hint where else to look.",
    severity: 'note',
  },
] as const satisfies readonly CatalogueEntry[];
