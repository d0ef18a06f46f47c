import { readFileSync } from 'node:fs';
import type { Findings } from '../../src/model/findings.js';
import { EXAMPLE } from '../report/example.js';

/** The result of the demonstration as it stands in reports/. */
export const DEMO = JSON.parse(readFileSync('reports/findings.json', 'utf8')) as Findings;

/** The demonstration as it would be had the vendor made no mistake. */
export const AGREEING: Findings = {
  ...DEMO,
  verdict: { decision: 'accept', reasons: ['Nothing weighs against the batch.'] },
  counts: { ...DEMO.counts, differences: 0, findings: 0 },
  reels: DEMO.reels.map((reel) => ({
    ...reel,
    frames: reel.frames.map((frame) => ({ ...frame, returned: frame.frame, state: 'agrees' as const, findings: [] })),
  })),
  findings: [],
  catalogue: [],
};

/** A second delivery with rulings, answers, corrected and open findings. */
export const SECOND: Findings = EXAMPLE;
