import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { quietly } from '../../src/acts/surroundings.js';
import { verification } from '../../src/acts/verify.js';
import type { Findings } from '../../src/model/findings.js';
import { cleanReturn } from '../forge/clean.js';
import { writeFiles } from './on-disk.js';

/** A return without a mistake, its record and its agreement in a folder of their own, verified as the command does it; page text is read in every third. */
export async function verifyClean(
  seed: number,
  root: string,
  keep = false,
): Promise<{ readonly result: Findings; readonly files: number }> {
  const { record, policies, folder, files } = cleanReturn(seed);
  const here = join(root, String(seed));
  const written = writeFiles(join(here, folder), files);
  writeFileSync(join(here, 'record.json'), JSON.stringify(record));
  writeFileSync(join(here, 'agreement.json'), JSON.stringify({ format: 'reeltally/agreement/2', policies }));
  const named = { collation: [join(here, 'record.json')], agreement: join(here, 'agreement.json'), batch: [join(here, folder)] };
  const readText = seed % 3 === 1 ? { readText: true as const } : {};
  const result = await verification({ ...named, ...readText }, quietly('2031-03-04'));
  if (!keep) rmSync(here, { recursive: true });
  return { result, files: written };
}
