// Laid under each test file by the runner of mutants: keeps which watched places the file has come by.
import { appendFileSync } from 'node:fs';
import { afterAll } from 'vitest';

const reached = new Set<string>();
Object.assign(globalThis, { __reached: (place: string) => void reached.add(place) });

afterAll(() => {
  const notes = process.env.REELTALLY_REACHED;
  if (notes !== undefined && reached.size > 0) appendFileSync(notes, `${[...reached].join('\n')}\n`);
});
