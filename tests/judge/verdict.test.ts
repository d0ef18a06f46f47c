import { expect, it } from 'vitest';
import { resolveAgreement } from '../../src/judge/agreement.js';
import { verdictOf } from '../../src/judge/verdict.js';

const minor = {
  severity: 'minor',
  cause: 'vendor-metadata',
  rescan: 'no',
  ruling: null,
  count: 8,
  weighs: 8,
  code: 'volume-differs',
} as const;

it('never gives a share of more than all pages, though findings touch the same ones', () => {
  const findings = [minor, { ...minor, code: 'issue-number-differs' }] as unknown as Parameters<typeof verdictOf>[0];
  const { decision, reasons } = verdictOf(findings, [], resolveAgreement(null, {}), 12);
  expect(decision).toBe('accept-with-corrections');
  expect(reasons).toEqual(['Minor findings touch 12 of 12 pages (100 %), more than the 0.1 % agreed.']);
});

it('says of critical findings that do not weigh why there are more of them in the list', () => {
  const critical = { ...minor, severity: 'critical', code: 'date-differs' } as const;
  const own = { ...critical, cause: 'collation' } as const;
  const said = (...findings: readonly object[]): string | undefined =>
    verdictOf(findings as unknown as Parameters<typeof verdictOf>[0], [], resolveAgreement(null, {}), 12).reasons[0];
  expect(said(critical)).toBe('1 critical finding: the date of an issue differs.');
  expect(said(critical, own)).toBe(
    "1 critical finding: the date of an issue differs. One more may be the record's own mistake and does not weigh here.",
  );
  expect(said(critical, own, own)).toBe(
    "1 critical finding: the date of an issue differs. 2 more may be the record's own mistakes and do not weigh here.",
  );
});

it('names what is wrong in words, the commonest first, and no more kinds than can be taken in', () => {
  const of = (...codes: readonly string[]): string | undefined => {
    const findings = codes.map((code) => ({ ...minor, severity: 'critical', code }));
    return verdictOf(findings as unknown as Parameters<typeof verdictOf>[0], [], resolveAgreement(null, {}), 12).reasons[0];
  };
  const five = ['date-differs', 'issues-merged', 'issue-split', 'page-not-delivered', 'issues-merged', 'date-carried-over'];
  expect(of(...five)).toBe(
    '6 critical findings: two issues were delivered as one (twice); the date of an issue differs; one issue was delivered as two; a page was not delivered; the date of the issue before was carried over.',
  );
  expect(of(...five, 'issue-boundary-moved')).toMatch(/a page was not delivered; 2 other kinds, listed below\.$/);
});
