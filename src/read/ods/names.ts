import type { Vocabulary } from '../workbook/part-events.js';

const urn = (name: string): string => `urn:oasis:names:tc:opendocument:xmlns:${name}:1.0`;

/** The vocabulary of an OpenDocument spreadsheet, as far as it is read here (OpenDocument 1.3, part 3). */
export const ODF: Vocabulary = {
  namespaces: new Set(['office', 'table', 'text', 'style', 'meta', 'xsl-fo-compatible'].map(urn)),
  localAttributes: true,
};
