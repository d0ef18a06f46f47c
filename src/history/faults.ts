import type { Finding, Findings } from '../model/findings.js';
import type { LedgerFault } from '../model/ledger.js';
import { groupBy } from './group.js';

/** Whether a finding still asks something of someone: not accepted as it is, not the record's own slip, no mere note. */
export function isOpen({ cause, severity, ruling }: Finding): boolean {
  return cause !== 'film' && severity !== 'note' && (ruling === null || ruling.decision === 'vendor-corrects');
}

/** The faults of a delivery by code, in the order of groups and codes by code unit. */
export function faultsOf(result: Findings): readonly LedgerFault[] {
  const groups = new Map(result.catalogue.map((entry) => [entry.code, entry.group]));
  const counting = result.findings.filter(
    (finding) => isOpen(finding) && finding.cause !== 'collation' && (finding.doubts === undefined || finding.ruling !== null),
  );
  const faults = [...groupBy(counting, ({ code }) => code)].map(([code, findings]) => ({
    group: groups.get(code) ?? '',
    code,
    findings: findings.length,
    frames: findings.reduce((sum, { count }) => sum + count, 0),
    perThousand: perThousand(findings.length, result.counts.pagesReturned),
  }));
  return faults.sort(byGroup);
}

/** The faults of several deliveries together, rated by the pages of them all. */
export function sumFaults(lists: readonly (readonly LedgerFault[])[], pages: number): readonly LedgerFault[] {
  const sums = [...groupBy(lists.flat(), ({ code }) => code)].map(([code, faults]) => {
    const sum = (key: 'findings' | 'frames'): number => faults.reduce((total, fault) => total + fault[key], 0);
    return {
      group: faults[0]?.group ?? '',
      code,
      findings: sum('findings'),
      frames: sum('frames'),
      perThousand: perThousand(sum('findings'), pages),
    };
  });
  return sums.sort(byGroup);
}

/** So many for each 1,000 pages, to two decimals. */
export function perThousand(findings: number, pages: number): number | null {
  return pages === 0 ? null : Math.round((findings * 100_000) / pages) / 100;
}

function byGroup(a: LedgerFault, b: LedgerFault): number {
  if (a.group !== b.group) return a.group < b.group ? -1 : 1;
  return a.code < b.code ? -1 : a.code > b.code ? 1 : 0;
}
