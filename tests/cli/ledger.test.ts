import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { Ledger } from '../../src/model/ledger.js';
import { DEMO_MISTAKES } from '../forge/demonstration.js';
import { demoDelivered } from '../history/deliveries.js';
import { newFolder, reeltally, savedResult } from './command.js';

const first = savedResult(demoDelivered([], { received: '2031-03-01' }));
const second = savedResult(demoDelivered(DEMO_MISTAKES.slice(3), { earlier: demoDelivered([]), received: '2031-04-01' }));
const BATCH = 'batch_vzx_tolmouth';

function file(name: string, content: unknown): string {
  const path = join(newFolder(), name);
  writeFileSync(path, JSON.stringify(content));
  return path;
}

const sample = file('sample.json', {
  format: 'reeltally/sample/2',
  batch: BATCH,
  delivery: 1,
  lot: { by: 'reel', name: '55901' },
  draw: { seed: 'a', listSha256: 'b' },
  drawn: 80,
  wrong: 2,
  outcome: 'rejected',
});
const decision = {
  format: 'reeltally/decision/2',
  batch: BATCH,
  deliveryNumber: 1,
  by: 'Ilse Marrow',
  on: '2031-03-11',
  delivery: 'return-for-rework',
  // 1 March 2031 is a Saturday; Monday the 3rd is day 1, the 10th is a holiday, so the 11th is day 6 (by the calendar).
  review: { received: '2031-03-01', days: 10, dayKind: 'working', holidays: ['2031-03-10'], due: '2031-03-17', inTime: true },
  samples: [],
};

describe('reeltally ledger', () => {
  it('prints the deliveries, and ends in 0 whatever the verdicts are', () => {
    const { status, stdout, stderr } = reeltally(['ledger', second, first, sample, file('decision.json', decision)]);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toContain('Skerry Imaging, Port Hallam: 1 batch, 2 deliveries');
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(
      'decided return for rework by Ilse Marrow on 2031-03-11, 6 of 10 working days used. Spot check: 0 of 1 lot accepted, 2 of 80 looked at not as ordered.',
    );
    expect(stdout).toContain('Open after delivery 2: 3 items');
  });

  it('prints a table, or JSON with the lots', () => {
    const rows = parse<Record<string, string>>(reeltally(['ledger', first, second, '--format', 'csv']).stdout, {
      bom: true,
      columns: true,
    });
    expect(rows.map((row) => [row['delivery'], row['corrected'], row['still open']])).toEqual([
      ['1', '', ''],
      ['2', String(DEMO_MISTAKES.length - 3), '3'],
    ]);
    const ledger = JSON.parse(reeltally(['ledger', first, sample, '--format', 'json']).stdout) as Ledger;
    expect(ledger.lots).toEqual([{ batch: BATCH, lot: '55901', accepted: false, betweenNumbers: false }]);
  });

  it('writes all files into a folder, and nothing over one that is there', () => {
    const folder = join(newFolder(), 'ledger');
    expect(reeltally(['ledger', first, '--out', folder]).status).toBe(0);
    expect(readdirSync(folder).sort()).toEqual([
      'ledger-faults.csv',
      'ledger.csv',
      'ledger.html',
      'ledger.json',
      'ledger.txt',
      'ledger.xlsx',
    ]);
    expect(readFileSync(join(folder, 'ledger.txt'), 'utf8')).toBe(reeltally(['ledger', first]).stdout);
    const again = reeltally(['ledger', first, '--out', folder]);
    expect(again.status).toBe(3);
    expect(again.stderr).toContain('already holds results');
    expect(reeltally(['ledger', first, '--out', folder, '--replace', '--quiet']).status).toBe(0);
  });

  it.each([
    [
      [file('agreement.json', { format: 'reeltally/agreement/2' })],
      'this file says that it is "reeltally/agreement/2". A ledger is made from saved results',
    ],
    [[file('x.json', {})], 'this file does not say what it is.'],
    [[sample], 'None of these files is a saved result'],
    [[first, file('sample.json', { format: 'reeltally/sample/2', batch: BATCH, delivery: 1 })], 'outcome: one of accepted'],
    [[first, file('decision.json', { ...decision, on: '2031-02-30' })], 'on: a day of the calendar is needed here'],
    [[first, '--vendor', 'Nobody'], '--vendor: none of the results is of Nobody. They are of Skerry Imaging, Port Hallam.'],
    [[first, '--format', 'ods'], 'a ledger has no format ods'],
    [[first, join(newFolder(), 'gone.json')], 'cannot be read'],
  ])('refuses, with a sentence that says why: %s', (args, sentence) => {
    const { status, stdout, stderr } = reeltally(['ledger', ...args]);
    expect([status, stdout]).toEqual([3, '']);
    expect(stderr).toContain(sentence);
  });
});
