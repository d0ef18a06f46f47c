import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { workFolder } from './copy.js';
import { astonishing } from './not-yet.js';
import { shapes } from './shapes.js';
import { tried } from './trial.js';

const work = workFolder();
afterAll(() => {
  rmSync(work, { recursive: true });
});

describe('returns in the shapes in which they are published', () => {
  it.each(shapes().map((shape) => [shape.name, shape] as const))(
    '%s: accepted as sent, and told truly and once in every way in which it is spoilt',
    async (_, shape) => {
      expect(astonishing(await tried(shape, work))).toEqual([]);
    },
    180_000,
  );
});
