import type { CollationRecord } from '../../src/model/collation-record.js';
import { type Expected, spoilSome } from './faults/index.js';
import { makeFilm } from './film/make-film.js';
import { randomFrom } from './film/random.js';
import { planOf } from './plan.js';
import { recordOf } from './record/record-of.js';
import { type WriteOptions, type WriteProfile, type WrittenFile, writeReturn } from './write/index.js';

/** A batch of any size, to measure and to try things on. */
export interface BatchOptions {
  readonly seed: number;
  /** About how many pages, on reels of about `pagesPerReel`. */
  readonly pages: number;
  readonly pagesPerReel?: number;
  readonly profile: WriteProfile;
  /** How many kinds of mistakes are planted. */
  readonly faults?: number;
  readonly style?: WriteOptions;
}

export interface GeneratedBatch {
  readonly name: string;
  readonly record: CollationRecord;
  readonly files: Iterable<WrittenFile>;
  readonly expected: readonly Expected[];
}

/** An invented batch with its record; files are made one at a time, as they are asked for. */
export function generateBatch(options: BatchOptions): GeneratedBatch {
  const perReel = options.pagesPerReel ?? 800;
  const reels = Math.max(1, Math.round(options.pages / perReel));
  const film = makeFilm({ seed: options.seed, pages: Math.ceil(options.pages / reels), reels, titles: 1 });
  const spoilt = (options.faults ?? 0) > 0 ? spoilSome(film, options.faults ?? 0, randomFrom(options.seed)) : null;
  const plan = spoilt?.plan ?? planOf(film);
  return {
    name: plan.batch,
    record: spoilt?.record ?? recordOf(film),
    files: writeReturn(plan, options.profile, options.style ?? {}),
    expected: spoilt?.expected ?? [],
  };
}
