import { CHOICE } from './choice.js';
import { DATES } from './dates.js';
import { EDITIONS } from './editions.js';
import { GAPS } from './gaps.js';
import { HALVES } from './halves.js';
import { IN_DOUBT } from './in-doubt.js';
import { OVERLAPS } from './overlap.js';
import { REELS } from './reels.js';
import { RESERVE } from './reserve.js';
import type { Scenario } from './scenario.js';
import { SEQUENCE } from './sequence.js';
import { TAKES } from './takes.js';

export { batchBefore, halvesOf, type Scenario, type StatedFinding, type StatedResult } from './scenario.js';

/** Every situation written by hand. */
export const SCENARIOS: readonly Scenario[] = [
  ...SEQUENCE,
  ...TAKES,
  ...REELS,
  ...HALVES,
  ...DATES,
  ...GAPS,
  ...EDITIONS,
  ...CHOICE,
  ...OVERLAPS,
  ...RESERVE,
  ...IN_DOUBT,
];
