import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { importsOf } from './import-law.js';

interface Manifest {
  readonly license?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly optionalDependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
}

interface Lock {
  readonly packages: Readonly<
    Record<string, { readonly license?: string; readonly dev?: boolean; readonly devOptional?: boolean; readonly resolved?: string }>
  >;
}

const json = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const own = json('package.json') as Manifest;
const lock = json('package-lock.json') as Lock;
const named = [own.dependencies, own.optionalDependencies, own.devDependencies].flatMap((one) => Object.keys(one ?? {}));

/** Rows of the table of packages: name, licence, reason. */
const rows = (/[<]!-- packages -->([\s\S]*?)[<]!-- end packages -->/.exec(readFileSync('DEVELOPERS.md', 'utf8'))?.[1] ?? '')
  .split('\n')
  .flatMap((line) => {
    const [, name = '', licence = '', reason = ''] = /^\| `([^`]+)` \| ([^|]+) \| ([^|]+) \|$/.exec(line) ?? [];
    return name === '' ? [] : [{ name, licence: licence.trim(), reason: reason.trim() }];
  });

/** Licence of a package that names none in its manifest, by the first words of its file of licence. */
const fromFile = (name: string): string =>
  readFileSync(`node_modules/${name}/LICENSE`, 'utf8').includes('Permission is hereby granted, free of charge') ? 'MIT' : 'unknown';

/** Licences that may go with a program under the MIT licence (common practice, no source); of the LGPL the library of sharp alone, which is linked and not changed. */
const FREE = new Set(['MIT', 'ISC', '0BSD', 'BSD-3-Clause', 'Apache-2.0', 'Python-2.0']);

const root = fileURLToPath(new URL('../..', import.meta.url));

function importedBelow(folder: string): ReadonlySet<string> {
  const files = readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' }).filter((name) => /\.(?:ts|mjs)$/.test(name));
  return new Set(files.flatMap((name) => importsOf(name, readFileSync(`${root}${folder}/${name}`, 'utf8'))));
}

function uses(imported: ReadonlySet<string>, name: string): boolean {
  return [...imported].some((specifier) => specifier === name || specifier.startsWith(`${name}/`));
}

describe('the packages on which the project is built', () => {
  const program = importedBelow('src');
  const building = importedBelow('.config/scripts');
  const tests = importedBelow('tests');

  it.each(['fast-xml-parser', 'xmlbuilder2', 'date-fns', 'p-limit', 'commander'])('%s is used by the program', (name) => {
    expect(uses(program, name)).toBe(true);
  });

  it('ajv makes the checks of the file formats when the program is built, and vitest runs the tests', () => {
    expect(uses(building, 'ajv')).toBe(true);
    expect(uses(tests, 'vitest')).toBe(true);
  });

  it('hold one general reader of XML beside the own one, and that one a reference in the tests', () => {
    const readers = ['fast-xml-parser', 'saxes', 'sax', '@xmldom/xmldom', 'libxml2-wasm', 'htmlparser2'];
    expect(readers.filter((name) => uses(program, name))).toEqual(['fast-xml-parser']);
    expect(uses(tests, 'saxes') && uses(tests, 'libxml2-wasm')).toBe(true);
  });
});

describe('the packages', () => {
  it('stand in DEVELOPERS.md with their licence and a reason, each once and no other', () => {
    expect(rows.map(({ name }) => name).sort()).toEqual([...named].sort());
    expect(rows.filter(({ reason }) => reason.split(' ').length < 3)).toEqual([]);
    expect(rows.map(({ name, licence }) => [name, licence])).toEqual(
      rows.map(({ name }) => [name, (json(`node_modules/${name}/package.json`) as Manifest).license ?? fromFile(name)]),
    );
  });

  it('that are shipped, with all that they bring, may be passed on', () => {
    const shipped = Object.entries(lock.packages).filter(([path, one]) => path !== '' && one.dev !== true && one.devOptional !== true);
    expect(shipped.length).toBeGreaterThan(20);
    const other = shipped.filter(([path, { license = '' }]) => !FREE.has(license) && !path.startsWith('node_modules/@img/sharp-'));
    expect(other.map(([path, { license }]) => `${path}: ${license ?? ''}`)).toEqual([]);
  });

  it('are locked to what a registry of any address has', () => {
    expect(Object.entries(lock.packages).filter(([, { resolved }]) => resolved?.includes('://') === true)).toEqual([]);
  });
});
