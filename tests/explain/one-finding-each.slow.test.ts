import { describe, expect, it } from 'vitest';
import { verifyCase } from '../bench/in-memory.js';
import { judge } from '../bench/judge.js';
import { caseOf, plant } from '../forge/algebra/case.js';
import { filmOf } from '../forge/algebra/draw.js';
import type { Edit } from '../forge/algebra/edit.js';
import { spotsFor } from '../forge/algebra/products.js';

/** One slip on every film of the series that has a place for it, up to twelve: those that are not told as one finding with a right code and side. */
async function toldWrongly(edit: Omit<Edit, 'spot' | 'seed'>): Promise<{ cases: number; wrong: readonly string[] }> {
  const wrong: string[] = [];
  let cases = 0;
  for (let n = 0; n < 48 && cases < 12; n += 1) {
    const scenery = filmOf({ seed: 57, pages: 44 }, n);
    const spots = spotsFor(edit.scope);
    const planted = plant(scenery, { ...edit, spot: spots[n % spots.length] ?? 'all', seed: n });
    if (planted === null || planted.traces.length === 0) continue;
    cases += 1;
    const one = caseOf(scenery, [planted]);
    const { findings } = await verifyCase(one);
    const { met, untrue } = judge(one, findings);
    const right = met.every(({ findings: list, code, side }) => list.length === 1 && code && side) && untrue.length === 0;
    if (!right) wrong.push(`film ${n}: ${findings.findings.map(({ code, cause, says }) => `${code} (${cause}): ${says}`).join(' ')}`);
  }
  return { cases, wrong };
}

// The forge shares nothing with the program but the model's types; each of these was once told as two findings, as another slip, or of the wrong side.
describe('one slip alone is one finding with its own name', () => {
  it.each<[string, Omit<Edit, 'spot' | 'seed'>]>([
    ['the labels of an issue from its last page to its first', { what: 'page', how: 'reversed', scope: 'issue', side: 'return' }],
    [
      'the labels of an issue of the record from its last page to its first',
      { what: 'page', how: 'reversed', scope: 'issue', side: 'record' },
    ],
    ['the labels of a run of pages backwards', { what: 'page', how: 'reversed', scope: 'run', side: 'return' }],
    ['the labels of a run of pages each that of the page before', { what: 'page', how: 'repeated', scope: 'run', side: 'return' }],
    ['no section in the record where the paper has some', { what: 'section', how: 'constant', scope: 'batch', side: 'record' }],
    ['a run of frames captured again and held back', { what: 'frame', how: 'repeated', scope: 'run', side: 'return' }],
    ['the labels of a whole reel two too high', { what: 'page', how: 'shifted', scope: 'reel', side: 'return' }],
    ['the editions of a day exchanged in the return', { what: 'edition', how: 'exchanged', scope: 'run', side: 'return' }],
    ['the editions of a day exchanged in the record', { what: 'edition', how: 'exchanged', scope: 'run', side: 'record' }],
    ['the number of one frame of the record far off', { what: 'number', how: 'other', scope: 'page', side: 'record' }],
    ['the numbers of two pages exchanged', { what: 'number', how: 'exchanged', scope: 'page', side: 'return' }],
    ['one date in all documents, their folders made different', { what: 'date', how: 'constant', scope: 'batch', side: 'return' }],
    ['the two halves of an exposure exchanged in the record', { what: 'number', how: 'exchanged', scope: 'page', side: 'record' }],
  ])('%s', async (_, edit) => {
    const { cases, wrong } = await toldWrongly(edit);
    expect(cases).toBeGreaterThan(1);
    expect(wrong).toEqual([]);
  });
});
