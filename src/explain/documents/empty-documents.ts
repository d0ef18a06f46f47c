import { type Candidate, candidate } from '../choose.js';
import { draft, issueName } from '../draft.js';
import type { Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** A document without a page, of an issue that the record does not have. */
export function emptyDocument(scene: Scene, difference: WordedDifference): Candidate {
  const name = issueName(scene, difference.returnIssue, 'return');
  return candidate(
    draft(scene, {
      about: [],
      returnIssue: difference.returnIssue,
      explains: [difference.id],
      code: 'issue-not-in-collation',
      cause: 'unclear',
      reel: null,
      at: null,
      frames: null,
      count: 1,
      field: 'document',
      collation: 'no such issue',
      return: 'a document without a page',
      says: `The return has a document of ${name} that holds no page and says of none that it is absent; the record has no such issue.`,
      instruction: `Withdraw the document of ${name}, or deliver its pages and say on which frames they lie.`,
      alternatives: [
        { says: 'The document was made by mistake.', cause: 'vendor-metadata', instruction: `Withdraw the document of ${name}.` },
        { says: 'The collation record lacks this issue.', cause: 'collation', instruction: null },
      ],
    }),
  );
}
