import { join } from 'node:path';
import type { RunPlace } from '../../../dossier/places.js';
import { verdictOf } from '../../../judge/verdict.js';
import { readJsonFile } from '../../../read/json.js';
import { UserMistake } from '../../../read/mistake.js';
import { programVersion } from '../../program-version.js';
import type { OpenDossier } from '../open.js';
import { broken, type Looked, remark, together } from './outcome.js';

/** Judges the findings of a saved result again, by the agreement in it, and compares the verdict with the one that stands there. */
export async function verdictLooked({ root }: OpenDossier, { folder }: RunPlace, wrong: ReadonlySet<string>): Promise<Looked> {
  const name = `${folder}/findings.json`;
  if (wrong.has(name)) return together([]);
  const result = await readJsonFile(join(root, name), 'findings').then(
    ({ value }) => value,
    (error: unknown) => {
      if (error instanceof UserMistake) return error;
      throw error;
    },
  );
  if (result instanceof UserMistake) return broken([name], `The verdict cannot be given again: ${result.message}`);
  const kinds = result.counts.reels.flatMap((reel) => reel.kinds);
  const pages = kinds.filter(({ kind, deliver }) => kind === 'page' && deliver).reduce((sum, { count }) => sum + count, 0);
  const again = verdictOf(result.findings, result.unchecked, result.agreement, pages);
  const { verdict } = result;
  if (again.decision === verdict.decision && again.reasons.join('\n') === verdict.reasons.join('\n')) return together([]);
  const version = programVersion();
  if (result.tool.version === version)
    return broken(
      [name],
      `${name} has the verdict ${verdict.decision}; its own findings give ${again.decision}: ${again.reasons.join(' ')}`,
    );
  return remark(
    [name],
    `${name} has the verdict ${verdict.decision} by version ${result.tool.version} of the program; version ${version} gives ${again.decision}.`,
  );
}
