import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/model/findings.js';
import { verifyCase } from '../bench/in-memory.js';
import { caseOf, plant } from '../forge/algebra/case.js';
import { filmOf } from '../forge/algebra/draw.js';
import type { Edit } from '../forge/algebra/edit.js';
import { spotsFor } from '../forge/algebra/products.js';
import type { WriteProfile } from '../forge/write/index.js';

/** What is found of one slip, on the first film of the series in this layout that has a place for it. */
async function foundOf(edit: Omit<Edit, 'spot' | 'seed'>, layout: WriteProfile, code: Finding['code']): Promise<Finding> {
  for (let n = 0; n < 48; n += 1) {
    const scenery = filmOf({ seed: 7, pages: 30 }, n);
    if (scenery.layout !== layout) continue;
    const planted = plant(scenery, { ...edit, spot: spotsFor(edit.scope)[0] ?? 'all', seed: n });
    if (planted === null || planted.traces.length === 0) continue;
    const { findings } = await verifyCase(caseOf(scenery, [planted]));
    const found = findings.findings.find((one) => one.code === code);
    if (found !== undefined) return found;
  }
  throw new Error(`no film has a place for ${JSON.stringify(edit)}`);
}

// That a return is right after all of it was done is held by the laws (tests/laws/repaired.ts), on every case that is drawn.
describe('what is to be done to the return', () => {
  it('asks for no scan of what came and cannot be read', async () => {
    const { repair } = await foundOf(
      { what: 'document', how: 'other', scope: 'issue', side: 'return' },
      'issue-mets',
      'document-unreadable',
    );
    expect(repair.length).toBeGreaterThan(1);
    expect(repair.map(({ do: act }) => act)).not.toContain('rescan');
  });

  it('changes the names that repeat a wrong date, in their own form, and says so', async () => {
    const { repair, instruction } = await foundOf(
      { what: 'date', how: 'other', scope: 'issue', side: 'return' },
      'issue-mets',
      'date-differs',
    );
    const right = repair.find(({ field }) => field === 'date')?.to ?? '';
    const folder = repair.find(({ field }) => field === 'date folder name');
    expect(right).toMatch(/^\d{4}-\d{2}-\d{2}$/);
    expect(folder?.to).toBe(right.replaceAll('-', ''));
    expect(folder?.from).toMatch(/^\d{8}$/);
    expect(instruction).toMatch(/ Change .*the folder name.* to match\./);
  });

  it('keeps the digits that a name has', async () => {
    const { repair } = await foundOf({ what: 'edition', how: 'other', scope: 'issue', side: 'return' }, 'issue-mets', 'edition-differs');
    const folder = repair.find(({ field }) => field === 'edition folder name');
    expect(folder?.to).toMatch(/^0\d$/);
  });

  it('names the reel of frames that it names without a document', async () => {
    const { repair, reel } = await foundOf(
      { what: 'number', how: 'shifted', scope: 'reel', side: 'return' },
      'issue-mets',
      'frame-number-wrong',
    );
    const steps = repair.filter(({ do: act }) => act === 'renumber');
    expect(steps.length).toBeGreaterThan(0);
    for (const step of steps) expect([step.document, step.reel?.includes(reel?.slice(-3) ?? '?')]).toEqual([null, true]);
  });

  it('gives each page the fact that it leaves out, as the record has it', async () => {
    const { repair } = await foundOf({ what: 'reel', how: 'missing', scope: 'issue', side: 'return' }, 'issue-mets', 'reel-number-wrong');
    expect(repair.length).toBeGreaterThan(1);
    for (const { to, element } of repair) expect([to, element]).toEqual([expect.stringMatching(/\d/), expect.any(String)]);
    expect(new Set(repair.map(({ element }) => element)).size).toBe(repair.length);
  });
});
