import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { quietly } from '../../src/acts/surroundings.js';
import { verification } from '../../src/acts/verify.js';
import type { Findings } from '../../src/model/findings.js';
import { renderJson } from '../../src/report/json.js';
import { demoAgreement, demoRecord, demoReturn } from '../forge/demonstration.js';
import { writeReturn } from '../forge/write/index.js';

const place = mkdtempSync(join(tmpdir(), 'reeltally-unread-'));
afterAll(() => rmSync(place, { recursive: true }));
const save = (name: string, text: string): string => {
  mkdirSync(dirname(join(place, name)), { recursive: true });
  writeFileSync(join(place, name), text);
  return join(place, name);
};
const record = save('record.json', JSON.stringify(demoRecord()));
const agreement = save('agreement.json', JSON.stringify(demoAgreement()));
const { files, plan } = demoReturn('faulty');
const byPage = [...writeReturn(plan, 'page-mods')];
let count = 0;

/** Verifies the faulty return once more; `change` may spoil a document or, with null, leave it out. */
async function delivered(
  change: (path: string, text: string) => string | null,
  earlier?: string,
  sent: readonly { readonly path: string; readonly text: string }[] = files,
): Promise<Findings> {
  count += 1;
  for (const { path, text } of sent) {
    const changed = change(path, text);
    if (changed !== null) save(join(String(count), plan.batch, path), changed);
  }
  const batch = [join(place, String(count), plan.batch)];
  const result = await verification(
    { collation: [record], agreement, batch, ...(earlier === undefined ? {} : { earlier }) },
    quietly('2031-03-04'),
  );
  rmSync(join(place, String(count)), { recursive: true });
  return result;
}

const first = await delivered((_, text) => text);
const saved = save('first.json', renderJson(first));
const firstByPage = await delivered((_, text) => text, undefined, byPage);
const savedByPage = save('first-by-page.json', renderJson(firstByPage));
const documents = [...new Set(first.findings.flatMap(({ places }) => places.flatMap(({ document }) => document ?? [])))].sort();

// The vendor mends nothing in these deliveries. So whatever is gone is gone because nobody could look, and nothing may be called corrected.
describe('a second delivery as faulty as the first, one document of which', () => {
  it('is any of those in which something was found', () => {
    expect(documents.length).toBeGreaterThanOrEqual(10);
  });

  it.each(documents.flatMap((path) => [['cut off', path] as const, ['left out', path] as const]))(
    'is %s, has nothing corrected, and no earlier finding is lost: %s',
    async (how, path) => {
      const second = await delivered((name, text) => (name !== path ? text : how === 'left out' ? null : text.slice(0, 300)), saved);
      expect(second.corrected).toEqual([]);
      const found = [...second.findings, ...(second.pending ?? [])].map(({ id }) => id);
      for (const { id } of first.findings) expect(found).toContain(id);
      for (const { id } of second.pending ?? []) {
        const gap = second.unchecked.find(({ what }) => what === `whether ${id} of delivery 1 was corrected`);
        expect(gap?.why).toMatch(/\.$/);
      }
    },
  );
});

describe('a second delivery in which each page has a document of its own', () => {
  const pages = [...new Set(firstByPage.findings.flatMap(({ places }) => places.flatMap(({ document }) => document ?? [])))].sort();
  /** Leaving the page out is just what was asked for. */
  const surplus = ['non-page-delivered', 'suppressed-frame-delivered'];

  it.each(pages.flatMap((path) => [['cut off', path] as const, ['left out', path] as const]))(
    'has nothing corrected where one is %s: %s',
    async (how, path) => {
      const change = (name: string, text: string): string | null => (name !== path ? text : how === 'left out' ? null : text.slice(0, 300));
      const { corrected } = await delivered(change, savedByPage, byPage);
      expect(corrected.filter(({ code }) => how === 'cut off' || !surplus.includes(code)).map(({ id }) => id)).toEqual([]);
    },
  );
});
