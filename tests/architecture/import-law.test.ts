import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { breaches, forgeBreaches, hasTypesOnly, importsOf, law, linesWithAny, outsideWorld, roomOf } from './import-law.js';

const src = fileURLToPath(new URL('../../src', import.meta.url));
const tests = fileURLToPath(new URL('..', import.meta.url));
const files = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => path.endsWith('.ts'))
  .sort()
  .map((path) => ({ path, source: readFileSync(`${src}/${path}`, 'utf8') }));

describe('the rooms of src', () => {
  it('reads every source file', () => {
    expect(files.length).toBeGreaterThan(10);
    expect(files.map((file) => file.path)).toContain('model/film.ts');
  });

  it('import only what the table allows', () => {
    expect(files.flatMap(({ path, source }) => breaches(path, source))).toEqual([]);
  });

  it('leave src/model with types only', () => {
    expect(files.filter(({ path, source }) => roomOf(path) === 'model' && !hasTypesOnly(source)).map((file) => file.path)).toEqual([]);
  });

  it('hold no any and tell the compiler nothing to ignore', () => {
    expect(files.flatMap(({ path, source }) => linesWithAny(source).map((line) => `${path}:${line}`))).toEqual([]);
  });

  it('write one apostrophe in their own words: what is read may have either', () => {
    const curled = files.filter(({ path }) => roomOf(path) !== 'reading' && !path.endsWith('embedded.ts'));
    const word = /\p{L}(?:’|\\u2019)(?:\p{L}|\s)/u;
    expect(word.test('the vendor’s') && word.test('the vendor\\u2019s')).toBe(true);
    expect(curled.filter(({ source }) => word.test(source)).map(({ path }) => path)).toEqual([]);
  });

  it('keep the console, the clock and chance out of every room but cli', () => {
    // What runs in the reader's browser runs when the report is read, not when it is made.
    // What draws pictures is a process of its own.
    const silent = files.filter(
      ({ path }) => roomOf(path) !== 'cli' && !path.startsWith('report/html/client/') && path !== 'pictures/child.ts',
    );
    expect(silent.flatMap(({ path, source }) => outsideWorld(source).map((name) => `${path}: ${name}`))).toEqual([]);
  });

  it('stand in DEVELOPERS.md as they do in the table', () => {
    const text = readFileSync(fileURLToPath(new URL('../../DEVELOPERS.md', import.meta.url)), 'utf8');
    const block = text.slice(text.indexOf('<!-- rooms -->'), text.indexOf('<!-- end rooms -->'));
    const names = (cell: string | undefined): readonly string[] => (cell === '–' ? [] : (cell ?? '').split(', '));
    const rows = [...block.matchAll(/^\| `([^`]+)` \| [^|]+ \| ([^|]+) \| ([^|]+) \|$/gm)];
    const written = Object.fromEntries(
      rows.map(([, room, rooms, packages]) => [room ?? '', { rooms: names(rooms), packages: names(packages) }] as const),
    );
    expect(written).toEqual(law);
  });

  it('share nothing with the forge but the types of model', () => {
    const forge = readdirSync(`${tests}/forge`, { recursive: true, encoding: 'utf8' })
      .map((path) => path.replaceAll('\\', '/'))
      .filter((path) => path.endsWith('.ts') && !path.endsWith('.test.ts') && !path.startsWith('commands/'));
    expect(forge).toContain('write/index.ts');
    expect(forge.flatMap((path) => forgeBreaches(`forge/${path}`, readFileSync(`${tests}/forge/${path}`, 'utf8')))).toEqual([]);
  });
});

describe('planted violations are caught', () => {
  const planted: readonly (readonly [string, string, string])[] = [
    ['align/index.ts', "import { policies } from '../catalogue/agreement.js';", 'align/index.ts: align may not import catalogue'],
    ['align/index.ts', "import type { Finding } from '../explain/index.js';", 'align/index.ts: align may not import explain'],
    ['compare/frames.ts', "export { x } from '../explain/index.js';", 'compare/frames.ts: compare may not import explain'],
    ['read/layouts/one.ts', "const x = await import('../../normalise/labels.js');", 'read/layouts/one.ts: read may not import normalise'],
    ['report/text.ts', "import { readFileSync } from 'node:fs';", 'report/text.ts: report may not import node:fs'],
    ['report/text.ts', "import { readFile } from 'node:fs/promises';", 'report/text.ts: report may not import node:fs'],
    ['judge/verdict.ts', "const fs = require('fs');", 'judge/verdict.ts: judge may not import fs'],
    ['explain/a.ts', "export type T = import('../report/text.js').T;", 'explain/a.ts: explain may not import report'],
    ['verify.ts', "import { text } from './report/text.js';", 'verify.ts: verify.ts may not import report'],
    ['verify.ts', "import { readBatch } from './read/batch.js';", 'verify.ts: verify.ts may not import read'],
    ['acts/verify.ts', "import { tell } from '../cli/streams.js';", 'acts/verify.ts: acts may not import cli'],
    ['acts/verify.ts', "import { Command } from 'commander';", 'acts/verify.ts: acts may not import commander'],
    ['model/film.ts', "import type { X } from '../../tests/x.js';", 'model/film.ts: ../../tests/x.js leaves src'],
    ['calendar/civil.ts', "import lodash from 'lodash';", 'calendar/civil.ts: calendar may not import lodash'],
    ['drawer/x.ts', 'export const x = 1;', 'drawer/x.ts: drawer is no room of the table'],
    ['read/x.ts', 'const x = await import(name);', 'read/x.ts: read may not import (computed)'],
  ];
  it.each(planted)('%s: %s', (path, source, sentence) => {
    expect(breaches(path, source)).toEqual([sentence]);
  });

  it('but what the table allows is let through', () => {
    expect(
      breaches(
        'read/csv.ts',
        "import { parse } from 'csv-parse/sync';\nimport { x } from './x.js';\nimport type { F } from '../model/film.js';",
      ),
    ).toEqual([]);
    expect(breaches('cli/main.ts', "import fs from 'node:fs/promises';\nimport { verify } from '../verify.js';")).toEqual([]);
  });

  it('a writer of the forge that uses what it is there to test', () => {
    const source = "import { PROFILES } from '../../../src/profiles/index.js';\nimport type { Side } from '../../../src/model/film.js';";
    expect(forgeBreaches('forge/write/mods.ts', source)).toEqual([
      'forge/write/mods.ts: the forge may not import ../../../src/profiles/index.js',
    ]);
    expect(forgeBreaches('forge/plan.ts', "import { sides } from '../support/sides.js';")).toEqual([
      'forge/plan.ts: the forge may not import ../support/sides.js',
    ]);
  });

  it('code in a file of types', () => {
    expect(hasTypesOnly("import type { A } from './a.js';\nexport interface B extends A { readonly c: 1 }\nexport type D = B['c'];")).toBe(
      true,
    );
    expect(hasTypesOnly('export const one = 1;')).toBe(false);
    expect(hasTypesOnly("import { A } from './a.js';\nexport type B = A;")).toBe(false);
    expect(hasTypesOnly('export enum Side { Left }')).toBe(false);
    expect(hasTypesOnly("export { x } from './x.js';")).toBe(false);
  });

  it('any, in each place it can be written', () => {
    expect(
      linesWithAny('const x: any = 1;\nconst y = 1 as any;\ntype Z = Record<string, any>;\n// @ts-ignore\nconst company = "any";'),
    ).toEqual([1, 2, 3, 4]);
  });

  it('the outside world', () => {
    expect(outsideWorld('console.log(1); const t = Date.now(); new Date(); Math.random(); process.env;')).toEqual([
      'console',
      'Date',
      'Date',
      'Math.random',
      'process',
    ]);
    expect(outsideWorld('export interface P { readonly process: string }\nconst q = { console: 1 }; q.console;')).toEqual([]);
  });

  it('reads imports of every form', () => {
    const source =
      "import a from 'a';\nimport 'b';\nimport type { C } from 'c';\nexport * from 'd';\ntype E = import('e').E;\nawait import('f');";
    expect(importsOf('x.ts', source)).toEqual(['a', 'b', 'c', 'd', 'e', 'f']);
  });
});
