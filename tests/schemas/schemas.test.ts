import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { formatOf, type JsonKind, kindNames, schemaCheck } from '../../src/read/schemas.js';
import { EXAMPLE } from '../report/example.js';

type Schema = Readonly<Record<string, unknown>>;

const root = fileURLToPath(new URL('../..', import.meta.url));
const files = readdirSync(`${root}/schemas`).filter((name) => name.endsWith('.schema.json'));
const schemas = files.map((file) => ({ file, schema: JSON.parse(readFileSync(`${root}/schemas/${file}`, 'utf8')) as Schema }));

/** Every schema inside a schema, with the path to it. */
function* inside(schema: unknown, path: string): Generator<{ readonly path: string; readonly part: Schema }> {
  if (typeof schema !== 'object' || schema === null) return;
  if (!Array.isArray(schema)) yield { path, part: schema as Schema };
  for (const [key, value] of Object.entries(schema)) yield* inside(value, `${path}/${key}`);
}

describe('the published schemas', () => {
  it('take only a day of the calendar for one with which days are counted', () => {
    const isResult = (run: object): boolean => schemaCheck('findings', false)({ ...EXAMPLE, run: { ...EXAMPLE.run, ...run } });
    expect([isResult({}), isResult({ received: null }), isResult({ received: '2031-02-28', reviewDay: '2031-03-21' })]).toEqual([
      true,
      true,
      true,
    ]);
    for (const wrong of ['10 January', '2031-02-29', '2031-02-28T09:00:00Z', ''])
      expect([isResult({ received: wrong }), isResult({ reviewDay: wrong })]).toEqual([false, false]);
  });

  it('stand there for every kind of file that is read', () => {
    expect(files).toEqual(expect.arrayContaining(Object.keys(kindNames).map((kind) => `${kind}.schema.json`)));
  });

  // The check of JSON Schema itself: its own meta-schema, draft 2020-12, as shipped with ajv.
  it.each(schemas)('$file is a schema of draft 2020-12', ({ schema }) => {
    const ajv = new Ajv2020({ strict: true });
    expect(schema['$schema']).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(ajv.validateSchema(schema)).toBe(true);
  });

  it.each(schemas)('$file carries its name and version', ({ file, schema }) => {
    const name = file.replace('.schema.json', '');
    const [, version] = /^https:\/\/reeltally\.example\/schemas\/[\w-]+\/(\d+)$/.exec(String(schema['$id'])) ?? [];
    expect(schema['$id']).toBe(`https://reeltally.example/schemas/${name}/${version ?? ''}`);
    expect((schema['properties'] as Record<string, Schema>)['format']?.['const']).toBe(`reeltally/${name}/${version ?? ''}`);
  });

  it.each(schemas)('$file describes every field and lets no other in', ({ schema }) => {
    const gaps: string[] = [];
    for (const { path, part } of inside(schema, '')) {
      const { properties } = part;
      if (part['type'] !== 'object' || path.endsWith('/properties')) continue;
      if (properties === undefined ? part['additionalProperties'] === undefined : part['additionalProperties'] !== false)
        gaps.push(`${path}: open`);
      for (const [name, field] of Object.entries((properties ?? {}) as Record<string, Schema>)) {
        const pointsToField = typeof field['$ref'] === 'string' && field['$ref'].includes('/properties/');
        if (typeof field['description'] !== 'string' && !pointsToField) gaps.push(`${path}/${name}: no description`);
      }
    }
    expect(gaps).toEqual([]);
  });

  it.each(schemas)('$file keeps to the parts of JSON Schema that checkers agree on', ({ schema }) => {
    const used = [...inside(schema, '')].flatMap(({ part }) => Object.keys(part));
    for (const keyword of ['$dynamicRef', '$dynamicAnchor', 'unevaluatedProperties', 'unevaluatedItems', 'default'])
      expect(used).not.toContain(keyword);
  });

  it.each(Object.keys(kindNames) as JsonKind[])('%s can be used for checking, with references to the other files', (kind) => {
    for (const every of [true, false]) {
      const check = schemaCheck(kind, every);
      expect(check({ format: formatOf(kind), surplus: 1 })).toBe(false);
      expect(check([])).toBe(false);
    }
  });

  it('are what the types were made from', () => {
    expect(() =>
      execFileSync(process.execPath, ['.config/scripts/generate-types.mjs', '--check'], { cwd: root, stdio: 'pipe' }),
    ).not.toThrow();
  });
});
