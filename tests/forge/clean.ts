import type { Policies } from '../../src/model/agreement.js';
import type { CollationRecord } from '../../src/model/collation-record.js';
import { makeFilm } from './film/make-film.js';
import { drawnOrder } from './ordered.js';
import { planOf } from './plan.js';
import { recordOf } from './record/record-of.js';
import { drawnStyle, folderName, type WriteProfile, type WrittenFile, writeReturn } from './write/index.js';

/** A film with its record, what was ordered, and a return in which nothing is wrong. */
export interface CleanReturn {
  readonly profile: WriteProfile;
  readonly record: CollationRecord;
  readonly policies: Partial<Policies>;
  /** Name of the batch folder. */
  readonly folder: string;
  readonly files: Iterable<WrittenFile>;
}

/** Film, order and way to write it drawn from a seed; even seeds are METS documents, odd ones MODS documents. */
export function cleanReturn(seed: number): CleanReturn {
  const profile = seed % 2 === 0 ? 'issue-mets' : 'page-mods';
  const { policies, options } = drawnOrder(seed);
  const style = drawnStyle(seed);
  const film = makeFilm({
    seed,
    pages: 40,
    oddPerMille: 450,
    titleIds: profile === 'page-mods' && seed % 3 === 0 ? 'key' : 'number',
    reelNumbers: seed % 5 < 2 ? 'box' : 'short',
    ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}),
  });
  const plan = planOf(film, options);
  return {
    profile,
    record: recordOf(film),
    policies: style.files?.length === USES_WITH_MASTER ? { ...policies, files: 'required' } : policies,
    folder: folderName(plan, style),
    files: writeReturn(plan, profile, style),
  };
}

/** Only a copy that holds every file can be asked for every file. */
const USES_WITH_MASTER = 4;
