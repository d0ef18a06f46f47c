import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { newFolder } from '../cli/command.js';

/** A new folder with these files, by their paths in it. */
export function batchWith(files: Readonly<Record<string, string | Buffer>>): string {
  const folder = newFolder();
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}
