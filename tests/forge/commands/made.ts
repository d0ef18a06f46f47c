import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The root of the project. */
const ROOT = fileURLToPath(new URL('../../..', import.meta.url));

/** Files by their path below the root of the project. */
export type Made = ReadonlyMap<string, string | Buffer>;

/** The lines of a file of the project, none where it is not there. */
export function linesOf(path: string): readonly string[] {
  const file = join(ROOT, path);
  return existsSync(file)
    ? readFileSync(file, 'utf8')
        .split('\n')
        .filter((line) => line !== '')
    : [];
}

/** Paths of all files in a folder of the project, at any depth. */
export function filesIn(folder: string): readonly string[] {
  if (!existsSync(join(ROOT, folder))) return [];
  return readdirSync(join(ROOT, folder)).flatMap((name) => {
    const path = join(folder, name);
    return statSync(join(ROOT, path)).isDirectory() ? filesIn(path) : [path];
  });
}

/**
 * Makes `folders` hold `made` and nothing else; what lies elsewhere is not touched. With --check on the command line it writes nothing, and ends
 * in 1 where something is not as it would be made.
 */
export function keep(what: string, made: Made, folders: readonly string[]): void {
  const surplus = folders.flatMap(filesIn).filter((path) => !made.has(path));
  const stale = [...made].filter(
    ([path, content]) => !existsSync(join(ROOT, path)) || !Buffer.from(content).equals(readFileSync(join(ROOT, path))),
  );
  if (process.argv.includes('--check')) {
    const first = surplus[0] ?? stale[0]?.[0];
    if (first === undefined) return;
    process.stderr.write(`${what} out of date (${surplus.length + stale.length} files, first ${first}): run \`npm run generate\`.\n`);
    process.exitCode = 1;
    return;
  }
  for (const path of surplus) rmSync(join(ROOT, path));
  for (const folder of folders) if (filesIn(folder).length === 0) rmSync(join(ROOT, folder), { recursive: true, force: true });
  for (const [path, content] of stale) {
    mkdirSync(dirname(join(ROOT, path)), { recursive: true });
    writeFileSync(join(ROOT, path), content);
  }
}

/** A value as the files of the project hold it. */
export const json = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`;
