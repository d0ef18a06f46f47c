import { describe, it } from 'vitest';

// Every row as a user runs it, those of every day too.
process.env['ROWS'] = 'measured';
const [{ hold }, { ROWS }] = await Promise.all([import('./hold.js'), import('./rows.js')]);

describe('what comes to harm ends as the table says, within what any command may use', () => {
  for (const row of ROWS) it(`${row.code} ${row.name}`, async () => hold(row), 120_000);
});
