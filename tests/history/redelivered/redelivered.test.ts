import { expect, it } from 'vitest';
import type { Expected } from '../../forge/faults/index.js';
import { isAbout, type Redelivered, redelivered, shown } from './order.js';

/** The whole count, 300, takes a while and stands with the slow tests. */
const DELIVERIES = Number(process.env['DELIVERIES'] ?? '16');

/** What is said falsely of the second delivery, held against what was planted and what was mended: an account that knows nothing of ids or of the comparison. */
function falseWords({ seed, way, planted, mended, fresh, first, second }: Redelivered): readonly string[] {
  const still = planted.filter(({ kind }) => !mended.has(kind));
  const where = `seed ${String(seed)}, ${way}, mended ${[...mended].join(', ')}, fresh ${fresh ?? '-'}`;
  const named = (list: readonly Expected[]): string => list.map(({ kind, code, at }) => `${kind} (${code} at ${at ?? '-'})`).join(', ');
  const corrected = second.corrected.filter((finding) => still.some((one) => isAbout(finding, one)));
  const fresher = fresh === null ? second.findings.filter(({ status }) => status === 'new') : [];
  const lost = first.findings.filter(
    ({ id }) => ![...second.findings, ...second.corrected, ...(second.pending ?? [])].some((finding) => finding.id === id),
  );
  const staying = still.filter((one) => first.findings.some((finding) => isAbout(finding, one)));
  const forgotten = staying.filter(
    (one) => ![...second.findings, ...(second.pending ?? [])].some((finding) => finding.status !== 'new' && isAbout(finding, one)),
  );
  return [
    ...(corrected.length === 0 ? [] : [`${where}: corrected, and still there: ${shown(corrected)}`]),
    ...(fresher.length === 0
      ? []
      : [`${where}: new, and nothing is: ${shown(fresher)}; planted ${named(planted)}; first ${shown(first.findings)}`]),
    ...(lost.length === 0 ? [] : [`${where}: neither open nor corrected nor unsure: ${shown(lost)}`]),
    ...(forgotten.length === 0 ? [] : [`${where}: not told as open: ${named(forgotten)}; second ${shown(second.findings)}`]),
  ];
}

it(`second deliveries, single documents replaced alone included: nothing is falsely corrected, nothing falsely new (${String(DELIVERIES)} of them)`, {
  timeout: 3_600_000,
}, async () => {
  const said: string[] = [];
  const made = { all: 0, alone: 0, mended: 0, fresh: 0 };
  for (let seed = 1; made.all < DELIVERIES; seed += 1) {
    const one = await redelivered(seed);
    if (one === null) continue;
    made.all += 1;
    if (one.way === 'documents alone') {
      made.alone += 1;
      expect(one.sent).toBeLessThan(one.files);
    }
    if (one.mended.size > 0) made.mended += 1;
    if (one.fresh !== null) made.fresh += 1;
    said.push(...falseWords(one));
  }
  expect(said).toEqual([]);
  // each kind of order was there
  for (const count of [made.alone, made.mended]) expect(count).toBeGreaterThan(DELIVERIES / 5);
  expect(made.fresh).toBeGreaterThan(0);
});
