import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { WrittenFile } from '../forge/write/index.js';

/** Writes files below a folder, which is made; gives their number. */
export function writeFiles(folder: string, files: Iterable<WrittenFile>): number {
  const made = new Set<string>();
  let count = 0;
  for (const { path, text } of files) {
    const file = join(folder, path);
    if (!made.has(dirname(file))) mkdirSync(dirname(file), { recursive: true });
    made.add(dirname(file));
    writeFileSync(file, text);
    count += 1;
  }
  return count;
}
