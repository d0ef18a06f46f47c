import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { workFolder } from './copy.js';
import { astonishing } from './not-yet.js';
import { PUBLISHED, publishedIn } from './sets.js';
import { tried } from './trial.js';

const work = workFolder();
afterAll(() => {
  rmSync(work, { recursive: true });
});

const returns = publishedIn(PUBLISHED);

describe.skipIf(returns.length === 0)('published returns', () => {
  it.each(returns.map((one) => [one.name, one] as const))(
    '%s: accepted as published, and told truly and once in every way in which it is spoilt',
    async (_, one) => {
      expect(astonishing(await tried(one, work))).toEqual([]);
    },
    300_000,
  );
});
