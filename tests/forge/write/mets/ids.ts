import type { Use } from '../files.js';
import type { WriteStyle } from '../style.js';

/** The IDs that parts of a METS document point to each other with. */
export interface Ids {
  readonly page: (n: number) => string;
  readonly section: (n: number) => string;
  readonly issue: string;
  readonly file: (use: Use, n: number) => string;
  readonly tech: (kind: 'mix' | 'premis', use: Use, n: number) => string;
}

/** The IDs of a style: `masterFile1`, or something else altogether. */
export function idsOf(style: WriteStyle): Ids {
  if (style.ids === 'usual') {
    const file = (use: Use, n: number): string => `${use === 'derivative' ? 'otherDerivative' : use}File${n}`;
    return {
      page: (n) => `pageModsBib${n}`,
      section: (n) => `sectionModsBib${n}`,
      issue: 'issueModsBib',
      file,
      tech: (kind, use, n) => kind + file(use, n),
    };
  }
  const file = (use: Use, n: number): string => `f${String(n).padStart(3, '0')}.${use.slice(0, 2)}`;
  return { page: (n) => `D_${n * 7}`, section: (n) => `S_${n}`, issue: 'D_0', file, tech: (kind, use, n) => `t-${kind}-${file(use, n)}` };
}
