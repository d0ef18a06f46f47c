import type { ReturnPlan } from '../plan.js';
import { type WrittenFile, writeIssueMets } from './issue-mets.js';
import { writePageMods } from './page-mods.js';
import { styleOf, type WriteOptions } from './style.js';

export type { WrittenFile } from './issue-mets.js';
export { SPELLINGS, type WriteOptions } from './style.js';

/** The two layouts that are written. */
export type WriteProfile = 'issue-mets' | 'page-mods';

/** The return as files, one after the other; paths are relative to the batch folder. */
export function writeReturn(plan: ReturnPlan, profile: WriteProfile, options: WriteOptions = {}): Iterable<WrittenFile> {
  const style = styleOf(options);
  return profile === 'issue-mets' ? writeIssueMets(plan, style) : writePageMods(plan, style);
}
