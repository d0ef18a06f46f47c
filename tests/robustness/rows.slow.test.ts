import { describe, it } from 'vitest';
import { hold } from './hold.js';
import { ROWS } from './rows.js';

describe('what is very large ends as the table says', () => {
  for (const row of ROWS) if (row.slow === true) it(`${row.code} ${row.name}`, async () => hold(row), 120_000);
});
