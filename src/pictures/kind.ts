/** What a file of a picture is, by its first bytes. */
export type PictureKind = 'JPEG' | 'PNG' | 'TIFF' | 'WebP' | 'JPEG 2000' | 'PDF';

const starts = (bytes: Uint8Array, signature: readonly number[], at = 0): boolean =>
  signature.every((byte, index) => bytes[at + index] === byte);
const codes = (text: string): readonly number[] => Array.from(text, (letter) => letter.charCodeAt(0));

/** So many bytes tell the kind of a file; a PDF may have others in front of its mark (ISO 32000-1, annex H.3.4.1, implementation note 13). */
export const HEAD = 1024;

/**
 * The kind of a picture by its first bytes, never by its name; null for anything else. Signatures: JPEG ISO/IEC 10918-1 B.2.1, PNG (third edition) 5.2,
 * TIFF 6.0 section 2 and BigTIFF, RFC 9649 (WebP), JPEG 2000 ISO/IEC 15444-1 annexes A.4.1 and I.5.1, PDF ISO 32000-1 7.5.2.
 */
export function pictureKind(head: Uint8Array): PictureKind | null {
  if (starts(head, [0xff, 0xd8, 0xff])) return 'JPEG';
  if (starts(head, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'PNG';
  if ([42, 43].some((version) => starts(head, [0x49, 0x49, version, 0]) || starts(head, [0x4d, 0x4d, 0, version]))) return 'TIFF';
  if (starts(head, codes('RIFF')) && starts(head, codes('WEBP'), 8)) return 'WebP';
  if (starts(head, [0, 0, 0, 12, ...codes('jP  '), 0x0d, 0x0a, 0x87, 0x0a]) || starts(head, [0xff, 0x4f, 0xff, 0x51])) return 'JPEG 2000';
  const mark = codes('%PDF-');
  for (let at = 0; at + mark.length <= Math.min(head.length, HEAD); at += 1) if (starts(head, mark, at)) return 'PDF';
  return null;
}
