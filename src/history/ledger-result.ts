import type { Finding, Findings } from '../model/findings.js';
import type { LedgerFinding, LedgerResult, LedgerReview } from '../model/ledger.js';
import { faultsOf, isOpen } from './faults.js';

/** What the ledger keeps of a saved result: so little that those of many years fit into memory, whatever the results hold. */
export function ledgerResult(result: Findings, review: LedgerReview): LedgerResult {
  const { run, agreement, findings, corrected, pending = [], counts, verdict } = result;
  const severities = { critical: 0, major: 0, minor: 0, note: 0 };
  for (const { severity } of findings) severities[severity]++;
  const status = (wanted: string): number => findings.filter((finding) => finding.status === wanted).length;
  const earlier = run.inputs.filter(({ role }) => role === 'earlier').map(({ sha256 }) => sha256);
  const held = corrected.length + pending.length + status('open') + status('new') > 0 || earlier.length > 0;
  return {
    batch: run.batch,
    delivery: run.delivery,
    vendor: agreement.vendor,
    at: run.at,
    received: run.received,
    pages: counts.pagesReturned,
    severities,
    since: held ? { corrected: corrected.length, open: status('open'), new: status('new'), pending: pending.length } : null,
    faults: faultsOf(result),
    verdict: verdict.decision,
    review,
    earlier,
    ids: [...findings, ...pending].map(({ id }) => id),
    open: findings.filter(isOpen).map(told),
    pending: pending.filter(isOpen).map(told),
  };
}

/** A new object, so that the result itself can be forgotten. */
function told({ id, code, severity, reel, at, says }: Finding): LedgerFinding {
  return { id, code, severity, reel, at, says };
}
