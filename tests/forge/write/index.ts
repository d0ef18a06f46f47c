import type { ReturnPlan } from '../plan.js';
import type { WrittenFile } from './files.js';
import { writeIssueMets } from './mets/index.js';
import { writePageMods } from './mods/index.js';
import { styleOf, type WriteOptions } from './style.js';
import { wrapped } from './wrapping.js';

export type { WrittenFile } from './files.js';
export { drawnStyle, SPELLINGS, type WriteOptions } from './style.js';

/** The two layouts that are written. */
export type WriteProfile = 'issue-mets' | 'page-mods';

/** The return as files, one after the other; paths are relative to the batch folder. */
export function writeReturn(plan: ReturnPlan, profile: WriteProfile, options: WriteOptions = {}): Iterable<WrittenFile> {
  const style = styleOf(options);
  return wrapped(profile === 'issue-mets' ? writeIssueMets(plan, style) : writePageMods(plan, style), style);
}

/** The name of the folder in which those files lie. */
export function folderName(plan: ReturnPlan, options: WriteOptions = {}): string {
  return options.folder === 'versioned' ? `${plan.batch}_ver01` : plan.batch;
}
