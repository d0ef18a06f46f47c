import { cp, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { UserMistake } from '../read/mistake.js';
import { FORMATS, render } from '../report/index.js';
import { deliver } from './deliver.js';
import { coloured, print, tell, widthOf } from './streams.js';
import { systemReason } from './system-reason.js';
import { verification } from './verification.js';

/** Options of `demo` as they come from the command line. */
export interface DemoArguments {
  readonly replace?: true;
  readonly quiet?: true;
}

/** Everything that the demonstration makes in its folder, and all that --replace removes from it. */
const PARTS: readonly string[] = ['agreement.json', 'record', 'return', 'results'];

/** The folder of the batch in the return. */
const BATCH = 'batch_vzx_tolmouth';

/**
 * Writes the invented record and return, which lie in the package, into a folder, verifies the one against the other as `verify` does, prints the summary and
 * writes the reports. Gives 0 when that was done, whatever the verdict.
 */
export async function demoCommand(folder: string, options: DemoArguments): Promise<number> {
  await clear(folder, options.replace ?? false);
  await copy(folder);
  const path = (...names: string[]): string => join(folder, ...names);
  const agreement = path('agreement.json');
  const batch = path('return', BATCH);
  const result = await verification({ collation: [path('record')], agreement, batch: [batch] }, () => undefined);
  await print(await render(result, 'text', { colour: coloured(process.stdout), width: widthOf(process.stdout) }));
  await deliver(result, { formats: FORMATS.map((format) => format.name), folder: path('results'), replace: false, quiet: true });
  if (options.quiet !== true) {
    tell(`\nThe record, the return and these results are in ${folder}. The same again, by hand:\n`);
    tell(`  reeltally verify --collation ${quoted(path('record'))} --agreement ${quoted(agreement)} --batch ${quoted(batch)}\n`);
  }
  return 0;
}

/** A path as a shell takes it. */
const quoted = (path: string): string => (/^[\w./-]+$/.test(path) ? path : `'${path.replaceAll("'", `'\\''`)}'`);

/** Makes sure that the folder is new or empty; with `replace`, removes an earlier demonstration, and nothing else, from it. */
async function clear(folder: string, replace: boolean): Promise<void> {
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
    await cp(fileURLToPath(new URL('../../fixtures/demonstration', import.meta.url)), folder, { recursive: true });
  } catch (error) {
    throw new UserMistake(`The demonstration could not be written: ${systemReason(error)}.`);
  }
}
