import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { newest } from '../../dossier/journal.js';
import { ACCOUNT_FILE } from '../../dossier/places.js';
import type { Surroundings } from '../surroundings.js';
import { type OpenDossier, openDossier } from './open.js';
import { putIn, sourceIn } from './write.js';

const CHAIN = /^(?:invoices|decisions)\/[^/]+\/account\.json$/;

/** The account as the last invoice or decision left it; null before the first. Each stands beside what made it, so that it can be made again. */
export function lastAccount({ journal }: Pick<OpenDossier, 'journal'>): string | null {
  const known = newest(journal);
  return journal.findLast(({ line }) => line !== null && CHAIN.test(line.name) && known.has(line.name))?.line?.name ?? null;
}

/** Keeps the account of the order where people look for it. */
export async function copyAccount(root: string, name: string, around: Surroundings): Promise<void> {
  const dossier = await openDossier(root);
  if (newest(dossier.journal).get(name) === undefined) return;
  const content = await readFile(join(root, name), 'utf8');
  await putIn(root, [{ folder: '', files: [{ name: ACCOUNT_FILE, content }], from: [sourceIn(dossier, name)], over: true }], around);
}
