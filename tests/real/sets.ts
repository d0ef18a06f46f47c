import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type RecordNeeds, writeRecord } from './record.js';
import { profileOfShape } from './shapes.js';
import type { MustSay } from './spoilings/scene.js';
import type { TriedReturn } from './trial.js';

/** Where published returns lie, which are no part of this repository: what PUBLISHED_DOCUMENTS names, or a folder beside the working copy. */
export const PUBLISHED = process.env['PUBLISHED_DOCUMENTS'] ?? fileURLToPath(new URL('../../../shared/real', import.meta.url));

interface PublishedSet extends RecordNeeds {
  readonly folder: string;
  readonly profile: string | null;
  readonly editionInFolder: boolean;
  readonly alsoWithFixity: readonly MustSay[];
}

/** The published returns that are known, with what cannot be read in them: how long the reel is, and what is wrong with the copy. */
const KNOWN: readonly PublishedSet[] = [
  // A batch as it was published, cut down to one issue on frames 11 to 18 and three targets on the film, the last of them frame 459.
  { folder: 'german-weekly', profile: null, editionInFolder: true, reel: '', carrier: 'film', frames: 459, alsoWithFixity: [] },
  // A lone issue document: frames 683 to 694 of a reel.
  { folder: 'loc-issue-mets', profile: null, editionInFolder: true, reel: '', carrier: 'film', frames: null, alsoWithFixity: [] },
  // No frame numbers. The text of page 1 is 9 bytes longer than its document says.
  {
    folder: 'bl-1824',
    profile: profileOfShape('linked-structure-maps'),
    editionInFolder: false,
    reel: '1',
    carrier: 'print',
    frames: null,
    alsoWithFixity: [{ codes: ['checksum-differs'], at: '1', names: ['_0001.xml'] }],
  },
  // No frame numbers: two issues, of 2 and 4 pages.
  {
    folder: 'bnf-1814',
    profile: profileOfShape('two-structure-maps'),
    editionInFolder: true,
    reel: '1',
    carrier: 'film',
    frames: null,
    alsoWithFixity: [],
  },
];

/** The published returns that lie in a folder, with records for them. */
export function publishedIn(folder: string): TriedReturn[] {
  return KNOWN.filter((known) => existsSync(join(folder, known.folder))).map((known) => ({
    name: known.folder,
    folder: join(folder, known.folder),
    profile: known.profile,
    editionInFolder: known.editionInFolder,
    alsoWithFixity: known.alsoWithFixity,
    writeRecord: (to, facts) => writeRecord(to, facts, known),
  }));
}
