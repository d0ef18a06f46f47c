// Laid under each test file by the runner of mutants: keeps which mutations each test could notice.
import { appendFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import { afterAll, afterEach, beforeEach } from 'vitest';
import type { Watch } from './watched.js';

/** So many lists and objects of one probe are looked through; whoever comes by more often is taken to notice. */
const MOST_LOOKS = 500;

const notes = process.env.REELTALLY_REACHED;
/** What was noted since the test began, by the number of the mutant. */
let seen = new Set<number>();
/** What was noted outside of any test, which counts for the whole file. */
const always = new Set<number>();
const left: string[] = [];
let since = 0;
let isLooking = false;
let looks: number[] = [];

function differs(value: unknown, gives: () => unknown, probe: number): boolean {
  try {
    const other = gives();
    if (Object.is(value, other)) return false;
    if (typeof value !== 'object' || typeof other !== 'object' || value === null || other === null) return true;
    looks[probe] = (looks[probe] ?? 0) + 1;
    return looks[probe] > MOST_LOOKS || !isDeepStrictEqual(value, other);
  } catch {
    return true;
  }
}

const watch: Watch & { isSettled: boolean[] } = {
  values: [],
  isSettled: [],
  reached: (probe, mutants) => {
    if (isLooking) return;
    watch.isSettled[probe] = true;
    for (const mutant of mutants) seen.add(mutant);
  },
  looked: (probe, value, others) => {
    if (isLooking) return value;
    isLooking = true;
    const open = others().filter(([mutant]) => !seen.has(mutant));
    const noticed = open.filter(([, gives]) => differs(value, gives, probe));
    for (const [mutant] of noticed) seen.add(mutant);
    if (noticed.length === open.length) watch.isSettled[probe] = true;
    isLooking = false;
    return value;
  },
};
Object.assign(globalThis, { __watch: watch });

/** What was noted so far belongs to whom it is kept for; everything is to be looked at again. */
function keep(test: string): void {
  const fresh = [...seen].filter((mutant) => !always.has(mutant));
  if (fresh.length > 0) left.push(JSON.stringify([test, Math.ceil(performance.now() - since), fresh]));
  if (test === '') for (const mutant of fresh) always.add(mutant);
  seen = new Set();
  looks = [];
  watch.isSettled.length = 0;
}

if (notes !== undefined) {
  since = performance.now();
  beforeEach(() => {
    keep('');
    since = performance.now();
  });
  afterEach(({ task }) => {
    keep(task.id);
    since = performance.now();
  });
  afterAll(() => {
    keep('');
    if (left.length > 0) appendFileSync(notes, `${left.join('\n')}\n`);
  });
}
