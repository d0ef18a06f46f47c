import { cp, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Findings } from '../model/findings.js';
import { UserMistake } from '../read/mistake.js';
import { FORMATS } from '../report/index.js';
import { makeFolder } from './outputs/make-folder.js';
import { refuseInReturn } from './outputs/outside-batch.js';
import { resultFiles } from './outputs/result-files.js';
import { writeResults } from './outputs/results-folder.js';
import { systemReason } from './outputs/system-reason.js';
import type { Surroundings } from './surroundings.js';
import { verification } from './verify.js';

/** Everything that the demonstration makes in its folder, and all that making it again removes from it. */
const PARTS: readonly string[] = ['agreement.json', 'record', 'return', 'results'];

/** The folder of the batch in the return. */
const BATCH = 'batch_vzx_tolmouth';

/** Where the demonstration stands, and what its verification said. */
export interface Demonstration {
  readonly record: string;
  readonly agreement: string;
  readonly batch: string;
  readonly result: Findings;
}

/** Writes the invented record and return, which lie in the package, into a folder, verifies the one against the other and writes the reports. Throws UserMistake. */
export async function demonstration(folder: string, replace: boolean, around: Surroundings): Promise<Demonstration> {
  await clear(folder, replace);
  await copy(folder);
  const [record, agreement, batch, results] = [
    join(folder, 'record'),
    join(folder, 'agreement.json'),
    join(folder, 'return', BATCH),
    join(folder, 'results'),
  ];
  const result = await verification({ collation: [record], agreement, batch: [batch] }, around);
  await writeResults(
    results,
    await resultFiles(
      result,
      FORMATS.map(({ name }) => name),
      {},
      [],
    ),
    false,
  );
  return { record, agreement, batch, result };
}

/** Makes sure that the folder is new or empty; with `replace`, removes an earlier demonstration, and nothing else, from it. */
async function clear(folder: string, replace: boolean): Promise<void> {
  await refuseInReturn(folder);
  const present = await readdir(folder).catch((error: unknown): readonly string[] => {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
    throw new UserMistake(`The demonstration cannot be written to ${folder}: ${systemReason(error)}.`);
  });
  const strange = present.filter((name) => !PARTS.includes(name));
  if (strange.length > 0) {
    throw new UserMistake(`${folder} holds other things (${strange.slice(0, 5).join(', ')}). Name a new folder: reeltally demo FOLDER.`);
  }
  if (present.length > 0 && !replace) {
    throw new UserMistake(`${folder} already holds a demonstration. Name a new folder, or give --replace to make it again there.`);
  }
  for (const name of present) await rm(join(folder, name), { recursive: true });
}

/** Writes the files of the demonstration, which lie in the package, into the folder. */
async function copy(folder: string): Promise<void> {
  try {
    await makeFolder(folder);
    await cp(fileURLToPath(new URL('../../fixtures/demonstration', import.meta.url)), folder, { recursive: true });
  } catch (error) {
    throw new UserMistake(`The demonstration could not be written: ${systemReason(error)}.`);
  }
}
