import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { importsOf } from './import-law.js';

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
