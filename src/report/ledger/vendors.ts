import type { Ledger, LedgerVendor } from '../../model/ledger.js';
import { firstDeliveries } from './overview.js';

/** A vendor in words. */
export const vendorName = (vendor: string): string => (vendor === '' ? 'not named in the agreement' : vendor);

/** Findings for each 1,000 pages that came first, of some groups or all. */
export function rateOf({ faults, pages }: LedgerVendor, group: string | null): number | null {
  const findings = faults.filter((fault) => group === null || fault.group === group).reduce((sum, fault) => sum + fault.findings, 0);
  return pages === 0 ? null : (findings * 1000) / pages;
}

/** How a vendor does, in the words of the table and of the workbook. */
export function vendorFigures(vendor: LedgerVendor): readonly string[] {
  const firsts = firstDeliveries(vendor);
  const decided = firsts.filter(({ decision }) => decision !== null && decision.decision !== 'put-off');
  const atOnce = decided.filter(({ decision }) => decision?.decision === 'accept').length;
  const answered = vendor.batches.flatMap(({ deliveries }) => deliveries.filter(({ review }) => review.inTime !== null));
  const deliveries = vendor.batches.reduce((sum, batch) => sum + batch.deliveries.length, 0);
  const of = (part: number, whole: number): string => (whole === 0 ? '–' : `${String(part)} of ${String(whole)}`);
  return [
    String(vendor.batches.length),
    String(vendor.pages),
    of(atOnce, decided.length),
    vendor.batches.length === 0 ? '–' : (deliveries / vendor.batches.length).toFixed(2),
    of(vendor.lots.filter(({ accepted }) => accepted).length, vendor.lots.length),
    of(answered.filter(({ review }) => review.inTime === true).length, answered.length),
  ];
}

/** The heads of these figures. */
export const VENDOR_HEADS: readonly string[] = [
  'batches',
  'pages that came first',
  'accepted at once',
  'deliveries per batch',
  'lots passed by spot check',
  'answered by us in time',
];

/** The groups of codes that any vendor has faults of. */
export function groupsOf({ vendors }: Ledger): readonly string[] {
  return [...new Set(vendors.flatMap(({ faults }) => faults.map(({ group }) => group)))].toSorted();
}
