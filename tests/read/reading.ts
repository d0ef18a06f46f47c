import type { Side } from '../../src/model/film.js';
import type { Profile } from '../../src/model/profile.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { PROFILES } from '../../src/profiles/index.js';
import { readReturn } from '../../src/read/return.js';

/** The side that a folder is read as; throws where the layout is not recognised. */
export async function sideOf(folders: string | readonly string[], profiles: readonly Profile[] = PROFILES): Promise<Side> {
  const read = await readReturn(typeof folders === 'string' ? [folders] : folders, { profiles, readText: false });
  if (!read.ok) throw new Error(read.says);
  return normaliseReturn(read.written, read.profile);
}

/** Copies as short lines: fact, source, text, value. */
export function copyLines(copies: Side['issues'][number]['copies']): readonly string[] {
  return copies.map((copy) => `${copy.fact} | ${copy.source} | ${copy.text} | ${String(copy.value)}`);
}
