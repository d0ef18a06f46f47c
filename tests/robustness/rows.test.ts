import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { hold } from './hold.js';
import { README, readme } from './readme.js';
import { ROWS } from './rows.js';

describe.concurrent('what comes to harm ends as the table says', () => {
  for (const row of ROWS) if (row.slow !== true) it(`${row.code} ${row.name}`, async () => hold(row));
});

describe('the table', () => {
  it('in the README of this folder is that of the tests (npm run generate writes it)', () => {
    expect(readFileSync(README, 'utf8')).toBe(readme());
  });

  it('has no two rows of one name', () => {
    const names = ROWS.map(({ code, name }) => `${code} ${name}`);
    expect(new Set(names).size).toBe(names.length);
  });
});
