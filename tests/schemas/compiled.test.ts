import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020, type ErrorObject } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type JsonKind, kindNames, schemaCheck } from '../../src/read/schemas.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const json = (path: string): unknown => JSON.parse(readFileSync(`${root}${path}`, 'utf8'));
const kinds = Object.keys(kindNames) as JsonKind[];

/** What ajv itself says, which makes its check while it runs. */
function byAjv(every: boolean): (kind: JsonKind, value: unknown) => readonly string[] {
  const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, ownProperties: true, allErrors: every, verbose: true });
  formats.default(ajv, ['date']);
  const ids = new Map(
    kinds.map((kind) => {
      const schema = json(`schemas/${kind}.schema.json`) as { readonly $id: string };
      ajv.addSchema(schema);
      return [kind, schema.$id];
    }),
  );
  return (kind, value) => {
    const check = ajv.getSchema(ids.get(kind) ?? '');
    if (check === undefined) throw new Error(kind);
    return check(value) === true ? [] : (check.errors ?? []).map(inShort);
  };
}

function inShort({ instancePath, keyword, params, data, parentSchema }: ErrorObject): string {
  return JSON.stringify([instancePath, keyword, params, data, parentSchema?.['description']]);
}

function byBuild(every: boolean): (kind: JsonKind, value: unknown) => readonly string[] {
  return (kind, value) => {
    const check = schemaCheck(kind, every);
    return check(value) ? [] : (check.errors ?? []).map(inShort);
  };
}

/** The value with what stands at one place of it exchanged: `steps` choose the way down. */
function spoilt(value: unknown, steps: readonly number[], by: unknown): unknown {
  if (typeof value !== 'object' || value === null || steps.length === 0) return by;
  const keys = Object.keys(value);
  const key = keys[(steps[0] ?? 0) % Math.max(1, keys.length)] ?? 'new';
  const copy: Record<string, unknown> | unknown[] = Array.isArray(value) ? [...(value as unknown[])] : { ...value };
  Reflect.set(copy, key, spoilt(Reflect.get(value, key), steps.slice(1), by));
  return copy;
}

describe('the checks made when the program is built', () => {
  const documents: readonly (readonly [JsonKind, unknown])[] = [
    ['agreement', json('fixtures/demonstration/agreement.json')],
    ['findings', json('reports/findings.json')],
  ];
  const strange = fc.constantFrom<unknown>(null, 0, -1, 1.5, '', '1888-02-30', '1888-02-29', 'toString', [], {}, { toString: 1 }, true);

  it.each([true, false])('say of spoilt documents what ajv says (every error: %s)', (every) => {
    const [ajv, build] = [byAjv(every), byBuild(every)];
    for (const [kind, document] of documents) {
      expect(build(kind, document)).toEqual([]);
      fc.assert(
        fc.property(fc.array(fc.nat(), { maxLength: 7 }), strange, (steps, by) => {
          const value = spoilt(document, steps, by);
          expect(build(kind, value)).toEqual(ajv(kind, value));
        }),
        { numRuns: 150, seed: 1907 },
      );
    }
  });

  it('say of strange values what ajv says, for every kind', () => {
    const [ajv, build] = [byAjv(true), byBuild(true)];
    for (const kind of kinds)
      for (const value of [null, [], {}, { format: 'reeltally/agreement/2' }, { format: 1, surplus: {} }])
        expect(build(kind, value)).toEqual(ajv(kind, value));
  });
});
