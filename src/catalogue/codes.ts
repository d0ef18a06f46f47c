import type { CatalogueEntry } from '../model/findings.js';
import { DOCUMENT_CODES } from './codes-documents.js';
import { IDENTITY_CODES } from './codes-identity.js';
import { IMAGE_CODES } from './codes-image.js';
import { PAGE_CODES } from './codes-page.js';
import { PRESENCE_CODES } from './codes-presence.js';
import { RECORD_CODES } from './codes-record.js';
import { SEQUENCE_CODES } from './codes-sequence.js';
import { TEXT_CODES } from './codes-text.js';

const ALL = [
  ...SEQUENCE_CODES,
  ...PRESENCE_CODES,
  ...IDENTITY_CODES,
  ...PAGE_CODES,
  ...DOCUMENT_CODES,
  ...TEXT_CODES,
  ...IMAGE_CODES,
  ...RECORD_CODES,
] as const;

/** The code of every finding that the program can make. */
export type FindingCode = (typeof ALL)[number]['code'];

/** Every finding code with its texts and its usual severity, by group, in the order of the documentation. */
export const CODES: readonly (CatalogueEntry & { readonly code: FindingCode })[] = ALL;

const BY_CODE: ReadonlyMap<string, CatalogueEntry> = new Map(CODES.map((entry) => [entry.code, entry]));

/** The entry of a code, or undefined where a saved result names a code that this version does not know. */
export function codeEntry(code: FindingCode): CatalogueEntry;
export function codeEntry(code: string): CatalogueEntry | undefined;
export function codeEntry(code: string): CatalogueEntry | undefined {
  return BY_CODE.get(code);
}
