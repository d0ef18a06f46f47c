import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { verifyCase } from '../bench/in-memory.js';
import { caseOf, sceneryOf } from '../forge/algebra/case.js';
import { countsOf, drawn, KNOWN, type Outcome } from './drawn.js';

const known = JSON.parse(readFileSync(KNOWN, 'utf8')) as Readonly<Record<string, Readonly<Record<string, number>>>>;

describe('laws on drawn mistakes', () => {
  let outcomes: readonly Outcome[] = [];
  beforeAll(async () => {
    outcomes = await drawn();
  }, 600_000);

  it('draws what it should', () => {
    expect(outcomes.length).toBeGreaterThan(350);
    expect(outcomes.filter(({ kind }) => kind === 'pair').length).toBeGreaterThan(80);
  });

  it('each mistake is one finding, at its place, with its code and its side, in whatever order it is read; what is not so yet is on the list, which only shrinks', () => {
    const now = countsOf(outcomes);
    const kinds = [...new Set([...Object.keys(now), ...Object.keys(known)])].sort();
    const surprises = kinds.flatMap((kind) =>
      [...new Set([...Object.keys(now[kind] ?? {}), ...Object.keys(known[kind] ?? {})])].flatMap((law) => {
        const [is, was] = [now[kind]?.[law] ?? 0, known[kind]?.[law] ?? 0];
        if (is === was) return [];
        const says = outcomes.find((one) => one.kind === kind && one.breaks.some((each) => each === law))?.says ?? [];
        return [{ kind, law, is, was, says: is > was ? says : 'better than the list: npm run laws:known' }];
      }),
    );
    expect(surprises).toEqual([]);
  });

  it('lets no faulty return be accepted but what is on the list', () => {
    const accepted = outcomes.filter(({ breaks }) => breaks.includes('accepted')).map(({ kind }) => kind);
    expect(accepted.filter((kind) => known[kind]?.['accepted'] === undefined)).toEqual([]);
  });
});

describe('the films on which mistakes are drawn', () => {
  it.each([7001, 7002, 7003, 7004, 7005, 7008])('%i: gives no finding without them', async (seed) => {
    const { findings } = await verifyCase(caseOf(sceneryOf(seed), []));
    expect(findings.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
    expect(findings.verdict.decision).toBe('accept');
  });
});
