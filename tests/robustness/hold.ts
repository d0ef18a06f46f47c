import { expectEnding } from './limits.js';
import type { Row } from './row.js';

/** Runs a row and holds its ending against what the table says. */
export async function hold(row: Row): Promise<void> {
  const ending = await row.run();
  expectEnding(ending, row);
  await row.holds?.(ending);
}
