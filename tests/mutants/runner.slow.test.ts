import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tryMutants } from './trial.js';

/** A small project whose mutants are known: what is noticed, what is not, what is the same wherever a test comes by, what never ends, what does not compile. */
const FILES = {
  'tsconfig.json':
    '{ "compilerOptions": { "target": "es2022", "lib": ["es2023"], "module": "nodenext", "strict": true, "types": [] }, "include": ["src"] }',
  'vitest.config.mjs': "export default { test: { include: ['tests/**/*.test.ts'] } };",
  'src/room/held.ts': 'export const isSmall = (n: number): boolean => n < 3;\n',
  'src/room/loose.ts': 'export const isLarge = (n: number): boolean => n > 3;\n',
  'src/room/idle.ts': 'export const never = (n: number): number => n - n;\n',
  'src/room/typed.ts': "export const side: 'left' = 'left';\n",
  'src/room/loop.ts': 'export function half(n: number): number {\n  let left = n;\n  while (left > 1) left -= 2;\n  return left;\n}\n',
  'tests/held.test.ts':
    "import { expect, it } from 'vitest';\nimport { isSmall } from '../src/room/held.js';\nit('is', () => expect([2, 3, 4].map(isSmall)).toEqual([true, false, false]));\n",
  'tests/loose.test.ts':
    "import { expect, it } from 'vitest';\nimport { isLarge } from '../src/room/loose.js';\nimport { never } from '../src/room/idle.js';\nit('is', () => expect([isLarge(5), typeof never]).toEqual([true, 'function']));\n",
  'tests/loop.test.ts':
    "import { expect, it } from 'vitest';\nimport { half } from '../src/room/loop.js';\nit('is', () => expect(half(5)).toBe(1));\n",
  'tests/typed.test.ts': "import { it } from 'vitest';\nimport { side } from '../src/room/typed.js';\nit('is', () => void side);\n",
  'tests/broken.test.ts':
    "import { it } from 'vitest';\nimport { isLarge } from '../src/room/loose.js';\nit('is', () => { throw new Error(String(isLarge(1))); });\n",
};

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'reeltally-mutants-test-'));
  for (const [name, text] of Object.entries(FILES)) {
    mkdirSync(dirname(join(root, name)), { recursive: true });
    writeFileSync(join(root, name), text);
  }
  symlinkSync(fileURLToPath(new URL('../../node_modules', import.meta.url)), join(root, 'node_modules'));
});
afterAll(() => {
  rmSync(root, { recursive: true });
});

describe('the runner of mutants', () => {
  it('tells of each mutant what became of it, and heeds neither a test that fails anyway nor a mutant that does not compile', async () => {
    const told: string[] = [];
    const trial = {
      root,
      compiler: 'tsconfig.json',
      config: 'vitest.config.mjs',
      sources: ['src/room'],
      tests: ['tests'],
      sample: 100,
      seed: 1,
      seconds: 60,
      patience: 8_000,
      cache: join(root, 'cache'),
      isFresh: false,
      tell: (line: string) => void told.push(line),
    };
    const outcome = await tryMutants(trial);
    const fates = outcome.tried.map(
      ({ mutant, fate }) => `${mutant.path.slice(root.length + 10)} ${mutant.was} → ${mutant.becomes}: ${fate}`,
    );
    expect(fates.toSorted()).toEqual(
      [
        'held.ts < → <=: killed',
        'held.ts < → >=: killed',
        'held.ts n < 3 → !(n < 3): killed',
        'held.ts 3 → 4: killed',
        'loose.ts > → >=: same',
        'loose.ts > → <=: killed',
        'loose.ts n > 3 → !(n > 3): killed',
        'loose.ts 3 → 4: same',
        'idle.ts - → +: same',
        'idle.ts n - n → ((n - n) + 1): same',
        'loop.ts > → >=: killed',
        'loop.ts > → <=: killed',
        'loop.ts left > 1 → false: killed',
        'loop.ts 1 → 2: same',
        'loop.ts -= → +=: late',
        'loop.ts 2 → 3: killed',
        'loop.ts left -= 2; → {}: late',
        'loop.ts left → ((left) + 1): killed',
      ].toSorted(),
    );
    expect([outcome.refused, outcome.all]).toEqual([1, fates.length + 1]);
    expect(told.filter((line) => line.includes('broken.test.ts'))).toHaveLength(1);
    // What is known is not looked for again, and nothing is told otherwise; a test that has changed is.
    const again = await tryMutants(trial);
    expect(again.tried.map(({ fate }) => fate)).toEqual(outcome.tried.map(({ fate }) => fate));
    writeFileSync(join(root, 'tests/held.test.ts'), FILES['tests/held.test.ts'].replace('[2, 3, 4]', '[2, 4, 4]'));
    const { tried } = await tryMutants(trial);
    expect(
      tried
        .filter(({ mutant, fate }) => mutant.path.endsWith('held.ts') && (fate === 'survived' || fate === 'same'))
        .map(({ mutant }) => mutant.becomes)
        .toSorted(),
    ).toEqual(['4', '<=']);
  }, 240_000);
});
