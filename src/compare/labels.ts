import type { Policies } from '../model/agreement.js';
import type { Frame } from '../model/film.js';

/** The labels that the agreement lets stand for a page of the record, as compared; null among them means that none may be given. */
export function acceptableLabels(frame: Frame, policies: Policies): readonly (string | null)[] {
  if (frame.pagePrinted === '-') {
    // nothing is printed: what may stand there is the agreement's `unnumberedPage`
    if (policies.unnumberedPage === 'omit') return [null];
    return policies.unnumberedPage === 'supply' ? [frame.pageKey] : [null, frame.pageKey];
  }
  const printed = frame.pagePrinted === null ? frame.pageKey : frame.pagePrintedKey;
  if (policies.pageNumber === 'printed') return [printed];
  return policies.pageNumber === 'intended' ? [frame.pageKey] : [frame.pageKey, printed];
}

/** True when the return's label may stand for the record's page. A label written with its section's letter on one side only is the same label. */
export function labelAgrees(record: Frame, returned: Frame, policies: Policies): boolean {
  const accepted = acceptableLabels(record, policies);
  if (accepted.includes(returned.pageKey)) return true;
  if (returned.pageKey === null) return false;
  return (
    record.section !== null &&
    accepted.some((label) => label !== null && `${record.section ?? ''}${label}`.toUpperCase() === returned.pageKey)
  );
}

/** The label to show as the record's reading. */
export function expectedLabel(frame: Frame, policies: Policies): string {
  if (frame.pagePrinted === '-') return policies.unnumberedPage === 'supply' ? (frame.page ?? '') : 'nothing printed';
  if (policies.pageNumber === 'printed') return frame.pagePrinted ?? frame.page ?? '';
  return frame.page ?? '';
}
