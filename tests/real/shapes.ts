import { cpSync, existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { TriedReturn } from './trial.js';

const ROOT = fileURLToPath(new URL('../../fixtures/shapes', import.meta.url));

/** The returns written by hand in the shapes in which they are published. */
export function shapes(): TriedReturn[] {
  return readdirSync(ROOT)
    .sort()
    .filter((name) => existsSync(join(ROOT, name, 'record')))
    .map((name) => ({
      name,
      folder: join(ROOT, name, 'return'),
      profile: ownProfile(join(ROOT, name)),
      editionInFolder: name !== 'linked-structure-maps',
      alsoWithFixity: [],
      writeRecord: (to) => cpSync(join(ROOT, name, 'record'), to, { recursive: true }),
    }));
}

/** The profile that a fixture brings with it, null where its layout is one that is built in. */
export function ownProfile(folder: string): string | null {
  const path = join(folder, 'profile.json');
  return existsSync(path) ? path : null;
}

/** The profile that the fixture of a shape brings with it; published returns of the same shape are read with it too. */
export function profileOfShape(name: string): string | null {
  return ownProfile(join(ROOT, name));
}
