import type { Findings } from '../model/findings.js';
import { counted } from './words.js';

/** What was changed in the record since the vendor had it, and in one sentence what that means for the findings; null where the record that was sent is not known. */
export interface SinceSent {
  readonly changes: readonly string[];
  readonly means: string;
}

/** The changes of a result, for every report. */
export function sinceSent({ sent, findings }: Findings): SinceSent | null {
  if (sent === undefined) return null;
  if (sent.changes.length === 0) return { changes: [], means: 'Nothing was changed in the record since it was sent.' };
  const own = findings.filter(({ asSent }) => asSent === true).length;
  const means =
    own === 0
      ? 'The vendor could not know of what was changed after the film left; no finding is about that.'
      : `The vendor could not know of what was changed after the film left. In ${counted(own, 'finding')} the vendor followed the record as it was sent; ${own === 1 ? 'that is' : 'these are'} held in the vendor's favour and not charged.`;
  return { changes: sent.changes, means };
}

/** Rows of the changes in the columns of the list for the vendor: they ask for nothing, and say why a finding is not charged. */
export function changeRows(heads: readonly string[], result: Findings): readonly (readonly string[])[] {
  const since = sinceSent(result);
  if (since === null || since.changes.length === 0) return [];
  return [since.means, ...since.changes.map((change) => `The record since it was sent: ${change}`)].map((says) => {
    const cells: Readonly<Record<string, string>> = { severity: 'note', 'what is wrong': says, 'who acts': 'nobody' };
    return heads.map((head) => cells[head] ?? '');
  });
}
