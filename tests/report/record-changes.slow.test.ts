import { cpSync, existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CollationRecord } from '../../src/model/collation-record.js';
import type { Correction } from '../../src/model/findings.js';
import { readRecord } from '../../src/read/record.js';
import { understoodRecord } from '../../src/reading/index.js';
import { recordChange } from '../../src/report/record-changes.js';
import { newFolder } from '../cli/command.js';
import verified from '../fixtures/verified.js';

const root = new URL('../../fixtures/differs/', import.meta.url).pathname;
const CASES = readdirSync(root).sort();

type Writable = { -readonly [key in keyof CollationRecord]: CollationRecord[key] };

/** The record with the corrections made in it, as a collator would. Null where one of them cannot be made without a look at the film: a frame put in has no number yet. */
function corrected(record: CollationRecord, corrections: readonly Correction[]): CollationRecord | null {
  const copy = structuredClone(record) as Writable;
  for (const reel of copy.reels as unknown as { number: string; frames: Record<string, unknown>[] }[]) {
    const own = corrections.filter((one) => one.reel === reel.number);
    if (own.some(({ action }) => action === 'insert-after')) return null;
    const rows = new Map(reel.frames.map((row) => [String(row.frame), row]));
    for (const { frame, action, field, to } of own) {
      const row = rows.get(frame);
      if (row === undefined) return null;
      if (action === 'remove') reel.frames = reel.frames.filter((one) => one !== row);
      else
        row[field] =
          to === '' ? undefined : field === 'deliver' ? to === 'yes' : field === 'edition' || field === 'order' ? Number(to) : to;
    }
  }
  return copy;
}

describe('what the record would need if it is the record that is wrong', () => {
  it('is named for every finding, or why it cannot be', { timeout: 120_000 }, async () => {
    for (const name of CASES) {
      const result = await verified(join(root, name));
      for (const finding of result.findings) {
        const { corrections, why } = recordChange(finding, result);
        expect([name, corrections.length > 0 || /^[A-Z].*\.$/.test(why ?? '')]).toEqual([name, true]);
        expect(new Set(corrections.map((one) => JSON.stringify(one))).size).toBe(corrections.length);
        // In the field that is wrong: a date is not mended in the page.
        const fields = new Set(corrections.map(({ field }) => field));
        const right = finding.field === 'frame' ? ['frame', 'page'] : finding.field === 'page' ? ['page', 'pagePrinted'] : [finding.field];
        expect([name, [...fields].filter((field) => !right.includes(field))]).toEqual([name, []]);
      }
    }
  });

  it('makes the record agree with the return where the change can be made', { timeout: 120_000 }, async () => {
    let made = 0;
    const still: string[] = [];
    const refused: string[] = [];
    for (const name of CASES) {
      const folder = join(root, name);
      const result = await verified(folder);
      const [finding, ...others] = result.findings;
      if (finding === undefined || others.length > 0 || existsSync(join(folder, 'other'))) continue;
      const { record } = understoodRecord(await readRecord([join(folder, 'record')]));
      const { corrections } = recordChange(finding, result);
      const other = corrections.length === 0 ? null : corrected(record, corrections);
      if (other === null) continue;
      const copy = newFolder();
      cpSync(join(folder, 'return'), join(copy, 'return'), { recursive: true });
      if (existsSync(join(folder, 'agreement.json'))) cpSync(join(folder, 'agreement.json'), join(copy, 'agreement.json'));
      mkdirSync(join(copy, 'record'));
      writeFileSync(join(copy, 'record', 'record.json'), JSON.stringify(other));
      if (understoodRecord(await readRecord([join(copy, 'record')])).problems.length > 0) {
        refused.push(name);
        continue;
      }
      made++;
      const left = (await verified(copy)).findings.filter(({ code }) => code === finding.code);
      if (left.length > 0) still.push(name);
    }
    expect(made).toBeGreaterThan(40);
    expect(still).toEqual([]);
    // Here something else in the record speaks against the return's reading: an absence of that day, another issue of it, a title that is not listed. Whoever corrects it has to look at that too.
    expect(refused).toEqual([
      'date-carried-over--dates-one-late',
      'date-differs--taken-for-second-edition',
      'title-differs--title-mistyped',
    ]);
  });

  it('has a sentence where the record says nothing of it', async () => {
    const result = await verified(join(root, readdirSync(root).find((name) => name.startsWith('file-not-listed'))!));
    expect(recordChange(result.findings[0]!, result)).toEqual({
      corrections: [],
      why: 'The record says nothing of this: there is nothing in it to change.',
    });
  });
});
