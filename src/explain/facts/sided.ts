import type { Cause } from '../../model/findings.js';
import type { FindingDraft } from '../draft.js';

/**
 * A finding that was told as the return's, told as that of the side that is likelier wrong: nothing right is spoilt without a look at the film,
 * which is at `look` on the frames.
 */
export function sidedBy(cause: Cause, words: string, draft: FindingDraft, look = 'the paper'): FindingDraft {
  if (cause !== 'collation' && cause !== 'unclear') return draft;
  const vendors = {
    says: `The record is right${reading(draft.collation)}.`,
    cause: 'vendor-metadata',
    instruction: draft.instruction,
  } as const;
  if (cause === 'collation')
    return {
      ...draft,
      cause,
      instruction: `Compare ${look} on ${words} with both readings before anything is changed.`,
      alternatives: [...draft.alternatives, vendors],
    };
  const instruction = draft.instruction ?? 'Correct the return.';
  return {
    ...draft,
    cause,
    // an instruction that begins with the film spoils nothing
    instruction: instruction.startsWith('Look at the film')
      ? instruction
      : `Look at the film on ${words}: where the record is right, ${instruction.charAt(0).toLowerCase()}${instruction.slice(1)}`,
    alternatives: [
      ...draft.alternatives,
      vendors,
      { says: `The return is right${reading(draft.return)}.`, cause: 'collation', instruction: null },
    ],
  };
}

function reading(text: string | null): string {
  return text === null ? '' : `: ${text}`;
}
