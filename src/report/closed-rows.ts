import type { Finding, Findings } from '../model/findings.js';
import { forTheVendor } from './words.js';

/** What stands in the row of a finding that was corrected: nothing is left to be done, answered. */
const CLOSED: ReadonlyMap<string, (result: Findings) => string> = new Map([
  ['who acts', () => 'nobody; corrected since the earlier delivery'],
  ['what to do', () => ''],
  ['in your files', () => ''],
  ['fixed in delivery', (result: Findings) => String(result.run.delivery)],
]);

/** Rows for the findings that were corrected since the earlier delivery, in the columns of the list for the vendor. */
export function closedRows(
  columns: readonly { readonly head: string; readonly value: (finding: Finding, result: Findings) => string }[],
  result: Findings,
): readonly (readonly string[])[] {
  return forTheVendor(result.corrected).map((finding) =>
    columns.map(({ head, value }) => {
      const closed = CLOSED.get(head);
      return closed === undefined ? value(finding, result) : closed(result);
    }),
  );
}
