import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import * as surface from '../../src/index.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

interface PackageFile {
  readonly exports: Readonly<Record<string, unknown>>;
  readonly files: readonly string[];
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
}

const manifest = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as PackageFile;

describe('what other programs may use', () => {
  it('is the comparison, the reports and the profiles, and no more', () => {
    expect(Object.keys(surface).sort()).toEqual(['formats', 'profiles', 'render', 'verify']);
    expect(surface.formats.map((format) => format.name)).toContain('json');
    expect(surface.profiles.map((profile) => profile.name)).toEqual(['issue-mets', 'page-mods', 'two-maps', 'linked-maps']);
  });

  it('and the schemas; everything else of the package is private', () => {
    expect(Object.keys(manifest.exports)).toEqual(['.', './schemas/*']);
    expect(manifest.files).toEqual(['dist', '!dist/**/*.map', 'schemas', 'fixtures/demonstration', 'README.md', 'LICENSE']);
  });

  it('rests on packages of one exact version each, and the lock file names no download address', () => {
    const versions = Object.values({ ...manifest.dependencies, ...manifest.devDependencies });
    for (const version of versions) expect(version).toMatch(/^\d+\.\d+\.\d+$/);
    expect(readFileSync(`${root}package-lock.json`, 'utf8')).not.toContain('"resolved"');
  });
});
