import { join } from 'node:path';
import { lastAccount } from './account.js';
import { openDossier } from './open.js';

/** The files of a dossier from which a ledger is told: the newest result of each delivery, its judged samples, its last decision, and the last account. Throws UserMistake. */
export async function ledgerFilesIn(root: string): Promise<readonly string[]> {
  const dossier = await openDossier(root);
  const account = lastAccount(dossier);
  const files = dossier.layout.deliveries.flatMap(({ runs, draws, decisions }) => [
    ...runs.slice(-1).map(({ folder }) => `${folder}/findings.json`),
    ...draws.filter(({ judged }) => judged).map(({ folder }) => `${folder}/sample.json`),
    ...decisions.slice(-1).map((folder) => `${folder}/decision.json`),
  ]);
  return [...files, ...(account === null ? [] : [account])].map((name) => join(root, name));
}
