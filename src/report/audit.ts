import { wrap } from './text/wrap.js';
import { short } from './visible.js';
import { counted } from './words.js';

/** What an audit found, as far as it is told. */
export interface AuditTold {
  /** The one file that was asked about, or null. */
  readonly file: string | null;
  readonly broken: readonly { readonly says: string }[];
  readonly remarks: readonly { readonly says: string }[];
  readonly held: readonly string[];
  readonly files: number;
  readonly pages: readonly { readonly page: string; readonly line: number; readonly sha256: string }[];
}

const LONGEST = 1000;

/** The sentences of an audit: what does not hold first, then what is to be known, then what the signed pages must show. */
export function auditText({ file, broken, remarks, held, files, pages }: AuditTold, width: number): string {
  const item = ({ says }: { readonly says: string }): readonly string[] => wrap(short(says, LONGEST), width, '  - ', '    ');
  const about = file === null ? '' : ` of ${file} and what it was made from`;
  const sound =
    file === null
      ? `Every link holds: ${counted(files, 'file')} in the journal, ${counted(held.length, 'file')} made again byte for byte.`
      : `Every link${about} holds.`;
  const lines = [
    ...(broken.length === 0
      ? wrap(sound, width)
      : [
          `${broken.length === 1 ? 'One link' : `${String(broken.length)} links`}${about} ${broken.length === 1 ? 'does' : 'do'} not hold:`,
          '',
          ...broken.flatMap(item),
        ]),
    ...(remarks.length === 0 ? [] : ['', 'To be known, and broken by nothing:', '', ...remarks.flatMap(item)]),
    ...(pages.length === 0
      ? []
      : [
          '',
          ...wrap('Compare with the signed pages on paper; a journal that was written anew shows there alone:', width),
          '',
          ...pages.flatMap(({ page, line, sha256 }) => [
            `  ${page} must show line ${String(line)} of the journal, SHA-256`,
            `    ${sha256}`,
          ]),
        ]),
  ];
  return `${lines.join('\n')}\n`;
}
