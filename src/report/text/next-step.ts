import type { Findings } from '../../model/findings.js';
import { counted, needsRuling } from '../words.js';

/** What the coordinator does next, in one or two sentences. */
export function nextStep(result: Findings): string {
  const open = result.findings.filter((finding) => needsRuling(finding) && finding.cause !== 'film' && finding.severity !== 'note').length;
  const inDoubt = `${counted(open, 'finding')} where the record is likelier wrong or in doubt`;
  // the list is made anew by the rulings, so that the vendor is not asked to change what was right
  const send = `${open === 0 ? 'Send' : `Rule first on ${inDoubt}, and verify again with --rulings. Then send`} the vendor the list of discrepancies (discrepancies.xlsx or .csv)`;
  switch (result.verdict.decision) {
    case 'accept':
      return 'Keep this result with the batch and settle the invoice by the counts above. Keep the film.';
    case 'accept-with-corrections':
      return `${send} and ask for the corrections; the images need not come again.`;
    case 'return-for-rework':
      return `${send} and ask for delivery ${String(result.run.delivery + 1)}. When it comes, verify it with --earlier and the findings.json of this one.`;
    case 'cannot-decide': {
      const gaps = result.unchecked.filter((gap) => gap.required).length;
      const look = open > 0 ? `Look at the film for ${inDoubt}, and write your decisions into a rulings file. ` : '';
      const supply = gaps > 0 ? `Supply what ${counted(gaps, 'required check')} needed (listed under "Not checked"). ` : '';
      return `${look}${supply}Then verify again.`;
    }
  }
}
