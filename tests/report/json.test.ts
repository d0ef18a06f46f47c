import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { render } from '../../src/report/index.js';
import { jsonPieces, jsonText, SHAPES } from '../../src/report/json.js';
import { EXAMPLE } from './example.js';
import { HOSTILE_RESULT, STEERING } from './hostile.js';

const json = async (result: Findings): Promise<string> => String(await render(result, 'json'));

/** The same value with every object's keys turned round. */
function turned(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turned);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, turned(inner)]),
  );
}

/** The keys of every object that a schema describes, in its order. */
function shapesOf(schema: unknown): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const { properties } = schema as { properties?: object };
  const own = properties === undefined || Array.isArray(properties) ? [] : [Object.keys(properties).join(' ')];
  return [...own, ...Object.values(schema).flatMap(shapesOf)];
}

describe('the saved result as JSON', () => {
  it('orders its keys as the published schemas do', () => {
    const known = new Set(SHAPES.map((keys) => keys.join(' ')));
    for (const name of ['findings', 'agreement']) {
      const shapes = shapesOf(JSON.parse(readFileSync(`schemas/${name}.schema.json`, 'utf8')));
      expect(shapes.length).toBeGreaterThan(5);
      expect(shapes.filter((keys) => !known.has(keys))).toEqual([]);
    }
  });

  it('gives back exactly what went in and ends with a line break', async () => {
    const written = await json(EXAMPLE);
    expect(JSON.parse(written)).toEqual(EXAMPLE);
    expect(written.endsWith('}\n')).toBe(true);
  });

  it('has one order of keys, whatever order they came in', async () => {
    expect(await json(turned(EXAMPLE) as Findings)).toBe(await json(EXAMPLE));
    expect(Object.keys(JSON.parse(await json(turned(EXAMPLE) as Findings)) as object)).toEqual([
      'format',
      'tool',
      'run',
      'agreement',
      'verdict',
      'counts',
      'titles',
      'reels',
      'findings',
      'corrected',
      'record',
      'unchecked',
      'catalogue',
    ]);
  });

  it('keeps hostile text whole and harmless', async () => {
    const written = await json(HOSTILE_RESULT);
    expect(JSON.parse(written)).toEqual(HOSTILE_RESULT);
    expect(STEERING.exec(written)).toBeNull();
  });

  it('needs no renderer that does not exist', async () => {
    await expect(render(EXAMPLE, 'pdf' as 'json')).rejects.toThrow('There is no format pdf.');
  });
});

describe('JSON in pieces', () => {
  it('is the same text, whatever the value', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 7 }), (value) => {
        expect([...jsonPieces(value)].join('')).toBe(jsonText(value));
      }),
    );
    const wanting = { a: undefined, b: [{}, [], { c: undefined }], d: { e: 'a\nb\u200b' } };
    expect([...jsonPieces(wanting)].join('')).toBe(jsonText(wanting));
  });

  it('comes in pieces that are short beside the whole', () => {
    const value = { list: Array.from({ length: 20_000 }, (_, at) => ({ at, says: 'x'.repeat(60) })) };
    const pieces = [...jsonPieces(value)];
    expect(pieces.length).toBeGreaterThan(10);
    expect(Math.max(...pieces.map(({ length }) => length))).toBeLessThan(200_000);
    expect(pieces.join('')).toBe(jsonText(value));
  });
});
