import { resolveAgreement } from '../../src/judge/agreement.js';
import type { Policies } from '../../src/model/agreement.js';
import type { CollationRecord } from '../../src/model/collation-record.js';
import type { Finding, Findings } from '../../src/model/findings.js';
import { verify } from '../../src/verify.js';
import type { Expected, Spoilt } from '../forge/faults/index.js';
import type { ReturnPlan } from '../forge/plan.js';
import { sideOfPlan, sideOfRecord } from '../support/sides.js';

/** Verifies a record against a return in memory, on the built-in profiles' terms. */
export function verifyPlan(
  record: CollationRecord,
  plan: ReturnPlan,
  policies: Partial<Policies> = {},
  profile: 'page-mods' | null = null,
): Findings {
  const agreement = resolveAgreement(
    { format: 'reeltally/agreement/2', policies },
    { pageNumber: 'printed', unnumberedPage: 'omit', ...(profile === 'page-mods' ? { frameNumbers: 'unbroken' as const } : {}) },
  );
  return verify({
    record: sideOfRecord(record),
    returned: sideOfPlan(plan, profile ?? 'issue-mets'),
    others: [],
    agreement,
    rulings: [],
    earlier: null,
    run: { at: '2000-01-01T00:00:00Z', received: null, batch: plan.batch, delivery: 1, profile: 'issue-mets', inputs: [], remarks: [] },
    tool: { name: 'reeltally', version: '0' },
  });
}

/** How one expected finding was met: found at all (the right place), and with the right code, frames and cause. */
export interface Met {
  readonly expected: Expected;
  readonly finding: Finding | null;
  readonly code: boolean;
  readonly frames: boolean;
  readonly cause: boolean;
}

/** Matches expected findings with what was found: first by code and place, then by place alone. What is left over is false. */
export function score(
  spoilt: Pick<Spoilt, 'expected'>,
  result: Findings,
): { readonly met: readonly Met[]; readonly surplus: readonly Finding[] } {
  const open = [...result.findings];
  const met = new Map<Expected, Finding>();
  const take = (fits: (finding: Finding, expected: Expected) => boolean): void => {
    for (const expected of spoilt.expected) {
      if (met.has(expected)) continue;
      const at = open.findIndex((finding) => fits(finding, expected));
      const found = open[at];
      if (found === undefined) continue;
      met.set(expected, found);
      open.splice(at, 1);
    }
  };
  take((finding, expected) => finding.code === expected.code && sameFrames(finding, expected));
  take((finding, expected) => finding.code === expected.code && nearby(finding, expected));
  take((finding, expected) => nearby(finding, expected));
  return {
    met: spoilt.expected.map((expected) => {
      const finding = met.get(expected) ?? null;
      return {
        expected,
        finding,
        code: finding?.code === expected.code,
        frames: finding !== null && sameFrames(finding, expected),
        cause: finding !== null && expected.causes.includes(finding.cause),
      };
    }),
    surplus: open,
  };
}

function normal(text: string | null): string | null {
  return text === null ? null : text.replace(/^0+(?=\d)/, '');
}

function sameFrames(finding: Finding, expected: Expected): boolean {
  if (expected.frames === null)
    return finding.frames === null && (expected.date === null || finding.date === expected.date || expected.at === null);
  if (oneOfSeveral(finding, expected)) return true;
  // halves that are held back cannot be seen to be exchanged: the run counts, not what lies in it
  if (finding.code === 'halves-swapped' && expected.code === finding.code)
    return finding.frames?.from === expected.frames.from && finding.frames.to === expected.frames.to;
  return (
    normal(finding.reel) === normal(expected.reel) &&
    normal(finding.frames?.from ?? null) === normal(expected.frames.from) &&
    normal(finding.frames?.to ?? null) === normal(expected.frames.to) &&
    (normal(finding.at) === normal(expected.at) || expected.code === 'editions-swapped') &&
    (expected.count === null || finding.count === expected.count)
  );
}

function nearby(finding: Finding, expected: Expected): boolean {
  if (expected.frames === null || finding.frames === null) return finding.date === expected.date;
  if (finding.reel !== expected.reel) return false;
  const low = Number.parseInt(finding.at ?? finding.frames.from, 10);
  const from = Number.parseInt(expected.frames.from, 10);
  const at = Number.parseInt(expected.at ?? expected.frames.from, 10);
  const to = Number.parseInt(expected.frames.to, 10);
  return Math.abs(low - at) <= 2 || (low >= from && low <= to && to - from <= 16);
}

/** A finding may name a run of frames that nothing tells apart: it is right when the run holds the true one and the numbers behind it are the same. */
function oneOfSeveral(finding: Finding, expected: Expected): boolean {
  // an extra number between a page and a blank may be a second capture of either
  if (
    finding.code === 'frame-scanned-twice' &&
    finding.cause === 'unclear' &&
    expected.code === finding.code &&
    normal(finding.reel) === normal(expected.reel)
  ) {
    return Math.abs(Number.parseInt(finding.at ?? '', 10) - Number.parseInt(expected.at ?? '', 10)) <= 1;
  }
  const run = /one of frames (\d+)\S* to (\d+)/.exec(finding.says);
  const at = Number.parseInt(expected.at ?? '', 10);
  return (
    run !== null &&
    normal(finding.reel) === normal(expected.reel) &&
    Number(run[1]) <= at &&
    at <= Number(run[2]) &&
    finding.frames?.to === expected.frames?.to
  );
}
